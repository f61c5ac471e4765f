"""A boat from nothing to her pond card on the page alone: once by mouse, once by keys."""

from collections.abc import Iterator
from math import pi
from pathlib import Path
from typing import Protocol

import pytest
from playwright.sync_api import Browser, Locator, Page, expect
from tests.page.browsing import entered, on_a_port, with_browser
from tests.page.shelves import FIGURES, workshop_of

from trimdive.boatfile import Boat, load
from trimdive.page.workshop import Workshop

pytestmark = with_browser
FAR = 60  # as many keys of Tab, from one thing that is done to the next, are too many [-]
WEIGHTS = 20  # parts that are put on the scale, beside cylinder and paint [-]
LIGHTER = {"battery": 14, "motor and gear": 10}  # than the guess [g]
FAILURES = ("signal_lost", "battery_low", "leak", "too_deep")
IS_THERE = "one => one === document.activeElement"


class Hand(Protocol):
    """What a builder does to the page."""

    page: Page

    def go(self, place: str) -> None:
        """Go to a place, and into it."""

    def press(self, button: Locator) -> None:
        """Press a button, or the heading of a fold."""

    def fill(self, field: str, text: str) -> None:
        """Type into a field, in place of what is there."""

    def choose(self, field: str, option: str) -> None:
        """Choose in a list."""

    def one_of(self, name: str, value: str) -> None:
        """Choose one of several ways."""

    def tick(self, field: str) -> None:
        """Tick a box."""

    def save(self) -> None:
        """Save the form that is open."""

    def weigh(self, masses: dict[str, str]) -> None:
        """Type masses into the weight table, cell by cell, and say that they are weighed."""


def by_id(page: Page, named: str) -> Locator:
    """Return what has an id, whatever stands in it."""
    return page.locator(f'[id="{named}"]')


class Mouse:
    """By mouse; the keys only for what is typed."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def go(self, place: str) -> None:
        """Press its name."""
        self.press(self.page.locator(f'.places a[data-place="{place}"]'))
        expect(self.page.locator(f"section.place.{place}")).to_be_visible()

    def press(self, button: Locator) -> None:
        """Click it."""
        button.click()

    def fill(self, field: str, text: str) -> None:
        """Select what is there, and type."""
        by_id(self.page, field).click(click_count=3)
        self.page.keyboard.type(text)
        expect(by_id(self.page, field)).to_have_value(text)

    def choose(self, field: str, option: str) -> None:
        """Choose by what it is called."""
        by_id(self.page, field).select_option(label=option)

    def one_of(self, name: str, value: str) -> None:
        """Click it."""
        self.page.locator(f'[name="{name}"][value="{value}"]').click()

    def tick(self, field: str) -> None:
        """Click it."""
        by_id(self.page, field).click()

    def save(self) -> None:
        """Click Save."""
        self.press(self.page.get_by_role("button", name="Save", exact=True))

    def weigh(self, masses: dict[str, str]) -> None:
        """Type each, and press one button for all."""
        for field, text in masses.items():
            self.fill(f"field-{field}", text)
        self.press(self.page.get_by_role("button", name="All weighed"))
        expect(self.page.locator("#note")).to_contain_text("masses weighed")


class Keys:
    """By keys alone: nothing is clicked, filled or focused but by pressing them."""

    def __init__(self, page: Page) -> None:
        self.page = page
        page.add_init_script("addEventListener('pointerdown', () => { throw new Error('mouse'); })")
        page.reload()
        page.locator("svg.scene[viewBox]").wait_for()

    def to(self, wanted: Locator) -> None:
        """Go on by Tab until it has the focus."""
        expect(wanted).to_be_visible()
        for _ in range(FAR):
            if wanted.evaluate(IS_THERE):
                return
            self.page.keyboard.press("Tab")
        pytest.fail(f"{wanted} is not reached by {FAR} keys")

    def go(self, place: str) -> None:
        """Escape to the bar, press its name, and once it is shown again to go in."""
        self.page.keyboard.press("Escape")
        shown = self.page.locator(f"section.place.{place}")
        if not shown.is_visible():
            self.press(self.page.locator(f'.places a[data-place="{place}"]'))
            expect(shown).to_be_visible()
        self.press(self.page.locator(f'.places a[data-place="{place}"]'))
        expect(self.page.locator(f".place.{place} :focus")).to_have_count(1)

    def press(self, button: Locator) -> None:
        """Press Enter on it."""
        self.to(button)
        self.page.keyboard.press("Enter")

    def fill(self, field: str, text: str) -> None:
        """Select what is there, and type."""
        self.to(by_id(self.page, field))
        self.page.keyboard.press("Control+a")
        self.page.keyboard.type(text)

    def choose(self, field: str, option: str) -> None:
        """Type what it is called."""
        self.to(by_id(self.page, field))
        self.page.keyboard.type(option)

    def one_of(self, name: str, value: str) -> None:
        """Go to it with the arrow keys."""
        self.to(self.page.locator(f'[name="{name}"]:checked'))
        self.page.keyboard.press("ArrowDown")
        expect(self.page.locator(f'[name="{name}"][value="{value}"]')).to_be_checked()

    def tick(self, field: str) -> None:
        """Press the space bar on it."""
        self.to(by_id(self.page, field))
        self.page.keyboard.press("Space")

    def save(self) -> None:
        """Press Enter in the field last typed into."""
        self.page.keyboard.press("Enter")

    def weigh(self, masses: dict[str, str]) -> None:
        """Go down the column; W says that it is weighed, and goes on to the row below."""
        self.to(self.page.locator(".weights tbody [data-field$='.mass']").first)
        for field, text in masses.items():
            while not by_id(self.page, f"field-{field}").evaluate(IS_THERE):
                self.page.keyboard.press("ArrowDown")
            self.page.keyboard.type(f"{text}w")


@pytest.fixture
def workshop(tmp_path: Path) -> Workshop:
    """Return a shelf with a small boat on it."""
    return workshop_of(tmp_path)


@pytest.fixture
def page(browser: Browser, workshop: Workshop) -> Iterator[Page]:
    """Yield its page; afterwards nothing may have gone wrong in it."""
    with on_a_port(workshop) as served:
        seen = entered(browser, served, viewport={"width": 1366, "height": 768})
        yield seen.page
        seen.page.context.close()
    assert seen.wrong == []


def describe(hand: Hand) -> None:
    """Describe her on the Shelf: a hull, one cylinder, and a piston tank for a litre."""
    hand.go("shelf")
    hand.one_of("new-way", "figures")
    for field, text in FIGURES.items():
        if field != "new-way":
            (hand.choose if "shape" in field else hand.fill)(field, text)
    hand.choose("new-cylinders", "one")
    hand.choose("new-tank", "piston tank")
    hand.fill("new-held", "1 L")
    hand.choose("new-plant", "piston on a screw")
    hand.press(hand.page.get_by_role("button", name="Add her to the shelf"))
    expect(hand.page.locator("h1")).to_have_text("Dunlin")
    expect(hand.page.locator("#note")).to_contain_text("She floats and dives")


def opened(hand: Hand, place: str, named: str) -> None:
    """Open the form of a piece over a place."""
    hand.go(place)
    expect(hand.page.locator("#door-edit[open]")).to_have_count(0)
    hand.press(hand.page.locator("#door-edit summary"))
    hand.press(hand.page.get_by_role("button", name=named, exact=True))
    expect(hand.page.locator("piece-form")).to_be_visible()


def saved(hand: Hand, says: str) -> None:
    """Save the form that is open."""
    hand.save()
    expect(hand.page.locator("piece-form")).to_have_count(0)
    expect(hand.page.locator("#note")).to_contain_text(says)


def masses_of(boat: Boat) -> dict[str, str]:
    """Return what the scale shows of paint, cylinder and parts, by the field of each [g]."""
    found = [("coat[1].mass", boat.coats[0]), ("cylinder[1].mass", boat.cylinders[0])]
    found += [(f"part[{k}].mass", one) for k, one in enumerate(boat.parts[:WEIGHTS], 1)]
    return {
        field: f"{round((one.mass or 0.0) * 1e3) - LIGHTER.get(one.name, 0)}"
        for field, one in found
    }


def close_her(hand: Hand) -> None:
    """Enter the caps of her cylinder, their ring, and what holds them on."""
    page = hand.page
    opened(hand, "bench", "Edit cylinder cylinder")
    hand.press(page.locator("#fold-caps summary"))
    hand.tick("entry-caps")
    hand.fill("entry-caps.thickness", "11 mm")
    hand.fill("entry-caps.material", "acetal")
    hand.press(page.get_by_role("button", name="Add a row to Rings that seal it").first)
    expect(by_id(page, "entry-caps.rings[1].sort")).to_be_focused()
    hand.fill("entry-caps.rings[1].number", "338")
    hand.fill("entry-caps.rings[1].depth", "4 mm")
    hand.fill("entry-caps.rings[1].width", "7.1 mm")
    hand.press(page.locator("#fold-closing summary"))
    hand.tick("entry-closing")
    hand.choose("entry-closing.by", "screws")
    hand.fill("entry-closing.count", "4")
    hand.fill("entry-closing.diameter", "2.4 mm")
    saved(hand, "Done: cylinder")


def make(hand: Hand, workshop: Workshop) -> dict[str, str]:
    """Make her, until her pond card is shown; return what was weighed, by field [g]."""
    describe(hand)
    opened(hand, "board", "Edit region tower")
    hand.fill("entry-z_top", "250 mm")
    saved(hand, "Done: tower")
    masses = masses_of(workshop.desk.her.boat)
    hand.go("scales")
    hand.weigh(masses)
    close_her(hand)
    opened(hand, "bench", "Edit failsafe")
    for failure in FAILURES:
        hand.choose(f"entry-{failure}", "come up")
    hand.fill("entry-too_deep_at", "2.5 m")
    saved(hand, "failsafe")
    hand.go("pond")
    expect(hand.page.locator(".place.pond")).to_contain_text("nothing to change")
    expect(hand.page.locator(".place.pond .dial")).to_be_visible()
    return masses


def holds_all_of_that(boat: Boat, masses: dict[str, str]) -> None:
    """See that a boat file holds what was typed."""
    (cylinder,), (tank,), (plant,) = boat.cylinders, boat.tanks, boat.plants
    assert (tank.kind, tank.inside) == ("piston", cylinder.name)
    room = pi / 4 * tank.bore**2 * tank.stroke * (1 - tank.lost)  # of a cylinder, less fittings
    assert room == pytest.approx(1e-3, rel=0.01)
    assert (plant.kind, plant.tanks) == ("piston", (tank.name,))
    tower = next(one for one in boat.regions if one.name == "tower")
    assert getattr(tower, "z_top", None) == pytest.approx(0.25)
    weighed = [boat.coats[0], cylinder, *boat.parts[:WEIGHTS]]
    assert [one.mass for one in weighed] == pytest.approx([float(m) / 1e3 for m in masses.values()])
    assert [one.name for one in weighed if one.known != "weighed"] == []
    assert cylinder.caps is not None
    assert cylinder.closing is not None
    assert (cylinder.caps.thickness, cylinder.caps.rings[0].number) == (pytest.approx(0.011), "338")
    assert (cylinder.closing.by, cylinder.closing.count) == ("screws", 4)
    assert boat.failsafe is not None
    assert {getattr(boat.failsafe, failure) for failure in FAILURES} == {"come up"}
    assert boat.failsafe.too_deep_at == pytest.approx(2.5)


@pytest.mark.parametrize("by", [Mouse, Keys], ids=["mouse", "keys"])
def test_a_boat_from_nothing_to_her_pond_card(
    page: Page, workshop: Workshop, by: type[Mouse | Keys]
) -> None:
    masses = make(by(page), workshop)
    holds_all_of_that(load(workshop.desk.path).boat, masses)
