"""A hurried builder: fields one after another, a button pressed before the answer came."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Route, expect
from tests.page.browsing import Seen, entered, with_browser

from trimdive.page.desk import Desk
from trimdive.page.guard import Keys

pytestmark = with_browser
SLOW = 700  # a slow answer [ms]
WORKS_AHEAD = True


@pytest.fixture
def seen(browser: Browser, served: tuple[Desk, str, Keys]) -> Iterator[Seen]:
    found = entered(browser, served)
    found.page.goto(f"{found.home}/scales")
    found.page.locator("weight-list").wait_for()

    def slowly(route: Route) -> None:
        found.page.wait_for_timeout(SLOW)
        route.continue_()

    found.page.route("**/edit", slowly)
    yield found
    found.page.context.close()
    assert found.wrong == []


def cell(seen: Seen, name: str, field: str) -> str:
    names = [part.name for part in seen.desk.her.boat.parts]
    return f"[id='field-part[{names.index(name) + 1}].{field}']"


def test_what_is_typed_meanwhile_is_not_lost(seen: Seen) -> None:
    page = seen.page
    page.locator(cell(seen, "forward battery", "mass")).fill("1500 g")
    page.locator(cell(seen, "forward battery", "mass")).blur()
    page.locator(cell(seen, "after battery", "mass")).fill("1510 g")
    expect(page.locator("#note")).to_contain_text("1500 g")
    expect(page.locator(cell(seen, "after battery", "mass"))).to_have_value("1510 g")
    page.keyboard.press("Enter")
    expect(page.locator("#note")).to_contain_text("1510 g")
    masses = {part.name: part.mass for part in seen.desk.her.boat.parts}
    assert masses["forward battery"] == pytest.approx(1.5)
    assert masses["after battery"] == pytest.approx(1.51)


def test_two_fields_one_after_another_both_count(seen: Seen) -> None:
    page = seen.page
    page.locator(cell(seen, "forward battery", "mass")).fill("1500 g")
    page.keyboard.press("Enter")
    page.locator(cell(seen, "forward battery", "x")).fill("1750 mm")
    page.keyboard.press("Enter")
    expect(page.locator("#note")).to_contain_text("1750 mm")
    battery = next(p for p in seen.desk.her.boat.parts if p.name == "forward battery")
    assert (battery.mass, battery.x) == pytest.approx((1.5, 1.75))


def test_a_button_pressed_straight_from_a_field_is_not_dropped(seen: Seen) -> None:
    page = seen.page
    page.locator(cell(seen, "forward battery", "mass")).fill("1500 g")
    page.get_by_role("button", name="Do it").first.click()
    expect(page.locator("#note")).to_contain_text("winch house entered as drilled")
    battery = next(p for p in seen.desk.her.boat.parts if p.name == "forward battery")
    assert battery.mass == pytest.approx(1.5)
    assert len(seen.desk.steps) == 3


AT = """() => { const at = document.activeElement;
  return [at.id, at.value, at.selectionStart, at.selectionEnd, at === window.typed]; }"""


def test_caret_and_what_is_selected_survive_an_answer(seen: Seen) -> None:
    """The field in which the builder is stays the same one, whatever is answered meanwhile."""
    page, other = seen.page, cell(seen, "after battery", "mass")
    page.locator(cell(seen, "forward battery", "mass")).fill("1500 g")
    page.locator(cell(seen, "forward battery", "mass")).blur()
    page.locator(other).fill("1510 g")
    page.locator(other).evaluate("(one) => { one.setSelectionRange(1, 3); window.typed = one; }")
    expect(page.locator("#note")).to_contain_text("1500 g")
    assert page.evaluate(AT) == [other[5:-2], "1510 g", 1, 3, True]
    page.keyboard.type("49")
    expect(page.locator(other)).to_have_value("1490 g")


def test_what_is_unfolded_and_scrolled_stays_so(seen: Seen) -> None:
    page = seen.page
    page.set_viewport_size({"width": 420, "height": 900})
    fold, table = page.locator("#care-scales"), page.locator("weight-list .wide")
    fold.locator("summary").click()
    expect(fold).to_have_attribute("open", "")
    page.locator(cell(seen, "forward battery", "mass")).fill("1500 g")
    aside = table.evaluate("(one) => { one.scrollLeft = 60; return one.scrollLeft; }")
    assert aside > 0
    page.locator(cell(seen, "forward battery", "mass")).blur()
    expect(page.locator("#note")).to_contain_text("1500 g")
    expect(fold).to_have_attribute("open", "")
    assert table.evaluate("(one) => one.scrollLeft") == aside
