"""The shelf in a browser: a new boat from ten tape readings by mouse and by keyboard, and more."""

import re
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Error, Page, Route, expect
from tests.page.browsing import ASKED, AXE, entered, on_a_port, with_browser
from tests.page.conftest import BOATS
from tests.page.shelves import FIGURES, TAPE, bittern_on_a_shelf, workshop_of

from trimdive.boatfile import load
from trimdive.page.workshop import Workshop

pytestmark = with_browser

READINGS = {key: value for key, value in TAPE.items() if key.startswith("tape-")}


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


def new_boat(page: Page) -> None:
    """Wait until she is on the page, floats and dives; then load the page again."""
    expect(page.locator("h1")).to_have_text("Sanderling")
    expect(page.locator("#note")).to_contain_text("Sanderling is on the shelf")
    expect(page.locator(".figures")).to_contain_text("heavy")
    page.reload()
    expect(page.locator("h1")).to_have_text("Sanderling")
    expect(page.locator("#tape-length")).to_have_value("")


def test_ten_readings_by_mouse(page: Page, workshop: Workshop) -> None:
    page.get_by_role("link", name="Start mine").click()
    expect(page.locator("#new-name")).to_be_focused()
    page.locator("#new-name").fill("Sanderling")
    for number, (key, value) in enumerate(READINGS.items(), 1):
        page.locator(f"#{key}").click()
        page.locator(f"#{key}").press_sequentially(value)
        expect(page.locator(".growing .progress")).to_contain_text(
            f"{number} of 10" if number < 10 else "All 10"
        )
        expect(page.locator(".growing .hull").first).to_be_attached()  # drawn from her length on
    expect(page.locator(".growing .progress")).to_contain_text("of ballast water")
    page.get_by_role("button", name="Add her to the shelf").click()
    new_boat(page)
    boat = load(workshop.desk.path).boat
    assert boat.name == "Sanderling"
    assert (workshop.desk.path.parent / "tape.toml").is_file()
    page.get_by_role("button", name="Open bittern-as-bought").click()
    expect(page.locator("h1")).to_have_text("Bittern as bought")


def test_ten_readings_by_keyboard(page: Page) -> None:
    link = page.get_by_role("link", name="Start mine")
    for _ in range(12):
        page.keyboard.press("Tab")
        if link.evaluate("one => one === document.activeElement"):
            break
    page.keyboard.press("Enter")
    expect(page.locator("#new-name")).to_be_focused()
    page.keyboard.type("Sanderling")
    for key, value in READINGS.items():
        for _ in range(8):
            page.keyboard.press("Enter")
            if page.evaluate("document.activeElement.id") == key:
                break
        page.keyboard.type(value)
    expect(page.locator(".growing .progress")).to_contain_text("All 10")
    page.keyboard.press("Enter")
    expect(page.locator("#new-held")).to_be_focused()
    expect(page.locator("#new-held")).to_have_attribute(
        "placeholder", re.compile(r"guess: \d+ cm³")
    )
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="Add her to the shelf")).to_be_focused()
    page.keyboard.press("Enter")
    new_boat(page)


def test_what_is_wrong_is_told_beside_the_field_as_it_is_typed(page: Page) -> None:
    page.goto(page.url.rstrip("/") + "/shelf")
    for key, value in READINGS.items():
        page.locator(f"#{key}").fill(value)
    field, says = page.locator("#tape-wall-1"), page.locator("#wrong-tape-wall-1")
    field.fill("thick")
    expect(says).to_contain_text("'thick' is not a length")
    assert field.get_attribute("aria-invalid") == "true"
    assert page.locator(".growing .hull").count() > 0, "the last good state stays"
    page.get_by_role("button", name="Add her to the shelf").click()
    expect(page.locator("#note")).to_contain_text("one figure is wrong")
    expect(field).to_have_value("thick")
    field.fill("2.4")
    expect(says).to_be_empty()
    page.reload()
    expect(page.locator("#tape-wall-1")).to_have_value("2.4")
    expect(page.locator(".growing .progress")).to_contain_text("All 10")


def test_four_figures_and_three_sections(page: Page) -> None:
    page.goto(page.url.rstrip("/") + "/shelf")
    page.get_by_label("length, breadth, height").check()
    for key, value in FIGURES.items():
        if key == "new-way":
            continue
        one = page.locator(f"#{key}")
        one.select_option(value) if "shape" in key else one.fill(value)
    expect(page.locator(".growing .tick.under")).to_have_count(3)
    page.get_by_role("button", name="Add her to the shelf").click()
    expect(page.locator("h1")).to_have_text("Dunlin")


def test_variants_side_by_side(page: Page) -> None:
    page.goto(page.url.rstrip("/") + "/shelf")
    page.locator("#variant-name").fill("as he left her")
    page.locator("#variant-name").press("Enter")
    expect(page.locator("#note")).to_contain_text("Saved as variant as-he-left-her")
    page.locator("nav a[data-place=right]").click()
    right = page.locator("nav a[data-place=right] .mark")
    before = right.inner_text()
    page.get_by_role("button", name=re.compile("^Do it")).first.click()
    expect(right).not_to_have_text(before)
    page.locator("nav a[data-place=shelf]").click()
    table = page.locator(".compared")
    expect(table).to_contain_text("winch house: hung left out → -636 g")
    expect(table.locator("td.other").first).to_be_visible()
    page.get_by_role("button", name="Use this one").click()
    expect(right).to_have_text(before)


def test_what_is_missing_stands_beside_its_field_and_moves_none(page: Page) -> None:
    page.goto(page.url.rstrip("/") + "/shelf")
    page.get_by_label("length, breadth, height").check()
    tops = "(all) => all.filter((o) => o.offsetParent).map((o) => o.offsetTop)"
    fields = page.locator(".new-boat .grow:not([type=radio])")
    page.evaluate("document.querySelector('.place').scrollTop = 900")
    before = fields.evaluate_all(tops)
    page.locator("button[value='shelf begin']").click()
    expect(page.locator("#note")).to_contain_text("7 of 7 figures are missing")
    expect(page.locator(".by-figures .wrong:visible")).to_have_count(7)
    page.locator("#figures-length").fill("1050")
    expect(page.locator("#wrong-figures-length")).to_have_text("")
    expect(page.locator("#note")).to_have_text("")
    page.locator("#figures-breadth").fill("12 parrots")
    expect(page.locator("#wrong-figures-breadth")).not_to_have_text("")
    page.locator("#figures-height").focus()
    assert fields.evaluate_all(tops) == before
    wrong = page.locator("#wrong-figures-breadth").bounding_box()
    assert wrong is not None
    for one in page.locator(".by-figures input:visible").all():
        at = one.bounding_box()
        assert at is not None
        assert wrong["x"] >= at["x"] + at["width"], "a note covers a field"


def test_what_is_missing_stays_though_a_look_at_what_was_typed_comes_late(page: Page) -> None:
    held = list[Route]()  # what is on its way, and stays so
    page.goto(page.url.rstrip("/") + "/shelf")
    page.route("**/shelf/growing*", lambda route: held.append(route))
    with page.expect_request("**/shelf/growing*"):
        page.get_by_label("length, breadth, height").check()
    page.locator("button[value='shelf begin']").click()
    wrong = page.locator(".by-figures .wrong:visible")
    expect(wrong).to_have_count(7)
    for one in held:
        with suppress(Error):  # it was given up meanwhile
            one.continue_()
    page.wait_for_timeout(500)
    expect(wrong).to_have_count(7)


def test_a_name_that_is_on_the_shelf_is_asked_again(page: Page) -> None:
    page.goto(page.url.rstrip("/") + "/shelf")
    page.get_by_label("length, breadth, height").check()
    for key, value in FIGURES.items():
        if key not in ("new-way", "new-name"):
            one = page.locator(f"#{key}")
            one.select_option(value) if "shape" in key else one.fill(value)
    page.locator("#new-name").fill("Bittern as bought")
    expect(page.locator(".growing .progress b")).to_have_text("All 7 entered.")
    page.locator("button[value='shelf begin']").click()
    expect(page.locator("#wrong-new-name")).to_contain_text("on the shelf already")
    assert page.locator("#figures-length").input_value() == FIGURES["figures-length"]
    page.locator("#new-name").fill("Bittern as bought too")
    page.locator("button[value='shelf begin']").click()
    expect(page.locator("h1")).to_have_text("Bittern as bought too")


def test_a_file_is_chosen_or_dropped(page: Page, tmp_path: Path) -> None:
    page.goto(page.url.rstrip("/") + "/shelf")
    photo = tmp_path / "photo.jpg"
    photo.write_bytes(b"\xff\xd8")
    page.locator("#bring").set_input_files(photo)
    expect(page.locator("#note")).to_contain_text("no boat can be read from a file of this kind")
    page.wait_for_load_state("load")  # slowly read, it is told on a page that is loaded anew
    page.locator("svg.scene[viewBox]").wait_for()
    page.locator("#bring").set_input_files(BOATS / "grebe" / "lines.csv")
    expect(page.locator("h1")).to_have_text("lines")
    page.locator("svg.scene[viewBox]").wait_for()
    text = (BOATS / "grebe" / "lines.csv").read_text("utf-8")
    page.evaluate(
        """(text) => {
      const data = new DataTransfer();
      data.items.add(new File([text], "dropped.csv"));
      document.querySelector("#bring").dispatchEvent(
        new DragEvent("drop", { dataTransfer: data, bubbles: true, cancelable: true }));
    }""",
        text,
    )
    expect(page.locator("h1")).to_have_text("dropped")


HUGE = """() => {
  const file = new File(["x"], "huge.zip");
  Object.defineProperty(file, "size", { value: 300 * 2 ** 20 });
  const event = new Event("drop", { bubbles: true, cancelable: true });
  event.dataTransfer = { files: [file] };
  document.querySelector("#bring").dispatchEvent(event);
}"""


def test_a_huge_file_is_told_before_it_is_sent(page: Page) -> None:
    page.goto(page.url.rstrip("/") + "/shelf")
    page.locator("svg.scene[viewBox]").wait_for()
    page.evaluate(HUGE)
    expect(page.locator("#note")).to_contain_text("huge.zip: it is larger than 256 MB")


def test_the_brief_by_keyboard(page: Page, workshop: Workshop) -> None:
    page.goto(page.url.rstrip("/") + "/shelf")
    field = page.locator("[id='field-brief.lift_limit']")
    field.focus()
    page.keyboard.type("20 kg")
    page.keyboard.press("Enter")
    expect(page.locator("#note")).to_contain_text("Done")
    expect(field).to_be_focused()
    page.get_by_role("button", name="cold sea", exact=True).press("Enter")
    pressed = page.get_by_role("button", name="cold sea", exact=True)
    expect(pressed).to_have_attribute("aria-pressed", "true")
    brief = workshop.desk.her.boat.brief
    assert brief is not None
    assert (brief.lift_limit, brief.waters) == (20.0, ("cold sea",))
    field.fill("heavy")
    field.press("Enter")
    expect(page.locator(".wrong", has_text="heavy")).to_be_visible()


def test_nobody_is_shut_out_of_variants_and_a_wrong_reading(
    browser: Browser, tmp_path: Path
) -> None:
    """WCAG 2.2 A and AA, by axe-core; and nothing runs out of a narrow window."""
    workshop = workshop_of(tmp_path)
    with on_a_port(workshop) as served:
        seen = entered(browser, served, viewport={"width": 400, "height": 800})
        page = seen.page
        page.goto(page.url.rstrip("/") + "/shelf")
        page.locator("#variant-name").fill("one")
        page.locator("#variant-name").press("Enter")
        expect(page.locator(".compared")).to_be_visible()
        for key, value in list(READINGS.items())[:4]:
            page.locator(f"#{key}").fill(value)
        page.locator("#tape-girth-4").fill("x")
        expect(page.locator("#wrong-tape-girth-4")).not_to_be_empty()
        assert page.evaluate("document.documentElement.scrollWidth") <= 400
        page.evaluate(AXE)
        assert page.evaluate(ASKED) == []
        page.context.close()
    assert seen.wrong == []
