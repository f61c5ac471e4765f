"""Where the water in the tanks lies at rest, and what its surfaces take off the stiffness."""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.cut import cut
from trimdive.hydrostatics.equilibrium.problem import Floater
from trimdive.hydrostatics.equilibrium.solve import Rest


@dataclass(frozen=True, slots=True, kw_only=True)
class TankWater:
    """The water in all tanks together, and in each."""

    volume: float  # [m³]
    moment: Floats  # first moment about the origin, shape (3,) [m⁴]
    surfaces: Floats  # second moments of the slack surfaces, summed, shape (3, 3) [m⁴]
    centroids: Floats  # of the water in each tank, shape (t, 3) [m]


def tank_cuts(boat: Floater, at: Rest) -> TankWater:
    """Return the water in the tanks of a boat at rest."""
    return tank_water(boat, at.waters, at.n, at.levels)


def tank_water(boat: Floater, waters: Floats, n: Floats, levels: Floats) -> TankWater:
    """Return where the water in the tanks lies.

    Args:
        boat: The boat.
        waters: Water in each tank, shape (t,) [m³].
        n: Unit vector up, shape (3,) [-].
        levels: Water levels along ``n`` from the origin, shape (t,) [m].
    """
    tanks, centre = boat.tanks, boat.tree.centre
    centroids = tanks.centroids + centre
    surfaces = np.zeros((3, 3))
    for k, water in enumerate(waters):
        capacity = tanks.volumes[k] * tanks.shares[k]
        if tanks.pistons[k]:
            centroids[k, 0] = centre[0] + tanks.ends[k] + 0.5 * tanks.strokes[k] * water / capacity
        elif 0 < water < capacity * (1 - 1e-12):
            one = tanks.tree._replace(roots=tanks.tree.roots[k : k + 1])
            lower = cut(one, n, float(levels[k]))
            centroids[k] = lower.moment / lower.volume
            middle = lower.area_moment / lower.area
            second = lower.area_second - lower.area * np.outer(middle, middle)
            surfaces += tanks.shares[k] * second
    return TankWater(
        volume=float(waters.sum()),
        moment=waters @ centroids if len(waters) else np.zeros(3),
        surfaces=surfaces,
        centroids=centroids,
    )
