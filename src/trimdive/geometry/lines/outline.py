"""A hull from what a garage can measure: keel and deck line, some breadths, a few sections.

Each line along the hull is a batten through the few places at which it was measured. Between them
sections are drawn to keel, deck and breadth, each blended from the characters given before and
after it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from trimdive.geometry.lines.curves import End, fair_slopes, on_curve, shared_out, steps_between
from trimdive.geometry.lines.loft import ALONG, ROUND_BELOW
from trimdive.geometry.lines.mesh import Floats, Ints, Mesh
from trimdive.geometry.lines.outline_sections import Boxes, Section, ribs
from trimdive.geometry.lines.sheet import closed_hull
from trimdive.records import short

Pins = tuple[tuple[float, float], ...]  # place along the hull [m], and what was measured there
Finish = Literal["round", "sharp", "not entered"]
SAME = 1e-6  # closer than this, two places along the hull are one [m]
FINEST = 12  # decimals of a metre; points that differ beyond them are one [-]
FINE = 24  # small steps between two pins of a line [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """What was measured of a hull; every run of pins from stern to bow."""

    __repr__ = short

    keel: Pins  # height of the keel, from end to end [m]
    deck: Pins  # height of the deck, from end to end [m]
    half: Pins  # greatest half-breadth, from end to end [m]
    widest: Pins  # height of the widest point over the keel, as a share of keel to deck [-]
    deck_half: Pins  # half-breadth of the flat of the deck, as a share of the half-breadth [-]
    sections: tuple[Section, ...]  # rising in x
    stern: Finish = "not entered"
    bow: Finish = "not entered"

    @property
    def stations(self) -> Floats:
        """Return every place at which anything was measured, shape (n,) [m]."""
        runs = (self.keel, self.deck, self.half, self.widest, self.deck_half)
        low, high = self.keel[0][0], self.keel[-1][0]
        x = sorted([pin[0] for run in runs for pin in run] + [s.x for s in self.sections])
        inside = np.array([place for place in x if low - SAME < place < high + SAME])
        return inside[np.concatenate([[True], np.diff(inside) > SAME])]


def net(outline: Outline, *, along: int = ALONG) -> Floats:
    """Return points on the port half of the hull, stern first, keel first.

    Args:
        outline: What was measured.
        along: About how many steps from end to end [-].

    Returns:
        Points in sections that stand upright, shape (k, m, 3) [m].
    """
    x = _places(outline.stations, along)
    half = ribs(outline.sections, x, boxes(outline, x))
    half[:, [0, -1], 0] = 0.0  # both edges lie on the centre line
    upright = np.broadcast_to(x[:, None, None], (*half.shape[:2], 1))
    return np.concatenate([upright, half.round(FINEST)], axis=2)


def _places(stations: Floats, along: int) -> Floats:
    """Return all stations and places between them, crowded towards both ends of the hull."""
    weights = np.sqrt(np.diff(stations))
    weights[[0, -1]] *= 2.0
    counts: Ints = shared_out(weights, along, 2)
    x = steps_between(stations, counts)
    first, last = counts[0], counts[-1]
    x[:first] = stations[0] + np.arange(first) ** 2 / first**2 * (stations[1] - stations[0])
    back = np.arange(last)[::-1] ** 2 / last**2
    x[-last:] = stations[-1] - back * (stations[-1] - stations[-2])
    return x


def boxes(outline: Outline, x: Floats) -> Boxes:
    """Return keel, deck and breadths at some places along the hull.

    Args:
        outline: What was measured.
        x: Places, shape (n,) [m].
    """
    keel, deck = outline.keel, outline.deck
    meets = [abs(keel[end][1] - deck[end][1]) < SAME for end in (0, -1)]
    ends = [_end_of(outline, end, meets[end]) for end in (0, -1)]
    least = np.where((x > keel[0][0]) & (x < keel[-1][0]), SAME, 0.0)  # only the ends are edges
    half = np.maximum(through(outline.half, x, ends[0][1], ends[1][1], level=max), least)
    low = through(keel, x, ends[0][0], ends[1][0], level=min)
    high = np.maximum(through(deck, x, ends[0][0], ends[1][0]), low + least)
    widest = low + np.clip(_share(outline.widest, x), 0.0, 1.0) * (high - low)
    flat = np.clip(_share(outline.deck_half, x), 0.0, 1.0) * half
    return Boxes(
        keel=low[:, None],
        widest=widest[:, None],
        deck=high[:, None],
        half=half[:, None],
        flat=flat[:, None],
    )


def _end_of(outline: Outline, end: int, is_point: bool) -> tuple[Finish, Finish]:
    """Return how the profile and how the half-breadth finish at one end.

    A flat end is left as it comes. A stem is sharp unless it was said to be round; what a point
    is, the figures tell where nobody said it.
    """
    finish = outline.bow if end else outline.stern
    if outline.half[end][1] >= SAME:
        return "sharp", "sharp"
    if is_point:
        return finish, finish
    return "sharp", "round" if finish == "round" else "sharp"


def through(
    pins: Pins,
    places: Floats,
    stern: Finish = "sharp",
    bow: Finish = "sharp",
    level: Callable[[list[float]], float] | None = None,
) -> Floats:
    """Return the heights or breadths of a batten through the pins of one line.

    It is laid along itself rather than along x, so that a blunt end comes out round.

    Args:
        pins: Place and figure, rising.
        places: Where they are asked for, shape (n,) [m].
        stern: How the line finishes at its first pin.
        bow: How it finishes at its last.
        level: Picks the pin at which it runs level, as ``max`` does the greatest breadth [-].

    Returns:
        Shape (n,) [m].
    """
    x, v = np.array(pins).T
    if len(x) == 1:
        return np.full(len(places), v[0])
    ends = _batten_end(x, v, stern), _batten_end(x[::-1], v[::-1], bow)
    is_round = any(end[0] == "level" for end in ends)
    rise = np.diff(v) if is_round else 0.0
    t = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(x), rise))])
    fine = steps_between(t, shared_out(np.ones(len(t) - 1), FINE * (len(t) - 1), 2))
    along = on_curve(t, x, fair_slopes(t, x, ends[0][0], ends[1][0]), fine)
    slopes = fair_slopes(t, v, ends[0][1], ends[1][1])
    if level is not None:
        slopes[1:-1][v[1:-1] == level(v.tolist())] = 0.0
    return np.interp(places, along, on_curve(t, v, slopes, fine))


def _batten_end(x: Floats, v: Floats, finish: Finish) -> tuple[End, End]:
    """Return how places and figures of a line end at the first of its pins."""
    if finish == "not entered":
        rise = np.abs(v[1:3] - v[0])
        if len(x) < 3 or rise.min() <= 0.0:
            return "free", "free"
        power = np.log(rise[1] / rise[0]) / np.log((x[2] - x[0]) / (x[1] - x[0]))
        finish = "round" if power < ROUND_BELOW else "sharp"
    return ("level", "straight") if finish == "round" else ("free", "free")


def _share(pins: Pins, places: Floats) -> Floats:
    """Return a share between the places where it was measured, straight from one to the next."""
    x, v = np.array(pins).T
    return np.interp(places, x, v)


@lru_cache(maxsize=64)
def outlined(outline: Outline, *, along: int = ALONG) -> Mesh:
    """Return the closed surface of a hull from its outlines, kept by what was measured.

    Args:
        outline: What was measured.
        along: About how many steps from end to end [-].

    Raises:
        GeometryError: Nothing is enclosed.
    """
    return closed_hull(net(outline, along=along))
