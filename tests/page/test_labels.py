"""Words in the drawing and on the track: none over another, none struck through, all inside.

Every demo boat at five sizes of window and four moments of the dive, by rectangles and by the
lines that are drawn.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page
from tests.page.browsing import entered, on_a_port, with_browser
from tests.page.conftest import desk_of

pytestmark = with_browser
BOATS = ("bittern", "bittern-as-bought", "grebe", "grebe-as-bought", "plover", "plover-as-bought")
SIZES = ((1366, 768), (1440, 900), (1920, 1080), (1024, 768), (400, 850))

# Each moment is shown; then where words stand is held against each other, the window of their
# picture, and points along all that is drawn boldly in it.
CHECKED = """async () => {
  const one = (selector) => document.querySelector(selector);
  const dive = JSON.parse(one("script.dive").text);
  const slider = one("input[name=filling]");
  const settled = () => new Promise((done) =>
    requestAnimationFrame(() => requestAnimationFrame(done)));
  const seen = (within) => [...one(within).querySelectorAll("text")].filter((text) =>
    text.textContent && text.getBoundingClientRect().width &&
    text.checkVisibility({ visibilityProperty: true }));
  const edge = 0.5; // of a pixel, that rounding takes
  const found = [];
  let count = 0;
  const points = (path) => {
    const matrix = path.getScreenCTM();
    const whole = path.getTotalLength();
    const long = whole * Math.hypot(matrix.a, matrix.b);
    const steps = Math.min(400, Math.max(8, Math.ceil(long / 4)));
    return Array.from({ length: steps + 1 }, (_, i) =>
      path.getPointAtLength((i / steps) * whole).matrixTransform(matrix));
  };
  const bold = {
    ".scene": ".silhouette path, .skins path, .vessels path, .sea .top, .boat .thing path",
    ".track": ".curves path, .axis, .neutral path, .bands path",
  };
  for (const at of slider ? [0, 0.5, dive.neutral ?? 0.8, 1] : [0]) {
    if (slider) {
      slider.value = at;
      slider.dispatchEvent(new Event("input", { bubbles: true }));
    }
    await settled();
    for (const [picture, lines] of Object.entries(bold)) {
      if (!one(picture)) continue;
      const window = one(picture).getBoundingClientRect();
      const words = seen(picture).map((text) =>
        ({ says: text.textContent, box: text.getBoundingClientRect() }));
      count += words.length;
      words.forEach(({ says, box }, i) => {
        if (box.left < window.left - edge || box.right > window.right + edge ||
            box.top < window.top - edge || box.bottom > window.bottom + edge) {
          found.push(`${at}: "${says}" runs out of ${picture}`);
        }
        for (const other of words.slice(i + 1)) {
          if (box.left < other.box.right && other.box.left < box.right &&
              box.top < other.box.bottom && other.box.top < box.bottom) {
            found.push(`${at}: "${says}" lies over "${other.says}"`);
          }
        }
      });
      for (const path of document.querySelectorAll(`${picture} :is(${lines})`)) {
        if (!path.getTotalLength || !path.checkVisibility() || !path.getAttribute("d")) continue;
        const through = words.find(({ box }) => points(path).some(({ x, y }) =>
          x > box.left + 1 && x < box.right - 1 && y > box.top + 2 && y < box.bottom - 2));
        const by = path.outerHTML.slice(0, 60);
        if (through) found.push(`${at}: "${through.says}" is struck through by ${by}`);
      }
      const knob = one(".track .knob")?.getBoundingClientRect();
      for (const { says, box } of picture === ".track" ? words : []) {
        if (knob && box.left < knob.right && knob.left < box.right &&
            box.top < knob.bottom && knob.top < box.bottom) {
          found.push(`${at}: "${says}" lies under the handle`);
        }
      }
    }
  }
  return { found, count };
}"""


def shown(page: Page, size: tuple[int, int]) -> None:
    """Make the window that large, and wait until she is drawn in it."""
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.evaluate("() => new Promise((done) => requestAnimationFrame(() => setTimeout(done, 60)))")


@pytest.mark.parametrize("name", BOATS)
def test_words_collide_with_nothing(
    browser: Browser, copied: Callable[[str], Path], name: str
) -> None:
    with on_a_port(desk_of(copied(name))) as served:
        seen = entered(browser, served)
        for size in SIZES:
            shown(seen.page, size)
            answered = seen.page.evaluate(CHECKED)
            assert answered["found"] == [], size
            assert answered["count"] >= 16, "words of four moments were looked at"
        seen.page.context.close()
        assert seen.wrong == []
