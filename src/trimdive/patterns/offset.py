"""The line across her that is everywhere so far from a surface: what a pattern is cut to.

The distance is the true one, in space and not in the plane of the pattern: where she tapers, a line
that keeps a gap to her skin lies farther off in that plane than the gap. It is taken on a grid, the
line is drawn through it, so that it closes and never crosses itself, and its points are then moved
to where the distance is right.

Source:
    closed forms only; the line through the grid is by the contourpy library.
"""

from collections.abc import Callable
from typing import cast

import numpy as np
from contourpy import contour_generator
from scipy.ndimage import distance_transform_edt
from shapely import LineString

from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.inside import distances, is_inside_grid
from trimdive.records import record

STEP = 0.0005  # between places of the grid [m]
RIM = 4.0  # steps beside the line in which the distance is taken, at least [-]
FARTHEST = 12.0  # times the gap that the line may lie off in the plane, where she tapers most [-]
CELL = 0.01  # side of a heap of places that are looked at together [m]
FINE = 1e-5  # points that are not needed to so much are left out [m]
POLISHED = 3  # times that the points of a line are moved to where they belong [-]
AHEAD = 2e-5  # so far beside a point the distance is taken again [m]


@record
class Plane:
    """What is solid where a plane across her cuts it."""

    x: float  # place of the plane, from the stern [m]
    ys: Floats  # places of the grid across, shape (m,) [m]
    zs: Floats  # and up, shape (k,) [m]
    is_free: np.ndarray  # whether a place lies free, shape (m, k) [-]


def plane(x: float, envelope: Mesh, room: float, free: Callable[..., np.ndarray]) -> Plane:
    """Return a plane across her as a grid.

    Args:
        x: Its place, from the stern [m].
        envelope: Her outside shape.
        room: Beside that which the grid takes in [m].
        free: Returns, for places along, across and up, which of them lie free.
    """
    low, high = envelope.bounds[0, 1:] - room, envelope.bounds[1, 1:] + room
    # half a step aside: a face of the middle line or of the keel line lies between two places
    ys, zs = (np.arange(a - STEP / 2, b + STEP, STEP) for a, b in zip(low, high, strict=True))
    return Plane(x=x, ys=ys, zs=zs, is_free=free(np.array([x]), ys, zs)[0])


def outside(x: float, envelope: Mesh, gap: float) -> list[Floats]:
    """Return the lines across her that lie so far outside her skin, each closed, (n, 2) [m].

    Args:
        x: Place of the plane, from the stern [m].
        envelope: Her outside shape.
        gap: Between line and skin [m].
    """
    room = FARTHEST * gap + RIM * STEP
    at = plane(x, envelope, room, lambda *axes: ~is_inside_grid(envelope, *axes))
    return _lines(at, [envelope], gap)


def inside(x: float, envelope: Mesh, walls: list[Mesh], gap: float) -> list[Floats]:
    """Return the lines across her that lie so far inside her skin, each closed, (n, 2) [m].

    Args:
        x: Place of the plane, from the stern [m].
        envelope: Her outside shape.
        walls: Of what a frame is to stay clear of: skins, each closed.
        gap: Between line and skin [m].
    """

    def free(*axes: Floats) -> np.ndarray:
        found = is_inside_grid(envelope, *axes)
        for mesh in walls:
            found &= ~is_inside_grid(mesh, *axes)
        return found

    return _lines(plane(x, envelope, RIM * STEP, free), [envelope, *walls], gap)


def _lines(at: Plane, meshes: list[Mesh], gap: float) -> list[Floats]:
    """Return the closed lines on which the free room is so far from surfaces, (n, 2) [m]."""
    near = _near(meshes, at.x, gap + 2 * RIM * STEP)
    if not len(near):
        return []
    field = _field(at, near, gap)
    drawn = cast("list[Floats]", contour_generator(at.ys, at.zs, field.T).lines(gap))
    closed = [one for one in drawn if len(one) > 3 and np.allclose(one[0], one[-1])]
    return [_simple(_polished(one[:-1], at, near, gap)) for one in closed]


def _near(meshes: list[Mesh], x: float, reach: float) -> Floats:
    """Return the triangles that come so near to a plane across her, shape (n, 3, 3) [m]."""
    every = np.concatenate([mesh.corners for mesh in meshes])
    along = every[:, :, 0]
    return np.ascontiguousarray(every[(along.min(1) <= x + reach) & (along.max(1) >= x - reach)])


def _field(at: Plane, near: Floats, gap: float) -> Floats:
    """Return how far each place of the grid is from the surfaces, negative where it is solid [m].

    Away from them the distance in the plane stands in: it is no less than the true one.
    """
    free = at.is_free
    if free.all() or not free.any():
        return np.where(free, np.inf, -np.inf)
    off, on = (cast("Floats", distance_transform_edt(one)) for one in (free, ~free))
    flat = STEP * np.where(free, off, -on)
    field = flat.copy()
    done = np.zeros(free.shape, bool)
    reach = gap + RIM * STEP
    while True:
        todo = ~done & (flat <= reach) & (flat >= -2 * STEP)
        i, j = np.nonzero(todo)
        places = np.column_stack([np.full(len(i), at.x), at.ys[i], at.zs[j]])
        field[i, j] = np.where(free[i, j], 1.0, -1.0) * _distances(near, places, 2 * reach)
        done |= todo
        rim = done & free & (flat > reach - 2 * STEP)
        if reach >= FARTHEST * gap or not (field[rim] < gap).any():
            return field
        reach *= 2.0


def _polished(line: Floats, at: Plane, near: Floats, gap: float) -> Floats:
    """Return a line with its points moved across it to where the distance is right, (n, 2) [m]."""
    for _ in range(POLISHED):
        along = np.roll(line, -1, axis=0) - np.roll(line, 1, axis=0)
        size = np.maximum(np.linalg.norm(along, axis=1, keepdims=True), 1e-12)
        across = np.column_stack([along[:, 1], -along[:, 0]]) / size
        now, beside = (_far(one, at.x, near) for one in (line, line + AHEAD * across))
        slope = (beside - now) / AHEAD
        steep = np.abs(slope) > 0.05  # else it runs along a crease and moves nowhere
        move = np.where(steep, (gap - now) / np.where(steep, slope, 1.0), 0.0)
        line = line + np.clip(move, -STEP, STEP)[:, None] * across
    return line


def _far(line: Floats, x: float, near: Floats) -> Floats:
    """Return how far each point of a line is from surfaces, shape (n,) [m]."""
    return _distances(near, np.column_stack([np.full(len(line), x), line]), 2 * CELL)


def _distances(near: Floats, places: Floats, reach: float) -> Floats:
    """Return how far places are from surfaces, at most so far, shape (n,) [m].

    They are looked at heap by heap, each with the triangles that come near it.

    Args:
        near: Triangles, shape (m, 3, 3) [m].
        places: In a plane across her, shape (n, 3) [m].
        reach: To where the distance is to be right [m].
    """
    far = np.full(len(places), reach)
    low, high = near[:, :, 1:].min(axis=1), near[:, :, 1:].max(axis=1)
    _, heap = np.unique(np.floor(places[:, 1:] / CELL), axis=0, return_inverse=True)
    order = np.argsort(heap.ravel(), kind="stable")
    for own in np.split(order, np.flatnonzero(np.diff(heap.ravel()[order])) + 1):
        a, b = places[own, 1:].min(axis=0) - reach, places[own, 1:].max(axis=0) + reach
        some = near[(low <= b).all(axis=1) & (high >= a).all(axis=1)]
        if len(some):
            far[own] = np.minimum(distances(some, places[own]), reach)
    return far


def _simple(line: Floats) -> Floats:
    """Return a closed line without the points that it does not need, shape (n, 2) [m]."""
    ring = LineString(np.vstack([line, line[:1]])).simplify(FINE)
    return np.array(ring.coords)[:-1]
