"""Patterns across her at a station: for checking the shell from outside, for a frame within it.

A shell pattern is a board with her section cut out, a gap for filler and paint all round; it comes
in two, below and above where she is broadest, or it would not go on. A frame lies within the skin
with a gap for glue, on both of its faces; cylinders pass through it, and notches at its lowest and
its highest place let water and air by.
"""

from collections.abc import Sequence

import numpy as np
from shapely import Point, Polygon, box, make_valid
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from trimdive.boatfile import Boat
from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.walls import walls
from trimdive.patterns.offset import inside, outside
from trimdive.records import record

BOARD = 0.025  # of the board beside her section [m]
LEAST = 1e-6  # a piece of less area is none [m²]
ROUND = 24  # sides of a quarter of a hole [-]


@record
class Mark:
    """A line drawn on a pattern."""

    kind: str  # "centre line" or "waterline"
    line: Floats  # across (to starboard) and up, shape (n, 2) [m]


@record
class Pattern:
    """A shape to cut out, as it is seen from astern: starboard to the right."""

    kind: str  # "shell below", "shell above" or "frame"
    x: float  # its station, from the stern [m]
    gap: float  # left to the skin [m]
    cuts: tuple[Floats, ...]  # closed lines to cut along, outer ones first, each (n, 2) [m]
    marks: tuple[Mark, ...]

    @property
    def bounds(self) -> Floats:
        """Return its lowest and its highest corner, shape (2, 2) [m]."""
        every = np.concatenate(self.cuts)
        return np.array([every.min(axis=0), every.max(axis=0)])


def shell(boat: Boat, hull: Hull, x: float, gap: float) -> tuple[Pattern, ...]:
    """Return the two boards that check the shell at a station, below and above.

    Args:
        boat: A resolved boat.
        hull: Her hull.
        x: The station, from the stern [m].
        gap: Left to the skin for filler and paint [m].

    Raises:
        GeometryError: The station lies beyond her, or she is too narrow there.
    """
    section = _largest(outside(_within(hull, x), hull.envelope, gap), x)
    low_y, low_z, high_y, high_z = section.bounds
    split = _broadest(section)
    board = box(low_y - BOARD, low_z - BOARD, high_y + BOARD, high_z + BOARD)
    found: list[Pattern] = []
    for kind, low, high in (
        ("shell below", low_z - BOARD, split), ("shell above", split, high_z + BOARD)
    ):  # fmt: skip
        half = box(low_y - BOARD, low, high_y + BOARD, high)
        cut = board.intersection(half).difference(section)
        found.append(_pattern(kind, x, gap, cut, _marks(boat, x, half.bounds)))
    return tuple(found)


def frame(
    boat: Boat, hull: Hull, x: float, *, thick: float, gap: float, clear: float, notch: float
) -> Pattern:
    """Return a frame at a station; its after face stands there.

    Args:
        boat: A resolved boat.
        hull: Her hull.
        x: The station, from the stern [m].
        thick: Thickness of the frame, forward of it [m].
        gap: Left to the skin for glue [m].
        clear: Left around each cylinder that passes through [m].
        notch: Radius of the notches at its lowest and its highest place; 0 for none [m].

    Raises:
        GeometryError: The station lies beyond her, or nothing is left of the frame.
    """
    standing = [walls(skin.body) for skin in hull.skins if skin.body.vertices.size]
    faces = [
        _largest(inside(_within(hull, at), hull.envelope, standing, gap), at)
        for at in (x, x + thick)
    ]
    whole = faces[0].intersection(faces[1])
    holes = [*_holes(boat, x, x + thick, clear)]
    if notch:
        _, low, _, high = whole.bounds
        holes += [_disc(0.0, at, notch) for at in (low, high)]
    cut = whole.difference(unary_union(holes)) if holes else whole
    return _pattern("frame", x, gap, cut, _marks(boat, x, whole.bounds))


def _within(hull: Hull, x: float) -> float:
    """Return a station, where it lies within her.

    Raises:
        GeometryError: It does not.
    """
    low, high = (float(at) for at in hull.envelope.bounds[:, 0])
    if not low < x < high:
        reach = f"{1e3 * low:.0f} to {1e3 * high:.0f} mm"
        what = f"{1e3 * x:.0f} mm from the stern is beyond the hull, {reach}"
        raise GeometryError(what, "station", "Choose one within.")
    return x


def _largest(lines: Sequence[Floats], x: float) -> Polygon:
    """Return the largest of some closed lines, starboard to the right.

    Raises:
        GeometryError: There is none.
    """
    drawn = [make_valid(Polygon(line * np.array([-1.0, 1.0]))) for line in lines if len(line) > 2]
    every = [one for held in drawn for one in getattr(held, "geoms", [held])]
    rings = [one for one in every if isinstance(one, Polygon) and one.area > LEAST]
    if not rings:
        what = f"there is no room for a pattern {1e3 * x:.0f} mm from the stern"
        raise GeometryError(what, "station", "Choose a station farther from her ends.")
    return max(rings, key=lambda one: one.area)


def _broadest(section: Polygon) -> float:
    """Return the height at which a section is broadest [m]."""
    ring = np.array(section.exterior.coords)
    side = ring[ring[:, 0] > 0.0] if (ring[:, 0] > 0.0).any() else ring
    far = side[:, 0] >= side[:, 0].max() - 1e-5
    return float(side[far, 1].mean())


def _holes(boat: Boat, aft: float, fore: float, clear: float) -> "list[BaseGeometry]":
    """Return the discs in which cylinders pass through a frame."""
    found: list[BaseGeometry] = []
    for one in boat.cylinders:
        half = (one.length or 0.0) / 2
        if one.x - half - clear < fore and one.x + half + clear > aft:
            sides = (-one.y, one.y) if one.pair else (-one.y,)
            found += [_disc(y, one.z, one.outside / 2 + clear) for y in sides]
    return found


def _disc(y: float, z: float, radius: float) -> BaseGeometry:
    return Point(y, z).buffer(radius, quad_segs=ROUND)


def _pattern(
    kind: str, x: float, gap: float, cut: BaseGeometry, marks: tuple[Mark, ...]
) -> Pattern:
    """Return a pattern by what is left of its board.

    Raises:
        GeometryError: Nothing is left.
    """
    pieces = [one for one in getattr(cut, "geoms", [cut]) if one.area > LEAST]
    if not pieces:
        what = f"nothing is left of the pattern {1e3 * x:.0f} mm from the stern"
        raise GeometryError(what, "station", "Choose another station, or smaller gaps.")
    outer = [np.array(one.exterior.coords)[:-1] for one in pieces]
    inner = [np.array(ring.coords)[:-1] for one in pieces for ring in one.interiors]
    return Pattern(kind=kind, x=x, gap=gap, cuts=(*outer, *inner), marks=marks)


def _marks(boat: Boat, x: float, bounds: Sequence[float]) -> tuple[Mark, ...]:
    """Return the centre line, and the waterline where it crosses a pattern."""
    low_y, low_z, high_y, high_z = bounds
    found = [Mark(kind="centre line", line=np.array([[0.0, low_z], [0.0, high_z]]))]
    if boat.waterline is not None and low_z < (height := boat.waterline.height_at(x)) < high_z:
        line = np.array([[low_y, height], [high_y, height]])
        found.append(Mark(kind="waterline", line=line))
    return tuple(found)
