"""Each hole, plate line and draught mark of a boat in its true place on the skin."""

from collections.abc import Callable
from math import pi
from typing import NamedTuple, TypeVar

import numpy as np

from trimdive.boatfile import Boat
from trimdive.boatfile.skin_marks import DraughtMark, Hole, OnSkin, PlateLine, Side
from trimdive.errors import GeometryError
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.onskin import (
    Spot,
    Way,
    between,
    developed,
    on_deck,
    on_girth,
    on_side,
    round_at,
    spot,
    stem_and_stern,
    waterline,
)
from trimdive.marking.found import Figures, Holes, Line, Lines, Marks

STEP = 0.004  # along her, between places of a line that no plane cuts [m]
ON_IT = 2e-3  # nearer than this to the outside of a region a place is on it [m]


class Skin(NamedTuple):
    """The skin on which things are placed."""

    whole: Mesh  # outside of the whole hull
    regions: tuple[tuple[str, Mesh], ...]  # name and outside of each region


LEAP = 10.0  # steps of a draught mark by which a stem does not rake from figure to figure [-]
P = TypeVar("P", Hole, PlateLine, DraughtMark)
F = TypeVar("F")
Found = Callable[[float, Way], Spot]


def marks_on(boat: Boat, hull: Hull) -> Marks:
    """Return all that is marked and cut on the skin.

    Args:
        boat: A resolved boat.
        hull: Her hull.

    Raises:
        GeometryError: Something lies off the skin, or is larger than it.
    """
    regions = tuple((skin.name, skin.outer) for skin in hull.skins)
    return _marks(hull.envelope, regions, boat.holes, boat.plate_lines, boat.draught_marks)


@with_mesh(4)
def _marks(
    whole: Mesh,
    regions: tuple[tuple[str, Mesh], ...],
    holes: tuple[Hole, ...],
    lines: tuple[PlateLine, ...],
    figures: tuple[DraughtMark, ...],
) -> Marks:
    """Return all that is marked and cut on the skin, kept with the outside of the hull."""
    skin = Skin(whole=whole, regions=regions)
    return Marks(
        holes=tuple(_told(f"hole[{k}]", one, _holes, skin) for k, one in enumerate(holes, 1)),
        lines=tuple(_told(f"plate_line[{k}]", one, _lines, skin) for k, one in enumerate(lines, 1)),
        figures=tuple(
            _told(f"draught_mark[{k}]", one, _figures, skin) for k, one in enumerate(figures, 1)
        ),
    )


def _told(path: str, piece: P, find: Callable[[P, str, Skin], F], skin: Skin) -> F:
    """Return what is found of a piece.

    Raises:
        GeometryError: It lies off the skin; told with its place in the file.
    """
    try:
        return find(piece, path, skin)
    except GeometryError as error:
        raise GeometryError(f"{piece.name}: {error.what}", path, error.mend) from None


def ways(side: Side) -> tuple[Way, ...]:
    """Return the sides on which something lies, port first."""
    return ("port", "starboard") if side == "both" else (side,)


def _finder(piece: OnSkin, skin: Skin) -> Found:
    """Return what finds the place of a piece at a place along the boat."""
    whole = skin.whole
    mesh: Mesh = whole
    if piece.on is not None:
        mesh = dict(skin.regions)[piece.on]
    z, girth, off = piece.z, piece.girth, piece.off_middle
    if girth is not None:
        return lambda x, side: on_girth(whole, x, girth, side)
    if off is not None:
        return lambda x, side: on_deck(mesh, x, off, side, whole)
    return lambda x, side: on_side(mesh, x, z or 0.0, side, whole)


def _holes(hole: Hole, path: str, skin: Skin) -> Holes:
    """Return a hole, or a row of them, in its place.

    Raises:
        GeometryError: It lies off the skin, or is larger than it.
    """
    places = hole.x + (hole.pitch or 0.0) * np.arange(hole.count)
    long, high = hole.sizes
    low, fore = skin.whole.bounds[:, 0].tolist()
    for end, over in (("after", low - (places[0] - long / 2)),
                      ("fore", places[-1] + long / 2 - fore)):  # fmt: skip
        if over > 0:
            which = "its foremost hole" if hole.count > 1 and end == "fore" else "it"
            which = "its aftermost hole" if hole.count > 1 and end == "after" else which
            what = f"{which} reaches {over * 1e3:.4g} mm beyond the {end} end of the hull"
            raise GeometryError(what, path, "Measure its place, count and pitch again.")
    find, sides = _finder(hole, skin), ways(hole.side)
    for x in places.tolist():
        room = round_at(skin.whole, x, sides[0]).whole
        if high > room:
            what = f"it is {high * 1e3:.4g} mm high up the skin, which is only "
            what += f"{room * 1e3:.4g} mm round from the keel at x {x * 1e3:.5g} mm"
            raise GeometryError(what, path, "Measure its height again.")
    spots = tuple(find(x, side) for side in sides for x in places.tolist())
    if hole.off_middle == 0.0:  # on the middle line both sides are one
        spots = spots[: hole.count]
    way = _along(find, sides[0], float(places[0]), float(places[-1]))
    return Holes(
        name=hole.name, path=path, kind=hole.kind, shape=hole.shape, size=(long, high),
        region=hole.on or region_at(skin, spots[0]), spots=spots,
        area=area_of(hole.shape, long, high), length=developed(way),
    )  # fmt: skip


def area_of(shape: str, long: float, high: float) -> float:
    """Return the area of a hole [m²]; a slot has round ends.

    >>> round(area_of("slot", 0.02, 0.004) * 1e6, 3), round(area_of("round", 0.01, 0.01) * 1e6, 3)
    (76.566, 78.54)
    """
    if shape == "rectangle":
        return long * high
    across = min(long, high)
    return pi / 4 * across**2 + across * (max(long, high) - across)


def region_at(skin: Skin, where: Spot) -> str:
    """Return the name of the region on whose outside a place lies; the first of several."""
    for name, outer in skin.regions:
        low, high = outer.bounds
        if not (low[2] - ON_IT <= where.z <= high[2] + ON_IT):
            continue
        try:
            way = round_at(outer, where.x, where.side)
        except GeometryError:
            continue
        run = np.abs(way.points - [where.half_breadth, where.z])
        near = way.girth(where.half_breadth, where.z)
        if not np.isnan(near) or float(np.linalg.norm(run, axis=1).min()) < ON_IT:
            return name
    return skin.regions[0][0] if skin.regions else ""


def _along(find: Found, side: Way, aft: float, fore: float) -> Floats:
    """Return a line along the skin, shape (n, 3) [m]."""
    count = max(int(np.ceil((fore - aft) / STEP)), 1) + 1
    return np.array([find(float(x), side).point for x in np.linspace(aft, fore, count)])


def _lines(line: PlateLine, path: str, skin: Skin) -> Lines:
    """Return a plate line in its place.

    Raises:
        GeometryError: It lies off the skin.
    """
    sides = ways(line.side)
    if line.x is not None:
        drawn = [_round(skin, line, line.x, side) for side in sides]
    else:
        drawn = [_run(skin, line, side, line.z) for side in sides]
        if line.band is not None and line.z is not None:
            drawn += [_run(skin, line, side, line.z + line.band) for side in sides]
    first = drawn[0]
    ends = tuple(
        spot(skin.whole, float(x), abs(float(y)), float(z), first.side)
        for x, y, z in first.points[[0, -1]]
    )
    count = int(first.length / line.pitch + 1e-9) + 1 if line.pitch else 0
    return Lines(
        name=line.name, path=path, kind=line.kind, way="along" if line.x is None else "round",
        lines=tuple(drawn), spots=ends, rivets=count, girths=_band(skin, line, drawn),
    )  # fmt: skip


def _round(skin: Skin, line: PlateLine, x: float, side: Way) -> Line:
    """Return a line round one side of the hull, from the keel up."""
    way = round_at(skin.whole, x, side)
    points = way.points
    if line.z_top is not None:
        over = np.flatnonzero(points[:, 1] > line.z_top)
        if len(over) and over[0] > 0:
            k = int(over[0])
            a, b = points[k - 1], points[k]
            share = (line.z_top - a[1]) / max(b[1] - a[1], 1e-12)
            points = np.vstack([points[:k], a + share * (b - a)])
    sign = 1.0 if side == "port" else -1.0
    return Line(
        side=side,
        points=np.column_stack([np.full(len(points), x), sign * points[:, 0], points[:, 1]]),
    )


def _run(skin: Skin, line: PlateLine, side: Way, z: float | None) -> Line:
    """Return a line along one side of the hull, from aft forward.

    Raises:
        GeometryError: It lies off the skin, or beyond the ends of the hull.
    """
    low, high = skin.whole.bounds[:, 0].tolist()
    for name, end in (("after", line.x_aft), ("fore", line.x_fore)):
        if end is not None and not low <= end <= high:
            what = f"its {name} end at x {end * 1e3:.5g} mm lies beyond the hull, which goes from "
            what += f"{low * 1e3:.5g} to {high * 1e3:.5g} mm"
            raise GeometryError(what, line.name, "Measure its ends again.")
    if z is not None and line.on is None:
        points = waterline(skin.whole, z, side)
        if line.x_aft is None and line.x_fore is None:
            return Line(side=side, points=points)
        aft = points[:, 0].min() if line.x_aft is None else line.x_aft
        fore = points[:, 0].max() if line.x_fore is None else line.x_fore
        return Line(side=side, points=between(points, float(aft), float(fore)))
    if line.on is not None:
        low, high = dict(skin.regions)[line.on].bounds[:, 0].tolist()
    aft = low if line.x_aft is None else line.x_aft
    fore = high if line.x_fore is None else line.x_fore
    there = line.model_copy(update={"z": z})
    return Line(side=side, points=_along(_finder(there, skin), side, aft, fore))


def _band(skin: Skin, line: PlateLine, drawn: list[Line]) -> tuple[float, float]:
    """Return the least and the most breadth of a band round the skin [m]; 0 where it is none."""
    if line.band is None or line.z is None:
        return 0.0, 0.0
    low, high = drawn[0], drawn[len(drawn) // 2]
    aft = max(low.points[0, 0], high.points[0, 0])
    fore = min(low.points[-1, 0], high.points[-1, 0])
    found: list[float] = []
    for x in np.linspace(aft, fore, 41)[1:-1].tolist():
        ends = [on_side(skin.whole, x, z, low.side, skin.whole).girth
                for z in (line.z, line.z + line.band)]  # fmt: skip
        found.append(ends[1] - ends[0])
    known = [one for one in found if not np.isnan(one)]
    return (min(known), max(known)) if known else (0.0, 0.0)


def _went_on(mark: DraughtMark, before: float | None, here: float, z: float) -> float:
    """Return where stem or stern lies at a height, where it goes on from the figure below [m].

    Raises:
        GeometryError: It leaps: what stands there is a tower.
    """
    if before is not None and abs(here - before) > LEAP * mark.step:
        what = (
            f"at {1e3 * z:.0f} mm up the hull has no {mark.at} any more: only a tower stands there"
        )
        raise GeometryError(what, "draught_mark", "Enter fewer figures, or begin lower.")
    return here


def _figures(mark: DraughtMark, path: str, skin: Skin) -> Figures:
    """Return figures of the draught in their places, the foot of each.

    Raises:
        GeometryError: One lies off the skin.
    """
    whole = skin.whole
    spots: list[Spot] = []
    for side in ways(mark.side):
        before: float | None = None
        for z in (mark.z + mark.step * np.arange(mark.count)).tolist():
            x = mark.x
            if x is None:
                stern, stem = stem_and_stern(whole, z)
                here = stem if mark.at == "stem" else stern
                before = _went_on(mark, before, here, z)
                x = stem - mark.set_back if mark.at == "stem" else stern + mark.set_back
                if mark.set_back == 0.0:
                    spots.append(Spot(x=x, y=0.0, z=z, girth=float("nan"), side=side))
                    continue
            spots.append(on_side(whole, x, z, side, whole))
    return Figures(
        name=mark.name, path=path, at=mark.at or "side", height=mark.height or 0.0,
        spots=tuple(spots),
    )  # fmt: skip
