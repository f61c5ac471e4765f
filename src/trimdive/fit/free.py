"""The free room inside a hull as a field: how far each place is from the nearest wall.

The field is negative within a wall and, so that nothing slips through one thinner than a step, for
SHELL steps beyond the outside of the hull. Beside a wall, in the hull, it is the distance from the
nearest triangle; farther off only the side counts.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import maximum_filter
from scipy.spatial import KDTree

from trimdive.geometry.lines.mesh import Floats, Ints, Mesh
from trimdive.geometry.solids.clearance import Singles
from trimdive.geometry.solids.inside import depth_beside, is_inside_grid
from trimdive.records import record

Bools = NDArray[np.bool_]

STEP = 0.003  # between places of the field [m]
SHELL = 5  # steps beyond the outer side of a wall in which nothing passes [-]
BESIDE = 14  # steps that the field reaches beyond the hull [-]
NEAR = 1.6  # steps from a wall that a place is taken to be which is not beside one [-]
LOOKED_AT = 4  # places on surfaces whose triangles are looked at for each place [-]
SEED = 7  # of the places taken on a surface, so that they are the same each time


@record
class Free:
    """The free room of a hull."""

    field: Singles  # distance from the nearest wall, negative within one, shape (i, j, k) [m]
    least: Singles  # the least at the corners of each of its cells, shape (i-1, j-1, k-1) [m]
    far: float  # the most that it tells: so far, or farther [m]
    low: Floats  # place of its first corner, shape (3,) [m]
    step: float  # [m]


def free_room(walls: Sequence[Mesh], envelope: Mesh, step: float = STEP) -> Free:
    """Return the free room between walls.

    Args:
        walls: Of everything that stands, each closed.
        envelope: The outside shape of the hull.
        step: Between places of the field [m].
    """
    bounds = np.stack([mesh.bounds for mesh in (*walls, envelope)])
    low = bounds[:, 0].min(axis=0) - BESIDE * step
    high = bounds[:, 1].max(axis=0) + BESIDE * step
    axes = [np.arange(a, b + step, step) for a, b in zip(low, high, strict=True)]
    within = is_inside_grid(envelope, *axes)
    shell = maximum_filter(within.view(np.uint8), size=2 * SHELL + 1).view(bool) & ~within
    solid = shell
    for mesh in walls:
        solid = solid | is_inside_grid(mesh, *axes)
    field = np.where(solid, np.float32(-NEAR * step), np.float32(NEAR * step))
    if walls:
        _sharpened(field, within, walls, low, step)
    least = field
    for axis in range(3):
        along = np.moveaxis(least, axis, 0)
        least = np.moveaxis(np.minimum(along[:-1], along[1:]), 0, axis)
    far = float(np.float32(NEAR * step))
    return Free(field=field, least=np.ascontiguousarray(least), far=far, low=low, step=step)


def _sharpened(
    field: Singles, within: Bools, walls: Sequence[Mesh], low: Floats, step: float
) -> None:
    """Write the distance from the nearest wall into each place beside one, in the hull."""
    corners = np.concatenate([mesh.corners for mesh in walls])
    spots, of = _spots(corners, step)
    is_beside = np.zeros(field.shape, bool)
    is_beside[tuple(np.floor((spots - low) / step).astype(np.int64).T)] = True
    for axis in range(3):  # both ends of each cell
        along = np.moveaxis(is_beside, axis, 0)
        along[1:] |= along[:-1].copy()
    beside = np.argwhere(is_beside & within)
    places = low + beside * step
    nearest = KDTree(spots).query(places, k=LOOKED_AT)[1]
    far = depth_beside(corners, places, of[nearest])
    at = tuple(beside.T)
    far = np.minimum(far, NEAR * step)
    field[at] = np.where(field[at] < 0.0, -far, far)


def _spots(corners: Floats, step: float) -> tuple[Floats, Ints]:
    """Return places all over triangles, shape (n, 3) [m], and on which each lies, shape (n,)."""
    across = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    size = np.linalg.norm(across, axis=1) / 2
    which = np.repeat(
        np.arange(len(corners)), np.maximum(np.ceil(2 * size / step**2), 1).astype(int)
    )
    u, v = np.random.default_rng(SEED).random((2, len(which)))
    over = u + v > 1.0
    u[over], v[over] = 1.0 - u[over], 1.0 - v[over]
    a, b, c = np.moveaxis(corners[which], 1, 0)
    return a + u[:, None] * (b - a) + v[:, None] * (c - a), which
