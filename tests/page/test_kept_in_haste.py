"""Typed in haste while answers come late: all of it counts, and none of it is written over."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Route, expect
from tests.page.browsing import Seen, entered, with_browser

from trimdive.page.desk import Desk
from trimdive.page.guard import Keys

pytestmark = with_browser
BETWEEN = 300  # from one mass to the next [ms]
MASSES = ["701 g", "702 g", "703 g", "704 g", "705 g", "706 g"]
SAVED = """() => {
  window.told = [];
  new MutationObserver(() => window.told.push(document.querySelector("button.save").textContent))
    .observe(document.body, { subtree: true, childList: true, characterData: true });
}"""


class Held:
    """Answers that are held back until they are let go."""

    def __init__(self, seen: Seen) -> None:
        self.routes: list[Route] = []
        self.page = seen.page
        seen.page.route("**/edit", lambda route: self.routes.append(route))

    def wait(self) -> Route:
        """Return the next that is asked for, once it is."""
        for _ in range(1200):
            if self.routes:
                return self.routes.pop(0)
            self.page.wait_for_timeout(100)
        raise AssertionError("nothing was asked for")

    def answer(self, count: int = 1) -> None:
        """Let the next ones go, each when it is asked for, and wait until each is shown."""
        for _ in range(count):
            route = self.wait()
            with self.page.expect_response("**/edit"):
                route.continue_()


@pytest.fixture
def seen(browser: Browser, served: tuple[Desk, str, Keys]) -> Iterator[Seen]:
    found = entered(browser, served)
    found.desk.is_keeping = True
    found.page.goto(f"{found.home}/scales")
    found.page.locator("weight-list").wait_for()
    yield found
    found.page.context.close()
    assert found.wrong == []


def cell(number: int, field: str = "mass") -> str:
    return f"[id='field-part[{number}].{field}']"


def type_into(seen: Seen, number: int, text: str) -> None:
    """Type as hands do: into the field, by keys."""
    seen.page.locator(cell(number)).click()
    seen.page.keyboard.press("Control+A")
    seen.page.keyboard.type(text)


def masses(seen: Seen, count: int = len(MASSES)) -> list[float]:
    return [round(1000 * (one.mass or 0)) for one in seen.desk.own.her.boat.parts[:count]]


def test_what_was_not_answered_when_the_page_is_loaded_anew_is_kept(seen: Seen) -> None:
    held, page = Held(seen), seen.page
    for number, text in enumerate(MASSES, 1):
        type_into(seen, number, text)
        if number == 1:
            expect(page.locator("button.save")).to_have_text("Save")
            page.evaluate(SAVED)
        page.keyboard.press("Enter")
        page.wait_for_timeout(BETWEEN)
    expect(page.locator("button.save")).to_have_text("Saving")
    held.answer(2)
    expect(page.locator("button.save")).to_have_text("Saving")
    assert "Saved" not in page.evaluate("window.told")
    held.wait()  # on its way, and never there
    page.unroute("**/edit")
    page.reload()
    for number, text in enumerate(MASSES, 1):
        expect(page.locator(cell(number))).to_have_value(text)
    expect(page.locator("button.save")).to_have_text("Saved")
    assert masses(seen) == [701, 702, 703, 704, 705, 706]
    assert len(seen.desk.steps) == 1 + len(MASSES), "each once"


def test_what_was_not_answered_when_the_page_is_closed_is_kept(seen: Seen) -> None:
    held, page = Held(seen), seen.page
    for number, text in enumerate(MASSES, 1):
        type_into(seen, number, text)
        page.keyboard.press("Enter")
    type_into(seen, 1, "710 g")
    page.keyboard.press("Enter")
    held.answer()
    held.wait()
    other = page.context.new_page()
    page.close()
    for _ in range(1200):
        if masses(seen)[-1] == 706 and masses(seen)[0] == 710:
            break
        other.wait_for_timeout(100)
    assert masses(seen) == [710, 702, 703, 704, 705, 706]


def test_saved_is_said_when_all_is_answered_and_not_before(seen: Seen) -> None:
    held, page = Held(seen), seen.page
    type_into(seen, 1, "701 g")
    expect(page.locator("button.save")).to_have_text("Save")
    page.keyboard.press("Enter")
    expect(page.locator("button.save")).to_have_text("Saving")
    expect(page.locator("button.save")).to_be_disabled()
    held.answer()
    expect(page.locator("button.save")).to_have_text("Saved")


def test_corrected_before_the_answer_the_correction_stands(seen: Seen) -> None:
    held, page = Held(seen), seen.page
    field = page.locator(cell(1))
    type_into(seen, 1, "50 g")
    page.keyboard.press("Enter")
    type_into(seen, 1, "75")
    held.answer()
    expect(page.locator("#note")).to_contain_text("50 g")
    expect(field).to_have_value("75")
    expect(field).to_be_focused()
    page.keyboard.type("0 g")
    expect(field).to_have_value("750 g")
    page.keyboard.press("Enter")
    held.answer()
    expect(page.locator("#note")).to_contain_text("750 g")
    expect(field).to_have_value("750 g")
    assert masses(seen, 1) == [750]


def test_a_late_refusal_takes_nothing_that_is_typed(seen: Seen) -> None:
    held, page = Held(seen), seen.page
    field = page.locator(cell(1))
    type_into(seen, 1, "9 3/4 in")
    page.keyboard.press("Enter")
    type_into(seen, 1, "7")
    held.answer()
    expect(page.locator(".weights .wrong")).to_contain_text("9 3/4 in")
    page.keyboard.type("50 g")
    expect(field).to_have_value("750 g")
    page.keyboard.press("Enter")
    held.answer()
    expect(page.locator(".weights .wrong")).to_have_count(0)
    assert masses(seen, 1) == [750]


def test_a_refusal_stays_with_its_field_and_goes_when_that_is_right(seen: Seen) -> None:
    held, page = Held(seen), seen.page
    type_into(seen, 1, "abc")
    page.keyboard.press("Enter")
    type_into(seen, 2, "7")
    held.answer()
    expect(page.locator(".weights .wrong")).to_contain_text("abc")
    expect(page.locator(cell(2))).to_be_focused()
    page.keyboard.type("02 g")
    page.keyboard.press("Enter")
    held.answer()
    expect(page.locator("#note")).to_contain_text("702 g")
    assert masses(seen, 2)[1] == 702
    expect(page.locator(cell(1))).to_have_value("abc")
    expect(page.locator(cell(1))).to_have_attribute("aria-invalid", "true")
    expect(page.locator("td:has([id='field-part[1].mass']) .wrong")).to_have_count(1)
    type_into(seen, 1, "701 g")
    page.keyboard.press("Enter")
    held.answer()
    expect(page.locator(".weights .wrong")).to_have_count(0)
    expect(page.locator(cell(1))).to_have_value("701 g")
    assert masses(seen, 2) == [701, 702]


def test_there_and_back_again_is_there_again(seen: Seen) -> None:
    held = Held(seen)
    for text in ("701 g", "760 g", "701 g"):
        type_into(seen, 1, text)
        seen.page.keyboard.press("Enter")
    held.answer(3)
    expect(seen.page.locator("button.save")).not_to_have_text("Saving")
    assert masses(seen, 1) == [701]
