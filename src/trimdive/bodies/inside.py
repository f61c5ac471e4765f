"""Which points lie inside a closed mesh, and how far outside the others are."""

import numpy as np
from numpy.typing import NDArray

from trimdive.bodies.kernel import kernel
from trimdive.lines.mesh import Floats, Mesh


@kernel
def _windings(corners: Floats, points: Floats, total: Floats) -> None:
    """Add the solid angle of every triangle, seen from each point, in turns of 4π."""
    for i in range(len(points)):
        angle = 0.0
        for j in range(len(corners)):
            a, b, c = corners[j, 0] - points[i], corners[j, 1] - points[i], corners[j, 2] - points[i]
            la, lb, lc = np.sqrt(np.sum(a * a)), np.sqrt(np.sum(b * b)), np.sqrt(np.sum(c * c))
            det = (
                a[0] * (b[1] * c[2] - b[2] * c[1])
                + a[1] * (b[2] * c[0] - b[0] * c[2])
                + a[2] * (b[0] * c[1] - b[1] * c[0])
            )
            ab, bc, ca = np.sum(a * b), np.sum(b * c), np.sum(c * a)
            angle += 2.0 * np.arctan2(det, la * lb * lc + ab * lc + bc * la + ca * lb)
        total[i] = angle / (4.0 * np.pi)


def is_inside(mesh: Mesh, points: Floats) -> NDArray[np.bool_]:
    """Return which points lie inside a closed mesh, by its winding number, shape (n,).

    Args:
        mesh: The closed surface.
        points: Shape (n, 3) [m].

    Source:
        [solid-angle-1983]
    """
    low, high = mesh.bounds
    near = ((points >= low) & (points <= high)).all(axis=1)
    total = np.zeros(int(near.sum()))
    if len(total):
        _windings(mesh.corners, np.ascontiguousarray(points[near]), total)
    found = np.zeros(len(points), dtype=bool)
    found[near] = total > 0.5
    return found


def depth_outside(mesh: Mesh, points: Floats) -> Floats:
    """Return how far points outside a mesh are from its nearest corner or face, shape (n,) [m].

    The face's plane is taken where the point lies over the face; so it is exact but for points
    off the edges, for which it is at most the distance to the nearest corner.
    """
    corners = mesh.corners
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    normal = np.cross(b - a, c - a)
    size = np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-300)
    normal = normal / size
    far = np.empty(len(points))
    for i, p in enumerate(points):
        best = float(np.min(np.linalg.norm(mesh.vertices - p, axis=1)))
        height = np.einsum("ij,ij->i", p - a, normal)
        foot = p - height[:, None] * normal
        over = np.ones(len(a), dtype=bool)
        for u, v in ((a, b), (b, c), (c, a)):
            over &= np.einsum("ij,ij->i", np.cross(v - u, foot - u), normal) >= 0
        if over.any():
            best = min(best, float(np.abs(height[over]).min()))
        far[i] = best
    return far
