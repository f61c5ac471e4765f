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


class Hand:
    """A hand that counts what it does: presses of buttons, and drags of the handle."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.presses = self.drags = 0

    def press(self, name: str) -> None:
        """Press a button of the walk."""
        self.presses += 1
        self.page.locator("#walk").get_by_role("button", name=name).click()

    def drag(self, share: float) -> None:
        """Drag the handle to a share of its way."""
        self.drags += 1
        drag_slider(self.page, share)

    def says(self, *texts: str) -> None:
        """See that the line says something, and that it is made of the figures on show."""
        for text in texts:
            expect(self.page.locator("#walk")).to_contain_text(text)
        trim = self.page.locator(".figures .large").first
        end = self.page.locator(".figures .word").first.inner_text()
        lies = "level" if end == "level" else f"trim {trim.inner_text()} {end}"
        expect(self.page.locator("#walk")).to_contain_text(lies)


def test_the_two_minutes_by_mouse(page: Page) -> None:
    """Three presses and three drags, from surfaced and level to the neutral mark."""
    hand, weight = Hand(page), page.locator(".figures .large").nth(1)
    hand.says("1 of 5", "This boat was bought nearly finished. Surfaced, tanks blown: level.")
    expect(page.locator(".figures .explained").first).to_have_text("tanks blown")
    expect(page.locator(".track .hint")).to_be_visible()
    hand.drag(0.995)
    hand.says("2 of 5", "Tanks full: 367 g light", "She will not dive.", "Open the winch house")
    expect(weight).to_have_text("367 g")
    hand.press("Open it")
    hand.says("3 of 5", "stands on her nose", "Tanks full: 293 g heavy", "shift the lead to bal")
    hand.press("Move tank and lead")
    hand.says("4 of 5", "Lower the batteries")
    hand.press("Lower them")
    hand.says("5 of 5", "then to the neutral mark")
    assert page.locator(".bands rect").count() == 0, "upright at every moment"
    hand.drag(0.02)
    hand.says("That was surfacing")
    hand.drag(float(page.locator(".dive").evaluate("one => JSON.parse(one.text).neutral")))
    hand.says("neutral", "Afloat: in order, but watch the way up; bench: ", "Now yours.")
    expect(weight).to_have_text("neutral")
    assert (hand.presses, hand.drags) == (3, 3)
    page.locator("#walk").get_by_role("link", name="Start mine").click()
    expect(page.locator("#new-name")).to_be_focused()


def test_the_two_minutes_by_keyboard(page: Page) -> None:
    walk, slider = page.locator("#walk"), page.locator("input[type=range]")

    def press(name: str) -> None:
        walk.get_by_role("button", name=name).focus()
        page.keyboard.press("Enter")

    slider.focus()
    page.keyboard.press("End")
    expect(walk).to_contain_text("Open the winch house")
    assert slider.evaluate("one => one === document.activeElement"), "the focus stays on the slider"
    press("Open it")
    expect(walk).to_contain_text("Move the forward tank aft")
    press("Move tank and lead")
    expect(walk).to_contain_text("Lower the batteries")
    press("Lower them")
    expect(walk).to_contain_text("5 of 5")
    slider.focus()
    page.keyboard.press("Home")
    expect(walk).to_contain_text("That was surfacing")
    for _ in range(9):
        page.keyboard.press("PageUp")
    expect(walk).to_contain_text("Now yours.")
    expect(page.locator(".figures .large").nth(1)).to_have_text("neutral")


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
    expect(walk).to_contain_text("1 of 5")
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
        seen.page.locator("input[type=range]").fill("1")
        expect(seen.page.locator("#walk")).to_contain_text("Open the winch house")
        assert seen.page.evaluate("document.documentElement.scrollWidth") <= width
        seen.page.evaluate(AXE)
        assert seen.page.evaluate(ASKED) == []
        seen.page.context.close()
    assert seen.wrong == []
