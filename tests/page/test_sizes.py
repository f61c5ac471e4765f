"""Hand and eye: letters large enough, of few sizes; targets; figures in columns; colours; rest.

Every place of *Bittern as bought*, and the pond of *Bittern*, which has a card, with all that
folds open and then with a form open; in a window of a small desk and of a phone.
"""

import re
import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, on_a_port, with_browser
from tests.page.conftest import BOATS, desk_of
from tests.page.measuring import MOVES, Letters, measured

from trimdive.page.shelf import Shelf
from trimdive.page.workshop import Workshop

pytestmark = with_browser

SIZES = [(1366, 768), (400, 850)]
BOUGHT, MENDED = "bittern-as-bought", "bittern"
CASES = [
    *((BOUGHT, one) for one in ("right", "board", "scales", "tub", "bench", "pond", "shelf")),
    (MENDED, "pond"),
]
# Five steps, so that what is more important is plainly larger: notes beside, text, what is asked,
# heads of places, figures. The three figures beside the boat are as large as their column allows;
# on a phone, where they share a line, they are anywhere between text and head, by its breadth.
STEPS = (14, 16, 20, 28, 44)
LARGE = (40, 48)
LARGE_ON_A_PHONE = (20, 28)
LEAST = 14  # letters of a picture, which is as large as its room, are at least so large [px]
LATE = "[data-tub-closed], [data-tub-later], [data-bench-later], [aria-busy=true], .following"
# The boat is drawn anew to fit her room, which is another beside a form.
SETTLED = """() => new Promise((done) => {
  const scene = document.querySelector("svg.scene");
  let [was, still] = ["", 0];  // frames in which she stays as she is
  const look = () => {
    const now = `${scene.getAttribute("viewBox")} ${scene.clientWidth} ${scene.clientHeight}`;
    still = now === was ? still + 1 : 0;
    was = now;
    if (still < 6) requestAnimationFrame(look); else done();
  };
  look();
})"""
CONTRAST = """async () => (await axe.run({ runOnly: ["color-contrast"] })).violations.flatMap(
  (one) => one.nodes.map((node) => node.html.slice(0, 120)))"""


@pytest.fixture(scope="module", params=SIZES, ids=["desk", "phone"])
def pages(
    request: pytest.FixtureRequest, browser: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[dict[str, Seen]]:
    """Yield the page of each boat in a window of one size; nothing may go wrong in it."""
    width, height = request.param
    shelf = Shelf(tmp_path_factory.mktemp("shelf"))
    found: dict[str, Seen] = {}
    with (
        on_a_port(_workshop(shelf, BOUGHT)) as bought,
        on_a_port(_workshop(shelf, MENDED)) as mended,
    ):
        for name, served in ((BOUGHT, bought), (MENDED, mended)):
            found[name] = entered(browser, served, viewport={"width": width, "height": height})
        yield found
        for seen in found.values():
            seen.page.context.close()
    assert [seen.wrong for seen in found.values()] == [[], []]


def _workshop(shelf: Shelf, name: str) -> Workshop:
    shutil.copytree(BOATS / name, shelf.folder / name)
    return Workshop(desk=desk_of(shelf.folder / name / "boat.toml"), shelf=shelf)


def unfold(page: Page) -> None:
    """Open all that folds, and what folds in it, and wait for what stands there."""
    closed = page.locator(".place details:not([open])")
    while closed.count():
        closed.evaluate_all("(folds) => folds.forEach((fold) => { fold.open = true; })")
        expect(page.locator(LATE)).to_have_count(0)
    page.evaluate(SETTLED)


def is_off(one: Letters, large: tuple[int, int]) -> bool:
    """Return whether letters are too small, or of a size between the steps."""
    if one.large and large[0] <= one.size <= large[1]:
        return False
    return one.size < LEAST if one.picture else one.size not in STEPS


def faults(page: Page, part: str) -> list[str]:
    """Return all that is not as it should be to hand and eye."""
    assert page.viewport_size is not None
    large = LARGE if page.viewport_size["width"] > SIZES[1][0] else LARGE_ON_A_PHONE
    there = measured(page)
    found = [f"{one.size} px: {one.what}" for one in there.letters if is_off(one, large)]
    found += [*there.crowded, *there.left_aligned]
    wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
    found += [f"{wide} px too broad"] if wide > 0 else []
    found += page.evaluate(ASKED)
    page.emulate_media(color_scheme="dark")
    found += [f"dark: {one}" for one in page.evaluate(CONTRAST)]
    page.emulate_media(color_scheme="light")
    return [f"{part}: {one}" for one in found]


@pytest.mark.parametrize(("boat", "place"), CASES)
def test_hand_and_eye(pages: dict[str, Seen], boat: str, place: str) -> None:
    """Letters, targets and figures; and WCAG 2.2 A and AA, by axe-core, light and dark."""
    seen, page = pages[boat], pages[boat].page
    page.goto(f"{seen.home}/{place}")
    seen.loaded()
    expect(page.locator(".following")).to_have_count(0)
    unfold(page)
    page.evaluate(AXE)
    found = faults(page, "unfolded")
    if boat == MENDED:
        page.locator("[name=pond-kind][value=sea]").check()
        found += faults(page, "sea")
    adds = page.locator("#door-add button")
    if adds.count():
        adds.first.click()
        page.locator("piece-form").wait_for()
        unfold(page)
        found += faults(page, "form")
        page.get_by_role("button", name=re.compile("^Back to")).click()
        page.locator("piece-form").wait_for(state="detached")
    assert not found, "\n".join(found)


def test_nothing_moves_by_itself_where_that_is_not_wanted(pages: dict[str, Seen]) -> None:
    """CSS Media Queries 5, prefers-reduced-motion."""
    seen = pages[BOUGHT]
    seen.page.emulate_media(reduced_motion="reduce")
    seen.page.goto(f"{seen.home}/tub")
    seen.loaded()
    assert max(seen.page.evaluate(MOVES)) <= 0.01
    seen.page.emulate_media(reduced_motion="no-preference")
