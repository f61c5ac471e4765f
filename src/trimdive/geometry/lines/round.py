"""Bodies of revolution: a profile of radii, turned about an axis along the hull."""

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.lines.sheet import closed_hull

SIDES = 96  # of the polygon that stands for a circle [-]


def revolve(x: Floats, r: Floats, *, axis_z: Floats | float = 0.0, sides: int = SIDES) -> Mesh:
    """Return the closed mesh of a body of revolution.

    The polygons have the area of their circles, so that the volume is that of the cones between
    the given radii.

    Args:
        x: Places of the radii, rising, shape (n,) [m].
        r: Radii, zero or more, shape (n,) [m].
        axis_z: Height of the axis, one or shape (n,) [m].
        sides: Sides of the polygons, even [-].

    Raises:
        GeometryError: Places do not rise, or a radius inside is not positive.
    """
    if len(x) != len(r) or len(x) < 2 or np.any(np.diff(x) <= 0.0):
        raise GeometryError("places along the axis do not rise", "radii", "Put them in order.")
    if np.any(r[1:-1] <= 0.0) or min(r[0], r[-1]) < 0.0:
        raise GeometryError("a radius is not positive", "radii", "Only the ends may be points.")
    sides += sides % 2
    turn = 2.0 * np.pi / sides
    scale = np.sqrt(turn / np.sin(turn))
    angle = np.arange(sides // 2 + 1) * turn
    y, z = np.sin(angle), -np.cos(angle)
    y[-1] = 0.0
    half = np.empty((len(x), len(angle), 3))
    half[..., 0] = x[:, None]
    half[..., 1] = scale * r[:, None] * y
    half[..., 2] = np.reshape(axis_z, (-1, 1)) + scale * r[:, None] * z
    return closed_hull(half)
