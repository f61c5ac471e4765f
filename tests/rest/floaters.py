"""Boats made of a few bodies, a mass and its centre: what the checks of rest are let go with."""

from collections.abc import Sequence

import numpy as np

from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.moments import centroid
from trimdive.geometry.solids.shapes import box, cylinder, moved
from trimdive.geometry.solids.tree import forest, plant
from trimdive.hydrostatics.equilibrium import Floater, Tanks
from trimdive.hydrostatics.equilibrium.problem import NO_TANKS

UP = np.array([0.0, 0.0, 1.0])
NO_WATER = np.zeros(0)
Place = tuple[float, float, float]
Size = tuple[float, float, float]


def open_tanks(rooms: Sequence[Mesh], centre: Floats, share: float = 1.0) -> Tanks:
    """Return open tanks with these rooms, of which water can fill ``share``."""
    none = np.zeros(len(rooms))
    return Tanks(
        tree=forest([plant(room, 1.0, centre) for room in rooms]),
        volumes=np.array([volume(room) for room in rooms]),
        centroids=np.array([centroid(room) - centre for room in rooms]),
        shares=np.full(len(rooms), share),
        pistons=none,
        ends=none,
        strokes=none,
    )


def boat_of(
    bodies: Sequence[Mesh],
    mass: float,
    gravity: Place,
    *,
    rooms: Sequence[Mesh] = (),
    density: float = 1000.0,
    shares: Sequence[float] = (),
) -> Floater:
    """Return a boat of these closed bodies, with this dry mass at this place."""
    bounds = np.stack([body.bounds for body in bodies])
    low, high = bounds[:, 0].min(axis=0), bounds[:, 1].max(axis=0)
    centre = (low + high) / 2
    weights = shares or [1.0] * len(bodies)
    tree = forest([plant(b, w, centre) for b, w in zip(bodies, weights, strict=True)])
    whole = cut(tree, UP, float(high[2]) + 1.0)
    return Floater(
        tree=tree,
        volume=whole.volume,
        buoyancy=whole.moment / whole.volume - centre,
        mass=mass,
        gravity=np.array(gravity) - centre,
        tanks=open_tanks(rooms, centre) if rooms else NO_TANKS,
        density=density,
        length=float(high[0] - low[0]),
    )


def box_at(size: Size, x: float = 0.0, y: float = 0.0, keel: float = 0.0) -> Mesh:
    """Return a box whose middle lies at x, y and whose underside lies at ``keel``."""
    return moved(box(*size), x, y, keel + size[2] / 2)


def round_at(
    diameter: float, length: float, x: float = 0.0, z: float | None = None, sides: int = 720
) -> Mesh:
    """Return a round body along x, its keel at height zero unless its axis is given."""
    return moved(cylinder(diameter, length, sides), x, 0.0, diameter / 2 if z is None else z)
