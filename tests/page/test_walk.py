"""The walk in a browser: the first two minutes by mouse and by keyboard, then one's own boat."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.page.browsing import ASKED, AXE, entered, on_a_port, with_browser
from tests.page.shelves import bittern_on_a_shelf

from trimdive.page.workshop import Workshop

pytestmark = with_browser


@pytest.fixture
def workshop(tmp_path: Path) -> Workshop:
    """Return the workshop as it is at the first start."""
    return bittern_on_a_shelf(tmp_path)


@pytest.fixture
def page(browser: Browser, workshop: Workshop) -> Iterator[Page]:
    """Yield the page of the first start; afterwards nothing may have gone wrong in it."""
    with on_a_port(workshop) as served:
        seen = entered(browser, served)
        yield seen.page
        seen.page.context.close()
    assert seen.wrong == []


def drag_slider(page: Page, share: float) -> None:
    """Drag the slider's handle to a share of its length, and let go."""
    box = page.locator("input[type=range]").bounding_box()
    assert box is not None
    y = box["y"] + box["height"] / 2
    now = float(page.locator("input[type=range]").input_value())
    page.mouse.move(box["x"] + box["width"] * now - (1 if now > 0.5 else -1), y)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] * (now + share) / 2, y)
    page.mouse.move(box["x"] + box["width"] * share, y)
    page.mouse.up()


def test_the_two_minutes_by_mouse(page: Page) -> None:
    walk = page.locator("#walk")
    expect(walk).to_contain_text(
        "This boat was bought nearly finished. With tanks full: trim 12.4° bow down"
    )
    expect(page.locator(".figures .large").first).to_have_text("12.4°")
    drag_slider(page, 0.02)
    expect(walk).to_contain_text("That was surfacing")
    drag_slider(page, 0.995)
    expect(walk).to_contain_text("Open the winch house")
    walk.get_by_role("button", name="Open it").click()
    expect(walk).to_contain_text("stands on her nose")
    walk.get_by_role("button", name="Move it aft").click()
    expect(walk).to_contain_text("Lower the batteries")
    walk.get_by_role("button", name="Lower them").click()
    expect(walk).to_contain_text("6 of 6")
    assert page.locator(".bands rect").count() == 0, "upright at every moment"
    drag_slider(page, 0.02)
    expect(walk).to_contain_text("That was surfacing")
    drag_slider(page, 0.995)
    expect(walk).to_contain_text("Nothing left to put right")
    walk.get_by_role("link", name="Start mine").click()
    expect(page.locator("#new-name")).to_be_focused()


def test_the_two_minutes_by_keyboard(page: Page) -> None:
    walk, slider = page.locator("#walk"), page.locator("input[type=range]")

    def slide() -> None:
        slider.focus()
        page.keyboard.press("Home")
        expect(walk).to_contain_text("That was surfacing")
        page.keyboard.press("End")

    def press(name: str) -> None:
        walk.get_by_role("button", name=name).focus()
        page.keyboard.press("Enter")

    slide()
    assert slider.evaluate("one => one === document.activeElement"), "the focus stays on the slider"
    expect(walk).to_contain_text("Open the winch house")
    press("Open it")
    expect(walk).to_contain_text("Bring the forward tank aft")
    press("Move it aft")
    expect(walk).to_contain_text("Lower the batteries")
    press("Lower them")
    expect(walk).to_contain_text("6 of 6")
    slide()
    expect(walk).to_contain_text("Nothing left to put right")


def test_it_covers_nothing_and_is_left_and_taken_up(page: Page, workshop: Workshop) -> None:
    walk, scene = page.locator("#walk"), page.locator(".scene")
    own, boat = walk.bounding_box(), scene.bounding_box()
    assert own is not None
    assert boat is not None
    assert own["y"] + own["height"] <= boat["y"]
    assert own["height"] < 110
    walk.get_by_role("button", name="Leave the tour").click()
    expect(walk).to_have_count(0)
    page.reload()
    expect(walk).to_have_count(0)
    page.get_by_role("link", name="Shelf").click()
    page.get_by_role("button", name="Restart the tour").click()
    expect(walk).to_contain_text("1 of 6")
    assert workshop.desk.at == 0


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 1400])
def test_nobody_is_shut_out_of_the_walk(
    browser: Browser, workshop: Workshop, scheme: str, width: int
) -> None:
    """WCAG 2.2 A and AA, by axe-core."""
    with on_a_port(workshop) as served:
        looks = {"color_scheme": scheme, "viewport": {"width": width, "height": 800}}
        seen = entered(browser, served, **looks)
        seen.page.locator("input[type=range]").fill("0")
        expect(seen.page.locator("#walk")).to_contain_text("That was surfacing")
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= width
        seen.page.evaluate(AXE)
        assert seen.page.evaluate(ASKED) == []
        seen.page.context.close()
    assert seen.wrong == []
