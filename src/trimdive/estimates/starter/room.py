"""Where lead and foam go: along the keel, and in pairs beside the cylinders under the waterline."""

from dataclasses import dataclass
from math import sqrt

import numpy as np

from trimdive.estimates.starter.things import middles
from trimdive.estimates.starter.wish import Plan
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.section import segments

FOAM_AT = (0.14, 0.24, 0.34, 0.44, 0.54, 0.64, 0.74, 0.84)  # of the length [-]
FOAM_LONG = 0.097  # of the length [-]
LEAD_AT = {  # of the length: where the keel of a wet hull is flat [-]
    "wet": (0.345, 0.41, 0.475, 0.54, 0.605, 0.67, 0.73),
    "dry": (0.29, 0.37, 0.45, 0.53, 0.61, 0.69, 0.77),
}
LEAD_LONG = 0.06  # of the length [-]
LEAD_BROAD = {"wet": 0.20, "dry": 0.42}  # of the breadth; a dry hull carries far more [-]
SLANTED = 1.15  # so many thicknesses of a wall lie across what meets it slanting [-]
GAP = 0.002  # to the hull, the cylinder and the waterline [m]
FORWARD = np.array([1.0, 0.0, 0.0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """Room for a pair of foam blocks, each a box against the hull."""

    x: float  # middle [m]
    length: float  # [m]
    inner: float  # half-breadth of its inner side at most inward [m]
    outer: float  # half-breadth of its outer side [m]
    low: float  # height of its underside [m]
    high: float  # height of its upper side [m]

    @property
    def volume(self) -> float:
        """Return what both sides hold [m³]."""
        return 2 * self.length * (self.outer - self.inner) * (self.high - self.low)


def half_breadth(hull: Hull, x: float, z: float) -> float:
    """Return the half-breadth of the hull's outside at a place and height [m]; nought outside it.

    Args:
        hull: The hull.
        x: Forward of the stern [m].
        z: Above the keel line [m].
    """
    corners = hull.skins[0].outer.corners
    pieces = segments(corners, FORWARD, x)
    a, b = pieces[:, 0, 1:], pieces[:, 1, 1:]
    crosses = (a[:, 1] - z) * (b[:, 1] - z) <= 0
    a, b = a[crosses], b[crosses]
    if not len(a):
        return 0.0
    rise = np.where(np.abs(b[:, 1] - a[:, 1]) < 1e-12, 1.0, b[:, 1] - a[:, 1])
    share = np.clip((z - a[:, 1]) / rise, 0.0, 1.0)
    return float((a[:, 0] + share * (b[:, 0] - a[:, 0])).max())


def foam_slots(plan: Plan, hull: Hull) -> list[Slot]:
    """Return the room for foam, from aft."""
    found: list[Slot] = []
    for share in FOAM_AT:
        x, long = share * plan.wish.length, FOAM_LONG * plan.wish.length
        beside = any(abs(x - middle) < (plan.span + long) / 2 for middle in middles(plan))
        low = plan.axis + 0.02 * plan.outside if beside else 0.62 * plan.waterline
        high = plan.waterline - GAP
        places = (x - long / 2, x, x + long / 2)
        halves = [half_breadth(hull, at, z) for at in places for z in (low, high)]
        outer = min(halves) - SLANTED * plan.wall - GAP
        rise = max(low - plan.axis, 0.0)
        inner = sqrt(max((plan.outside / 2) ** 2 - rise**2, 0.0)) + GAP if beside else GAP
        if outer - inner > 2 * GAP:
            found.append(Slot(x=x, length=long, inner=inner, outer=outer, low=low, high=high))
    return found


def lead_places(plan: Plan) -> Floats:
    """Return the middles of the bars of lead, from aft, shape (n,) [m]."""
    return np.array(LEAD_AT[plan.wish.kind]) * plan.wish.length


def dry_tank_side(plan: Plan) -> float:
    """Return breadth and height of the tank in a dry hull [m]."""
    return round(0.58 * min(plan.breadth, plan.height), 3)
