"""Edges between triangles, and the bodies that triangles joined along edges make."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines.mesh import Floats, Ints, Mesh

Bools = NDArray[np.bool_]
FLAT = 1e-12  # a triangle of less area than this share of the size squared is flat [-]
WELD = 2e-5  # points nearer than this share of the size were meant as one [-]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Edges:
    """Every edge of a mesh once."""

    ends: Ints  # the two points, lower number first, shape (e, 2) [-]
    of: Ints  # edge of each side of each triangle, side k from corner k, shape (m, 3) [-]
    along: Bools  # whether that side runs from the lower to the higher number, shape (m, 3) [-]
    uses: Ints  # triangles on each edge, shape (e,) [-]
    turns: Ints  # those that run along it less those that run against it, shape (e,) [-]

    @property
    def is_open(self) -> Bools:
        """Return which edges lie on one triangle only, or on an odd number of them."""
        return self.uses % 2 == 1

    @property
    def is_turned(self) -> Bools:
        """Return which closed edges lie between triangles that face opposite ways."""
        return (self.uses % 2 == 0) & (self.turns != 0)

    @property
    def is_crowded(self) -> Bools:
        """Return which edges lie on more than two triangles."""
        return self.uses > 2


def edges_of(mesh: Mesh) -> Edges:
    """Return the edges of a mesh."""
    start, stop = mesh.triangles, np.roll(mesh.triangles, -1, axis=1)
    low, high = np.minimum(start, stop), np.maximum(start, stop)
    keys, of, uses = np.unique(
        (low * len(mesh.vertices) + high).ravel(), return_inverse=True, return_counts=True
    )
    of = of.reshape(-1, 3)
    along = start < stop
    turns = np.bincount(of.ravel(), weights=np.where(along, 1.0, -1.0).ravel(), minlength=len(keys))
    return Edges(
        ends=np.stack([keys // len(mesh.vertices), keys % len(mesh.vertices)], axis=1),
        of=of,
        along=along,
        uses=uses.astype(np.int64),
        turns=turns.astype(np.int64),
    )


def components(edges: Edges) -> tuple[int, Ints]:
    """Return how many bodies the triangles make, and to which each belongs, shape (m,).

    Bodies that only touch along edges, or stand there twice, are told apart by the order in
    which their triangles stand in the file, where each closes by itself.
    """
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    m, seams = len(edges.of), _seams(edges)
    e = int(seams.max()) + 1
    rows = np.repeat(np.arange(m), 3)
    links = coo_matrix((np.ones(3 * m, np.int8), (rows, m + seams)), shape=(m + e, m + e))
    _, labels = connected_components(links, directed=False)
    unique, labels = np.unique(labels[:m], return_inverse=True)
    return len(unique), labels.astype(np.int64)


def _seams(edges: Edges) -> Ints:
    """Return for each side of each triangle what joins it to others, shape (3 m,).

    That is its edge; where four or more triangles meet and as many run one way as the other, each
    pair of two, taken in the order of the file, is joined by itself.
    """
    of, along = edges.of.ravel(), edges.along.ravel()
    seams = of.copy()
    shared = np.flatnonzero((edges.is_crowded & (edges.uses % 2 == 0) & (edges.turns == 0))[of])
    if not len(shared):
        return seams
    order = shared[np.lexsort((shared, along[shared], of[shared]))]
    group = 2 * of[order] + along[order]
    first = np.concatenate([[True], group[1:] != group[:-1]])
    rank = np.arange(len(order)) - np.maximum.accumulate(np.where(first, np.arange(len(order)), 0))
    keys = of[order] * (int(rank.max()) + 1) + rank
    seams[order] = len(edges.ends) + np.unique(keys, return_inverse=True)[1]
    return seams


def body_volumes(mesh: Mesh, labels: Ints, count: int) -> Floats:
    """Return the enclosed volume of each body, negative where inside out, shape (count,) [m³]."""
    a, b, c = np.moveaxis(mesh.corners - mesh.bounds.mean(axis=0), 1, 0)
    each = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6.0
    return np.bincount(labels, weights=each, minlength=count).astype(np.float64)


def areas(mesh: Mesh) -> Floats:
    """Return the area of each triangle, shape (m,) [m²]."""
    a, b, c = np.moveaxis(mesh.corners, 1, 0)
    return np.linalg.norm(np.cross(b - a, c - a), axis=1) / 2


def hanging(mesh: Mesh, edges: Edges) -> Bools:
    """Return which triangles are flat and leave edges open, so that they close nothing, shape (m,).

    Those have two corners on one point, or lie in one line on two open edges.
    """
    a, b, c = mesh.triangles.T
    is_folded = (a == b) | (b == c) | (c == a)
    size = float(np.ptp(mesh.bounds, axis=0).max())
    is_flat = areas(mesh) <= FLAT * size**2
    return is_folded | (is_flat & (edges.is_open[edges.of].sum(axis=1) >= 2))


def part(mesh: Mesh, kept: Bools) -> Mesh:
    """Return some of the triangles, with only the points that they use."""
    triangles = mesh.triangles[kept]
    used = np.zeros(len(mesh.vertices), bool)
    used[triangles] = True
    number = np.cumsum(used) - 1
    return Mesh(vertices=mesh.vertices[used], triangles=number[triangles])


def unlike(mesh: Mesh) -> tuple[Ints, Ints]:
    """Return for each triangle the first one on the same three points, and which way it turns.

    Returns:
        The first such triangle, and 1 or -1 as its corners run up or down, shape (m,) each.
    """
    ordered = np.sort(mesh.triangles, axis=1)
    n = len(mesh.vertices)
    pair, which = np.unique(ordered[:, 0] * n + ordered[:, 1], return_inverse=True)
    del pair
    _, first, index = np.unique(which * n + ordered[:, 2], return_index=True, return_inverse=True)
    a, b, c = mesh.triangles.T
    ways = np.where((a < b) ^ (b < c) ^ (c < a), 1, -1)
    return first[index.reshape(-1)], ways


def weld_distance(size: float) -> float:
    """Return how near two points must lie to have been meant as one [m].

    Args:
        size: Greatest extent of the mesh [m].
    """
    return WELD * size
