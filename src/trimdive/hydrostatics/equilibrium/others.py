"""Every other way in which she could rest: let go from all around, which rests are reached?"""

from math import acos, pi

import numpy as np

from trimdive.errors import BalanceError
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium.energy import FLOAT, HANG, evaluate
from trimdive.hydrostatics.equilibrium.problem import Floater
from trimdive.hydrostatics.equilibrium.solve import Rest, rest

STARTS = 48  # directions from which she is let go [-]
SAME = pi / 180  # rests closer than this are one [rad]
UPRIGHT = 1e-4  # rad; leaning less than this she has no side
ALIKE = 1e-6  # of weight, and of length on the lever: up to this the mirror image is a rest [-]


def directions(count: int) -> Floats:
    """Return unit vectors spread evenly over the sphere, shape (count, 3) [-].

    Source:
        common practice, no source: points on a spiral that turns by the golden angle.
    """
    k = np.arange(count) + 0.5
    polar = np.arccos(1 - 2 * k / count)
    turn = pi * (1 + 5**0.5) * k
    return np.column_stack(
        [np.sin(polar) * np.cos(turn), np.sin(polar) * np.sin(turn), np.cos(polar)]
    )


def other_rests(boat: Floater, at: Rest) -> tuple[Rest, ...]:
    """Return the stable rests other than ``at``, the least turned from it first."""
    found: list[Rest] = [at]
    for n in directions(STARTS):
        try:
            one = rest(boat, at.waters, n=n, hanging=at.under)
        except BalanceError:
            continue
        if one.stable and all(_turned(one.n, other.n) > SAME for other in found):
            found.append(one)
    return tuple(sorted(found[1:], key=lambda one: _turned(one.n, at.n)))


def either_side(boat: Floater, at: Rest) -> bool:
    """Return whether she leans, and leaning as far to the other side would be a rest as well.

    Then chance decides on the side, and nothing but "to either side" can be said.
    """
    if abs(float(at.n[1])) <= UPRIGHT:
        return False
    total = boat.mass + boat.density * float(at.waters.sum())
    other, levels = at.n * np.array([1.0, -1.0, 1.0]), np.zeros(len(at.waters))
    slope, stiffness = np.empty(3), np.empty((3, 3))
    mode, d = (HANG if at.under else FLOAT), at.d - float(at.n @ boat.tree.centre)
    evaluate(boat, at.waters, mode, other, d, levels, slope, stiffness)
    lever = max(abs(slope[0]), abs(slope[1])) / total
    return bool(lever <= ALIKE * boat.length and abs(slope[2]) <= ALIKE * total)


def _turned(one: Floats, other: Floats) -> float:
    """Return the angle between two upward vectors [rad]."""
    return acos(max(-1.0, min(1.0, float(one @ other))))
