"""What has to come to rest: masses, displacing bodies, tanks with water, and the water outside."""

from typing import NamedTuple

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.tree import NOTHING, Tree
from trimdive.records import hashed, is_equal, short


class Tanks(NamedTuple):
    """The tanks of a boat; the water in an open one lies level, a piston's has no surface."""

    tree: Tree  # one body a tank, measured from the same centre as the hull's tree
    volumes: Floats  # of the tank's space by its mesh, shape (t,) [m³]
    centroids: Floats  # of that space from the tree's centre, shape (t, 3) [m]
    shares: Floats  # of that space that water can fill (fittings take the rest), shape (t,) [-]
    pistons: Floats  # 0 for an open tank, 1 for a piston, shape (t,) [-]
    ends: Floats  # water end of a piston's space along x, shape (t,) [m]
    strokes: Floats  # travel of a piston, negative when it runs aft, shape (t,) [m]

    __repr__ = short
    __eq__ = is_equal
    __hash__ = hashed

    @property
    def capacities(self) -> Floats:
        """Return the water that each holds when full, shape (t,) [m³]."""
        return self.volumes * self.shares


class Floater(NamedTuple):
    """A boat ready to be let go; all coordinates are measured from ``tree.centre``."""

    tree: Tree  # everything that displaces
    volume: float  # all of that [m³]
    buoyancy: Floats  # its centroid, shape (3,) [m]
    mass: float  # without the water in the tanks [kg]
    gravity: Floats  # centroid of that mass, shape (3,) [m]
    tanks: Tanks
    density: float  # of the water, outside and in the tanks [kg/m³]
    length: float  # overall [m]

    __repr__ = short
    __eq__ = is_equal
    __hash__ = hashed


NO_TANKS = Tanks(
    tree=NOTHING,
    volumes=np.zeros(0),
    centroids=np.zeros((0, 3)),
    shares=np.zeros(0),
    pistons=np.zeros(0),
    ends=np.zeros(0),
    strokes=np.zeros(0),
)
