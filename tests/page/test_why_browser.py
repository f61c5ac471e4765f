"""Why, words and units in a browser, by mouse, by keyboard and by touch."""

import re

import pytest
from playwright.sync_api import Browser, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, with_browser
from tests.page.conftest import BOATS

from trimdive.page.desk import Desk
from trimdive.page.guard import Keys
from trimdive.text.whys import QUESTIONS

pytestmark = with_browser
FIGURES = ("trim", "light-or-heavy", "bg")
FOCUS = "document.activeElement.dataset.why ?? document.activeElement.textContent"


def test_each_large_figure_tells_why(seen: Seen) -> None:
    for number, key in enumerate(FIGURES):
        seen.page.locator(f"button.why[data-why={key}]").click()
        panel = seen.page.locator("#why")
        expect(panel.locator("h2")).to_have_text(QUESTIONS[key])
        expect(panel.locator(".why-answer")).to_contain_text(seen.value(number))
        expect(panel.locator(".formula")).to_be_visible()
        seen.page.keyboard.press("Escape")
        expect(panel).to_be_hidden()
        assert seen.page.evaluate(FOCUS) == key, "the focus is where it was"


def test_why_follows_the_slider(seen: Seen) -> None:
    seen.slide(0.9)
    answer = seen.value()
    assert answer != "12.4°"
    seen.page.locator("button.why[data-why=trim]").click()
    expect(seen.page.locator(".why-answer")).to_have_text(answer)


def test_why_by_keyboard_alone_and_asked_again(seen: Seen) -> None:
    offset = seen.page.locator(".findings > li").filter(has_text="Tank water 41.4 mm too far")
    own = offset.locator(".mend button.why").first
    key = own.get_attribute("data-why")
    own.focus()
    seen.page.keyboard.press("Enter")
    panel = seen.page.locator("#why")
    expect(panel.locator("h2")).to_be_focused()
    first = panel.locator("h2").inner_text()
    for _ in range(9):  # past what closes it and the words that are explained
        seen.page.keyboard.press("Tab")
        if seen.page.evaluate("document.activeElement.matches('#why button.why')"):
            break
    seen.page.keyboard.press("Enter")
    expect(panel.locator("h2")).not_to_have_text(first)
    expect(panel.locator(".why-answer")).to_have_text("134 mm")
    seen.page.keyboard.press("Tab")  # close
    seen.page.keyboard.press("Shift+Tab")
    seen.page.keyboard.press("Shift+Tab")  # over the heading, back
    seen.page.locator(".why-back").press("Enter")
    expect(panel.locator("h2")).to_have_text(first)
    seen.page.keyboard.press("Escape")
    assert seen.page.evaluate(FOCUS) == key


def test_a_finding_tells_why(seen: Seen) -> None:
    answer = "Tank water 41.4 mm too far forward"
    of_it = seen.page.locator(".findings > li").filter(has_text=answer)
    of_it.locator(".mend button.why").first.click()
    panel = seen.page.locator("#why")
    expect(panel.locator(".why-answer")).to_contain_text(answer)
    expect(panel).to_contain_text("the limit")
    panel.locator("button.why").click()
    expect(panel.locator(".why-answer")).to_have_text("134 mm")


def test_whatever_asks_why_on_any_place_is_answered(seen: Seen) -> None:
    """Each key that stands on a place is asked once, as a press of its button would."""
    asked: set[str] = set()
    keys = "[...document.querySelectorAll('button.why')].map((one) => one.dataset.why)"
    for link in seen.page.locator("nav.places a[data-place]").all():
        place = link.get_attribute("data-place")
        link.click()
        seen.page.locator(f"section.place.{place}").wait_for()
        asked |= set(seen.page.evaluate(keys))
    assert len(asked) > 5
    for key in sorted(asked):
        text = seen.page.evaluate(
            "async ([home, key]) =>"
            " (await fetch(`${home}/why?key=${encodeURIComponent(key)}`)).text()",
            [seen.home, key],
        )
        assert 'id="why-title"' in text, (key, text[:200])


def test_a_figure_that_she_has_not_is_told(seen: Seen) -> None:
    seen.page.evaluate("document.querySelector('button.why').dataset.why = 'no-such'")
    seen.page.locator("button.why").first.click()
    expect(seen.page.locator("#note")).to_contain_text("there is no figure 'no-such'")
    expect(seen.page.locator("#why")).to_be_hidden()
    seen.wrong.clear()  # the browser notes an answer of 409 itself


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [400, 1400])
def test_nobody_is_shut_out_of_the_panel(
    browser: Browser, served: tuple[Desk, str, Keys], scheme: str, width: int
) -> None:
    """WCAG 2.2 A and AA, by axe-core; and the panel stays on the screen."""
    seen = entered(browser, served, color_scheme=scheme, viewport={"width": width, "height": 800})
    for key in FIGURES:
        seen.page.locator(f"button.why[data-why={key}]").click()
        seen.page.locator("#why h2").wait_for()
        box = seen.page.locator("#why").bounding_box()
        assert box
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= width
        assert box["y"] + box["height"] <= 800
        seen.page.evaluate(AXE)
        assert seen.page.evaluate(ASKED) == []
        seen.page.keyboard.press("Escape")
    seen.page.context.close()
    assert seen.wrong == []


def test_words_open_by_mouse_keyboard_and_escape(seen: Seen) -> None:
    word, meaning = seen.page.locator("button.term").first, seen.page.locator("#meaning")
    expect(meaning).to_be_hidden()
    word.hover()
    expect(meaning).to_contain_text("The angle bow down or stern down")
    meaning.hover()
    expect(meaning).to_be_visible()
    seen.page.keyboard.press("Escape")
    expect(meaning).to_be_hidden()
    seen.page.locator("button.why").first.focus()
    seen.page.keyboard.press("Shift+Tab")
    expect(word).to_be_focused()
    expect(meaning).to_be_visible()
    assert word.get_attribute("aria-describedby") == "meaning"
    seen.page.keyboard.press("Tab")
    expect(meaning).to_be_hidden()


def test_words_open_by_touch(browser: Browser, served: tuple[Desk, str, Keys]) -> None:
    found = entered(browser, served, has_touch=True, viewport={"width": 400, "height": 800})
    found.page.locator("button.term").nth(2).tap()
    expect(found.page.locator("#meaning")).to_contain_text(
        "How far the centre of buoyancy is above the centre of gravity"
    )
    found.page.locator("h1").tap()
    expect(found.page.locator("#meaning")).to_be_hidden()
    found.page.context.close()
    assert found.wrong == []


@pytest.fixture
def inches(seen: Seen) -> Seen:
    """Return the page in inches and ounces."""
    seen.page.locator("#units").select_option("inches")
    expect(seen.page.locator(".figures .large").nth(2)).to_have_text("0.33 in")
    return seen


def test_the_whole_page_in_inches(inches: Seen) -> None:
    assert inches.value(1) == "12.93 oz"
    expect(inches.page.locator(".about")).to_contain_text("59.0 °F")
    text = inches.page.locator("main").inner_text()
    assert "in³" in text
    assert not re.search(r"\d (mm|g|cm³)\b", re.sub(r"\d+ mm (holes|vent)", "", text))
    inches.page.reload()
    expect(inches.page.locator("#units")).to_have_value("inches")
    assert inches.value(1) == "12.93 oz"
    inches.page.locator("#units").select_option("")
    expect(inches.page.locator(".figures .large").nth(1)).to_have_text("367 g")


def test_units_never_reach_the_file(inches: Seen) -> None:
    before = (BOATS / "bittern-as-bought" / "boat.toml").read_text("utf-8")
    inches.page.get_by_role("button", name="Do it").first.click()
    expect(inches.page.locator("#note")).to_contain_text("Done")
    inches.page.keyboard.press("Control+s")
    expect(inches.page.locator("button.save")).to_have_text("Saved")
    text = inches.desk.path.read_text("utf-8")
    assert text != before
    assert not re.search(r"\d in\b|\boz\b|in³", text)
    assert inches.desk.file_units.length == "mm"
    inches.page.get_by_role("button", name="Undo").click()
    expect(inches.page.locator(".figures .large").nth(1)).to_have_text("12.93 oz")


def test_a_field_says_in_which_unit_a_bare_number_counts(inches: Seen) -> None:
    expect(inches.page.locator(".bare")).to_have_text("typed: mm, g, cm³, °C")
    inches.page.locator("nav a[data-place=board]").click()
    region = inches.page.locator("section.board details", has=inches.page.locator("input.field"))
    region.first.locator("summary").first.click()
    name, field = (
        region.first.locator(f"input[data-field='region[1].{one}']")
        for one in ("name", "thickness")
    )
    name.focus()
    field.focus()
    expect(field).to_have_attribute("title", re.compile("in the file's unit: mm, g, cm³, °C"))
    expect(name).not_to_have_attribute("title", re.compile("unit"))


def test_another_window_has_the_same_units(seen: Seen) -> None:
    """Both windows of one browser read alike as soon as they are looked at."""
    other = seen.page.context.new_page()
    other.goto(f"{seen.home}/")
    other.locator("#units").select_option("inches")
    expect(other.locator(".figures .large").nth(1)).to_have_text("12.93 oz")
    seen.page.bring_to_front()
    seen.page.evaluate("dispatchEvent(new Event('focus'))")
    expect(seen.page.locator(".figures .large").nth(1)).to_have_text("12.93 oz")
    other.close()


def test_switching_is_quick(seen: Seen) -> None:
    """What was worked out stays: only what is written is made anew."""
    own = seen.desk.own.her
    seen.page.locator("#units").select_option("inches")
    expect(seen.page.locator(".figures .large").nth(1)).to_have_text("12.93 oz")
    assert seen.desk.her is not own
    assert seen.desk.her.down is own.down
    assert seen.desk.her.floater is own.floater
    assert [one.key for one in seen.desk.her.findings] == [one.key for one in own.findings]
