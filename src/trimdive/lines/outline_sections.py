"""Sections by their character: round, oval, a box with rounded corners, knuckled, or by points.

Every section is drawn to the keel, the deck and the breadth of its place, in two runs that part at
the widest point. Points lie at the same shares of the girth between its corners, so that they
match along the hull and corners stay corners.
"""

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np

from trimdive.lines.curves import chord_length, shared_out
from trimdive.lines.girth import girth
from trimdive.lines.mesh import Floats
from trimdive.lines.station import station

Shape = Literal["round", "oval", "box", "knuckled", "points"]
Corners = tuple[float, ...]

STEPS = 26  # from keel to widest point, and from there to the middle of the deck [-]
PINS = 32  # in a quarter of an ellipse as it is drawn [-]
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
    fuller: float = 1.0  # power of its arcs, as a multiple of what the character says [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """Keel, deck and breadths at one place."""

    keel: float  # height [m]
    widest: float  # height of the widest point [m]
    deck: float  # height [m]
    half: float  # greatest half-breadth [m]
    flat: float  # half-breadth of the flat of the deck [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A piece of a section, as many short steps, and the girth at which its corners stand."""

    points: Floats  # half-breadth and height, shape (n, 2) [m]
    corners: Corners  # shares of the girth [-]


def ribs(sections: tuple[Section, ...], x: Floats, boxes: tuple[Box, ...]) -> Floats:
    """Return sections at some places, each blended from those given on either side.

    Args:
        sections: What was said of the sections, rising in x.
        x: Places, shape (n,) [m].
        boxes: Keel, deck and breadths there.

    Returns:
        Half-breadth and height of matching points, shape (n, m, 2) [m].
    """
    given = np.array([section.x for section in sections])
    after = np.clip(np.searchsorted(given, x), 1, max(len(given) - 1, 1))
    before = np.minimum(after - 1, len(given) - 1)
    after = np.minimum(after, len(given) - 1)
    span = np.maximum(given[after] - given[before], NOTHING)
    share = np.clip((x - given[before]) / span, 0.0, 1.0)
    drawn = [
        [runs(sections[k], box) for k in (i, j)]
        for i, j, box in zip(before.tolist(), after.tolist(), boxes, strict=True)
    ]
    sides = [_matched([[pair[k][side] for k in (0, 1)] for pair in drawn]) for side in (0, 1)]
    both = np.concatenate([sides[0][:, :, :-1], sides[1]], axis=2)
    weight = share[:, None, None]
    return both[:, 0] * (1.0 - weight) + both[:, 1] * weight


def runs(section: Section, box: Box) -> tuple[Run, Run]:
    """Return a section drawn to its place: from keel to widest point, and on to the deck."""
    if section.shape == "box":
        low, high = _box(section, box)
    elif section.shape in ("knuckled", "points"):
        low, high = _measured(section, box)
    else:
        low, high = _oval(box, 0.0 if section.shape == "round" else box.flat)
    if section.fuller == 1.0:
        return low, high
    return _fuller(low, box, section.fuller), _fuller(high, box, section.fuller)


def _oval(box: Box, flat: float) -> tuple[Run, Run]:
    """Return two quarters of an ellipse, and the flat of the deck."""
    angle = np.linspace(0.0, np.pi / 2.0, PINS)
    low = np.stack(
        [box.half * np.sin(angle), box.widest - (box.widest - box.keel) * np.cos(angle)], axis=1
    )
    high = np.stack(
        [
            flat + (box.half - flat) * np.cos(angle),
            box.widest + (box.deck - box.widest) * np.sin(angle),
        ],
        axis=1,
    )
    low[-1] = high[0] = box.half, box.widest
    if flat <= NOTHING:
        high[-1] = 0.0, box.deck
        return Run(points=low, corners=()), Run(points=high, corners=())
    high = np.concatenate([high, [(0.0, box.deck)]])
    at = chord_length(high)
    return Run(points=low, corners=()), Run(points=high, corners=(float(at[-2] / at[-1]),))


def _box(section: Section, box: Box) -> tuple[Run, Run]:
    """Return a flat bottom, a rounded corner and an upright side, and the same to the deck."""
    low = _corner(section.radius, box.half, box.widest - box.keel)
    high = _corner(section.deck_radius, box.half, box.deck - box.widest)
    down = np.array([1.0, -1.0])
    return (
        Run(points=low.points + np.array([0.0, box.keel]), corners=low.corners),
        Run(
            points=high.points[::-1] * down + np.array([0.0, box.deck]),
            corners=tuple(1.0 - share for share in high.corners[::-1]),
        ),
    )


def _corner(radius: float, half: float, height: float) -> Run:
    """Return a run from (0, 0) out to the half-breadth and up to the height."""
    rounded = min(max(radius, 1e-3 * half), half, height)
    angle = np.linspace(0.0, np.pi / 2.0, PINS)
    arc = np.stack(
        [half - rounded + rounded * np.sin(angle), rounded - rounded * np.cos(angle)], axis=1
    )
    arc[-1, 0] = half
    points = np.concatenate([[(0.0, 0.0)], arc, [(half, height)]])
    at = chord_length(points)
    whole = max(float(at[-1]), NOTHING)
    return Run(points=points, corners=(float(at[1] / whole), float(at[-2] / whole)))


def _measured(section: Section, box: Box) -> tuple[Run, Run]:
    """Return a section through measured points, drawn out to its place."""
    curve, sharp = _curve(section)
    y, z = curve.T
    most = int(np.argmax(y))
    up = np.array([z[0], z[most], z[-1]])
    to = np.array([box.keel, box.widest, box.deck])
    height = np.where(
        np.arange(len(z)) <= most,
        to[0] + (z - up[0]) / max(up[1] - up[0], NOTHING) * (to[1] - to[0]),
        to[1] + (z - up[1]) / max(up[2] - up[1], NOTHING) * (to[2] - to[1]),
    )
    points = np.stack([y / y[most] * box.half, height], axis=1)
    sides = (points[: most + 1], points[most:])
    inner = ([k for k in sharp if k < most], [k - most for k in sharp if k > most])
    low, high = (
        Run(points=side, corners=tuple(float(share) for share in _shares(side)[corners]))
        for side, corners in zip(sides, inner, strict=True)
    )
    return low, high


def _curve(section: Section) -> tuple[Floats, list[int]]:
    """Return a fair curve through measured points, and which of its points are sharp edges."""
    last = len(section.points)
    pins = [
        (y, z, f"edge {k}", section.shape == "knuckled" or k in section.knuckles)
        for k, (y, z) in enumerate(section.points, 1)
    ]
    if section.shape == "points":
        pins = [pin if pin[3] else (*pin[:2], "", False) for pin in pins]
        for end, beside in ((0, 1), (last - 1, last - 2)):  # a level deck, or a flat of keel
            if pins[end][0] <= NOTHING and abs(pins[end][1] - pins[beside][1]) <= NOTHING:
                pins[beside] = (*pins[beside][:2], f"edge {beside + 1}", True)
    drawn = station(section.x, pins, 0)
    g = girth(drawn)
    marked = sorted({line.point for line in drawn.lines if line.sharp})
    inside = [k for k in marked if 0 < k < len(drawn.points) - 1]
    return g.curve, [int(g.pins[k]) for k in inside]


def _shares(points: Floats) -> Floats:
    """Return the girth up to each point, as a share of the whole, shape (n,) [-]."""
    at = chord_length(points)
    return at / max(float(at[-1]), NOTHING)


def _fuller(run: Run, box: Box, power: float) -> Run:
    """Return a run nearer to its box, as an ellipse whose powers grow, or further from it."""
    y, z = run.points.T
    below = z <= box.widest
    edge = y[z >= box.deck - NOTHING].max(initial=0.0) if box.deck > box.widest else box.half
    inner = np.where(below, 0.0, min(float(edge), box.half))
    u = (y - inner) / np.maximum(box.half - inner, NOTHING)
    reach = np.where(below, box.keel, box.deck) - box.widest
    v = (z - box.widest) / np.where(np.abs(reach) < NOTHING, NOTHING, reach)
    moved = np.stack(
        [
            np.where(
                u > 0.0, inner + np.clip(u, 0.0, 1.0) ** (1.0 / power) * (box.half - inner), y
            ),
            box.widest + np.clip(v, 0.0, 1.0) ** (1.0 / power) * reach,
        ],
        axis=1,
    )
    return Run(points=moved, corners=run.corners)


def _matched(pairs: list[list[Run]]) -> Floats:
    """Return the runs of one side with points that match; corners match where all have as many.

    Args:
        pairs: For every place the runs of the sections before and after it.

    Returns:
        Shape (n, 2, m, 2) [m].
    """
    every = [run for pair in pairs for run in pair]
    most = max(len(run.corners) for run in every)
    usual = np.mean([run.corners for run in every if len(run.corners) == most], axis=0)
    pieces = np.diff([0.0, *usual.tolist(), 1.0])
    steps = shared_out(np.maximum(pieces, 1e-3), STEPS, 3)
    out: list[list[Floats]] = []
    for pair in pairs:
        out.append([])
        for run in pair:
            corners = run.corners if len(run.corners) == most else tuple(usual.tolist())
            out[-1].append(_spread(run.points, corners, steps.tolist()))
    return np.array(out)


def _spread(points: Floats, corners: Corners, steps: list[int]) -> Floats:
    """Return points along a run, so many steps from corner to corner."""
    ends = np.array([0.0, *corners, 1.0])
    pieces = [
        np.linspace(a, b, n, endpoint=False)
        for (a, b), n in zip(pairwise(ends.tolist()), steps, strict=True)
    ]
    wanted = np.concatenate([*pieces, [1.0]])
    at = _shares(points)
    return np.stack([np.interp(wanted, at, points[:, k]) for k in (0, 1)], axis=1)
