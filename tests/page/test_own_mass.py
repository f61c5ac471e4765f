"""A mass typed over a guess is the builder's own: by a cell, by the form, by a key in the list."""

import tomllib
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from tests.larger_tube import BATTERY, new_boat
from tests.page.browsing import entered, with_browser
from tests.page.conftest import OWN, Page, page_of
from tests.page.entering import Form

from trimdive.page.desk import Desk
from trimdive.page.guard import Keys


@pytest.fixture
def new(tmp_path: Path) -> Page:
    """Return the page of a boat that is all guesses."""
    file = tmp_path / "boat.toml"
    file.write_text(new_boat(), "utf-8")
    return page_of(file).enter()


def typed(page: Page, field: str, text: str) -> str:
    """Type into a field, as the page's own script sends it, and return the page then."""
    body = {"field": field, "typed": text, "revision": str(page.desk.revision)}
    answer = page.client.post("/edit", data=body, headers=OWN | {"hx-request": "true"})
    assert answer.status_code == 200, answer.text
    return answer.text


def stands(page: Page, path: str = BATTERY) -> dict[str, str]:
    """Return a part as it stands in the boat file now."""
    number = int(path.partition("[")[2].rstrip("]"))
    return tomllib.loads(page.desk.written()[0])["part"][number - 1]


def spread(page: Page, path: str = BATTERY) -> float:
    return next(one.spread for one in page.desk.her.masses.entries if one.path == path)


def test_typed_over_a_guess_it_is_weighed(new: Page) -> None:
    assert stands(new)["known"] == "guess"
    before = spread(new)
    html = typed(new, f"{BATTERY}.mass", "260 g")
    assert stands(new)["known"] == "weighed"
    assert spread(new) < before, "no larger than before, though the mass is five times as large"
    assert "battery: mass 260 g, weighed" in html
    typed(new, f"{BATTERY}.known", "guess")  # whoever guesses himself says so
    assert stands(new) | {"known": "guess", "mass": "260 g"} == stands(new)


def test_what_is_known_otherwise_stays_so(new: Page) -> None:
    typed(new, f"{BATTERY}.known", "catalogue")
    typed(new, f"{BATTERY}.mass", "260 g")
    assert stands(new)["known"] == "catalogue"
    typed(new, "part[2].mass", "")
    assert stands(new, "part[2]")["known"] == "guess", "none was typed"


def test_in_the_form_too(new: Page) -> None:
    form = Form(new.press(f"entry edit {BATTERY}", place="scales"))
    new.press("entry save", place="scales", **form.typed(mass="260 g"))
    assert stands(new)["known"] == "weighed"
    form = Form(new.press("entry edit part[3]", place="scales"))
    new.press("entry save", place="scales", **form.typed(mass="120 g", known="catalogue"))
    assert stands(new, "part[3]")["known"] == "catalogue", "as it was chosen"


@with_browser
@pytest.mark.parametrize("known", ["guess", "catalogue", "worked out"])
def test_w_comes_to_weighed_first(
    browser: Browser, served: tuple[Desk, str, Keys], known: str
) -> None:
    """In a list a letter goes to the next word that begins with it, from where one is."""
    seen = entered(browser, served)
    seen.page.locator("a[data-place=scales]").click()
    cell = seen.page.locator(f'[data-field="{BATTERY}.known"]')
    cell.select_option(known)
    expect(cell).to_have_value(known)
    expect(seen.page.locator("#note")).to_contain_text(known)
    cell.focus()
    seen.page.keyboard.press("w")
    expect(cell).to_have_value("weighed")
    assert seen.wrong == []
