"""The least gap between two surfaces, and where: triangle against triangle, none left out.

Two triangles that do not cross are nearest at a corner of one over the face of the other, or along
an edge of each; those that cross have no gap. Only those are looked at whose boxes are nearer than
two spots on their surfaces, corners and middles of edges.

Source:
    C. Ericson, Real-time collision detection, 2005, chapter 5.1, from memory.
"""

import numpy as np
from scipy.spatial import KDTree

from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.meshes.crossing import pierces
from trimdive.geometry.solids.inside import _dot, _triangle_square  # pyright: ignore[reportPrivateUsage] - kernels
from trimdive.geometry.solids.kernel import inner, kernel
from trimdive.records import record

ROUNDING = 1e-12  # so much larger is a box made, that rounding leaves nothing out [m]


@record
class Gap:
    """The least gap between two surfaces."""

    width: float  # [m]
    here: Floats  # on the one, shape (3,) [m]
    there: Floats  # on the other, shape (3,) [m]


@inner
def _edges_apart(p: Floats, q: Floats, r: Floats, s: Floats) -> float:
    """Return the square of the distance between the line segments pq and rs [m²]."""
    ux, uy, uz = q[0] - p[0], q[1] - p[1], q[2] - p[2]
    vx, vy, vz = s[0] - r[0], s[1] - r[1], s[2] - r[2]
    wx, wy, wz = p[0] - r[0], p[1] - r[1], p[2] - r[2]
    a, e = _dot(ux, uy, uz, ux, uy, uz), _dot(vx, vy, vz, vx, vy, vz)
    b, c, f = (
        _dot(ux, uy, uz, vx, vy, vz),
        _dot(ux, uy, uz, wx, wy, wz),
        _dot(vx, vy, vz, wx, wy, wz),
    )
    slant = a * e - b * b
    i = min(max((b * f - c * e) / slant, 0.0), 1.0) if slant > 1e-12 * a * e else 0.0
    j = (b * i + f) / e if e > 0.0 else 0.0
    if j < 0.0 or j > 1.0:
        j = min(max(j, 0.0), 1.0)
        i = min(max((b * j - c) / a, 0.0), 1.0) if a > 0.0 else 0.0
    x, y, z = wx + i * ux - j * vx, wy + i * uy - j * vy, wz + i * uz - j * vz
    return _dot(x, y, z, x, y, z)


@inner
def _apart(one: Floats, other: Floats) -> float:
    """Return the square of the distance between two triangles, 0 where they cross [m²]."""
    least = np.inf
    for k in range(3):
        m = (k + 1) % 3
        if pierces(one[k], one[m], other, 0.0) or pierces(other[k], other[m], one, 0.0):
            return 0.0
        least = min(least, _triangle_square(one[k], other[0], other[1], other[2]))
        least = min(least, _triangle_square(other[k], one[0], one[1], one[2]))
        for n in range(3):
            least = min(least, _edges_apart(one[k], one[m], other[n], other[(n + 1) % 3]))
    return least


@inner
def _ball(corners: Floats, into: Floats) -> None:
    """Write the middle of a triangle, and how far its corners are from there, shape (4,) [m]."""
    for k in range(3):
        into[k] = (corners[0, k] + corners[1, k] + corners[2, k]) / 3.0
    most = 0.0
    for m in range(3):
        x, y, z = corners[m, 0] - into[0], corners[m, 1] - into[1], corners[m, 2] - into[2]
        most = max(most, _dot(x, y, z, x, y, z))
    into[3] = np.sqrt(most)


@inner
def _least_apart(one: Floats, ball: Floats) -> float:
    """Return a distance that a triangle and what lies in a ball are surely not nearer than [m]."""
    square = _triangle_square(ball[:3], one[0], one[1], one[2])
    return np.sqrt(square) - ball[3] if square < np.inf else 0.0


@kernel
def _nearest(one: Floats, other: Floats, least: float) -> tuple[float, int, int]:
    """Return the square of the least distance of two heaps of triangles, and of which two [m²].

    Args:
        one: Corners, shape (n, 3, 3) [m].
        other: Corners, shape (m, 3, 3) [m].
        least: A square that the least surely does not pass [m²].
    """
    low, high = np.empty((len(other), 3)), np.empty((len(other), 3))
    for j in range(len(other)):
        for k in range(3):
            low[j, k] = min(other[j, 0, k], other[j, 1, k], other[j, 2, k])
            high[j, k] = max(other[j, 0, k], other[j, 1, k], other[j, 2, k])
    balls = np.empty((len(other), 4))
    for j in range(len(other)):
        _ball(other[j], balls[j])
    first, second = -1, -1
    for i in range(len(one)):
        for j in range(len(other)):
            off = 0.0
            for k in range(3):
                below = min(one[i, 0, k], one[i, 1, k], one[i, 2, k]) - high[j, k]
                above = low[j, k] - max(one[i, 0, k], one[i, 1, k], one[i, 2, k])
                gap = max(below, above, 0.0)
                off += gap * gap
            if off <= least and _least_apart(one[i], balls[j]) <= np.sqrt(least):
                found = _apart(one[i], other[j])
                if found < least or (first < 0 and found <= least):
                    least, first, second = found, i, j
                    if least == 0.0:
                        return least, first, second
    return least, first, second


def gap(one: Mesh, other: Mesh, within: float = np.inf) -> Gap | None:
    """Return the least gap between two surfaces, 0 where they cross; None where it is wider.

    A surface that lies wholly within the other has the gap that is left around it.

    Args:
        one: A surface.
        other: Another.
        within: How wide a gap is looked for [m].
    """
    bound = within
    if np.isinf(bound) or _boxes_apart(one, other) <= bound:
        within_it = bound * (1.0 + 1e-9) + ROUNDING  # what is as far counts too
        far, _ = _spots(other).query(_spots(one).data, distance_upper_bound=within_it)
        bound = min(bound, float(far.min())) + ROUNDING
    near = _near(one, other.bounds, bound), _near(other, one.bounds, bound)
    if not (len(near[0]) and len(near[1])):
        return None
    square, first, second = _nearest(*near, bound**2)
    if first < 0 or square > within**2:
        return None
    here, there = _places(near[0][first], near[1][second])
    return Gap(width=float(np.sqrt(square)), here=here, there=there)


@with_mesh(1)
def _spots(mesh: Mesh) -> KDTree:
    """Return the corners of a mesh and the middles of its edges, sorted by place."""
    middles = (mesh.corners + np.roll(mesh.corners, -1, axis=1)) / 2
    return KDTree(np.concatenate([mesh.vertices, middles.reshape(-1, 3)]))


def _boxes_apart(one: Mesh, other: Mesh) -> float:
    """Return how far the boxes round two meshes are from each other [m]."""
    a, b = one.bounds, other.bounds
    return float(np.linalg.norm(np.maximum(np.maximum(a[0] - b[1], b[0] - a[1]), 0.0)))


def _near(mesh: Mesh, bounds: Floats, reach: float) -> Floats:
    """Return the triangles of a mesh that come so near to a box, shape (n, 3, 3) [m]."""
    corners, low, high = _boxes(mesh)
    beside = np.flatnonzero((low[0] <= bounds[1, 0] + reach) & (high[0] >= bounds[0, 0] - reach))
    far = np.maximum(low[:, beside] - bounds[1][:, None], bounds[0][:, None] - high[:, beside])
    square = (np.maximum(far, 0.0) ** 2).sum(axis=0)
    return np.ascontiguousarray(corners[beside[square <= reach**2]])


@with_mesh(1)
def _boxes(mesh: Mesh) -> tuple[Floats, Floats, Floats]:
    """Return the triangles, shape (n, 3, 3), and the box round each, low and high, (3, n) [m]."""
    corners = mesh.corners
    low, high = corners.min(axis=1), corners.max(axis=1)
    return corners, np.ascontiguousarray(low.T), np.ascontiguousarray(high.T)


def _places(one: Floats, other: Floats) -> tuple[Floats, Floats]:
    """Return the nearest points of two triangles, each of shape (3,) [m]."""
    pairs: list[tuple[Floats, Floats]] = []
    for k in range(3):
        pairs.append((one[k], _on_triangle(one[k], other)))
        pairs.append((_on_triangle(other[k], one), other[k]))
        for n in range(3):
            pairs.append(_on_edges(one[[k, k - 2]], other[[n, n - 2]]))
    for edge in ((one[k], one[k - 2]) for k in range(3)):
        at = _through(*edge, other)
        pairs += [] if at is None else [(at, at)]
    for edge in ((other[k], other[k - 2]) for k in range(3)):
        at = _through(*edge, one)
        pairs += [] if at is None else [(at, at)]
    return min(pairs, key=lambda pair: float(np.linalg.norm(pair[0] - pair[1])))


def _through(p: Floats, q: Floats, corners: Floats) -> Floats | None:
    """Return where the line segment pq goes through a triangle [m]; None where it does not."""
    n = np.cross(corners[1] - corners[0], corners[2] - corners[0])
    before, after = float((p - corners[0]) @ n), float((q - corners[0]) @ n)
    if before * after > 0.0 or before == after:
        return None
    at = p + before / (before - after) * (q - p)
    return at if np.allclose(_on_triangle(at, corners), at, atol=1e-9) else None


def _on_triangle(p: Floats, corners: Floats) -> Floats:
    """Return the point of a triangle that is nearest to a point, shape (3,) [m]."""
    a, b, c = corners
    sides = np.stack([b - a, c - a], axis=1)
    share, *_ = np.linalg.lstsq(sides, p - a, rcond=None)
    if share.min() >= 0.0 and share.sum() <= 1.0:
        return a + sides @ share
    edges = (_on_edge(p, *edge) for edge in ((a, b), (b, c), (c, a)))
    return min(edges, key=lambda at: float(np.linalg.norm(at - p)))


def _on_edge(p: Floats, a: Floats, b: Floats) -> Floats:
    """Return the point of the line segment ab that is nearest to a point, shape (3,) [m]."""
    along = b - a
    return a + np.clip((p - a) @ along / max(float(along @ along), 1e-300), 0.0, 1.0) * along


def _on_edges(one: Floats, other: Floats) -> tuple[Floats, Floats]:
    """Return the nearest points of two line segments [m]; any two of those that run alike."""
    u, v, w = one[1] - one[0], other[1] - other[0], one[0] - other[0]
    slant = (u @ u) * (v @ v) - (u @ v) ** 2
    share = ((u @ v) * (v @ w) - (u @ w) * (v @ v)) / slant if slant > 1e-300 else 0.0
    here = one[0] + np.clip(share, 0.0, 1.0) * u
    there = _on_edge(here, *other)
    return _on_edge(there, *one), there
