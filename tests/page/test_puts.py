"""Figures typed in several windows at once: together where they go together, each saved and undone.

The rules are the project's own: an edit answered is an edit saved, and nobody works over another.
"""

import threading
import time
from collections.abc import Sequence
from html import unescape

import pytest
from tests.cli.boats import SMALL
from tests.page.conftest import OWN, Page

from trimdive.boatfile import load
from trimdive.errors import BalanceError
from trimdive.page import keeping
from trimdive.page.puts import BESIDE, MEANWHILE, meets
from trimdive.page.shown import Shown
from trimdive.page.step import Note

PATIENCE = 60  # for what is far quicker [s]


def typed(page: Page, field: str, text: str, revision: int = 1) -> str:
    """Type into a field in a window that shows one state; return what it is answered."""
    sent = {"field": field, "typed": text, "revision": str(revision), "place": "scales"}
    answer = page.client.post("/edit", data=sent, headers=OWN | {"hx-request": "true"})
    assert answer.status_code == 200, answer.text
    return unescape(answer.text)


def together(page: Page, figures: Sequence[tuple[str, str]]) -> dict[str, str]:
    """Type figures while the boat is worked on, in this order; return what each is answered."""
    answers: dict[str, str] = {}
    threads: list[threading.Thread] = []

    def types(field: str, text: str) -> None:
        answers[text] = typed(page, field, text)

    with page.desk.lock:
        for number, one in enumerate(figures):
            threads.append(threading.Thread(target=types, args=one))
            threads[-1].start()
            until = time.monotonic() + PATIENCE
            while len(page.desk.puts) <= number and time.monotonic() < until:
                time.sleep(0.001)
    for thread in threads:
        thread.join(PATIENCE)
    return answers


def on_disk(page: Page) -> tuple[float | None, ...]:
    """Return the masses of her parts as they lie on disk [kg]."""
    return tuple(part.mass for part in load(page.file).boat.parts)


def test_a_refused_figure_is_told_beside_its_field_alone(sprat: Page) -> None:
    """Where it stands in the file is no word for who looks at the field itself."""
    page = typed(sprat, "part[1].mass", "190 gramz")
    beside = page.split('id="wrong-part[1].mass"')[1].split("</span>")[0]
    assert beside.endswith(">There is no unit 'gramz'. Did you mean grams?")
    assert "boat.toml:" not in page


def test_a_window_that_is_behind_in_another_field_counts(sprat: Page) -> None:
    typed(sprat, "part[1].mass", "410 g")
    page = typed(sprat, "part[2].mass", "11 g", revision=1)
    assert BESIDE in page
    assert "410 g" in page
    assert on_disk(sprat) == pytest.approx((0.41, 0.011))
    sprat.press("undo")
    assert on_disk(sprat) == pytest.approx((0.41, 0.01))


@pytest.mark.parametrize(
    ("first", "text"),
    [("part[1].mass", "410 g"), ("units.mass", "oz"), ("water.temperature", "16 °C")],
)
def test_a_window_that_is_behind_in_what_it_types_is_told(
    sprat: Page, first: str, text: str
) -> None:
    typed(sprat, first, text)
    before = sprat.file.read_bytes()
    assert MEANWHILE in typed(sprat, "part[1].mass", "420 g", revision=1)
    assert sprat.file.read_bytes() == before


@pytest.mark.parametrize("revision", [0, -1, 3, 10**30])
def test_a_window_that_shows_no_state_of_hers_is_told(sprat: Page, revision: int) -> None:
    typed(sprat, "part[1].mass", "410 g")
    assert MEANWHILE in typed(sprat, "part[2].mass", "11 g", revision=revision)


def test_a_window_behind_another_kind_of_change_is_told(sprat: Page) -> None:
    typed(sprat, "part[1].mass", "410 g")
    sprat.press("undo")
    assert MEANWHILE in typed(sprat, "part[2].mass", "11 g", revision=2)


@pytest.mark.parametrize(
    ("one", "other", "is_so"),
    [
        ("part[1].mass", "part[2].mass", False),
        ("part[1].mass", "part[1].x", False),
        ("part[1]", "part[1].x", True),
        ("part[1].x", "part[1]", True),
        ("part[1]", "part[11].x", False),
        ("entered_from", "part[1].x", True),
        ("part[1].x", "waterline.height", True),
        ("", "part[1].x", True),
    ],
)
def test_which_fields_leave_each_other_alone(one: str, other: str, is_so: bool) -> None:
    assert meets(one, other) == is_so


def test_what_waits_together_is_calculated_and_written_once(
    sprat: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    counted = {"calculated": 0, "written": 0}
    at_once, save = Shown.at_once, keeping.save

    def calculated(shown: Shown) -> None:
        counted["calculated"] += 1
        at_once(shown)

    def written(*given: object) -> object:
        counted["written"] += 1
        return save(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(Shown, "at_once", calculated)
    monkeypatch.setattr(keeping, "save", written)
    figures = [("part[1].mass", "410 g"), ("part[2].mass", "11 g"), ("lead[1].mass", "840 g")]
    answers = together(sprat, figures)
    assert counted == {"calculated": 1, "written": 1}
    says = ["battery: mass 410 g", "mast: mass 11 g", "lead 1: mass 840 g"]
    assert [f"Done: {one}" in answers[one.split("mass ")[1]] for one in says] == [True] * 3
    assert on_disk(sprat) == pytest.approx((0.41, 0.011))
    for one in reversed(says):
        assert f"Undone: {one}" in unescape(sprat.press("undo"))
    assert sprat.file.read_text("utf-8") == SMALL


def test_of_those_that_wait_together_one_is_refused_alone(sprat: Page) -> None:
    answers = together(
        sprat,
        [("part[1].mass", "410 g"), ("part[1].mass", "420 g"), ("part[2].mass", "abc"),
         ("lead[1].mass", "840 g")],
    )  # fmt: skip
    assert MEANWHILE in answers["420 g"]
    assert "Done" not in answers["abc"]
    assert 'class="wrong"' in answers["abc"]
    assert "Done: lead 1: mass 840 g" in answers["840 g"]
    assert len(sprat.desk.steps) == 3
    assert on_disk(sprat) == pytest.approx((0.41, 0.01))


def test_what_was_to_be_told_is_told_where_nothing_else_is(sprat: Page) -> None:
    sprat.desk.note = Note(kind="done", text="mine.csv was read.")
    assert "mine.csv was read." in typed(sprat, "part[1].mass", "abc")
    answers = together(sprat, [("part[1].mass", "abc"), ("part[2].mass", "11 g")])
    assert "Done" not in answers["abc"]
    assert "Done: mast: mass 11 g" in answers["11 g"]


def _fails_at(monkeypatch: pytest.MonkeyPatch, grams: float) -> None:
    """Let nobody calculate her with that first part."""
    at_once = Shown.at_once

    def calculated(shown: Shown) -> None:
        if shown.her.boat.parts[0].mass == pytest.approx(grams / 1000):
            raise BalanceError("she has no balance", "her", "Take something out.")
        at_once(shown)

    monkeypatch.setattr(Shown, "at_once", calculated)


def test_what_she_cannot_be_calculated_with_is_refused_alone(
    sprat: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    _fails_at(monkeypatch, 413)
    answers = together(
        sprat, [("part[2].mass", "11 g"), ("part[1].mass", "413 g"), ("lead[1].mass", "840 g")]
    )
    assert "she has no balance" in answers["413 g"]
    assert "Done: mast: mass 11 g" in answers["11 g"]
    assert "Done: lead 1: mass 840 g" in answers["840 g"]
    assert on_disk(sprat) == pytest.approx((0.4, 0.011))


def test_undo_passes_over_what_she_cannot_be_calculated_with(
    sprat: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed(sprat, "part[1].mass", "413 g")
    typed(sprat, "part[2].mass", "11 g", revision=2)
    _fails_at(monkeypatch, 413)
    answer = unescape(sprat.press("undo"))
    assert "Undone: battery: mass 413 g; mast: mass 11 g" in answer
    assert sprat.file.read_text("utf-8") == SMALL


def test_where_it_cannot_be_saved_each_is_told(
    sprat: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(keeping, "write", full)
    monkeypatch.setattr("trimdive.boatfile.saving.write", full)
    answers = together(sprat, [("part[1].mass", "410 g"), ("part[2].mass", "11 g")])
    assert all("Not saved yet" in one for one in answers.values())
    assert sprat.file.read_text("utf-8") == SMALL


def test_what_cannot_be_answered_keeps_nobody_waiting(
    sprat: Page, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object) -> None:
        raise ZeroDivisionError

    monkeypatch.setattr("trimdive.page.puts._take", broken)
    sent = {"field": "part[1].mass", "typed": "3 g", "revision": "1", "place": "scales"}
    answer = sprat.client.post("/edit", data=sent, headers=OWN | {"hx-request": "true"})
    assert (answer.status_code, "ZeroDivisionError" in answer.text) == (409, True)
    monkeypatch.undo()
    assert "Done" in typed(sprat, "part[1].mass", "410 g")


def test_a_refused_figure_is_asked_for_as_in_the_terminal(sprat: Page) -> None:
    """What the file refuses is asked for by the figure that would be right, and nothing is done."""
    was = sprat.desk.written()
    said = typed(sprat, "cylinder[1].x", "30500 mm", sprat.desk.revision)
    assert "As it stands it cannot be" in said
    assert sprat.desk.written() == was
