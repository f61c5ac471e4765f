"""The room that is free inside the hull: clear of skins, cylinders, parts and kept spaces."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from trimdive.boatfile import Boat, KeepClear
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.build import Body
from trimdive.geometry.solids.inside import is_inside, is_inside_grid

Flags = NDArray[np.bool_]
GAP = 0.001  # left between a piece and what it lies against [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The inside of a hull and what stands in it."""

    envelope: Mesh
    solids: tuple[Mesh, ...]
    boxes: tuple[Floats, ...]  # spaces to be kept clear, corners, each shape (2, 3) [m]

    def is_free(self, points: Floats) -> Flags:
        """Return which points, shape (n, 3) [m], lie in free room."""
        free = is_inside(self.envelope, points)
        for low, high in self.boxes:
            free &= ~((points >= low) & (points <= high)).all(axis=1)
        for mesh in self.solids:
            low, high = mesh.bounds
            near = free & ((points >= low) & (points <= high)).all(axis=1)
            if near.any():
                free[near] = ~is_inside(mesh, points[near])
        return free

    def is_free_grid(self, xs: Floats, ys: Floats, zs: Floats) -> Flags:
        """Return which points of a grid, each axis rising [m], lie in free room, (x, y, z)."""
        free = is_inside_grid(self.envelope, xs, ys, zs)
        low, high = (np.array([axis[end] for axis in (xs, ys, zs)]) for end in (0, -1))
        for box in self.boxes:
            x, y, z = ((a >= b) & (a <= c) for a, b, c in zip((xs, ys, zs), *box, strict=True))
            free &= ~(x[:, None, None] & y[None, :, None] & z[None, None, :])
        for mesh in self.solids:
            least, most = mesh.bounds
            if (least <= high).all() and (low <= most).all():
                free &= ~is_inside_grid(mesh, xs, ys, zs)
        return free

    def without(self, points: Floats) -> "Room":
        """Return the room without the things in which any of these points, shape (n, 3), lie."""
        return replace(
            self, solids=tuple(mesh for mesh in self.solids if not is_inside(mesh, points).any())
        )


def _kept(space: KeepClear) -> Floats:
    return np.array(
        [
            [space.x_aft, space.y_starboard, space.z_bottom],
            [space.x_fore, space.y_port, space.z_top],
        ]
    )


def room(
    boat: Boat, envelope: Mesh, bodies: Sequence[Body], without: frozenset[str],
    moving: Sequence[tuple[str, Mesh]],
) -> Room:  # fmt: skip
    """Return the room inside a hull.

    Args:
        boat: For the spaces that are to be kept clear.
        envelope: Outside shape of the hull.
        bodies: Everything that displaces.
        without: Paths of what counts as not there.
        moving: Paths of what moves, and the spaces that they sweep.
    """
    solids = [
        mesh
        for body in bodies
        if body.path not in without and body.kind != "coat"
        for mesh in body.pieces
    ]
    solids += [mesh for path, mesh in moving if path not in without]
    return Room(
        envelope=envelope,
        solids=tuple(solids),
        boxes=tuple(_kept(space) for space in boat.keep_clear),
    )


def box_points(low: Floats, high: Floats, step: float) -> Floats:
    """Return points on a grid that fills a box, its corners and edges with them, shape (n, 3)."""
    counts = np.maximum(np.ceil((high - low) / step).astype(int), 1) + 1
    axes = [np.linspace(low[k], high[k], counts[k]) for k in range(3)]
    return np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)


def is_clear(space: Room, low: Floats, high: Floats, step: float) -> bool:
    """Return whether a box lies in free room, looked at on a grid this fine [m]."""
    return bool(space.is_free(box_points(low, high, step)).all())


def sections(space: Room, xs: Floats, ys: Floats, zs: Floats) -> Flags:
    """Return which points of cross-sections are free on both sides of the middle.

    Args:
        space: The room.
        xs: Places of the sections [m].
        ys: To port, from the middle on [m].
        zs: Heights [m].

    Returns:
        Shape (x, y, z).
    """
    port = space.is_free_grid(xs, ys, zs)
    starboard = space.is_free_grid(xs, -ys[::-1], zs)[:, ::-1]
    return port & starboard


def largest_box(free: Flags) -> tuple[int, int, int, int]:
    """Return the largest rectangle of free points: first and last index in each direction.

    A rectangle needs two points each way. Nothing found is (0, 0, 0, 0).

    Args:
        free: Shape (y, z).

    >>> largest_box(np.array([[True, True, False], [True, True, True], [False, True, True]]))
    (0, 1, 0, 1)
    """
    best, found = 0, (0, 0, 0, 0)
    runs = np.zeros(free.shape[1], int)  # free points up to this row, over each column
    for i, row in enumerate(free):
        runs = np.where(row, runs + 1, 0)
        for j in range(len(runs)):
            least = int(runs[j])
            for k in range(j, len(runs)):
                least = min(least, int(runs[k]))
                if least < 2:
                    break
                area = (least - 1) * (k - j)
                if area > best:
                    best, found = area, (i - least + 1, i, j, k)
    return found
