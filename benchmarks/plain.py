"""The cut made plainly, all triangles in turn: once in numpy, once as a loop that numba compiles.

Both give what ours gives: volume, moment, waterplane area, its moments and second moments, along
forward and port and up, from the point on the plane below or above the origin.
"""

import numba
import numpy as np

from trimdive.geometry.lines.mesh import Floats, Ints, Mesh
from trimdive.geometry.solids.cut import axes_in_plane

SUMS = 10  # volume, its moment (3), area, its moment (2), its second moments (uu, uv, vv)


def tetrahedra(a: Floats, b: Floats, c: Floats) -> Floats:
    """Return volume and moment of the tetrahedra from the origin to triangles, shape (4,)."""
    w = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6.0
    return np.array([w.sum(), *(w @ (a + b + c) / 4.0)])


def in_numpy(mesh: Mesh, n: Floats, d: float) -> Floats:
    """Return the sums of what lies below a plane, shape (SUMS,) [m, by powers]."""
    local = mesh.vertices @ np.stack([*axes_in_plane(n), n], axis=1) - [0.0, 0.0, d]
    corners = local[mesh.triangles]
    below = corners[:, :, 2] <= 0.0
    count = below.sum(axis=1)
    whole = corners[count == 3]
    crossed = (count == 1) | (count == 2)
    one = count[crossed] == 1
    lone = np.where(one, below[crossed].argmax(axis=1), below[crossed].argmin(axis=1))
    a, b, c = (corners[crossed][np.arange(len(lone)), (lone + k) % 3] for k in range(3))
    p = a + (a[:, 2] / (a[:, 2] - b[:, 2]))[:, None] * (b - a)
    q = a + (a[:, 2] / (a[:, 2] - c[:, 2]))[:, None] * (c - a)
    solid = tetrahedra(*np.moveaxis(whole, 1, 0)) + tetrahedra(a[one], p[one], q[one])
    two = ~one
    solid += tetrahedra(p[two], b[two], c[two]) + tetrahedra(p[two], c[two], q[two])
    (u, v), (x, y) = np.where(one, q.T, p.T)[:2], np.where(one, p.T, q.T)[:2]
    turn = u * y - v * x
    flat = [
        turn.sum() / 2.0,
        turn @ (u + x) / 6.0,
        turn @ (v + y) / 6.0,
        turn @ (u * u + u * x + x * x) / 12.0,
        turn @ (2.0 * u * v + u * y + x * v + 2.0 * x * y) / 24.0,
        turn @ (v * v + v * y + y * y) / 12.0,
    ]
    return np.array([*solid, *flat])


@numba.njit(cache=True, fastmath=True)
def _add(a: Floats, b: Floats, c: Floats, sums: Floats) -> None:
    w = a[0] * (b[1] * c[2] - b[2] * c[1])
    w = (w + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0])) / 6.0
    sums[0] += w
    for k in range(3):
        sums[1 + k] += w * (a[k] + b[k] + c[k]) / 4.0


@numba.njit(cache=True, fastmath=True)
def _loop(vertices: Floats, triangles: Ints, axes: Floats, d: float, sums: Floats) -> None:
    t, p, q = np.empty((3, 3)), np.empty(3), np.empty(3)
    for i in range(len(triangles)):
        count = 0
        for j in range(3):
            at = triangles[i, j]
            for k in range(3):
                t[j, k] = (
                    axes[k, 0] * vertices[at, 0]
                    + axes[k, 1] * vertices[at, 1]
                    + axes[k, 2] * vertices[at, 2]
                )
            t[j, 2] -= d
            count += t[j, 2] <= 0.0
        if count == 3:
            _add(t[0], t[1], t[2], sums)
        if count in (0, 3):
            continue
        lone = 0
        while (t[lone, 2] <= 0.0) != (count == 1):
            lone += 1
        a, b, c = t[lone], t[(lone + 1) % 3], t[(lone + 2) % 3]
        for k in range(3):
            p[k] = a[k] + a[2] / (a[2] - b[2]) * (b[k] - a[k])
            q[k] = a[k] + a[2] / (a[2] - c[2]) * (c[k] - a[k])
        if count == 1:
            _add(a, p, q, sums)
            u, v, x, y = q[0], q[1], p[0], p[1]
        else:
            _add(p, b, c, sums)
            _add(p, c, q, sums)
            u, v, x, y = p[0], p[1], q[0], q[1]
        turn = u * y - v * x
        sums[4] += turn / 2.0
        sums[5] += turn * (u + x) / 6.0
        sums[6] += turn * (v + y) / 6.0
        sums[7] += turn * (u * u + u * x + x * x) / 12.0
        sums[8] += turn * (2.0 * u * v + u * y + x * v + 2.0 * x * y) / 24.0
        sums[9] += turn * (v * v + v * y + y * y) / 12.0


def in_numba(mesh: Mesh, n: Floats, d: float) -> Floats:
    """Return the sums of what lies below a plane, shape (SUMS,) [m, by powers]."""
    sums = np.zeros(SUMS)
    _loop(mesh.vertices, mesh.triangles, np.stack([*axes_in_plane(n), n]), d, sums)
    return sums
