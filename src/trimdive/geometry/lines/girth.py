"""Fair sections, and the same number of points round each, so that points match along the hull.

A section runs fair between its knuckles. Points are spread by equal shares of the girth between
the lines that run along the hull (knuckles, greatest breadth), so that a line stays a line.
"""

from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter
from itertools import pairwise

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.curves import End, chord_length, fair_slopes, on_curve, shared_out
from trimdive.geometry.lines.mesh import Floats, Ints
from trimdive.geometry.lines.station import Station

FINE = 12  # small steps between two pins when the girth is measured [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Girth:
    """The curve of one half section, drawn as many small steps."""

    curve: Floats  # half-breadth and height, shape (n, 2) [m]
    at: Floats  # girth to each point of the curve, shape (n,) [m]
    pins: Ints  # which point of the curve each given point is, shape (k,) [-]

    @property
    def turns(self) -> Floats:
        """Return the angle turned up to each point of the curve, shape (n,) [rad]."""
        steps = np.diff(self.curve, axis=0)
        heading = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
        turned = np.concatenate([[0.0], np.abs(np.diff(heading)), [0.0]])
        return np.cumsum(turned)


def girth(section: Station) -> Girth:
    """Return the fair curve through the points of a section."""
    points = section.points
    sharp = sorted({0, len(points) - 1, *(line.point for line in section.lines if line.sharp)})
    marked = {line.point for line in section.lines if line.sharp}
    runs: list[Floats] = [points[:1]]
    for start, stop in pairwise(sharp):
        pins = points[start : stop + 1]
        round_keel = start == 0 and 0 not in marked and pins[0, 0] == 0.0
        round_top = stop == len(points) - 1 and stop not in marked and pins[-1, 0] == 0.0
        runs.append(_fair_run(pins, round_start=round_keel, round_end=round_top)[1:])
    curve = np.concatenate(runs)
    curve[:, 0] = np.maximum(curve[:, 0], 0.0)
    return Girth(curve=curve, at=chord_length(curve), pins=FINE * np.arange(len(points)))


def _fair_run(pins: Floats, *, round_start: bool, round_end: bool) -> Floats:
    """Return the fair curve between two knuckles; at a round end it meets its mirror image."""
    t = chord_length(pins)
    y, z = pins.T
    across: dict[bool, End] = {True: "straight", False: "free"}
    upward: dict[bool, End] = {True: "level", False: "free"}
    slope = np.stack(
        [
            fair_slopes(t, y, across[round_start], across[round_end]),
            fair_slopes(t, z, upward[round_start], upward[round_end]),
        ],
        axis=1,
    )
    places = np.interp(np.arange(FINE * (len(t) - 1) + 1) / FINE, np.arange(len(t)), t)
    curve = on_curve(t, pins, slope, places)
    curve[::FINE] = pins
    return curve


def lines_in_order(stations: list[Station], name: str) -> list[str]:
    """Return the names of all lines along the hull, from keel to deck.

    Raises:
        GeometryError: Two lines stand in one order at one station and the other way at another.
    """
    below: dict[str, set[str]] = {}
    for section in stations:
        names = [line.name for line in section.lines]
        for at, line in enumerate(names):
            below.setdefault(line, set()).update(names[max(at - 1, 0) : at])
    try:
        return list(TopologicalSorter(below).static_order())
    except CycleError as error:
        crossed = " and ".join(f"'{line}'" for line in dict.fromkeys(error.args[1]))
        raise GeometryError(
            f"the knuckles {crossed} cross along the hull",
            name,
            "Give each knuckle the same name at every station, from keel to deck.",
        ) from None


def line_places(stations: list[Station], girths: list[Girth], lines: list[str]) -> Floats:
    """Return where every line meets every section, as girth from the keel.

    Between stations that have a line, the others take it at a share of girth in between.

    Args:
        stations: Sections in order of x.
        girths: Their curves.
        lines: Names of the lines, from keel to deck.

    Returns:
        Girths, with keel and deck centre first and last, shape (stations, lines + 2) [m].
    """
    x = np.array([section.x for section in stations])
    whole = np.array([g.at[-1] for g in girths])
    places = np.zeros((len(stations), len(lines) + 2))
    places[:, -1] = whole
    for j, name in enumerate(lines, start=1):
        share = np.full(len(stations), np.nan)
        for i, (section, g) in enumerate(zip(stations, girths, strict=True)):
            for line in section.lines:
                if line.name == name:
                    share[i] = g.at[g.pins[line.point]] / max(whole[i], 1e-300)
        has = np.isfinite(share) & (whole > 0.0)
        places[:, j] = np.where(has, share, np.interp(x, x[has], share[has])) * whole
    fixed = np.minimum.accumulate(places[:, ::-1], axis=1)[:, ::-1]
    return np.maximum.accumulate(fixed, axis=1)


def round_steps(girths: list[Girth], places: Floats, around: int) -> Ints:
    """Return how many steps each piece between two lines is cut into, more where it turns.

    Args:
        girths: The curves of the sections.
        places: Girth at the lines, shape (stations, k + 1) [m].
        around: About how many steps from keel to deck centre [-].

    Returns:
        Steps, shape (k,) [-].
    """
    weights = np.zeros(places.shape[1] - 1)
    for g, at in zip(girths, places, strict=True):
        if g.at[-1] > 0.0:
            turned = np.diff(np.interp(at, g.at, g.turns))
            weights += g.at[-1] * (turned / max(g.turns[-1], 1.0) + 0.5 * np.diff(at) / g.at[-1])
    return shared_out(weights + 1e-12, around, 1)


def spread(g: Girth, at: Floats, steps: Ints) -> Floats:
    """Return points round a section, by equal shares of the girth between its lines.

    Args:
        g: The curve of the section.
        at: Girth at the lines, shape (k + 1,) [m].
        steps: Steps between them, shape (k,) [-].

    Returns:
        Half-breadth and height, shape (sum of steps + 1, 2) [m].
    """
    if len(g.at) < 2:
        return np.repeat(g.curve, int(steps.sum()) + 1, axis=0)
    shares = [np.arange(n) / n for n in steps]
    wanted = np.concatenate(
        [
            *(a + (b - a) * share for a, b, share in zip(at[:-1], at[1:], shares, strict=True)),
            at[-1:],
        ]
    )
    return np.stack([np.interp(wanted, g.at, g.curve[:, k]) for k in (0, 1)], axis=1)
