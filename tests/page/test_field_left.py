"""A field of a form is looked at as it is left: a sentence beside it, and nothing is lost."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Route, expect
from tests.larger_tube import new_boat
from tests.page.browsing import entered, on_a_port, with_browser
from tests.page.conftest import OWN, Page, desk_of, page_of
from tests.page.entering import Form

TOP = "document.activeElement.getBoundingClientRect().top"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Return the boat file of a new boat with a plant."""
    found = tmp_path / "boat.toml"
    found.write_text(new_boat(), "utf-8")
    return found


def left(page: Page, path: str, piece: str, **typed: str) -> str:
    """Return what is said beside a field that is left."""
    form = Form(page.press(f"entry edit {piece}", place="bench"))
    assert form.is_there
    sent = form.typed(**typed) | {"left": f"entry:{path}"}
    answer = page.client.post("/field", data=sent, headers=OWN)
    assert answer.status_code == 200, answer.text
    return answer.json()["says"]


def test_the_sentence_for_a_field_that_is_left(file: Path) -> None:
    page = page_of(file).enter()
    before = page.desk.written()[0]
    says = left(page, "outside", "cylinder[1]", outside="75 g")
    assert "75 g" in says
    assert "length" in says
    assert left(page, "outside", "cylinder[1]", outside="75 mm") == ""
    assert left(page, "outside", "cylinder[1]", outside="") == "", "it may still be typed"
    assert left(page, "wall", "cylinder[1]", outside="75 g") == "", "of another field nothing"
    assert page.desk.written()[0] == before, "nothing is saved"


@with_browser
def test_it_stands_beside_the_field_while_one_goes_on(browser: Browser, file: Path) -> None:
    with on_a_port(desk_of(file)) as served:
        seen = entered(browser, served)
        page = seen.page
        page.locator("a[data-place=bench]").click()
        page.locator("#door-edit > summary").click()
        page.locator("button[value='entry edit cylinder[1]']").first.click()
        field = page.locator("#entry-outside")
        field.fill("75 g")
        page.keyboard.press("Tab")
        wrong = page.locator("#wrong-entry-outside")
        expect(wrong).to_contain_text("75 g")
        expect(field).to_have_attribute("aria-invalid", "true")
        expect(field).to_have_value("75 g")
        assert page.evaluate("document.activeElement.id") != "entry-outside", "one goes on"
        for text in ("75 mm", "75 g"):  # the note goes, and comes again
            field.fill(text)
            page.keyboard.press("Tab")
            top = page.evaluate(TOP)
            expect(wrong).to_be_visible(visible=text == "75 g")
            assert abs(page.evaluate(TOP) - top) <= 1, "the field in hand stays where it is"
        field.fill("75 mm")
        page.keyboard.press("Tab")
        expect(wrong).to_be_hidden()
        seen.page.context.close()
    assert seen.wrong == []


@with_browser
def test_a_field_that_is_left_before_its_script_has_come_is_looked_at_too(
    browser: Browser, file: Path
) -> None:
    with on_a_port(desk_of(file)) as served:
        seen = entered(browser, served)
        page, held = seen.page, list[Route]()  # what is on its way, and stays so
        page.route("**/places/entry.js", lambda route: held.append(route))
        page.locator("a[data-place=bench]").click()
        page.locator("#door-edit > summary").click()
        page.locator("button[value='entry edit cylinder[1]']").first.click()
        page.locator("#entry-outside").fill("75 g")
        page.keyboard.press("Tab")
        page.wait_for_function("() => document.activeElement.id !== 'entry-outside'")
        assert held, "it was asked for"
        for one in held:
            one.continue_()
        expect(page.locator("#wrong-entry-outside")).to_contain_text("75 g")
        seen.page.context.close()
    assert seen.wrong == []


@with_browser
def test_a_form_with_typed_figures_is_not_left_without_asking(browser: Browser, file: Path) -> None:
    with on_a_port(desk_of(file)) as served:
        seen = entered(browser, served)
        page = seen.page
        page.goto(f"{seen.home}/bench")
        page.locator("#door-edit > summary").click()
        page.locator("button[value='entry edit cylinder[1]']").first.click()
        page.locator("#entry-outside").fill("75 mm")
        back = page.get_by_role("button", name="Back to Bench")
        back.click()
        expect(page.locator("#entry-ask")).to_contain_text("What is typed here is not saved.")
        page.get_by_role("button", name="Go on typing").click()
        expect(page.locator("#entry-outside")).to_have_value("75 mm")
        back.click()
        page.get_by_role("button", name="Leave without them").click()
        expect(page.locator("piece-form")).to_have_count(0)
        seen.page.context.close()
    assert seen.wrong == []


@pytest.mark.parametrize("deed", ["save", "cancel"])
def test_what_was_sent_before_a_form_closed_does_not_open_it_again(file: Path, deed: str) -> None:
    """A field looked at, and a place gone to, may be answered after the form itself."""
    page = page_of(file).enter()
    form = Form(page.press("entry edit cylinder[1]", place="bench"))
    sent = form.typed(outside="91 mm")
    assert not Form(page.press(f"entry {deed}", place="bench", **sent)).is_there
    page.client.post("/field", data=sent | {"left": "entry:outside"}, headers=OWN)
    late = page.client.get("/bench", params=sent, headers={"hx-request": "true"})
    assert not Form(late.text).is_there
    assert not Form(page.client.get("/bench").text).is_there
    again = Form(page.press("entry edit cylinder[1]", place="bench"))
    assert again.is_there
    went = page.client.get("/scales", params=again.typed(**sent), headers={"hx-request": "true"})
    assert not Form(went.text).is_there
    assert Form(page.client.get("/bench").text).is_there, "opened again it stays where it is left"
