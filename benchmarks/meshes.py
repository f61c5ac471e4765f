"""Bodies of any number of triangles, all made alike."""

import numpy as np

from trimdive.geometry.lines.mesh import Floats, Ints, Mesh

LONG = np.array([5.0, 1.0, 1.0])  # a boat's proportions


def _icosahedron() -> tuple[Floats, Ints]:
    golden = (1.0 + np.sqrt(5.0)) / 2.0
    pairs = [(one, across) for across in (golden, -golden) for one in (-1.0, 1.0)]
    flat = np.array([[one, across, 0.0] for one, across in pairs])
    points = np.vstack([np.roll(flat, shift, axis=1) for shift in range(3)])
    near = np.linalg.norm(points[:, None] - points, axis=2) < 2.1
    faces = [
        (a, b, c) if np.linalg.det(points[[a, b, c]]) > 0 else (a, c, b)
        for a in range(12)
        for b in range(a + 1, 12)
        for c in range(b + 1, 12)
        if near[a, b] and near[b, c] and near[a, c]
    ]
    return points / np.hypot(1.0, golden), np.array(faces)


def geodesic(halvings: int) -> Mesh:
    """Return a sphere of radius 1 m: an icosahedron whose edges are halved again and again."""
    points, faces = _icosahedron()
    for _ in range(halvings):
        edges = np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]))
        keys = edges @ np.array([len(points), 1])
        _, first, which = np.unique(keys, return_index=True, return_inverse=True)
        middles = points[edges[first]].sum(axis=1)
        a, b, c = faces.T
        ab, bc, ca = len(points) + which.reshape(3, -1)
        points = np.vstack([points, middles / np.linalg.norm(middles, axis=1, keepdims=True)])
        corners = [(a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca)]
        faces = np.concatenate([np.column_stack(corner) for corner in corners])
    return Mesh(vertices=points, triangles=faces)


def stretched(mesh: Mesh, axes: Floats) -> Mesh:
    """Return the mesh with its coordinates multiplied by ``axes``, shape (3,) [-]."""
    return Mesh(vertices=mesh.vertices * axes, triangles=mesh.triangles)
