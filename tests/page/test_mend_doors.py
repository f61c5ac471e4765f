"""Every thing to put right has a button: its change, or a door to where it is put right."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect
from tests.larger_tube import FIGURES, typed_over
from tests.page.browsing import entered, on_a_port, with_browser
from tests.page.conftest import BOATS, Page, desk_of, page_of
from tests.page.entering import Form

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import parse
from trimdive.page.entries.mending import MendDoor
from trimdive.page.rows import Row, causes

NAMES = sorted(folder.name for folder in BOATS.iterdir() if (folder / "boat.toml").is_file())
COUNTS = range(0, len(FIGURES) + 1, 3)


def urgent(her: Assessment) -> list[Row]:
    """Return what must be put right of her, in the water and on the bench."""
    found = [*causes(her.boat, her.findings), *causes(her.boat, her.bench_findings)]
    return [row for row in found if row.is_urgent]


def without(found: Sequence[Row]) -> list[str]:
    """Return what has no button at all."""
    return [row.what for row in found if not row.is_doable and row.door is None]


@pytest.mark.parametrize("name", NAMES)
def test_each_has_a_button_on_the_demo_boats(name: str) -> None:
    assert without(urgent(assess(BOATS / name))) == []


@pytest.mark.parametrize("count", COUNTS)
def test_each_has_a_button_as_a_new_boat_is_typed_over(count: int) -> None:
    her = Assessment(boat=parse(typed_over(count)), files={})
    found = urgent(her)
    assert found
    assert without(found) == []


def opens(page: Page, door: MendDoor) -> bool:
    """Return whether a door leads where it says: a form, or a fold of a place."""
    if door.sends:
        return Form(page.press(f"entry {door.sends}", place="right")).is_there
    html = page.client.get(f"/{door.place}", headers={"hx-request": "true"}).text
    return f'id="fold-tub-{door.fold}"' in html


def test_each_door_opens(tmp_path: Path) -> None:
    file = tmp_path / "boat.toml"
    doors: set[tuple[str, str]] = set()
    for count in COUNTS:
        file.write_text(typed_over(count), "utf-8")
        page = page_of(file).enter()
        for row in urgent(page.desk.her):
            if row.door and (row.door.sends, row.door.fold) not in doors:
                doors.add((row.door.sends, row.door.fold))
                assert opens(page, row.door) or row.door.place == "scales", row.what
    assert {fold for _, fold in doors} >= {"placing", ""}
    assert any(sends.startswith("edit ") for sends, _ in doors)


@with_browser
def test_too_little_gm_leads_to_lead_and_foam(browser: Browser, tmp_path: Path) -> None:
    """By a press: the Tub, with that fold open and in sight."""
    file = tmp_path / "boat.toml"
    file.write_text(typed_over(0), "utf-8")
    with on_a_port(desk_of(file)) as served:
        seen = entered(browser, served)
        button = seen.page.locator(".findings > li").first.locator("button.do")
        expect(button).to_have_text("Lead and foam")
        button.click()
        fold = seen.page.locator("#fold-tub-placing")
        expect(fold.locator("summary").first).to_be_focused()
        expect(fold.get_by_role("button", name="Place her")).to_be_in_viewport()
        seen.page.context.close()
    assert seen.wrong == []
