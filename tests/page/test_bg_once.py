"""BG beside the figures and in the drawing is one figure, at every moment."""

import pytest
from playwright.sync_api import Browser, expect
from tests.page.browsing import entered, on_a_port, with_browser
from tests.page.conftest import BOATS, desk_of

SLIDE = """(one, to) => {
  one.value = to;
  for (const sign of ["input", "change"]) one.dispatchEvent(new Event(sign, { bubbles: true }));
}"""


@with_browser
@pytest.mark.parametrize("name", ["plover", "grebe"])
def test_the_drawing_has_the_same_bg(browser: Browser, name: str) -> None:
    with on_a_port(desk_of(BOATS / name / "boat.toml")) as served:
        seen = entered(browser, served, viewport={"width": 1366, "height": 768})
        page = seen.page
        for filling in ("0.31", "0.83", "0.97", "1"):
            with page.expect_response("**/state?*"):
                page.locator("input[name=filling]").evaluate(SLIDE, filling)
            expect(page.locator(".words[aria-busy]")).to_have_count(0)
            large = page.locator(".figures .large").nth(2).inner_text()
            expect(page.locator("svg.scene")).to_contain_text(f"BG {large}".replace("−", "-"))
        page.context.close()
    assert seen.wrong == []
