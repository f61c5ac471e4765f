"""The drawing board in a browser: figures typed, the slipped one mended, meshes, marks."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.page.browsing import ASKED, AXE, entered, on_a_port, with_browser
from tests.page.conftest import desk_of

from trimdive.page.desk import Desk

pytestmark = with_browser
SELECTED = """() => {
  const { selectionStart: from, selectionEnd: to, value } = document.activeElement;
  return from === 0 && to === value.length;
}"""


@pytest.fixture
def desk(copied: Callable[[str], Path]) -> Desk:
    """Return Grebe as bought, opened."""
    return desk_of(copied("grebe-as-bought"))


@pytest.fixture
def page(browser: Browser, desk: Desk) -> Iterator[Page]:
    """Yield the board; afterwards nothing may have gone wrong in it."""
    with on_a_port(desk) as served:
        seen = entered(browser, served)
        board(seen.page)
        yield seen.page
        seen.page.context.close()
    assert seen.wrong == []


def board(page: Page) -> None:
    """Go to the board, and wait for its drawing."""
    page.get_by_role("link", name="Drawing board").click()
    page.locator("svg.board-drawing").wait_for()


def unfold(page: Page, key: str) -> None:
    """Open a fold of the board."""
    fold = page.locator(f"#fold-board-{key}")
    fold.locator("summary").first.click()
    expect(fold).to_have_attribute("open", "")


def test_what_is_to_be_put_right_is_open_and_all_else_a_line(page: Page) -> None:
    expect(page.locator(".place.board h2")).to_have_text(
        re.compile(r"things? to put right, (\d+ )?in shape and room$")
    )
    expect(page.locator("details.fold[open]")).to_have_count(1)
    expect(page.locator("#fold-board-region-1 .amount")).to_have_text("1 to put right")
    assert page.locator("svg.board-drawing .side-view").count() == 0, "the boat above shows that"
    assert page.locator("svg.body-plan .section.aft").count() >= 4
    assert page.locator("svg.body-plan .section.fore").count() >= 4
    page.locator("#fold-board-region-1 > summary").click()
    unfold(page, "tanks")
    page.locator("nav a[data-place=pond]").click()
    expect(page.locator("svg.board-drawing")).to_have_count(0)
    board(page)
    expect(page.locator("#fold-board-tanks")).to_have_attribute("open", "")
    expect(page.locator("details.fold[open]")).to_have_count(1)


def test_the_slipped_figure_is_put_right_by_mouse(page: Page, desk: Desk) -> None:
    doubt = page.locator(".doubt", has_text="5.98 lies 53 mm inside its neighbours")
    expect(doubt).to_have_count(1)
    expect(page.locator(".cells .doubted input")).to_have_value("5.98")
    doubt.get_by_role("button", name="Write 59.8").click()
    expect(doubt).to_have_count(0)
    assert b"55.8,59.8,59.3" in desk.written()[1]["lines.csv"]
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".cells .doubted input")).to_have_value("5.98")


def test_the_slipped_figure_is_typed_by_keyboard(page: Page, desk: Desk) -> None:
    page.locator(".cells .doubted input").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("wide")
    page.keyboard.press("Enter")
    expect(page.locator("#wrong-cell-1")).to_contain_text("'wide' is not a length")
    cell = page.locator(".cells [aria-invalid=true]")
    expect(cell).to_have_value("wide")
    expect(cell).to_be_focused()
    page.wait_for_function(SELECTED)  # what was refused is written over
    page.keyboard.type("2.354 in")
    page.keyboard.press("Enter")
    expect(page.locator(".doubt")).to_have_count(0)
    assert b"55.8,59.7916,59.3" in desk.written()[1]["lines.csv"]
    expect(page.get_by_label("Station 650, 60")).to_be_focused()
    page.keyboard.press("ArrowDown")
    expect(page.get_by_label("Station 780, 60")).to_be_focused()


def test_skin_and_places_are_typed(page: Page, desk: Desk) -> None:
    unfold(page, "region-4")
    skin = page.locator("[id='field-region[4].thickness']")
    skin.fill("2 mm")
    skin.press("Enter")
    expect(page.locator("#note")).to_contain_text("Done")
    skin = page.locator("[id='field-region[4].thickness']")
    skin.fill("2 kg")
    skin.press("Enter")
    expect(page.locator(".wrong", has_text="2 kg")).to_be_visible()
    assert desk.her.boat.regions[3].thickness == pytest.approx(0.002)
    unfold(page, "parts")
    place = page.get_by_label("battery: ").first
    place.fill("31 in")
    place.press("Tab")
    expect(page.locator("#note")).to_contain_text("31 in")
    battery = next(one for one in desk.her.boat.parts if one.name == "battery")
    assert battery.x == pytest.approx(0.7874)


def test_what_is_picked_in_the_drawing_is_picked_in_the_table(page: Page) -> None:
    fold = page.locator("#fold-board-parts")
    expect(fold).not_to_have_attribute("open", "")
    page.locator(".board-drawing .number[data-path='part[3]'] text").click()
    expect(fold).to_have_attribute("open", "")
    expect(page.locator("tr[data-path='part[3]'] input").first).to_be_focused()
    row = page.locator("tr[data-path='part[2]']")
    row.locator("input").first.focus()
    assert page.locator(".board-drawing .picked").count() > 0
    expect(page.locator(".scene .thing.picked")).to_have_attribute("data-path", "part[2]")


def test_a_mark_is_put_in_and_taken_out(page: Page, desk: Desk) -> None:
    unfold(page, "waterline")
    page.locator("#mark-name").fill("quarter")
    page.locator("#mark-x").fill("12 in")
    page.get_by_role("button", name="Add", exact=True).click()
    expect(page.get_by_role("button", name="Remove quarter")).to_be_visible()
    assert desk.her.boat.marks[-1].x == pytest.approx(0.3048)
    page.get_by_role("button", name="Remove quarter").press("Enter")
    expect(page.get_by_role("button", name="Remove quarter")).to_have_count(0)


def test_meshes_are_mended_one_by_one(browser: Browser, copied: Callable[[str], Path]) -> None:
    desk = desk_of(copied("plover-as-bought"))
    with on_a_port(desk) as served:
        seen = entered(browser, served)
        board(seen.page)
        place = seen.page.locator("section.place")
        mends = place.get_by_role("button", name="Repair it")
        expect(mends).to_have_count(3)
        place.locator(".doubt", has_text="inside out").get_by_role("button").click()
        expect(place).to_contain_text("Repaired: turned right side out")
        expect(mends).to_have_count(2)
        place.get_by_role("button", name="Undo: turned right side out").click()
        expect(mends).to_have_count(3)
        seen.page.context.close()
    assert seen.wrong == []


def test_nobody_is_shut_out_where_a_cell_is_wrong(browser: Browser, desk: Desk) -> None:
    """WCAG 2.2 A and AA, by axe-core; and nothing runs out of a narrow window."""
    with on_a_port(desk) as served:
        seen = entered(browser, served, viewport={"width": 400, "height": 800})
        board(seen.page)
        seen.page.locator(".cells .doubted input").fill("x")
        seen.page.locator(".cells .doubted input").press("Enter")
        expect(seen.page.locator("#wrong-cell-1")).to_be_visible()
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= 400
        seen.page.evaluate(AXE)
        assert seen.page.evaluate(ASKED) == []
        seen.page.context.close()
    assert seen.wrong == []
