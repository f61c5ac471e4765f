"""The walk: every step ends when her numbers have changed, and none otherwise."""

from pathlib import Path

import pytest
from tests.page.shelves import ShelfPage, bittern_on_a_shelf, workshop_of
from tests.said import what_of

from trimdive.page.shown import name_of
from trimdive.page.walk import STEPS, step_of, strip_of
from trimdive.text import words
from trimdive.text.dive_text import worst
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
    assert "This boat was bought nearly finished." in shown
    assert "With tanks full: trim 12.4° bow down." in shown
    assert "Start mine" in shown
    assert "12.4°" in shown


def test_each_step_ends_with_her_numbers(page: ShelfPage) -> None:
    keys = [key(page)]
    assert "1 of 6" in slid(page, 0.6, 0.9), "not yet up"
    assert "That was surfacing" in slid(page, 0.1)
    assert "2 of 6" in slid(page, 1.0)
    keys.append(key(page))
    assert "3 of 6" in press(page), "the winch house is open, and she goes under"
    assert page.desk.her.full.rest.under
    keys.append(key(page))
    page.desk.put("tank[1].x", "1520 mm")
    page.desk.put("part[3].x", "1520 mm")
    keys.append(key(page))
    assert "4 of 6" in press(page), "the lead is shifted; she is still 4° down by the bow"
    assert "5 of 6" in press(page), "shifted once more she is level"
    keys.append(key(page))
    assert "6 of 6" in press(page), "the batteries are down, and she stands upright"
    keys.append(key(page))
    assert keys == [step.key for step in STEPS]
    assert "Nothing left to put right in the water." in slid(page, 0.0, 1.0)
    assert key(page) == ""


def test_pressing_the_tank_aft_ends_two_steps_at_once(page: ShelfPage) -> None:
    slid(page, 0.0, 1.0)
    press(page)
    assert key(page) == "tank"
    assert "5 of 6" in press(page), "lead goes with the tank"


def test_undo_takes_a_step_back(page: ShelfPage) -> None:
    slid(page, 0.0, 1.0)
    press(page)
    page.press("undo")
    assert key(page) == "house"


def test_no_step_ends_without_a_change(page: ShelfPage) -> None:
    for _ in range(3):
        page.client.get("/")
    assert slid(page, 0.9, 0.95, 1.0).count("1 of 6") == 1
    for filling in ("", "x", "nan"):
        page.client.get("/shelf/slid", params={"filling": filling})
    assert key(page) == "slide"


def test_it_is_left_and_taken_up_again(page: ShelfPage) -> None:
    answer = page.press("shelf leave-walk")
    assert 'id="walk"' not in answer
    assert "Restart the tour" in answer
    again = ShelfPage(bittern_workshop_again(page))
    assert 'id="walk"' not in again.client.get("/").text, "left stays left at the next start"
    answer = again.press("shelf take-up-walk")
    assert "1 of 6" in answer


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


def test_every_sentence_is_made_of_her_figures(page: ShelfPage) -> None:
    for _ in range(3):
        text, her = doing(page), page.desk.her
        assert f"Dived at neutral, tanks 89 % full: {words.lies(her, her.dived)}." in text
        assert f"On the slider, tanks 100 % full: {words.lies(her, her.full)}." in text
        level_count = [words.lies(her, state) for state in (her.dived, her.full)].count("level")
        assert text.count("evel") == level_count, "she is called level where she is, and only there"
        assert ("stays upright" in text) is not any(one.key == "gm-least" for one in her.findings)
    assert key(page) == "again"
    answer = dict(worst(page.desk.her, page.desk.her.down))
    assert float(answer["largest trim"].split("°")[0]) > 2, "else there is nothing to be told of"
    page.client.get("/shelf/slid", params={"filling": "0"})
    ended = page.client.get("/shelf/slid", params={"filling": "1"}).text
    assert key(page) == ""
    for figure in ("largest trim", "least GM"):
        text = answer[figure]
        assert text in said(page)
        assert text in ended
    assert way_up(page.desk.her)[0] in said(page)


def test_it_does_not_end_while_something_is_left(page: ShelfPage) -> None:
    for _ in range(3):
        doing(page)
    slid(page, 0.0, 1.0)
    assert key(page) == ""
    page.desk.put("limits.tank-margin", "60 %")
    left = next(one for one in page.desk.her.findings if one.weight == "put right")
    assert key(page) == "again"
    what = what_of(left, Say(page.desk.her.boat))
    assert f"Left to put right: {sentence(what)}" in said(page)
    assert "Nothing left" not in said(page)


def test_a_house_that_is_not_shut_is_not_named(page: ShelfPage) -> None:
    slid(page, 0.0, 1.0)
    assert "Open the winch house." in said(page)
    assert "367 g light" in said(page)
    press(page)
    page.desk.put("tank[1].length", "60 mm")
    assert not page.desk.her.full.rest.under
    assert key(page) == "house"
    assert "winch house" not in said(page)
    assert f"{words.weight(page.desk.her.boat, page.desk.her.full.rest.excess)}" in said(page)
    assert "Left to put right: " in said(page)
