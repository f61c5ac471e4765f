"""What she does coming up with a tower full of water is one sentence, wherever it is said."""

import shutil
import subprocess
from html import unescape
from pathlib import Path

import pytest
from tests.page.shelves import ShelfPage

from trimdive.assessment import Assessment
from trimdive.assessment.marks import marks
from trimdive.cli.as_json import check_json
from trimdive.cli.orders import check_text
from trimdive.cli.pond_text import pond_json, pond_text
from trimdive.errors import BalanceError
from trimdive.page.desk import opened
from trimdive.page.marked import shown
from trimdive.page.workshop import Workshop
from trimdive.pond import card, paper_card, phone_card
from trimdive.text.dive_text import dive_text, dived
from trimdive.text.held import held_words, way_up
from trimdive.text.marks import mark_words

BOATS = Path(__file__).parents[2] / "boats"


def plain(text: str) -> str:
    """Return a text without breaks and tags."""
    bare, inside = "", False
    for letter in unescape(text):
        inside = letter == "<" or (inside and letter != ">")
        bare += "" if inside or letter == ">" else letter
    return " ".join(bare.split())


def on_the_page(name: str, place: str) -> str:
    """Return a place of the page of a boat."""
    page = ShelfPage(Workshop(desk=opened(BOATS / name / "boat.toml")))
    return plain(page.client.get(f"/{place}").text)


def places(her: Assessment, name: str) -> dict[str, str]:
    """Return what each place says of her, by its name."""
    found = card(her)
    return {
        "check": str([*check_text(her)]),
        "check --json": str(check_json(her)["way_up"]),
        "dive": str([*dive_text(dived(her, None), orders=False)]),
        "pond": str([*pond_text(her, None, None)]),
        "pond --json": str(pond_json(her, None, None)["way_up"]),
        "phone": plain(phone_card(her, found)),
        "page, right": on_the_page(name, "right"),
        "page, pond": on_the_page(name, "pond"),
    }


def test_every_place_says_it_of_a_boat_that_leans_over(bittern: Assessment) -> None:
    ((leans, text),) = held_words(bittern)
    assert leans
    assert way_up(bittern) == (text,)
    answer = places(bittern, "bittern")
    assert [place for place, said in answer.items() if text not in said] == []
    assert [answer[place].count(text) for place in ("page, right", "page, pond")] == [1, 1]
    assert answer["page, right"].index("Nothing left to put right") < answer["page, right"].index(
        text
    )


@pytest.mark.skipif(not shutil.which("pdftotext"), reason="poppler is not there")
def test_the_card_on_paper_says_it_and_stays_one_page(bittern: Assessment) -> None:
    ((_, text),) = held_words(bittern)
    sheet = paper_card(bittern, card(bittern))
    done = subprocess.run(["pdftotext", "-", "-"], input=sheet, capture_output=True, check=True)
    answer = done.stdout.decode()
    assert text in plain(answer)
    assert answer.count("\f") == 1


def test_only_the_dive_says_it_of_a_boat_that_stays_upright(grebe: Assessment) -> None:
    ((leans, text),) = held_words(grebe)
    assert not leans
    assert way_up(grebe) == ()
    assert [place for place, said in places(grebe, "grebe").items() if text in said] == ["dive"]


def test_in_order_minds_the_way_up_and_stays_in_order(
    bittern: Assessment, grebe: Assessment
) -> None:
    assert "In order afloat, but watch the way up. Dived" in str([*check_text(bittern)])
    assert bittern.wholly_in_order
    assert [mark_words(one) for one in marks(bittern)] == [
        "in order, but watch the way up", "in order", "in order, but watch the way up",
    ]  # fmt: skip
    assert [shown(one).text for one in marks(bittern)] == ["✓ watch", "✓", "✓ watch"]
    assert [mark_words(one) for one in marks(grebe)] == ["in order"] * 3
    assert [shown(one).text for one in marks(grebe)] == ["✓"] * 3
    assert "In order afloat. Dived" in str([*check_text(grebe)])


def test_a_boat_that_will_not_dive_has_no_way_up(bittern_as_bought: Assessment) -> None:
    assert any(leans for leans, _ in held_words(bittern_as_bought))
    assert way_up(bittern_as_bought) == ()


def test_a_way_up_without_rest_is_said(
    bittern: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    def none(_: Assessment) -> None:
        raise BalanceError("she finds no rest at 40 %", "tower", "Look at her weights.")

    her = bittern.edited(())
    monkeypatch.setattr(Assessment, "held", property(none))
    assert way_up(her) == (
        "Coming up with a tower still full of water: she finds no rest at 40 %.",
    )
