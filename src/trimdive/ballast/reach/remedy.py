"""Where water alone does not reach: the least weight that brings a state within reach, and where.

A weight less buoyancy p at x makes the water wanted p less and its moment p (x - midships) less. So
all that a weight between stern and bow can do is a cone in the plane of mass and moment; the least
weight that leads into the polygon leads to one of its corners in the cone, or to where a side of
the cone meets one of its edges.

Source: plane geometry; a linear aim is least at a corner.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from trimdive.ballast.reach.polygon import Reach, Wanted, apart
from trimdive.geometry.lines.mesh import Floats

SMALL = 1e-9  # what is less than this is nothing [kg, kg m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A weight that helps."""

    pull: float  # weight less buoyancy to add; below 0 to take out [kg]
    x: float  # where [m]


def remedy(
    covered: Reach, one: Wanted, midships: float, ends: tuple[float, float]
) -> Weight | None:
    """Return the least weight, between two ends, that brings a state within reach.

    None where it is within reach already, or where no single weight can do it.

    Args:
        covered: What the tanks cover.
        one: What is wanted.
        midships: About which moments are taken [m].
        ends: Places between which it may lie, aft and fore [m].
    """
    if max(abs(lack) for lack in apart(covered, one)) < SMALL:
        return None
    arms = (min(ends) - midships, max(ends) - midships)
    chances = list(_chances(covered.corners * one.denser, (one.mass, one.moment), arms))
    if not chances:
        return None
    pull, arm = min(chances, key=lambda chance: abs(chance[0]))
    return Weight(pull=pull, x=midships + arm)


def _chances(
    corners: Floats, wanted: tuple[float, float], arms: tuple[float, float]
) -> Iterator[tuple[float, float]]:
    """Yield weights [kg] and arms [m] that bring a state to a corner or an edge.

    Args:
        corners: Of the polygon, shape (n, 2) [kg, kg m].
        wanted: Mass and moment [kg, kg m].
        arms: Least and greatest, forward of midships [m].
    """
    mass, moment = wanted
    for m, q in corners:
        pull = mass - m
        if abs(pull) > SMALL and arms[0] - SMALL <= (moment - q) / pull <= arms[1] + SMALL:
            yield float(pull), float((moment - q) / pull)
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        along = end - start
        for arm in arms:  # wanted - pull (1, arm) = start + share along
            turned = np.array([[1.0, along[0]], [arm, along[1]]])
            if abs(np.linalg.det(turned)) < 1e-12:
                continue
            pull, share = np.linalg.solve(turned, np.array(wanted) - start)
            if 0.0 <= share <= 1.0:
                yield float(pull), float(arm)
