"""Which points lie inside a closed mesh, and how far outside the others are."""

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Ints, Mesh
from trimdive.geometry.solids.kernel import inner, kernel

SLICES = 256  # slices along x into which the triangles are sorted [-]
CELLS = 64  # cells across, at the most, into which they are sorted as seen from above [-]
LONGER = 8  # cells along to one across [-]
ASIDE = np.array([3.7e-10, 7.1e-10, 5.3e-10])  # looked at from beside faces and edges [m]


@with_mesh(1)
def _sliced(mesh: Mesh) -> tuple[Floats, Ints, Ints]:
    """Return the corners, and for each slice along x where its triangles begin, and which."""
    corners = mesh.corners
    low, high = mesh.bounds[:, 0]
    scale = SLICES / max(float(high - low), 1e-12)
    first = np.clip(((corners[..., 0].min(axis=1) - low) * scale).astype(int), 0, SLICES - 1)
    last = np.clip(((corners[..., 0].max(axis=1) - low) * scale).astype(int), 0, SLICES - 1)
    count = last - first + 1
    which = np.repeat(np.arange(len(corners)), count)
    slices = (
        np.repeat(first, count) + np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count)
    )
    order = np.argsort(slices, kind="stable")
    starts = np.searchsorted(slices[order], np.arange(SLICES + 1))
    return corners, starts, which[order]


def _cell(places: Floats, mesh: Mesh, axis: int, count: int) -> Ints:
    """Return in which of so many equal parts of a mesh's length or breadth places lie."""
    low, high = mesh.bounds[:, axis]
    share = (places - low) * (count / max(float(high - low), 1e-12))
    return np.clip(share.astype(np.int64), 0, count - 1)


@with_mesh(1)
def _celled(mesh: Mesh) -> tuple[Floats, Ints, Ints, tuple[int, int]]:
    """Return a mesh's triangles sorted into the cells of a chart seen from above.

    Of each four triangles one cell: the corners; for each cell where its triangles begin, and
    which they are; how many cells there are along and across.
    """
    corners = mesh.corners
    across = min(max(int(np.sqrt(len(corners) / 4 / LONGER)), 1), CELLS)
    along = min(max(len(corners) // 4 // across, 1), LONGER * CELLS)
    edges = corners[..., :2].min(axis=1), corners[..., :2].max(axis=1)
    (x, y), (u, v) = (
        (_cell(edge[:, 0], mesh, 0, along), _cell(edge[:, 1], mesh, 1, across)) for edge in edges
    )
    broad, count = v - y + 1, (u - x + 1) * (v - y + 1)
    which = np.repeat(np.arange(len(corners)), count)
    number = np.arange(len(which)) - np.repeat(np.cumsum(count) - count, count)
    row, column = np.divmod(number, broad[which])
    cells = (x[which] + row) * across + y[which] + column
    order = np.argsort(cells, kind="stable")
    starts = np.searchsorted(cells[order], np.arange(along * across + 1))
    return corners, starts, which[order], (along, across)


@inner
def _above(corners: Floats, which: Ints, p: Floats) -> int:
    """Return how many of these triangles lie straight above a point."""
    count = 0
    for j in which:
        a, b, c = corners[j, 0], corners[j, 1], corners[j, 2]
        ab = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
        bc = (c[0] - b[0]) * (p[1] - b[1]) - (c[1] - b[1]) * (p[0] - b[0])
        ca = (a[0] - c[0]) * (p[1] - c[1]) - (a[1] - c[1]) * (p[0] - c[0])
        if (ab > 0.0) == (bc > 0.0) == (ca > 0.0):
            total = ab + bc + ca
            if total != 0.0 and (bc * a[2] + ca * b[2] + ab * c[2]) / total > p[2]:
                count += 1
    return count


@kernel
def _count(corners: Floats, starts: Ints, which: Ints, points: Floats, cells: Ints) -> Ints:
    """Return how many triangles lie straight above each point."""
    counts = np.zeros(len(points), np.int64)
    for i in range(len(points)):
        s = cells[i]
        counts[i] = _above(corners, which[starts[s] : starts[s + 1]], points[i])
    return counts


def is_inside(mesh: Mesh, points: Floats) -> NDArray[np.bool_]:
    """Return which points lie inside a closed mesh: those under an odd number of its faces.

    Args:
        mesh: The closed surface.
        points: Shape (n, 3) [m].
    """
    low, high = mesh.bounds
    found = ((points >= low) & (points <= high)).all(axis=1)
    if found.any():
        corners, starts, which, cells = _celled(mesh)
        beside = np.ascontiguousarray(points[found] + ASIDE)
        first, second = (_cell(beside[:, k], mesh, k, cells[k]) for k in (0, 1))
        found[found] = _count(corners, starts, which, beside, first * cells[1] + second) % 2 == 1
    return found


@inner
def _dot(ax: float, ay: float, az: float, bx: float, by: float, bz: float) -> float:
    return ax * bx + ay * by + az * bz


@inner
def _edge_square(p: Floats, a: Floats, b: Floats) -> float:
    """Return the square of the distance of a point from a line segment [m²]."""
    ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    x, y, z = p[0] - a[0], p[1] - a[1], p[2] - a[2]
    size = _dot(ux, uy, uz, ux, uy, uz)
    share = min(max(_dot(x, y, z, ux, uy, uz) / size, 0.0), 1.0) if size > 0.0 else 0.0
    x, y, z = x - share * ux, y - share * uy, z - share * uz
    return _dot(x, y, z, x, y, z)


@inner
def _triangle_square(p: Floats, a: Floats, b: Floats, c: Floats) -> float:
    """Return the square of the distance of a point from a triangle [m²]; inf from one of none."""
    ux, uy, uz = b[0] - a[0], b[1] - a[1], b[2] - a[2]
    vx, vy, vz = c[0] - a[0], c[1] - a[1], c[2] - a[2]
    wx, wy, wz = p[0] - a[0], p[1] - a[1], p[2] - a[2]
    nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
    size = _dot(nx, ny, nz, nx, ny, nz)
    if size == 0.0:
        return np.inf
    # where the foot of the point lies, in shares of the two sides
    on_u = _dot(wy * vz - wz * vy, wz * vx - wx * vz, wx * vy - wy * vx, nx, ny, nz) / size
    on_v = _dot(uy * wz - uz * wy, uz * wx - ux * wz, ux * wy - uy * wx, nx, ny, nz) / size
    if on_u >= 0.0 and on_v >= 0.0 and on_u + on_v <= 1.0:
        height = _dot(wx, wy, wz, nx, ny, nz)
        return height * height / size
    return min(_edge_square(p, a, b), _edge_square(p, b, c), _edge_square(p, c, a))


@kernel
def _distances(corners: Floats, points: Floats) -> Floats:
    """Return the distance of each point from the nearest triangle, shape (n,) [m]."""
    far = np.empty(len(points))
    for i in range(len(points)):
        least = np.inf
        for j in range(len(corners)):
            a, b, c = corners[j, 0], corners[j, 1], corners[j, 2]
            off = 0.0  # square of the distance from the box round the triangle
            for k in range(3):
                low, high = min(a[k], b[k], c[k]), max(a[k], b[k], c[k])
                gap = max(low - points[i, k], points[i, k] - high, 0.0)
                off += gap * gap
            if off < least:
                least = min(least, _triangle_square(points[i], a, b, c))
        far[i] = np.sqrt(least)
    return far


@kernel
def _distances_of(corners: Floats, points: Floats, which: Ints) -> Floats:
    """Return the distance of each point from the nearest of its own triangles, shape (n,) [m]."""
    far = np.empty(len(points))
    for i in range(len(points)):
        least = np.inf
        for j in which[i]:
            a, b, c = corners[j, 0], corners[j, 1], corners[j, 2]
            least = min(least, _triangle_square(points[i], a, b, c))
        far[i] = np.sqrt(least)
    return far


def depth_beside(corners: Floats, points: Floats, which: Ints) -> Floats:
    """Return how far points are from triangles known to be near them, shape (n,) [m].

    Args:
        corners: Of all triangles, shape (m, 3, 3) [m].
        points: Shape (n, 3) [m].
        which: Triangles to look at for each point, shape (n, k) [-].
    """
    return _distances_of(corners, np.ascontiguousarray(points), np.ascontiguousarray(which))


def distances(corners: Floats, points: Floats) -> Floats:
    """Return how far points are from the nearest of some triangles, shape (n,) [m].

    Args:
        corners: Of the triangles, shape (m, 3, 3) [m].
        points: Shape (n, 3) [m].
    """
    return _distances(np.ascontiguousarray(corners), np.ascontiguousarray(points))


def depth_outside(mesh: Mesh, points: Floats) -> Floats:
    """Return how far points are from the surface of a mesh, shape (n,) [m]."""
    return distances(mesh.corners, points)


@kernel
def _column_flags(
    corners: Floats, starts: Ints, which: Ints, xs: Floats, slices: Ints, ys: Floats, zs: Floats
) -> NDArray[np.bool_]:
    """Return which points of a grid lie under an odd number of triangles, shape (x, y, z)."""
    flags = np.zeros((len(xs), len(ys), len(zs)), np.bool_)
    for i in range(len(xs)):
        s, x = slices[i], xs[i]
        for j in which[starts[s] : starts[s + 1]]:
            a, b, c = corners[j, 0], corners[j, 1], corners[j, 2]
            least, most = min(a[1], b[1], c[1]), max(a[1], b[1], c[1])
            for k in range(np.searchsorted(ys, least), np.searchsorted(ys, most)):
                y = ys[k]
                ab = (b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])
                bc = (c[0] - b[0]) * (y - b[1]) - (c[1] - b[1]) * (x - b[0])
                ca = (a[0] - c[0]) * (y - c[1]) - (a[1] - c[1]) * (x - c[0])
                if (ab > 0.0) == (bc > 0.0) == (ca > 0.0):
                    total = ab + bc + ca
                    if total != 0.0:
                        top = (bc * a[2] + ca * b[2] + ab * c[2]) / total
                        for m in range(np.searchsorted(zs, top)):
                            flags[i, k, m] = not flags[i, k, m]
    return flags


def is_inside_grid(mesh: Mesh, xs: Floats, ys: Floats, zs: Floats) -> NDArray[np.bool_]:
    """Return which points of a grid lie inside a closed mesh, shape (x, y, z).

    Args:
        mesh: The closed surface.
        xs: Places along, rising, shape (x,) [m].
        ys: Places across, rising, shape (y,) [m].
        zs: Heights, rising, shape (z,) [m].
    """
    low, high = mesh.bounds
    corners, starts, which = _sliced(mesh)
    share = (xs + ASIDE[0] - low[0]) / max(float(high[0] - low[0]), 1e-12)
    near = (share >= 0.0) & (share <= 1.0)
    flags = np.zeros((len(xs), len(ys), len(zs)), bool)
    if near.any():
        slices = np.clip((share[near] * SLICES).astype(int), 0, SLICES - 1)
        beside = xs[near] + ASIDE[0], ys + ASIDE[1], np.ascontiguousarray(zs + ASIDE[2])
        flags[near] = _column_flags(corners, starts, which, beside[0], slices, beside[1], beside[2])
    return flags
