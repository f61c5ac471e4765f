"""Nothing moves unless the builder moves it: places pressed, figures typed and undone."""

import pytest
from playwright.sync_api import Browser, Locator, Page, expect
from tests.page.browsing import Seen, entered, with_browser

from trimdive.page.desk import Desk
from trimdive.page.guard import Keys

pytestmark = with_browser
SIZES = [(1366, 768), (1920, 1080), (1024, 768)]
PLACES = ("right", "bench", "tub", "scales", "board", "pond", "right")
SETTLED = 300  # in which what is to move has moved [ms]
NEAR = 2  # a place that is off by no more has not moved [px]


def scrolled(page: Page) -> int:
    """Return how far down the place is scrolled; the window never is [px]."""
    assert page.evaluate("scrollY") == 0
    return int(page.evaluate("Math.round(document.querySelector('.place').scrollTop)"))


def opened(browser: Browser, served: tuple[Desk, str, Keys], size: tuple[int, int]) -> Seen:
    """Return the page in a window of that size, its scripts at rest."""
    width, height = size
    seen = entered(browser, served, viewport={"width": width, "height": height})
    seen.loaded()
    return seen


def far_down(browser: Browser, served: tuple[Desk, str, Keys]) -> tuple[Seen, Locator]:
    """Return Scales in a low window, scrolled to a mass, and its field."""
    seen = opened(browser, served, (1366, 640))
    seen.page.goto(f"{seen.home}/scales")
    seen.loaded()
    field = seen.page.locator('[id="field-part[3].mass"]')
    field.scroll_into_view_if_needed()
    return seen, field


@pytest.mark.parametrize("size", SIZES)
def test_a_place_pressed_begins_where_the_last_one_began(
    browser: Browser, served: tuple[Desk, str, Keys], size: tuple[int, int]
) -> None:
    seen = opened(browser, served, size)
    page, tabs = seen.page, seen.page.locator("nav a[data-place]").first
    tabs.scroll_into_view_if_needed()
    before = tabs.bounding_box()
    assert before is not None
    for place in PLACES:
        page.locator(f'nav a[data-place="{place}"]').click()
        expect(page.locator(f'nav a[data-place="{place}"][aria-current]')).to_be_visible()
        page.wait_for_timeout(SETTLED)
        now = page.locator("nav a[data-place]").first.bounding_box()
        assert now is not None
        assert abs(now["y"] - before["y"]) <= NEAR, place
    page.context.close()
    assert seen.wrong == []


def test_a_figure_typed_and_taken_back_stays_where_it_is(
    browser: Browser, served: tuple[Desk, str, Keys]
) -> None:
    seen, field = far_down(browser, served)
    page, here = seen.page, scrolled(seen.page)
    assert here > 0
    field.fill("1030 g")
    field.press("Enter")
    expect(page.locator("#note")).to_contain_text("Done: forward tank works: mass 1030 g")
    assert abs(scrolled(page) - here) <= NEAR
    page.keyboard.press("Escape")
    page.locator("h1, h2").first.evaluate("(one) => document.activeElement.blur()")
    page.keyboard.press("Control+z")
    expect(page.locator("#note")).to_contain_text("Undone")
    assert abs(scrolled(page) - here) <= NEAR
    page.context.close()
    assert seen.wrong == []


def test_who_scrolls_on_as_an_answer_comes_is_not_thrown_back(
    browser: Browser, served: tuple[Desk, str, Keys]
) -> None:
    seen, field = far_down(browser, served)
    page, here = seen.page, scrolled(seen.page)
    page.evaluate("""() => document.addEventListener("htmx:afterSwap",
        () => document.querySelector(".place").scrollBy({ top: 60, behavior: "instant" }))""")
    field.fill("1031 g")
    field.press("Enter")
    expect(page.locator("#note")).to_contain_text("Done: forward tank works: mass 1031 g")
    page.wait_for_timeout(SETTLED)
    assert abs(scrolled(page) - here - 60) <= NEAR
    page.context.close()
    assert seen.wrong == []
