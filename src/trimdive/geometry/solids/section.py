"""The lines in which a plane cuts bodies: waterlines and sections."""

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.tree import Tree, corners


def segments(triangles: Floats, n: Floats, d: float) -> Floats:
    """Return the pieces of line in which n·r = d cuts triangles, shape (k, 2, 3) [m].

    Args:
        triangles: By their corners, shape (m, 3, 3) [m].
        n: Unit vector, shape (3,) [-].
        d: Height of the plane along it [m].
    """
    height = triangles @ n - d
    below = height <= 0.0
    count = below.sum(axis=1)
    cut = (count == 1) | (count == 2)
    triangles, height, below = triangles[cut], height[cut], below[cut]
    lone = np.where(below.sum(axis=1) == 1, below.argmax(axis=1), (~below).argmax(axis=1))
    rows = np.arange(len(lone))
    ends: list[Floats] = []
    for step in (1, 2):
        other = (lone + step) % 3
        h0, h1 = height[rows, lone], height[rows, other]
        share = (h0 / (h0 - h1))[:, None]
        a, b = triangles[rows, lone], triangles[rows, other]
        ends.append(a + share * (b - a))
    return np.stack(ends, axis=1)


def contact_length(tree: Tree, n: Floats, d: float) -> float:
    """Return the length of all lines in which the plane n·r = d cuts the bodies [m]."""
    lines = segments(corners(tree), n, d - float(n @ tree.centre))
    return float(np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1).sum())
