"""Forms of whole pieces in a browser: by mouse, by keys, on a narrow screen and in the dark."""

import re

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, with_browser

from trimdive.page.desk import Desk
from trimdive.page.guard import Keys

pytestmark = with_browser
LOOKS = [
    {"viewport": {"width": 1366, "height": 768}},
    {"viewport": {"width": 1366, "height": 768}, "color_scheme": "dark"},
    {"viewport": {"width": 320, "height": 640}},
]


def go(seen: Seen, place: str) -> Page:
    """Go to a place of the page."""
    seen.page.locator(f'.places a[data-place="{place}"]').click()
    expect(seen.page.locator(f"section.place.{place}")).to_be_visible()
    return seen.page


def test_a_piston_tank_and_rings_are_added_by_mouse(seen: Seen) -> None:
    page, boat = go(seen, "bench"), seen.desk.her.boat
    tanks, home = len(boat.tanks), boat.cylinders[0].name
    page.locator("#door-add summary").click()
    page.get_by_role("button", name="piston tank").click()
    form = page.locator("piece-form")
    form.locator("#entry-name").fill("trim tank")
    form.get_by_label("Cylinder in which it lies").select_option(home)
    form.get_by_role("button", name="Save").click()
    expect(form.locator("#wrong-entry-stroke")).to_have_text("A piston tank needs it.")
    form.get_by_label("How far the piston runs").fill("60 mm")
    form.get_by_label("Inside diameter").fill("20 mm")
    form.locator("#entry-water_end").fill("1600 mm")
    form.locator("#entry-runs").select_option("forward")
    form.get_by_role("button", name="Save").click()
    expect(form).to_have_count(0)
    expect(page.locator("#note")).to_have_text("Done: trim tank added")
    assert len(seen.desk.her.boat.tanks) == tanks + 1
    page.locator("#door-edit summary").click()
    page.get_by_role("button", name=f"Edit cylinder {home}").click()
    form.locator("#fold-fore_cap summary").click()
    form.locator("#entry-fore_cap").check()
    form.get_by_role("button", name="Add a row to Rings that seal it").first.click()
    number = form.locator('[id="entry-fore_cap.rings[1].number"]')
    expect(number).to_be_visible()
    number.fill("347")
    form.get_by_role("button", name="Save").click()
    expect(form).to_have_count(0)
    cap = seen.desk.her.boat.cylinders[0].fore_cap
    assert cap is not None
    assert [ring.number for ring in cap.rings] == ["347"]


def test_a_piston_tank_is_added_by_keys(seen: Seen) -> None:
    page = go(seen, "scales")
    tanks = len(seen.desk.her.boat.tanks)
    page.locator("#door-add summary").focus()
    page.keyboard.press("Enter")
    while page.evaluate("document.activeElement.textContent") != "piston tank":
        page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator("#entry-kind")).to_be_focused()
    keys = ["", "trim tank", seen.desk.her.boat.cylinders[0].name, "20 mm", "1600 mm", "60 mm"]
    for typed in keys:
        page.keyboard.type(typed)
        page.keyboard.press("Tab")
    page.keyboard.type("forward")
    page.keyboard.press("Shift+Tab")
    page.keyboard.press("Enter")
    expect(page.locator("piece-form")).to_have_count(0)
    assert len(seen.desk.her.boat.tanks) == tanks + 1
    assert seen.desk.her.boat.tanks[-1].runs == "forward"


def test_what_is_typed_stays_where_another_place_is_gone_to(seen: Seen) -> None:
    page = go(seen, "scales")
    page.locator('button[value="entry edit part[1]"]').click()
    page.locator("#entry-mass").fill("half a ton")
    go(seen, "tub")
    expect(page.locator("piece-form")).to_have_count(0)
    go(seen, "scales")
    expect(page.locator("#entry-mass")).to_have_value("half a ton")
    page.keyboard.press("Escape")
    page.get_by_role("button", name="Save").last.click()
    expect(page.locator("#entry-mass")).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#entry-mass")).to_be_focused()
    page.get_by_role("button", name=re.compile("Back to")).click()
    page.get_by_role("button", name="Leave without them").click()
    expect(page.locator("table.weights")).to_be_visible()


@pytest.mark.parametrize("looks", LOOKS, ids=["light", "dark", "narrow"])
def test_a_form_shuts_nobody_out(
    browser: Browser, served: tuple[Desk, str, Keys], looks: dict
) -> None:
    found = entered(browser, served, **looks)
    page = found.page
    page.goto(f"{found.home}/bench")
    found.loaded()
    page.locator("#door-edit summary").click()
    page.get_by_role("button", name=re.compile("^Edit cylinder")).first.click()
    page.locator("piece-form").wait_for()
    page.locator("#entry-outside").fill("broad")
    page.get_by_role("button", name="Save").last.click()
    expect(page.locator("#entry-outside")).to_have_attribute("aria-invalid", "true")
    for fold in page.locator("details.entry-fold:not([open]) > summary").all()[::-1]:
        fold.click()
    page.evaluate(AXE)
    assert page.evaluate(ASKED) == []
    wide = "document.documentElement.scrollWidth - document.documentElement.clientWidth"
    assert page.evaluate(wide) <= 0
    page.context.close()
    assert found.wrong == []
