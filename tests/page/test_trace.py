"""A plan traced on the Drawing board: Grebe from her own plan, drawn by a script, on the page.

Her volume is that of the surface laid through her table of offsets.
"""

import io
import json
import time
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from zipfile import ZipFile

import numpy as np
import pytest
from PIL import Image
from playwright.sync_api import Browser, Locator, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, on_a_port, with_browser
from tests.page.conftest import OWN, Page, desk_of, page_of
from tests.plans.drawing import (
    GREBE,
    Floats,
    Hull,
    Laid,
    Map,
    grebe,
    ink,
    laid,
    pinhole,
    saved,
    scanned,
)
from tests.plans.marked import whole

from trimdive.boatfile import OutlineRegion
from trimdive.geometry.lines import loft, read_table, volume
from trimdive.geometry.lines.outline import outlined
from trimdive.geometry.lines.outline_given import outline_of
from trimdive.page.bringing import arrived
from trimdive.page.tracing import asked_plan, open_plan
from trimdive.plans.marks import written

STATIONS = (0.0, 0.19, 0.52, 1.04, 1.3)  # sections that are traced [m]
SOON = 600  # tenths of a second within which a picture is read
ALONG, ROUND = 9, 8  # clicks along a line, and round a section
BOAT = """format = 1
name = "Petrel"
scale = "1:28"
length = "1300 mm"

[units]
length = "mm"
mass = "g"
volume = "cm3"

[waterline]
height = "90 mm"

[[region]]
name = "hull"
surface = "outline"
length = 1300
breadth = 110
height = 120
material = "GRP"
thickness = "2 mm"
profile = [{ x = 0, keel = 40, deck = 120 }, { x = 1300, keel = 40, deck = 130 }]
breadths = [{ x = 650, half = 55 }]
section = [{ x = 300, shape = "oval" }, { x = 650, shape = "oval" }, { x = 1000, shape = "oval" }]
"""


@dataclass(frozen=True)
class Drawn:
    """Grebe's plan in a picture."""

    plan: Laid
    seen: Map
    png: bytes


@cache
def drawn() -> Drawn:
    """Return Grebe's plan as a scanner sees it, laid in crooked, with its axes."""
    whole = grebe()
    apart = {x: one for x, one in whole.sections.items() if x != 0.78}  # it lies on another's
    plan = laid(Hull(whole.keel, whole.deck, whole.half, apart))
    return inked(plan, *scanned(plan, 0.0005, 0.02, 1.01))


@cache
def photographed() -> Drawn:
    """Return Grebe's plan as a camera sees it that is held aslant over it."""
    size = (3600, 2700)
    return inked(drawn().plan, pinhole(drawn().plan, size, (14.0, -9.0, 3.0)), size)


def inked(plan: Laid, seen: Map, size: tuple[int, int]) -> Drawn:
    """Return a plan in a picture, with its axes."""
    corners = plan.corners()
    sides = [np.linspace(a, b, 300) for a, b in zip(corners, np.roll(corners, -1, 0), strict=True)]
    (x, z), (xp, zp), (xb, zb) = plan.profile, plan.plan, plan.body
    axes = [
        [(x - 0.03, z), (x - 0.005, z)],  # the keel line, drawn beside the hull alone
        [(xp - 0.01, zp), (xp + 1.31, zp)],
        [(xb - 0.2, zb), (xb + 0.2, zb)],
        [(xb, zb - 0.02), (xb, zb + 0.02)],
    ]
    lines = [*plan.curves().values(), *sides, *(np.array(axis) for axis in axes)]
    return Drawn(plan, seen, saved(ink(size, [seen(line) for line in lines])))


class Hand:
    """A hand that traces: it clicks at places of the sheet."""

    def __init__(self, seen: Seen, shown: Drawn | None = None) -> None:
        """Open the tracer with Grebe's plan, as it was scanned or otherwise."""
        self.seen, self.page, self.shown = seen, seen.page, shown or drawn()
        self.tracer = self.page.locator("plan-tracer")
        self.marks = self.page.locator(".trace-marks")

    def bring(self, name: str, data: bytes) -> None:
        """Bring a picture, or what is to be none."""
        self.page.goto(f"{self.seen.home}/board")
        self.seen.loaded()
        fold = self.page.locator("#fold-board-trace")
        if not fold.evaluate("fold => fold.open"):
            fold.locator("summary").click()
        kind = "application/octet-stream"
        self.page.locator("#bring-plan").set_input_files(
            {"name": name, "mimeType": kind, "buffer": data}
        )

    def ready(self) -> None:
        """Wait until the plan is there."""
        self.page.locator(".trace-room.ready").wait_for()

    def settled(self) -> None:
        """Wait until all that was asked is answered."""
        self.tracer.evaluate("room => room.queue")

    def at(self, place: Floats) -> tuple[float, float]:
        """Return where a place of the sheet is seen in the window."""
        x, y = self.shown.seen(np.asarray(place, dtype=np.float64).reshape(1, 2))[0].tolist()
        found = self.tracer.evaluate("(room, at) => room.picture.to(at)", {"x": x, "y": y})
        box = self.marks.bounding_box()
        assert box is not None
        return box["x"] + found["x"], box["y"] + found["y"]

    def look(self, low: Floats, high: Floats) -> None:
        """Zoom to a part of the sheet."""
        corners = self.shown.seen(np.array([low, high])).tolist()
        self.tracer.evaluate(
            """(room, [low, high]) => {
              const { picture } = room;
              const span = [Math.abs(high[0] - low[0]), Math.abs(high[1] - low[1])];
              picture.zoom = Math.min(picture.wide / span[0], picture.high / span[1]) * 0.9;
              picture.x = (low[0] + high[0]) / 2 - picture.wide / picture.zoom / 2;
              picture.y = (low[1] + high[1]) / 2 - picture.high / picture.zoom / 2;
              picture.changed();
            }""",
            corners,
        )

    def click(self, *places: Floats) -> None:
        """Click at places, each taken in before the next."""
        for place in places:
            self.page.mouse.click(*self.at(place))
            self.settled()

    def choose(self, key: str) -> None:
        """Say what is marked next; the step in which it stands is opened."""
        button = self.page.locator(f'[data-thing="{key}"]')
        if not button.is_visible():
            button.locator("xpath=ancestor::details/summary").click()
            self.settled()
        button.click()
        self.settled()

    def field(self, key: str) -> Locator:
        """Return a figure's field."""
        return self.page.locator(f"#trace-{key}")

    def type(self, key: str, text: str) -> None:
        """Type a figure."""
        self.field(key).fill(text)
        self.field(key).press("Enter")
        self.settled()

    def lie(self) -> None:
        """Say how the plan lies, by its frame."""
        corners = drawn().plan.corners()
        across, high = (corners[2] - corners[0]).tolist()
        self.click(corners[0], corners[1])
        expect(self.page.locator(".trace-asks b")).to_have_text("Length along")
        self.click(corners[0], corners[1])
        expect(self.field("along-1")).to_be_focused()
        self.type("along-1", f"{1e3 * across:.1f}")
        self.click(corners[0], corners[3])
        expect(self.field("up-1")).to_be_focused()
        self.type("up-1", f"{1e3 * high:.1f}")
        self.choose("check")
        self.click(corners[0], corners[2])
        self.type("check", f"{1e3 * np.hypot(across, high):.1f} mm")
        expect(self.page.locator(".trace-note")).to_contain_text("as it should")

    def lie_by_points(self) -> None:
        """Say how a photographed plan lies, by the corners of its frame."""
        self.page.locator("#trace-lie").select_option("photo")
        self.settled()
        places = drawn().plan.corners()
        for number, place in enumerate(places, 1):
            self.choose(f"corner-{number}")
            self.click(place)
            self.type(f"corner-{number}-x", f"{1e3 * (place - places[0])[0]:.1f}")
            self.type(f"corner-{number}-z", f"{1e3 * (place - places[0])[1]:.1f}")

    def views(self) -> None:
        """Say where each view is."""
        plan = drawn().plan
        self.choose("profile")
        profile, half = np.array(plan.profile), np.array(plan.plan)
        deck = plan.hull.deck
        self.click(deck[0] + profile, deck[-1] + profile, profile - (0.02, 0.0))
        expect(self.page.locator(".trace-asks b")).to_have_text("Half-breadth plan")
        self.click(half, half + np.array((1.3, 0.0)))
        self.click(np.array(plan.body))
        self.type("larger", "2")

    def lines(self) -> None:
        """Trace every line."""
        plan = drawn().plan
        curves = plan.curves()
        for key in ("keel", "deck", "half"):
            self.choose(key)
            self.click(*evenly(curves[key], ALONG))
        body = np.array(plan.body)
        self.look(body - (0.16, 0.03), body + np.array((0.16, 0.33)))
        for number, x in enumerate(STATIONS, 1):
            self.choose("section")
            self.click(*evenly(curves[f"section {x}"][:-1], ROUND))
            self.type(f"section-{number}", f"{1e3 * x:g} mm")


def with_plan(seen: Seen) -> Hand:
    """Return the page with the plan brought and shown."""
    hand = Hand(seen)
    hand.bring("plan.png", drawn().png)
    hand.ready()
    return hand


def evenly(line: Floats, count: int) -> Floats:
    """Return so many points of a line, both ends among them."""
    return line[np.linspace(0, len(line) - 1, count).astype(int)]


@pytest.fixture
def petrel(tmp_path: Path) -> Path:
    """Return the boat file of a hull that nobody has measured."""
    file = tmp_path / "boat.toml"
    file.write_text(BOAT, "utf-8")
    return file


@with_browser
def test_grebe_from_her_own_plan(browser: Browser, petrel: Path) -> None:
    with on_a_port(desk_of(petrel)) as served:
        hand = Hand(entered(browser, served))
        hand.bring("lines of Grebe.png", drawn().png)
        hand.ready()
        hand.lie()
        hand.views()
        hand.lines()
        page, desk = hand.page, hand.seen.desk
        expect(page.locator("#trace-sum")).to_contain_text("Encloses 11")
        expect(page.locator("#trace-apart summary")).to_contain_text("Views disagree at")
        page.locator("#trace-where").select_option(label="hull")
        page.get_by_role("button", name="Take these lines").click()
        expect(page.locator("#note")).to_contain_text("lines of hull from the plan")
        region = desk.own.her.boat.regions[0]
        assert isinstance(region, OutlineRegion)
        true = volume(loft(read_table(GREBE.read_text("utf-8"), "lines.csv")))
        assert volume(outlined(outline_of(region))) == pytest.approx(true, rel=0.01)
        assert region.thickness == pytest.approx(0.002)  # what was entered of her skin stays
        page.get_by_role("button", name="Undo", exact=True).click()
        expect(page.locator("#note")).to_contain_text("Undone")
        before = desk.own.her.boat.regions[0]
        assert isinstance(before, OutlineRegion)
        assert before.breadth == pytest.approx(0.11)  # in one step
        assert hand.seen.wrong == []


@with_browser
def test_a_photograph_is_straightened_by_four_points(browser: Browser, petrel: Path) -> None:
    """A pinhole of our own, held 17° aslant: her volume within a hundredth all the same."""
    with on_a_port(desk_of(petrel)) as served:
        hand = Hand(entered(browser, served), photographed())
        hand.bring("aslant.png", photographed().png)
        hand.ready()
        hand.lie_by_points()
        hand.views()
        hand.lines()
        hand.page.get_by_role("button", name="Take these lines").click()
        expect(hand.page.locator("#note")).to_contain_text("lines of hull from the plan")
        region = hand.seen.desk.own.her.boat.regions[0]
        assert isinstance(region, OutlineRegion)
        true = volume(loft(read_table(GREBE.read_text("utf-8"), "lines.csv")))
        assert volume(outlined(outline_of(region))) == pytest.approx(true, rel=0.01)
        assert hand.seen.wrong == []


@with_browser
def test_marks_stay_over_all_that_happens_and_are_moved_by_keys(
    browser: Browser, petrel: Path
) -> None:
    with on_a_port(desk_of(petrel)) as served:
        hand = with_plan(entered(browser, served))
        hand.lie()
        kept = petrel.with_name("plan-plan.json")
        before = json.loads(kept.read_bytes())
        hand.page.reload()
        hand.ready()
        expect(hand.page.locator("[data-point^='level']")).to_have_count(2)
        hand.choose("level")
        point = hand.page.locator("[data-point='level 1']")
        point.focus()
        hand.page.keyboard.press("Shift+ArrowRight")
        hand.page.keyboard.press("ArrowUp")
        hand.settled()
        moved = json.loads(kept.read_bytes())["points"]["level"]
        was = before["points"]["level"]
        assert moved[1][:2] == pytest.approx([was[1][0] + 10.0, was[1][1] - 1.0], abs=0.011)
        expect(point).to_be_focused()
        hand.page.keyboard.press("Tab")  # the first of another thing is no stop
        expect(point).not_to_be_focused()
        hand.page.get_by_role("button", name="Undo mark").click()
        hand.settled()
        hand.page.get_by_role("button", name="Undo mark").click()
        hand.settled()
        assert json.loads(kept.read_bytes()) == before
        point.focus()
        hand.page.keyboard.press("Delete")
        hand.settled()
        assert len(json.loads(kept.read_bytes())["points"]["level"]) == 1
        hand.page.get_by_role("button", name="Back to Drawing board").click()
        expect(hand.page.locator("#fold-board-trace")).to_be_visible()
        hand.page.get_by_role("button", name="Open plan").click()
        hand.ready()
        expect(hand.page.locator("[data-point^='level']")).to_have_count(1)
        assert hand.seen.wrong == []


@with_browser
def test_all_is_marked_by_keys_alone_and_nobody_is_shut_out(browser: Browser, petrel: Path) -> None:
    with on_a_port(desk_of(petrel)) as served:
        hand = with_plan(entered(browser, served))
        page = hand.page
        hand.marks.focus()
        for _ in range(4):
            page.keyboard.press("Shift+ArrowDown")  # from the keel to where there is no ink
        page.keyboard.press("Enter")
        hand.settled()
        bare = page.locator(".trace-marks .point.bare")
        expect(bare).to_have_attribute("aria-label", "Level line, point 1 of 2, no ink under it")
        page.keyboard.press("+")
        page.keyboard.press("Home")
        page.evaluate(AXE)
        assert page.evaluate(ASKED) == []
        assert hand.seen.wrong == []


@with_browser
def test_a_point_is_dragged_to_the_ink(browser: Browser, petrel: Path) -> None:
    with on_a_port(desk_of(petrel)) as served:
        hand = with_plan(entered(browser, served))
        corners = drawn().plan.corners()
        off = corners[0] + (corners[2] - corners[0]) * 0.02
        hand.click(off)
        expect(hand.page.locator(".trace-marks .point.bare")).to_have_count(1)
        hand.page.mouse.move(*hand.at(off))
        hand.page.mouse.down()
        middle = corners[0] + (corners[1] - corners[0]) * 0.5
        hand.page.mouse.move(*hand.at(middle + np.array((0.0, 0.003))), steps=5)
        hand.page.mouse.up()
        hand.settled()
        expect(hand.page.locator(".trace-marks .point.bare")).to_have_count(0)
        table = asked_plan(hand.seen.desk)
        at = table.marks.of("level")[0].at
        x, y = drawn().seen(middle[None])[0].tolist()
        assert at[1] == pytest.approx(y + (at[0] - x) * slope(corners), abs=0.5)


def slope(corners: Floats) -> float:
    """Return how fast the frame's lower side falls in the picture."""
    (x, y), (right, down) = drawn().seen(corners[:2]).tolist()
    return (down - y) / (right - x)


@with_browser
def test_a_pdf_with_pages_and_a_password_loses_nothing(browser: Browser, petrel: Path) -> None:
    with on_a_port(desk_of(petrel)) as served:
        hand = Hand(entered(browser, served))
        page = hand.page
        hand.bring("not a plan.png", b"this is no picture")
        expect(page.locator(".trace-brought .wrong")).to_contain_text("no picture that can be read")
        page.get_by_role("button", name="Leave it out").click()
        expect(page.locator(".trace-brought")).to_have_count(0)
        hand.bring("sheets.pdf", pdf(3))
        expect(page.locator(".trace-brought .wrong")).to_contain_text("Choose one, from 1 to 3")
        page.locator("#plan-page").fill("9")
        page.get_by_role("button", name="Read it").click()
        expect(page.locator(".trace-brought .wrong")).to_contain_text("There is no page 9")
        page.locator("#plan-page").fill("2")
        page.get_by_role("button", name="Read it").click()
        hand.ready()
        expect(page.locator(".trace-bar h2")).to_have_text("sheets, page 2")
        (plan,) = hand.seen.desk.own.her.boat.plans
        assert (petrel.parent / plan.file).read_bytes().startswith(b"\x89PNG")


def pdf(pages: int) -> bytes:
    """Return a PDF with a line on every page, written by Pillow."""
    grey = Image.fromarray(np.full((300, 400), 250, np.uint8))
    held = io.BytesIO()
    grey.save(held, "PDF", save_all=True, append_images=[grey] * (pages - 1))
    return held.getvalue()


def test_without_a_browser_what_cannot_be_is_refused_in_a_sentence(petrel: Path) -> None:
    page = page_of(petrel).enter()
    asked = page.client.post("/trace", data={"do": "add", "x": "1", "y": "1"}, headers=OWN)
    assert asked.status_code == 409
    assert "no plan is open" in asked.text
    brought(page)
    for typed, says in (
        ({"do": "add", "x": "nan", "y": "1"}, "A mark is no place in the picture"),
        ({"do": "add", "x": "here", "y": "1"}, "A mark is no place in the picture"),
        ({"do": "move", "key": "level", "number": "7", "x": "1", "y": "1"}, "That point is gone"),
        ({"do": "choose", "key": "nose"}, "Nothing is called"),
        ({"do": "type", "key": "lie", "typed": "painted"}, "There is no choice"),
        ({"do": "dance"}, "That is nothing to be done on a picture"),
    ):
        answer = page.client.post("/trace", data=typed, headers=OWN)
        assert answer.status_code == 200
        assert says in str(answer.json()["state"]["refused"])
    assert not petrel.with_name("plan-plan.json").exists()
    says = page.press("board plan-take", place="board", **{"trace-where": "1"})
    assert "The lines do not make a hull yet" in says
    petrel.with_name("plan-plan.png").unlink()
    page.desk.kept.clear()
    assert "the picture is not there" in page.press("board plan-open 1", place="board")


def brought(page: Page) -> None:
    """Bring Grebe's plan, and wait until it is open."""
    sent = OWN | {"x-name": "plan.png"}
    page.client.post("/board/plan?revision=1", content=drawn().png, headers=sent)
    for _ in range(SOON):
        if open_plan(page.desk):
            return
        time.sleep(0.1)
    pytest.fail("it takes too long")


def test_a_plan_goes_along_with_the_boat(petrel: Path) -> None:
    page = page_of(petrel).enter()
    brought(page)
    page.client.post("/trace", data={"do": "add", "x": "9", "y": "9"}, headers=OWN)
    assert "half-breadth plan is not traced" in page.press("board plan-behind 1", place="board")
    kept = petrel.with_name("plan-plan.json")
    before = kept.read_bytes()
    kept.write_bytes(written(whole()))  # by another program
    page.press("board plan-behind 1", place="board")
    assert 'class="under"' in page.client.get("/board/drawing").text
    kept.write_bytes(before)
    page.press("shelf variant", place="shelf", **{"variant-name": "slim"})
    other = petrel.parent / "variants" / "slim"
    for name in ("plan-plan.png", "plan-plan.json"):
        assert (other / name).read_bytes() == (petrel.parent / name).read_bytes()
    held = io.BytesIO()
    with ZipFile(held, "w") as packed:
        for file in other.iterdir():
            packed.write(file, file.name)
    found = arrived("slim.zip", held.getvalue())
    assert {"plan-plan.png", "plan-plan.json"} <= set(found.brought.files)
    (other / "plan-plan.png").unlink()  # and she is whole without it
    assert desk_of(other / "boat.toml").own.her.boat.plans[0].name == "plan"
