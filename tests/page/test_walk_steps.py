"""The walk: every step ends when her numbers have changed, and none otherwise."""

from pathlib import Path

import pytest
from tests.page.hands import put
from tests.page.shelves import ShelfPage, bittern_on_a_shelf, workshop_of
from tests.said import what_of

from trimdive.page.shown import name_of
from trimdive.page.step import Slider
from trimdive.page.views import lowest_filling
from trimdive.page.walk import STEPS, step_of, strip_of
from trimdive.text import words
from trimdive.text.held import way_up
from trimdive.text.say import Say
from trimdive.text.sentence import sentence


@pytest.fixture
def page(tmp_path: Path) -> ShelfPage:
    """Return the page as it is at the first start."""
    return ShelfPage(bittern_on_a_shelf(tmp_path))


def slid(page: ShelfPage, *fillings: float) -> str:
    """Slide her, and return the walk's line."""
    text = ""
    for filling in fillings:
        text = page.client.get("/shelf/slid", params={"filling": str(filling)}).text
    return text


def key(page: ShelfPage) -> str:
    """Return the step that is on; "" when all are done."""
    number = step_of(page.desk)
    return STEPS[number].key if number < len(STEPS) else ""


def press(page: ShelfPage) -> str:
    """Press the button of the walk."""
    strip = strip_of(page.desk)
    assert strip is not None
    assert strip.doing
    return page.press(f"do {strip.doing}")


def test_the_first_screen_says_what_she_is(page: ShelfPage) -> None:
    shown = page.client.get("/").text
    assert "This boat was bought nearly finished. Surfaced, tanks blown: level." in shown
    assert "Start mine" in shown
    assert "tanks blown" in shown
    assert page.desk.slider.filling == 0


def test_each_step_ends_with_her_numbers(page: ShelfPage) -> None:
    keys = [key(page)]
    assert "1 of 5" in slid(page, 0.6, 0.9), "not yet full"
    assert "2 of 5" in slid(page, 1.0)
    keys.append(key(page))
    assert "3 of 5" in press(page), "the winch house is open, and she goes under"
    assert page.desk.her.full.rest.under
    keys.append(key(page))
    put(page.desk, "tank[1].x", "1520 mm")
    put(page.desk, "part[3].x", "1520 mm")
    assert key(page) == "tank", "put aft by hand, the lead is still to be shifted"
    assert "Shift lead forward." in said(page)
    assert "3 of 5" in press(page), "the lead is shifted; she is still 4° down by the bow"
    assert "4 of 5" in press(page), "shifted once more she is level"
    keys.append(key(page))
    assert "5 of 5" in press(page), "the batteries are down, and she stands upright"
    keys.append(key(page))
    assert keys == [step.key for step in STEPS]
    assert "That was surfacing" in slid(page, 0.0)
    assert "5 of 5" in slid(page, 1.0), "past the mark is not at it"
    assert "Afloat: in order, but watch the way up; bench: " in slid(
        page, 0.0, lowest_filling(page.desk.her)
    )
    assert key(page) == ""


def test_pressing_the_tank_aft_says_that_lead_goes_with_it(page: ShelfPage) -> None:
    slid(page, 1.0)
    press(page)
    assert key(page) == "tank"
    strip = strip_of(page.desk)
    assert strip is not None
    assert strip.do == "Move the forward tank aft, and shift the lead to balance it."
    assert strip.button == "Move tank and lead"
    assert "4 of 5" in press(page), "one step after the other, none left out"


def test_undo_takes_a_step_back(page: ShelfPage) -> None:
    slid(page, 1.0)
    press(page)
    page.press("undo")
    assert key(page) == "house"


def test_no_step_ends_without_a_change(page: ShelfPage) -> None:
    for _ in range(3):
        page.client.get("/")
    assert slid(page, 0.9, 0.5, 0.0).count("1 of 5") == 1
    for filling in ("", "x", "nan"):
        page.client.get("/shelf/slid", params={"filling": filling})
    assert key(page) == "fill"


def test_it_is_left_and_taken_up_again(page: ShelfPage) -> None:
    answer = page.press("shelf leave-walk")
    assert 'id="walk"' not in answer
    assert "Restart the tour" in answer
    again = ShelfPage(bittern_workshop_again(page))
    assert 'id="walk"' not in again.client.get("/").text, "left stays left at the next start"
    answer = again.press("shelf take-up-walk")
    assert "1 of 5" in answer


def test_taken_up_again_it_begins_at_the_boat_as_she_was_bought(page: ShelfPage) -> None:
    slid(page, 0.95)
    press(page)
    assert key(page) != "fill"
    answer = page.press("shelf take-up-walk")
    assert "1 of 5" in answer
    assert 'name="place" value="right"' in answer
    page.press("undo")
    assert key(page) != "fill", "one step of Undo brings her back as she was"


def bittern_workshop_again(page: ShelfPage) -> object:
    """Return the workshop as the next start finds it."""
    from trimdive.page.desk import opened
    from trimdive.page.workshop import Workshop

    return Workshop(desk=opened(page.desk.path), shelf=page.workshop.shelf)


def test_other_boats_have_no_walk(tmp_path: Path) -> None:
    page = ShelfPage(workshop_of(tmp_path))
    assert 'id="walk"' not in page.client.get("/").text
    assert page.client.get("/shelf/slid", params={"filling": "0"}).text.strip() == ""


FULL = {"touched": "1", "filling": "1.0", "place": "right"}  # the slider stands at full tanks


def doing(page: ShelfPage) -> str:
    """Press the first "Do it" of the list, and return the walk's line."""
    page.press(f"do {name_of(next(one for one in page.desk.her.findings if one.edits))}", **FULL)
    return said(page)


def said(page: ShelfPage) -> str:
    """Return what the walk says and asks for."""
    strip = strip_of(page.desk)
    assert strip is not None
    return f"{strip.says} {strip.do} {strip.how}"


def test_every_sentence_is_made_of_the_figures_on_show(page: ShelfPage) -> None:
    """How she is at the slider, and nothing of another moment."""
    for step in range(3):
        text, her = doing(page), page.desk.her
        assert f"Tanks full: {words.weight(her.boat, her.full.rest.excess)}, " in text
        assert words.lies(her, her.full) in text
        assert words.lies(her, her.dived) not in text.replace(words.lies(her, her.full), "")
        assert ("evel" in text) is (words.lies(her, her.full) == "level"), step
    assert key(page) == "again"
    slid(page, 0.0)
    at = f"{lowest_filling(page.desk.her):.3f}"
    ended = page.client.get("/shelf/slid", params={"filling": at}).text
    assert key(page) == ""
    assert f"{words.lies(page.desk.her, page.desk.her.dived)}. Afloat: in order" in ended
    assert "in order, but watch the way up" in ended
    assert way_up(page.desk.her)[0] not in said(page)  # it stands once, under To put right


def test_it_does_not_end_while_something_is_left(page: ShelfPage) -> None:
    for _ in range(3):
        doing(page)
    slid(page, 0.0, lowest_filling(page.desk.her))
    assert key(page) == ""
    put(page.desk, "limits.tank-margin", "60 %")
    left = next(one for one in page.desk.her.findings if one.weight == "put right")
    assert key(page) == "again"
    what = what_of(left, Say(page.desk.her.boat))
    assert f"Left to put right: {sentence(what)}" in said(page)
    assert "Afloat: in order" not in said(page)


def test_a_house_that_is_not_shut_is_not_named(page: ShelfPage) -> None:
    page.desk.slider = Slider(filling=1.0)
    slid(page, 1.0)
    assert "Open the winch house." in said(page)
    assert "Tanks full: 367 g light" in said(page)
    press(page)
    put(page.desk, "tank[1].length", "60 mm")
    assert not page.desk.her.full.rest.under
    assert key(page) == "house"
    assert "winch house" not in said(page)
    assert f"{words.weight(page.desk.her.boat, page.desk.her.full.rest.excess)}" in said(page)
    assert "Left to put right: " in said(page)
