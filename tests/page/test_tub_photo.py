"""A photograph of Plover afloat becomes readings: brought, clicked, recorded, on the page.

The picture is painted by a pinhole of the tests' own, which knows how she lies in it.
"""

import shutil
from pathlib import Path

import numpy as np
from playwright.sync_api import Browser, expect
from tests.page.browsing import ASKED, AXE, Seen, entered, on_a_port, with_browser
from tests.page.conftest import BOATS, desk_of
from tests.photographs.pinhole import (
    Floats,
    Pinhole,
    pinhole,
    plane_of,
    seen_edge,
    waters_edge,
)
from tests.photographs.rendered import painted

DRAUGHT, TRIM, HEEL = 0.078, np.deg2rad(-0.8), np.deg2rad(0.6)
UP = np.array([0.0, 0.0, 1.0])
CLICKS = 9


class Hand:
    """A hand that clicks at places of the picture."""

    def __init__(self, seen: Seen) -> None:
        """Take the photograph that is open."""
        self.seen, self.page = seen, seen.page
        self.tracer = self.page.locator("plan-tracer")

    def settled(self) -> None:
        """Wait until all that was asked is answered."""
        self.tracer.evaluate("room => room.queue")

    def click(self, x: float, y: float) -> None:
        """Look at a place of the picture, twice as large as it is, and click it."""
        self.tracer.evaluate(
            """(room, [x, y]) => { const { picture } = room; picture.zoom = 2;
              picture.x = x - picture.wide / 4; picture.y = y - picture.high / 4;
              picture.changed(); }""",
            [x, y],
        )
        found = self.tracer.evaluate("(room, at) => room.picture.to(at)", {"x": x, "y": y})
        box = self.page.locator(".trace-marks").bounding_box()
        assert box is not None
        self.page.mouse.click(box["x"] + found["x"], box["y"] + found["y"])
        self.settled()

    def type(self, key: str, text: str) -> None:
        """Type a figure."""
        field = self.page.locator(f"#trace-{key}")
        field.fill(text)
        field.press("Enter")
        self.settled()

    def point(self, number: int, at: Floats, place: Floats) -> None:
        """Click a point, and enter how far along and how high it is."""
        self.click(*at.tolist())
        expect(self.page.locator(f"#trace-point-{number}-x")).to_be_focused()
        self.type(f"point-{number}-x", f"{1e3 * place[0]:.1f}")
        expect(self.page.locator(f"#trace-point-{number}-z")).to_be_focused()
        self.type(f"point-{number}-z", f"{1e3 * place[2]:.1f}")


def taken(envelope: Floats, places: Floats) -> tuple[Pinhole, bytes, Floats]:
    """Return the camera, its picture, and where the water's edge is clicked in it."""
    n, d = plane_of(DRAUGHT, TRIM, HEEL, 0.36)
    about = np.array([0.36, 0.0, 0.08])
    camera = pinhole(about, np.deg2rad(80.0), np.deg2rad(6.0), 2.2, 0.8, 0.72, roll=0.01)
    edge = camera.sees(seen_edge(camera, envelope, n, d))
    ends = edge[:, 0].min(), edge[:, 0].max()
    rows = [int(np.abs(edge[:, 0] - u).argmin()) for u in np.linspace(*ends, CLICKS + 2)[1:-1]]
    return camera, painted(camera, envelope, n, d, places), edge[rows]


def known_places(corners: Floats) -> Floats:
    """Return places on Plover that a builder can measure: two on her port side, her highest."""
    found = []
    for x, z in ((0.15, 0.080), (0.62, 0.084)):
        points, _ = waters_edge(corners, UP, z)
        near = np.abs(points[:, 0] - x) < 0.01
        found.append([x, points[near, 1].max(), z])
    every = corners.reshape(-1, 3)
    high = every[every[:, 2] > every[:, 2].max() - 1e-6]
    return np.array([*found, [high[:, 0].mean(), 0.0, high[0, 2]]])


@with_browser
def test_a_photograph_becomes_readings(browser: Browser, tmp_path: Path) -> None:
    """Two points, nine clicks, a third point; recorded, told, recorded again, undone."""
    shutil.copytree(BOATS / "plover", tmp_path / "plover")
    desk = desk_of(next((tmp_path / "plover").glob("*.toml")))
    corners = desk.her.hull.envelope.corners
    places = known_places(corners)
    camera, picture, clicks = taken(corners, places)
    with on_a_port(desk) as served:
        seen = entered(browser, served)
        page, hand = seen.page, Hand(seen)
        page.goto(f"{seen.home}/tub?tub.at=read")
        seen.loaded()
        bring(page.locator("#bring-photo"), "no picture.jpg", b"a letter")
        expect(page.locator(".tub-photos .wrong")).to_contain_text("no picture that can be read")
        bring(page.locator("#bring-photo"), "port side.jpg", picture)
        page.locator(".trace-room.ready").wait_for()
        at = camera.sees(places)
        hand.point(1, at[0], places[0])
        hand.point(2, at[1], places[1])
        expect(page.locator(".trace-asks b")).to_have_text("Waterline")
        for click in clicks:
            hand.click(*click.tolist())
        expect(page.locator(".photo-sum")).to_contain_text("stern down")
        page.locator('[data-thing="point"]').click()
        hand.settled()
        hand.click(*at[2].tolist())
        page.locator("#trace-point-3-at").select_option("top")
        hand.settled()
        expect(page.locator("#trace-point-3-z")).to_have_value("152.0")
        expect(page.locator("#trace-sum")).to_contain_text("they fit")
        page.evaluate(AXE)
        assert page.evaluate(ASKED) == []
        page.set_viewport_size({"width": 400, "height": 800})
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= 400
        page.set_viewport_size({"width": 1400, "height": 900})
        page.locator("[value='tub photo-record']").click()
        page.locator(".tub-rows li").nth(1).wait_for()
        recorded(desk.own.her.boat.readings)
        expect(page.locator(".tub-answer")).to_contain_text("What was read")
        page.locator("[value='tub photo-open 1']").click()
        expect(page.locator("[value='tub photo-record']")).to_have_text("Record again")
        page.locator("[value='tub photo-record']").click()
        page.locator(".tub-rows li").nth(1).wait_for()
        assert len(desk.own.her.boat.readings) == 2
        assert seen.wrong == []


def bring(field, name: str, data: bytes) -> None:
    """Bring a picture, or what is to be none."""
    field.set_input_files({"name": name, "mimeType": "image/jpeg", "buffer": data})


def recorded(readings) -> None:
    """See that draught and trim are the true ones, within what they say."""
    draught, trim = readings
    assert (draught.kind, trim.kind) == ("draught", "tips")
    true = DRAUGHT + np.tan(-TRIM) * -(draught.x - 0.36) - np.tan(HEEL) * draught.y
    assert draught.side == "port"
    assert abs(draught.draught - true) < float(draught.spread.split()[0]) / 1e3
    assert abs(trim.tips - TRIM) < np.deg2rad(0.1)
    assert draught.photos == trim.photos == ("port side",)
