"""Sections by their character: round, oval, a box with rounded corners, knuckled, or by points.

Every section is drawn to the keel, the deck and the breadth of its place, in two runs that part at
the widest point. A run is a curve over a way from 0 to 1; sections of different character match
where they are equally far along, and corners match corners where all have as many.
"""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Literal

import numpy as np

from trimdive.geometry.lines.curves import chord_length, shared_out
from trimdive.geometry.lines.girth import girth
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.station import station

Shape = Literal["round", "oval", "box", "knuckled", "points"]
Side = Literal["below", "above"]
Corners = tuple[float, ...]

STEPS = 26  # from keel to widest point, and from there to the middle of the deck [-]
BOTTOM, WALL = 0.2, 0.8  # way to the beginning and the end of a box's rounded corner [-]
DECK_EDGE = 0.75  # way from the widest point to the edge of a flat deck [-]
LEAST = 1e-3  # least radius of a box's corner, as a share of its half-breadth [-]
NOTHING = 1e-9  # less than this is no length [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """What the section of the hull is like at one place."""

    x: float  # place [m]
    shape: Shape
    radius: float = 0.0  # of the corners at the bottom of a box [m]
    deck_radius: float = 0.0  # of its corners at the deck [m]
    points: tuple[tuple[float, float], ...] = ()  # half-breadth and height, keel first [m]
    knuckles: tuple[int, ...] = ()  # which points are sharp edges, counted from one [-]
    fuller_below: float = 1.0  # power of its arcs, as a multiple of what the character says [-]
    fuller_above: float = 1.0  # the same above the widest point [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Boxes:
    """Keel, deck and breadths at some places, each of shape (k, 1)."""

    keel: Floats  # height [m]
    widest: Floats  # height of the widest point [m]
    deck: Floats  # height [m]
    half: Floats  # greatest half-breadth [m]
    flat: Floats  # half-breadth of the flat of the deck [m]


def ribs(sections: tuple[Section, ...], x: Floats, boxes: Boxes) -> Floats:
    """Return sections at some places, each blended from those given on either side.

    Args:
        sections: What was said of the sections, rising in x.
        x: Places, shape (k,) [m].
        boxes: Keel, deck and breadths there.

    Returns:
        Half-breadth and height of matching points, shape (k, m, 2) [m].
    """
    drawn = np.concatenate(
        [_drawn(sections, boxes, "below")[:, :, :-1], _drawn(sections, boxes, "above")], axis=2
    )
    given = np.array([section.x for section in sections])
    at = np.interp(x, given, np.arange(len(given)))
    before = np.minimum(at.astype(np.int64), max(len(given) - 2, 0))
    after = np.minimum(before + 1, len(given) - 1)
    share = (at - before)[:, None, None]
    here = np.arange(len(x))
    return drawn[before, here] * (1.0 - share) + drawn[after, here] * share


def _drawn(sections: tuple[Section, ...], boxes: Boxes, side: Side) -> Floats:
    """Return one side of every section drawn to every place, shape (s, k, m, 2) [m]."""
    corners = [_corners(section, side) for section in sections]
    most = max(len(own) for own in corners)
    usual = tuple(np.mean([own for own in corners if len(own) == most], axis=0).tolist())
    steps = shared_out(np.maximum(np.diff([0.0, *usual, 1.0]), LEAST), STEPS, 3).tolist()
    runs: list[Floats] = []
    for section, own in zip(sections, corners, strict=True):
        way = _way(own if len(own) == most else usual, steps)
        run = _run(section, boxes, side, way)
        power = section.fuller_below if side == "below" else section.fuller_above
        runs.append(run if power == 1.0 else _fuller(run, boxes, power))
    return np.array(runs)


def _way(corners: Corners, steps: list[int]) -> Floats:
    """Return so many equal steps from corner to corner, shape (m,) [-]."""
    ends = pairwise([0.0, *corners, 1.0])
    pieces = [np.linspace(a, b, n, endpoint=False) for (a, b), n in zip(ends, steps, strict=True)]
    return np.concatenate([*pieces, [1.0]])


def _corners(section: Section, side: Side) -> Corners:
    """Return how far along a run its corners stand [-]."""
    if section.shape == "box":
        return (BOTTOM, WALL) if side == "below" else (1.0 - WALL, 1.0 - BOTTOM)
    if section.points:
        return _unit_run(section, side)[2]
    return (DECK_EDGE,) if section.shape == "oval" and side == "above" else ()


def _run(section: Section, boxes: Boxes, side: Side, way: Floats) -> Floats:
    """Return one side of a section drawn to every place, shape (k, m, 2) [m]."""
    if section.shape == "box":
        return _box(section, boxes, side, way)
    if section.points:
        at, unit, _ = _unit_run(section, side)
        return _scaled(boxes, side, *(np.interp(way, at, unit[:, k]) for k in (0, 1)))
    if side == "below":
        angle = way * np.pi / 2.0
        return _scaled(boxes, side, np.sin(angle), 1.0 - np.cos(angle))
    return _oval_above(boxes, way, has_flat=section.shape == "oval")


def _scaled(boxes: Boxes, side: Side, y: Floats, z: Floats) -> Floats:
    """Return a run, given in shares of half-breadth and height, drawn to every place.

    Args:
        boxes: Keel, deck and breadths.
        side: Which side of the widest point.
        y: Shares of the half-breadth, shape (m,) [-].
        z: Shares of the height from the lower to the upper end of the run, shape (m,) [-].

    Returns:
        Shape (k, m, 2) [m].
    """
    low, high = _ends(boxes, side)
    return np.stack([boxes.half * y, low + (high - low) * z], axis=2)


def _ends(boxes: Boxes, side: Side) -> tuple[Floats, Floats]:
    """Return the heights between which a run goes, shape (k, 1) [m]."""
    if side == "below":
        return boxes.keel, boxes.widest
    return boxes.widest, boxes.deck


def _oval_above(boxes: Boxes, way: Floats, *, has_flat: bool) -> Floats:
    """Return a quarter of an ellipse from the widest point to the flat of the deck."""
    edge = DECK_EDGE if has_flat else 1.0
    angle = np.minimum(way / edge, 1.0) * np.pi / 2.0
    flat = boxes.flat if has_flat else np.zeros_like(boxes.flat)
    inward = (1.0 - way) / max(1.0 - edge, NOTHING)
    y = np.where(
        way <= edge, flat + (boxes.half - flat) * np.cos(angle), flat * np.clip(inward, 0.0, 1.0)
    )
    z = boxes.widest + (boxes.deck - boxes.widest) * np.sin(angle)
    return np.stack([y, z], axis=2)


def _box(section: Section, boxes: Boxes, side: Side, way: Floats) -> Floats:
    """Return a flat, a rounded corner and an upright side."""
    low, high = _ends(boxes, side)
    radius = section.radius if side == "below" else section.deck_radius
    way = way if side == "below" else 1.0 - way
    rounded = np.minimum(np.maximum(radius, LEAST * boxes.half), boxes.half)
    rounded = np.minimum(rounded, high - low)
    angle = np.clip((way - BOTTOM) / (WALL - BOTTOM), 0.0, 1.0) * np.pi / 2.0
    flat = np.clip(way / BOTTOM, 0.0, 1.0)
    wall = np.clip((way - WALL) / (1.0 - WALL), 0.0, 1.0)
    y = (boxes.half - rounded) * flat + rounded * np.sin(angle)
    up = rounded * (1.0 - np.cos(angle)) + (high - low - rounded) * wall
    return np.stack([y, low + up if side == "below" else high - up], axis=2)


@lru_cache(maxsize=256)
def _unit_run(section: Section, side: Side) -> tuple[Floats, Floats, Corners]:
    """Return one side of a section by points: its way, its curve in shares, and its corners.

    Returns:
        Way, shape (n,) [-]; shares of half-breadth and height, shape (n, 2) [-]; corners [-].
    """
    curve, sharp = _curve(section)
    most = int(np.argmax(curve[:, 0]))
    part = slice(0, most + 1) if side == "below" else slice(most, None)
    run = curve[part]
    at = chord_length(run)
    at /= max(float(at[-1]), NOTHING)
    rise = float(run[-1, 1] - run[0, 1])
    y = run[:, 0] / curve[most, 0]
    level = np.full(len(run), 0.0 if side == "below" else 1.0)  # a flat of keel, or of deck
    z = (run[:, 1] - run[0, 1]) / rise if abs(rise) > NOTHING else level
    first = part.start
    inside = [k - first for k in sharp if 0 < k - first < len(run) - 1]
    return at, np.stack([y, z], axis=1), tuple(at[inside].tolist())


def _curve(section: Section) -> tuple[Floats, list[int]]:
    """Return a fair curve through measured points, and which of its points are sharp edges."""
    last = len(section.points)
    sharp = {k - 1 for k in section.knuckles}
    if section.shape == "knuckled":
        sharp = set(range(last))
    for end, beside in ((0, 1), (last - 1, last - 2)):  # a level deck, or a flat of keel
        (y, z), level = section.points[end], section.points[beside][1]
        if y <= NOTHING and abs(z - level) <= NOTHING:
            sharp.add(beside)
    pins = [
        (y, z, f"edge {k}" if k in sharp else "", k in sharp)
        for k, (y, z) in enumerate(section.points)
    ]
    drawn = station(section.x, pins, 0)
    g = girth(drawn)
    marked = sorted({line.point for line in drawn.lines if line.sharp})
    return g.curve, [int(g.pins[k]) for k in marked]


def _fuller(run: Floats, boxes: Boxes, power: float) -> Floats:
    """Return a run nearer to its box, as an ellipse whose powers grow, or further from it."""
    y, z = run[..., 0], run[..., 1]
    is_below = z[:, :1] < boxes.widest - NOTHING
    end = np.where(is_below, boxes.keel, boxes.deck)
    at_end = np.abs(z - end) <= NOTHING
    inner = np.where(is_below, 0.0, np.where(at_end, y, 0.0).max(axis=1, keepdims=True))
    room = np.maximum(boxes.half - inner, NOTHING)
    u = np.clip((y - inner) / room, 0.0, 1.0)
    reach = end - boxes.widest
    v = np.clip((z - boxes.widest) / np.where(np.abs(reach) < NOTHING, NOTHING, reach), 0.0, 1.0)
    moved = np.where(y >= inner, inner + u ** (1.0 / power) * (boxes.half - inner), y)
    return np.stack([moved, boxes.widest + v ** (1.0 / power) * reach], axis=2)
