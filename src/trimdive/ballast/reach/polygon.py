"""The mass and moment that the tanks can make, as a polygon, and how far a pair lies outside.

Each tank adds to mass and moment along a line, a piston's along a curve; together they cover the
polygon around all combinations.

Source: full-size practice, the trim polygon.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.records import record


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A state that is to be covered by water alone."""

    name: str
    mass: float  # water that brings her neutral [kg]
    moment: float  # of that water about midships, forward [kg m]
    denser: float = 1.0  # that water, over the water that she is trimmed for [-]


@record
class Reach:
    """What the tanks cover."""

    corners: Floats  # mass and moment about midships, anticlockwise, shape (n, 2) [kg, kg m]


def reach(tanks: Sequence[Floats]) -> Reach:
    """Return what tanks cover together, each at any filling between blown and full.

    Args:
        tanks: For each, mass and moment of its water at some fillings, shape (k, 2) [kg, kg m];
            a line for one whose water stays in place, a curve for a piston's.
    """
    corners = np.zeros((1, 2))
    for curve in tanks:
        sums = corners[:, None, :] + hull(curve)[None, :, :]
        corners = hull(sums.reshape(-1, 2))
    return Reach(corners=corners)


def hull(points: Floats) -> Floats:
    """Return the corners of the least convex polygon around points, anticlockwise, shape (n, 2).

    Args:
        points: Shape (k, 2) [kg, kg m].

    Source:
        Andrew's monotone chain; ordinary plane geometry.
    """
    rows = sorted(set(map(tuple, points.tolist())))
    if len(rows) < 3:
        return np.array(rows)
    return np.array(_chain(rows)[:-1] + _chain(rows[::-1])[:-1])


def _chain(rows: list[tuple[float, ...]]) -> list[tuple[float, ...]]:
    """Return the lower side of the polygon around points that are in order."""
    kept: list[tuple[float, ...]] = []
    for x, y in rows:
        while len(kept) > 1:
            (ax, ay), (bx, by) = kept[-2], kept[-1]
            if (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0:
                break
            kept.pop()
        kept.append((x, y))
    return kept


def apart(covered: Reach, one: Wanted) -> tuple[float, float]:
    """Return the mass [kg] and the moment [kg m] that water alone cannot make; zeros inside.

    First the mass that is lacking or too much, then, with as much of it as the tanks can
    take, the moment beyond what they can make. Denser water makes them hold more.

    Args:
        covered: What the tanks cover.
        one: What is wanted.
    """
    corners = covered.corners * one.denser
    masses, moments = corners.T
    mass = float(np.clip(one.mass, masses.min(), masses.max()))
    low, high = _between(corners, mass)
    moment = one.moment - min(max(one.moment, low), high)
    return one.mass - mass, moment if abs(moment) > 1e-12 * float(np.abs(moments).max()) else 0.0


def _between(corners: Floats, mass: float) -> tuple[float, float]:
    """Return the least and the greatest moment of a polygon at one mass [kg m]."""
    found: list[float] = []
    after = np.roll(corners, -1, axis=0)
    for (m0, q0), (m1, q1) in zip(corners, after, strict=True):
        if min(m0, m1) - 1e-12 <= mass <= max(m0, m1) + 1e-12:
            share = (mass - m0) / (m1 - m0) if abs(m1 - m0) > 1e-15 else 0.0
            found += [float(q0 + share * (q1 - q0))]
            found += [float(q1)] if abs(m1 - m0) <= 1e-15 else []
    return min(found), max(found)
