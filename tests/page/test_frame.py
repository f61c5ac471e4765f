"""One window: places, boat, figures, handle and the first thing to put right are in sight at once.

Measured by rectangles on the screen, at the sizes that screens have.
"""

import pytest
from playwright.sync_api import Browser, Locator, Page, expect
from tests.page.browsing import Seen, entered, with_browser

from trimdive.page.desk import Desk
from trimdive.page.guard import Keys

pytestmark = with_browser
SIZES = [(1366, 768), (1440, 900), (1920, 1080), (1024, 768)]
PHONE = (400, 850)
DOUBLED = (683, 384)  # 1366 by 768 at twice the size
PLACES = ("right", "scales", "tub", "bench", "pond", "board")
STRIPS = ("scales", "board")
STRIP = 140  # the boat is no higher where she is a strip [px]
ROUND = 1  # a rectangle may reach so far beyond an edge [px]
FIGURES = ".figures > div:not(.lean) :is(.large, .word, .off):not(:empty)"
FIELDS = {"scales": '[id="field-part[3].mass"]', "board": '[id^="field-region[1]"]'}

Box = tuple[float, float, float, float]  # left, top, right, bottom [px]


def box(one: Locator) -> Box:
    """Return where something stands on the screen."""
    at = one.evaluate(
        "(o) => { const at = o.getBoundingClientRect(); return [at.x, at.y, at.right, at.bottom]; }"
    )
    return (at[0], at[1], at[2], at[3])


def is_seen(page: Page, one: Locator, bottom: float | None = None) -> bool:
    """Return whether all of something stands within the window, and uncovered at its middle."""
    assert page.viewport_size is not None
    left, top, right, low = box(one)
    floor = page.viewport_size["height"] if bottom is None else bottom
    return (
        left >= -ROUND
        and top >= -ROUND
        and right <= page.viewport_size["width"] + ROUND
        and low <= floor + ROUND
        and right > left
    )


def opened(browser: Browser, served: tuple[Desk, str, Keys], size: tuple[int, int]) -> Seen:
    """Return the page in a window of that size, its findings there."""
    width, height = size
    seen = entered(browser, served, viewport={"width": width, "height": height})
    seen.loaded()
    expect(seen.page.locator(".findings li").first).to_be_visible()
    return seen


def floor_of(page: Page) -> float:
    """Return where the foot of the window begins, which covers what is under it [px]."""
    return box(page.locator("footer"))[1]


@pytest.mark.parametrize("size", SIZES)
def test_all_that_matters_is_in_sight_at_once(
    browser: Browser, served: tuple[Desk, str, Keys], size: tuple[int, int]
) -> None:
    seen = opened(browser, served, size)
    page = seen.page
    for one in page.locator("nav a[data-place]").all():
        assert is_seen(page, one), one.inner_text()
    edge = box(page.locator(".figures"))[2]
    for one in page.locator(FIGURES).all():
        assert is_seen(page, one), one.inner_text()
        assert box(one)[2] <= edge, f"{one.inner_text()} is cut off"
    scene, boat = box(page.locator(".scene")), box(page.locator(".scene .boat .silhouette").first)
    assert all(abs(b) >= 0 for b in boat)
    assert boat[0] >= scene[0] - ROUND
    assert boat[2] <= scene[2] + ROUND
    assert boat[1] >= scene[1] - ROUND
    assert boat[3] <= scene[3] + ROUND
    assert is_seen(page, page.locator(".track .knob"))
    first = page.locator(".findings > li").first
    assert is_seen(page, first.locator(".what").first, floor_of(page))
    assert is_seen(page, first.locator("button.do").first, floor_of(page))
    assert page.evaluate("document.documentElement.scrollHeight <= innerHeight")
    page.context.close()
    assert seen.wrong == []


SCROLLED = """() => [scrollX, scrollY, ...[...document.querySelectorAll("*")]
  .filter((o) => (o.scrollTop || o.scrollLeft) && !o.matches(".place, .places, .why-panel, #why"))
  .map((o) => `${o.tagName}.${o.className}: ${o.scrollTop}, ${o.scrollLeft}`)]"""
BUTTONS = "header nav a, .walk a, .folds button, .figures button.why, .findings button.do >> nth=0"


@pytest.mark.parametrize("size", [*SIZES, PHONE])
def test_no_button_of_the_first_page_slides_the_frame(
    browser: Browser, served: tuple[Desk, str, Keys], size: tuple[int, int]
) -> None:
    """Only a place scrolls: the bar stands at the top and the foot at the bottom after each."""
    seen = opened(browser, served, size)
    page = seen.page
    names = page.locator(BUTTONS)
    for k in range(names.count()):
        page.goto(seen.home)
        seen.loaded()
        expect(page.locator(".findings li").first).to_be_visible()
        called = names.nth(k).inner_text()
        names.nth(k).click()
        page.wait_for_timeout(700)
        assert box(page.locator("#sheet > header"))[1] == pytest.approx(0, abs=ROUND), called
        assert box(page.locator("footer"))[3] == pytest.approx(size[1], abs=ROUND), called
        if size != PHONE:  # there the page scrolls as a whole, under the bar
            assert page.evaluate(SCROLLED) == [0, 0], called
    page.context.close()
    assert seen.wrong == []


@pytest.mark.parametrize("place", [*PLACES, "shelf"])
def test_on_a_phone_each_place_begins_by_two_thirds_of_the_screen(
    browser: Browser, served: tuple[Desk, str, Keys], place: str
) -> None:
    seen = opened(browser, served, PHONE)
    page = seen.page
    page.goto(f"{seen.home.rstrip('/')}/{place}")
    seen.loaded()
    leave = page.get_by_role("button", name="Leave the tour")
    if leave.count():
        leave.click()
        expect(page.locator(".walk")).to_have_count(0)
    assert box(page.locator(".work"))[1] <= PHONE[1] * 2 / 3
    assert is_seen(page, page.locator(".scene"))
    for one in page.locator(FIGURES).all():
        assert is_seen(page, one), one.inner_text()
    page.context.close()
    assert seen.wrong == []


def test_on_a_phone_the_boat_comes_first_and_the_list_half_a_screen_on(
    browser: Browser, served: tuple[Desk, str, Keys]
) -> None:
    seen = opened(browser, served, PHONE)
    page = seen.page
    for one in (".scene", ".track .knob", ".figures .large >> nth=0", ".figures .large >> nth=2"):
        assert is_seen(page, page.locator(one).first), one
    assert box(page.locator(".findings > li .what").first)[1] <= 1.5 * PHONE[1]
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    page.context.close()
    assert seen.wrong == []


def test_at_twice_the_size_nothing_is_cut_off(
    browser: Browser, served: tuple[Desk, str, Keys]
) -> None:
    seen = opened(browser, served, DOUBLED)
    page = seen.page
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    for one in page.locator(FIGURES).all():
        left, _, right, _ = box(one)
        assert left >= -ROUND
        assert right <= DOUBLED[0] + ROUND
    page.context.close()
    assert seen.wrong == []


@pytest.mark.parametrize("size", SIZES)
def test_each_place_keeps_boat_and_figures_in_sight(
    browser: Browser, served: tuple[Desk, str, Keys], size: tuple[int, int]
) -> None:
    seen = opened(browser, served, size)
    page = seen.page
    for place in PLACES:
        page.locator(f'nav a[data-place="{place}"]').click()
        expect(page.locator(f'nav a[data-place="{place}"][aria-current]')).to_be_visible()
        page.wait_for_timeout(300)
        assert is_seen(page, page.locator(".scene")), place
        for one in page.locator(FIGURES).all():
            assert is_seen(page, one), place
        top, bottom = box(page.locator(".scene"))[1::2]
        assert (bottom - top <= STRIP) == (place in STRIPS), place
        assert page.evaluate("document.documentElement.scrollHeight <= innerHeight"), place
        if place in FIELDS:
            field = page.locator(FIELDS[place]).first
            field.evaluate("(o) => { const f = o.closest('details'); if (f) f.open = true; }")
            field.focus()
            field.scroll_into_view_if_needed()
            assert is_seen(page, field, floor_of(page)), place
            assert is_seen(page, page.locator(".scene")), place
    page.context.close()
    assert seen.wrong == []


def test_the_edge_is_moved_by_keys_and_kept(
    browser: Browser, served: tuple[Desk, str, Keys]
) -> None:
    seen = opened(browser, served, (1440, 900))
    page, edge = seen.page, seen.page.get_by_role("separator", name="Room for the boat")
    before = box(edge)[1]
    edge.focus()
    for _ in range(3):
        page.keyboard.press("ArrowUp")
    after = box(edge)[1]
    assert after < before - 20
    page.reload()
    seen.loaded()
    assert box(edge)[1] == pytest.approx(after, abs=ROUND)
    page.context.close()
    assert seen.wrong == []
