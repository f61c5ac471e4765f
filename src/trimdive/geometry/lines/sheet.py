"""From a net of points on the port half to a closed mesh of the whole hull."""

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Ints, Mesh


def closed_hull(half: Floats) -> Mesh:
    """Return the closed mesh of a hull, mirrored and with both ends shut.

    Args:
        half: Port half, stern first, keel first, both edges on the centre line,
            shape (n, m, 3) [m].

    Raises:
        GeometryError: Nothing is enclosed.
    """
    n, m, _ = half.shape
    ids = np.arange(n * m).reshape(n, m)
    ends = [_middle(half[0]), _middle(half[-1])]
    port = np.concatenate([half.reshape(-1, 3), np.array(ends)])
    sides = [
        _quads(half, ids),
        _fan(n * m, ids[0]),
        _fan(n * m + 1, ids[-1, ::-1]),
    ]
    triangles = np.concatenate(sides)
    vertices = np.concatenate([port, port * (1.0, -1.0, 1.0)]) + 0.0
    both = np.concatenate([triangles[:, ::-1], triangles + len(port)])
    return welded(vertices, both)


def _quads(half: Floats, ids: Ints) -> Ints:
    """Return the triangles of a net, each four-sided mesh cut along its shorter diagonal."""
    a, b = ids[:-1, :-1].ravel(), ids[1:, :-1].ravel()
    c, d = ids[1:, 1:].ravel(), ids[:-1, 1:].ravel()
    points = half.reshape(-1, 3)
    along = np.linalg.norm(points[a] - points[c], axis=1)
    across = np.linalg.norm(points[b] - points[d], axis=1)
    short = (along <= across)[:, None]
    first = np.where(short, np.stack([a, b, c], 1), np.stack([a, b, d], 1))
    second = np.where(short, np.stack([a, c, d], 1), np.stack([b, c, d], 1))
    return np.concatenate([first, second])


def _middle(section: Floats) -> Floats:
    """Return the point on the centre line as high as the middle of the section's area."""
    y, z = section[:, 1], section[:, 2]
    strips = 0.5 * (y[1:] + y[:-1]) * np.diff(z)
    if strips.sum() <= 0.0:
        return np.array([section[0, 0], 0.0, 0.5 * (z.min() + z.max())])
    height = float(np.sum(strips * 0.5 * (z[1:] + z[:-1])) / strips.sum())
    return np.array([section[0, 0], 0.0, height])


def _fan(middle: int, edge: Ints) -> Ints:
    """Return the triangles from one point to each piece of an edge."""
    return np.stack([np.full(len(edge) - 1, middle), edge[:-1], edge[1:]], 1)


def welded(vertices: Floats, triangles: Ints) -> Mesh:
    """Return the mesh with points that coincide made one, and triangles without area left out.

    Args:
        vertices: Points, shape (n, 3) [m].
        triangles: Corners, shape (m, 3) [-].

    Raises:
        GeometryError: Nothing is left.
    """
    places, index = np.unique(vertices, axis=0, return_inverse=True)
    corners = index.reshape(-1)[triangles]
    a, b, c = corners.T
    kept = corners[(a != b) & (b != c) & (c != a)]
    if not len(kept):
        raise GeometryError("the surface is empty", "lines", "Give it some breadth.")
    used, compact = np.unique(kept, return_inverse=True)
    return _without_slivers(places[used], compact.reshape(-1, 3).astype(np.int64))


def _without_slivers(vertices: Floats, triangles: Ints) -> Mesh:
    """Return the mesh without pairs of flat triangles that lie back to back on the centre line."""
    corners = vertices[triangles]
    on_centre = np.all(corners[:, :, 1] == 0.0, axis=1)
    if not on_centre.any():
        return Mesh(vertices=vertices, triangles=triangles)
    kept = triangles[~on_centre]
    used, compact = np.unique(kept, return_inverse=True)
    return Mesh(vertices=vertices[used], triangles=compact.reshape(-1, 3).astype(np.int64))
