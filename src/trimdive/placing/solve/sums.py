"""What placing counts: masses, volumes and tank water of a boat as one row of numbers.

Held upright at her waterline, and dived at one filling, everything that placing must keep is
linear in these sums: that is why it can be solved exactly.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from trimdive.boatfile import Boat
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.build import Body
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.moments import above, centroid
from trimdive.hydrostatics.equilibrium import Floater
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import TankWater, tank_water
from trimdive.hydrostatics.weights import Ledger

# Each is a whole and its three first moments about the origin.
MASS, VOLUME, ABOVE, BLOWN, DIVED = (slice(k, k + 4) for k in range(0, 20, 4))
SIZE = 20
UP = np.array([0.0, 0.0, 1.0])
STEP = 1e-3  # of the tanks' room; over it the way of their water is taken as straight [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Her:
    """What placing looks at of a boat."""

    boat: Boat
    hull: Hull
    bodies: tuple[Body, ...]
    masses: Ledger
    floater: Floater
    waterline: tuple[Floats, float]  # the plane meant: n, and d [m]
    way: Callable[[float], Floats]  # water in each tank by the share of all that comes in [m³]
    moving: tuple[tuple[str, Mesh], ...] = ()  # paths of what moves, and the spaces swept


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """The waterplane at her waterline, and slack surfaces, in the axes of that plane."""

    n: Floats  # up, shape (3,) [-]
    d: float  # n·r = d [m]
    area: float  # [m²]
    f: float  # its centre forward, along the plane [m]
    across: float  # second moment about the fore and aft axis [m⁴]
    along: float  # second moment about the thwartship axis through f [m⁴]

    @property
    def forward(self) -> Floats:
        """Return the unit vector forward in the plane, shape (3,) [-]."""
        return np.array([self.n[2], 0.0, -self.n[0]])


@dataclass(frozen=True, slots=True, kw_only=True)
class Slack:
    """What slack surfaces take off, blown and dived."""

    blown: Floats  # second moments, along and across, shape (2,) [m⁴]
    dived: Floats  # shape (2,) [m⁴]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sums:
    """A boat as the sums that placing keeps within bounds."""

    total: Floats  # see the slices above, shape (20,) [kg, kg m, m³, m⁴]
    per_water: Floats  # what a cubic metre more in the tanks adds dived, shape (20,) [-, m]
    water: float  # in the tanks dived, about which that is taken [m³]
    least: float  # water in the tanks when blown [m³]
    most: float  # when full [m³]
    fitted: float  # what they take between blown and full [m³]
    stuck: Floats  # water aboard with each tank full and the rest blown, shape (t,) [m³]
    density: float  # of the water [kg/m³]
    length: float  # of the hull [m]
    plane: Plane
    slack: Slack


def whole(value: float, place: Floats) -> Floats:
    """Return a quantity at a place with its first moments, shape (4,)."""
    return np.concatenate([[value], value * place])


def body_sums(body: Body, n: Floats, d: float) -> Floats:
    """Return what a body displaces in all and above the waterline, shape (20,)."""
    upper = above(body, n, d)
    found = np.zeros(SIZE)
    found[VOLUME] = whole(body.volume, centroid(body.mesh))
    found[ABOVE] = np.concatenate([[upper.volume], upper.moment])
    return found


def _water(boat: Floater, waters: Floats, n: Floats) -> TankWater:
    return tank_water(boat, waters, n, levels_at(boat, waters, n))


def _row(water: TankWater) -> Floats:
    return np.concatenate([[water.volume], water.moment])


def _plane(boat: Floater, n: Floats, d: float) -> Plane:
    section = cut(boat.tree, n, d)
    forward, port = np.array([n[2], 0.0, -n[0]]), np.array([0.0, 1.0, 0.0])
    if section.area <= 0:
        return Plane(n=n, d=d, area=0.0, f=0.0, across=0.0, along=0.0)
    middle = section.area_moment / section.area
    second = section.area_second - section.area * np.outer(middle, middle)
    return Plane(
        n=n,
        d=d,
        area=section.area,
        f=float(forward @ middle),
        across=float(port @ second @ port),
        along=float(forward @ second @ forward),
    )


def neutral_water(her: Her) -> float:
    """Return the water in her tanks at which she would be neutral, between blown and full [m³]."""
    low, high = float(her.way(0.0).sum()), float(her.way(1.0).sum())
    wanted = her.floater.volume - her.floater.mass / her.floater.density
    return min(max(wanted, low), high)


def waters_at(way: Callable[[float], Floats], water: float) -> Floats:
    """Return the water in each tank when together they hold this much [m³], shape (t,)."""
    low, high = float(way(0.0).sum()), float(way(1.0).sum())
    return way((water - low) / (high - low) if high > low else 0.0)


def sums(her: Her) -> Sums:
    """Return a boat as the sums that placing keeps within bounds."""
    n, d = her.waterline
    floater, way = her.floater, her.way
    low, high = way(0.0), way(1.0)
    water = neutral_water(her)
    room = float(high.sum() - low.sum())
    forth = min(water + STEP * room, float(high.sum()))
    back = max(water - STEP * room, float(low.sum()))
    total = np.zeros(SIZE)
    total[MASS] = whole(her.masses.mass, her.masses.gravity)
    for body in her.bodies:
        total += body_sums(body, n, d)
    blown, dived = _water(floater, low, n), _water(floater, waters_at(way, water), UP)
    total[BLOWN], total[DIVED] = _row(blown), _row(dived)
    per_water = np.zeros(SIZE)
    if forth > back:
        rows = [_row(_water(floater, waters_at(way, w), UP)) for w in (forth, back)]
        per_water[DIVED] = (rows[0] - rows[1]) / (forth - back)
    forward, port = np.array([n[2], 0.0, -n[0]]), np.array([0.0, 1.0, 0.0])
    return Sums(
        total=total,
        per_water=per_water,
        water=water,
        least=float(low.sum()),
        most=float(high.sum()),
        fitted=room,
        stuck=float(low.sum()) - low + high,
        density=floater.density,
        length=float(np.ptp(her.hull.envelope.bounds[:, 0])),
        plane=_plane(floater, n, d),
        slack=Slack(
            blown=np.array([v @ blown.surfaces @ v for v in (forward, port)]),
            dived=np.array([dived.surfaces[0, 0], dived.surfaces[1, 1]]),
        ),
    )
