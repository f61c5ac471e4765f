"""Drawn plans back to hulls: offsets within half a pixel, volumes within 1 %.

Wigley's hull y = B/2 (1 − (2x/L)²)(1 − (z/T)²) has 4/9 L B T. The other hull is a table of offsets,
whose volume is that of the surface laid through the table.
"""

from functools import cache
from pathlib import Path

import numpy as np
import pytest
import tomlkit
from PIL import Image
from tests.plans.drawing import (
    GREBE,
    Floats,
    Hull,
    Laid,
    Map,
    grebe,
    laid,
    picture,
    pinhole,
    saved,
    scanned,
    wigley,
)
from tests.plans.tracing import clicked, corners_of, hull_of

from trimdive.boatfile import OutlineRegion, load
from trimdive.geometry.lines import loft, read_table, volume
from trimdive.geometry.lines.outline import outlined
from trimdive.geometry.lines.outline_given import outline_of
from trimdive.plans import picture_of
from trimdive.plans.agree import between
from trimdive.plans.level import level
from trimdive.plans.outline import outline_figures, outline_region
from trimdive.plans.photo import photographed
from trimdive.plans.sheet import Known, Lens, Mark, Sheet, check_length
from trimdive.plans.spread import traced_spread
from trimdive.plans.views import Traced

LENGTH, BREADTH, DRAUGHT = 1.0, 0.1, 0.0625
SIZE = (3000, 2000)


@cache
def plan(name: str) -> Laid:
    """Return one of the two hulls on a sheet."""
    if name == "wigley":
        return laid(wigley(LENGTH, BREADTH, DRAUGHT))
    whole = grebe()
    apart = {x: one for x, one in whole.sections.items() if x != 0.78}  # it lies on another's
    return laid(Hull(whole.keel, whole.deck, whole.half, apart))


@cache
def true_volume(name: str) -> float:
    if name == "wigley":
        return 4 / 9 * LENGTH * BREADTH * DRAUGHT
    return volume(loft(read_table(GREBE.read_text("utf-8"), "lines.csv")))


def by_its_frame(corners: list[Mark], drawn: Laid) -> Sheet:
    """Return the sheet levelled by the frame's sides, from its lower left corner."""
    across, high = drawn.corners()[2] - drawn.corners()[0]
    a, b, c, d = corners
    along = (Known(start=a, end=b, length=across), Known(start=d, end=c, length=across))
    up = (Known(start=a, end=d, length=high), Known(start=b, end=c, length=high))
    found = level(((a, b), (d, c)), along, up)
    assert np.abs(np.concatenate([found.left_along, found.left_up])).max() < 1e-4
    diagonal = Known(start=a, end=c, length=float(np.hypot(across, high)))
    assert abs(check_length(found.sheet, diagonal).share) < 2e-4
    move = np.eye(3)
    move[:2, 2] = drawn.corners()[0] - found.sheet.at(np.array([a]))[0]
    return Sheet(matrix=move @ found.sheet.matrix, lens=found.sheet.lens)


def traced_back(name: str, grey: np.ndarray, seen: Map, sheet: Sheet) -> Traced:
    """Return the hull traced on a picture, after its offsets were looked at."""
    worth = sheet.worth((grey.shape[1] / 2, grey.shape[0] / 2))
    found = clicked(grey, plan(name), seen, sheet)
    assert found.rms < 0.5 * worth
    for line in ("keel", "deck", "half"):
        assert np.sqrt((found.off[line] ** 2).mean()) < 0.1 * worth
    return hull_of(plan(name), found.places, worth)


def assert_volume(name: str, hull: Traced) -> None:
    """Look that the hull that is taken has its volume, and that its band holds it."""
    taken, _ = between(hull)
    region = outline_region(taken, "hull")
    true = true_volume(name)
    assert volume(outlined(outline_of(region))) == pytest.approx(true, rel=0.01)
    spread = traced_spread(hull, None).envelope
    assert abs(spread.value - true) < spread.spread < 0.1 * true


def assert_a_boat_file_takes_it(hull: Traced, folder: Path) -> None:
    """Look that the figures stand in a boat file as they are, with nothing refused."""
    region = {"name": "hull", "surface": "outline", "material": "GRP", "thickness": 0.002}
    figures = outline_figures(between(hull)[0])
    boat = {
        "format": 1,
        "name": "Traced",
        "length": figures["length"],
        "units": {"length": "m", "mass": "kg"},
        "waterline": {"height": 0.05},
        "region": [region | figures],
    }
    file = folder / "boat.toml"
    file.write_text(tomlkit.dumps(boat), "utf-8")
    read = load(file).boat.regions[0]
    assert isinstance(read, OutlineRegion)
    own = outline_region(between(hull)[0], "hull")
    assert read.profile == own.profile
    assert read.breadths == own.breadths
    assert read.section == own.section


HULLS = pytest.mark.parametrize("name", ["wigley", "grebe"])


@HULLS
@pytest.mark.parametrize(("turn", "stretch"), [(0.03, 1.01), (-0.4, 0.985), (1.6, 1.0)])
def test_a_scan_that_lay_crooked_and_stretched(name: str, turn: float, stretch: float) -> None:
    drawn = plan(name)
    seen, size = scanned(drawn, 0.0005, turn, stretch)
    grey = picture_of(saved(picture(drawn, seen, size)), "plan.png").grey
    sheet = by_its_frame(corners_of(grey, drawn, seen), drawn)
    assert_volume(name, traced_back(name, grey, seen, sheet))


@HULLS
def test_a_photograph_by_the_corners_of_its_frame(name: str, tmp_path: Path) -> None:
    drawn = plan(name)
    seen = pinhole(drawn, SIZE, (14.0, -9.0, 3.0))
    grey = picture_of(saved(picture(drawn, seen, SIZE), "JPEG", quality=92), "plan.jpg").grey
    corners = tuple(corners_of(grey, drawn, seen))
    places = tuple(map(tuple, drawn.corners().tolist()))
    hull = traced_back(name, grey, seen, photographed(corners, places, SIZE).sheet)
    assert_volume(name, hull)
    assert_a_boat_file_takes_it(hull, tmp_path)


@HULLS
def test_a_photograph_through_a_lens_that_bends(name: str) -> None:
    drawn = plan(name)
    seen = pinhole(drawn, SIZE, (-8.0, 11.0, -4.0), -0.06)
    grey = picture(drawn, seen, SIZE)
    corners = tuple(corners_of(grey, drawn, seen))
    places = tuple(map(tuple, drawn.corners().tolist()))
    sides = zip(drawn.corners(), np.roll(drawn.corners(), -1, 0), strict=True)
    straight = tuple(
        tuple(map(tuple, seen(np.linspace(a, b, 9)).tolist())) for a, b in sides
    )  # marked on the frame, where the camera has them
    found = photographed(corners, places, SIZE, straight=straight)
    assert found.sheet.lens.bend == pytest.approx(-0.06, abs=1e-3)
    assert_volume(name, traced_back(name, grey, seen, found.sheet))
    plain = photographed(corners, places, SIZE).sheet
    assert plain.lens == Lens(centre=(1500.0, 1000.0), reach=float(np.hypot(1500, 1000)))
    off = plain.at(seen(drawn.curves()["keel"])) - drawn.curves()["keel"]
    assert np.abs(off).max() > 3 * plain.worth((1500.0, 1000.0))  # so it did matter


def test_a_scan_turned_and_stretched_by_the_library_of_pictures() -> None:
    """Pillow's own rotation and stretch, so that no map of ours stands on both sides."""
    drawn = plan("wigley")
    flat, size = scanned(drawn, 0.0005, 0.0, 1.0)
    whole = Image.fromarray(picture(drawn, flat, size))
    wide = whole.resize((round(size[0] * 1.02), size[1]), Image.Resampling.LANCZOS)
    turned = wide.rotate(0.8, Image.Resampling.BICUBIC, expand=False, fillcolor=250)
    c, s = np.cos(np.deg2rad(0.8)), np.sin(np.deg2rad(0.8))
    middle, share = np.array(wide.size) / 2, np.array([wide.size[0] / size[0], 1.0])

    def seen(places: Floats) -> Floats:
        return (flat(places) * share - middle) @ np.array([[c, -s], [s, c]]) + middle

    grey = picture_of(saved(np.asarray(turned)), "plan.png").grey
    sheet = by_its_frame(corners_of(grey, drawn, seen), drawn)
    assert_volume("wigley", traced_back("wigley", grey, seen, sheet))
