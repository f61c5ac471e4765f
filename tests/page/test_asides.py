"""Plan and section beside the boat: in the right place, leaning as she leans, by mouse and keys."""

import re
from collections.abc import Iterator

import numpy as np
import pytest
from playwright.sync_api import Browser, expect
from tests.page.conftest import BOATS, Page
from tests.page.test_browser import CHROMIUM, IS_REQUIRED, Seen, browser, entered, served

from trimdive.assess import Assessment, assess
from trimdive.page.cut_at import cut_told
from trimdive.page.desk import Desk
from trimdive.page.guard import Keys

__all__ = ["browser", "served"]
with_browser = pytest.mark.skipif(
    not CHROMIUM.exists() and not IS_REQUIRED, reason=f"there is no {CHROMIUM}"
)


@pytest.fixture(scope="module")
def bought() -> Assessment:
    return assess(BOATS / "bittern-as-bought" / "boat.toml")


def test_a_tank_is_cut_in_a_circle_of_its_bore(bought: Assessment) -> None:
    """The bore by the boat file: 125 less twice 3.7 mm, about the axis 88 mm high."""
    told = cut_told(bought, 1.6)
    ((number, loop),) = told["tanks"]  # type: ignore[misc]
    y, z = np.array(loop).T
    assert number == 0
    area = abs(y @ np.roll(z, -1) - z @ np.roll(y, -1)) / 2
    assert area == pytest.approx(np.pi * 58.8**2, rel=1e-3), "its facets hold what the bore holds"
    assert (y.max() + y.min(), z.max() + z.min()) == pytest.approx((0.0, 176.0), abs=0.2)
    assert told["says"] == "section 1600 mm from the stern"


def test_the_skin_is_cut_in_two_lines(bought: Assessment) -> None:
    """The lower hull moulding weighs 4507 g of 1.60 g/cm³ over about 0.86 m²: 3.2 mm."""
    svg = str(cut_told(bought, 1.38)["svg"])
    hull = re.search(r"<title>lower hull</title><path d=\"([^\"]+)\"", svg)
    assert hull is not None
    points = np.array(
        [[float(n) for n in p.split(",")] for p in re.findall(r"-?[\d.]+,-?[\d.]+", hull[1])]
    )
    keel = -points[np.abs(points[:, 0]) < 3.0, 1]
    assert keel.min() == pytest.approx(0.0, abs=0.2)
    assert keel.max() == pytest.approx(3.2, abs=0.4)


def test_beyond_her_ends_the_end_is_cut(bought: Assessment) -> None:
    assert cut_told(bought, 9.0)["x"] == pytest.approx(2299.0, abs=0.5)
    assert cut_told(bought, -9.0)["x"] == pytest.approx(1.0, abs=0.5)


def test_what_is_no_place_is_the_middle(bittern: Page) -> None:
    told = bittern.client.get("/cut", params={"x": "here<script>"}).json()
    assert told["x"] == pytest.approx(1150.0, abs=1.0)
    assert "plan-hull" in bittern.client.get("/plan").text


@pytest.fixture
def seen(browser: Browser, served: tuple[Desk, str, Keys]) -> Iterator[Seen]:
    """Yield the page; afterwards nothing may have gone wrong in it."""
    found = entered(browser, served)
    yield found
    found.page.context.close()
    assert found.wrong == []


def over(seen: Seen, share: float, click: bool = False) -> None:
    """Point at a share of the drawing's breadth, at half its height."""
    box = seen.page.locator(".scene").bounding_box()
    assert box is not None
    at = box["x"] + share * box["width"], box["y"] + 0.15 * box["height"]
    seen.page.mouse.move(*at)
    if click:
        seen.page.mouse.click(*at)


@with_browser
def test_the_section_follows_the_pointer_and_a_click_holds_it(seen: Seen) -> None:
    head = seen.page.locator(".lean dt")
    expect(head).to_have_text("from astern")
    over(seen, 0.5)
    expect(head).to_have_text(re.compile(r"at \d+ mm"))
    first = head.inner_text()
    over(seen, 0.6)
    expect(head).not_to_have_text(first)
    over(seen, 0.6, click=True)
    expect(seen.page.locator(".lean .explained")).to_contain_text("held")
    held = head.inner_text()
    over(seen, 0.3)
    seen.page.mouse.move(5, 5)
    expect(head).to_have_text(held)
    seen.slide(0.15)
    turn = seen.page.locator(".cutting").get_attribute("transform") or ""
    lean = abs(float(re.findall(r"rotate\((-?[\d.]+)", turn)[0]))
    assert lean == pytest.approx(20, abs=1), "she leans there"
    seen.page.get_by_role("button", name="Do it").first.click()
    expect(seen.page.locator("#note")).to_contain_text("Done")
    expect(head).to_have_text(held)
    assert seen.page.locator(".scene .cutline.held").get_attribute("d")


@with_browser
def test_the_section_by_keyboard(seen: Seen) -> None:
    pane, head = seen.page.locator("svg.astern"), seen.page.locator(".lean dt")
    pane.focus()
    seen.page.keyboard.press("Home")
    expect(head).to_have_text("at 1.0 mm")
    seen.page.keyboard.press("Shift+ArrowRight")
    expect(head).to_have_text("at 100 mm")
    expect(pane).to_have_attribute("aria-valuetext", "section 100 mm from the stern")
    seen.page.keyboard.press("Escape")
    expect(head).to_have_text("from astern")


ON_THE_SCREEN = """(which) => {
  const box = document.querySelector(which).getBoundingClientRect();
  return [box.left, box.right];
}"""


@with_browser
def test_the_plan_lies_under_her_on_the_same_x(seen: Seen) -> None:
    """Where she lies level, bow and stern of both are under one another to the pixel."""
    button = seen.page.get_by_role("button", name="From above")
    button.focus()
    seen.page.keyboard.press("Enter")
    expect(button).to_have_attribute("aria-expanded", "true")
    seen.page.locator(".plan-hull path").wait_for(state="attached")
    seen.slide(0.0)
    above = seen.page.evaluate(ON_THE_SCREEN, ".plan-hull path")
    side = seen.page.evaluate(ON_THE_SCREEN, ".scene .silhouette path")
    assert above == pytest.approx(side, abs=3.0)
    seen.page.get_by_role("button", name="Do it").first.click()
    expect(seen.page.locator("#note")).to_contain_text("Done")
    expect(seen.page.locator(".plan-hull path")).to_have_count(1)
    button.click()
    expect(seen.page.locator(".plan-of")).to_be_hidden()
