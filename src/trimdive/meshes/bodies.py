"""Bodies of a mesh: which lie inside which, and so which are cavities and which inside out."""

from dataclasses import dataclass

import numpy as np

from trimdive.lines.mesh import Floats, Ints, Mesh
from trimdive.meshes.edges import Bools, Edges, body_volumes, components

LOOSE = 2  # bodies of so few triangles are loose triangles, not bodies [-]
MOST = 400  # bodies that are looked at one against another; beyond that the largest [-]
ASIDE = np.array([0.617, 0.383]) * 1e-7  # looked at from beside edges, as a share of the size [-]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bodies:
    """All bodies of a mesh."""

    labels: Ints  # body of each triangle, shape (m,) [-]
    volumes: Floats  # negative where its faces look inward, shape (b,) [m³]
    triangles: Ints  # how many each has, shape (b,) [-]
    open_edges: Ints  # how many each has, shape (b,) [-]
    around: Ints  # the smallest body that each lies in, or -1, shape (b,) [-]
    depth: Ints  # how many bodies each lies in, shape (b,) [-]

    @property
    def is_cavity(self) -> Bools:
        """Return which are rooms inside another body: within it, and facing inward."""
        outer = np.where(self.around >= 0, self.volumes[self.around], 0.0)
        return (self.depth % 2 == 1) & (self.volumes * outer < 0)

    @property
    def is_inside_out(self) -> Bools:
        """Return which face inward though they lie in no other, and what lies in those."""
        return (self.depth % 2 == 0) & (self.volumes < 0)

    @property
    def is_swallowed(self) -> Bools:
        """Return which lie wholly within another body and face as it does: counted twice."""
        return (self.depth % 2 == 1) & ~self.is_cavity


def bodies_of(mesh: Mesh, edges: Edges) -> Bodies:
    """Return the bodies of a mesh."""
    count, labels = components(edges)
    volumes = body_volumes(mesh, labels, count)
    of_edge = np.zeros(len(edges.ends), np.int64)
    of_edge[edges.of.ravel()] = np.repeat(labels, 3)
    around, depth = _nested(mesh, labels, volumes)
    return Bodies(
        labels=labels,
        volumes=volumes,
        triangles=np.bincount(labels, minlength=count),
        open_edges=np.bincount(of_edge[edges.is_open], minlength=count),
        around=around,
        depth=depth,
    )


def _nested(mesh: Mesh, labels: Ints, volumes: Floats) -> tuple[Ints, Ints]:
    """Return for each body the smallest that it lies in, or -1, and in how many it lies."""
    count = len(volumes)
    around, depth = np.full(count, -1), np.zeros(count, np.int64)
    if count == 1:
        return around, depth
    order = np.argsort(-np.abs(volumes), kind="stable")[:MOST]
    sorted_by = np.argsort(labels, kind="stable")
    starts = np.searchsorted(labels[sorted_by], np.arange(count + 1))
    corners = {int(b): mesh.corners[sorted_by[starts[b] : starts[b + 1]]] for b in order}
    bounds = {b: (c.min(axis=(0, 1)), c.max(axis=(0, 1))) for b, c in corners.items()}
    for k, inner in enumerate(order):
        low, high = bounds[int(inner)]
        for outer in order[:k]:
            if (bounds[int(outer)][0] > low).any() or (bounds[int(outer)][1] < high).any():
                continue
            if _covers(corners[int(outer)], corners[int(inner)][0].mean(axis=0)):
                depth[inner] += 1
                around[inner] = outer  # they come in order of size, so the smallest comes last
    return around, depth


def _covers(corners: Floats, point: Floats) -> bool:
    """Return whether a point lies within a closed surface: under an odd number of its faces."""
    place = point[:2] + ASIDE * float(np.ptp(corners[..., 0]))
    flat = corners[..., :2] - place
    a, b, c = flat[:, 0], flat[:, 1], flat[:, 2]
    ab = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    bc = b[:, 0] * c[:, 1] - b[:, 1] * c[:, 0]
    ca = c[:, 0] * a[:, 1] - c[:, 1] * a[:, 0]
    over = ((ab > 0) == (bc > 0)) & ((bc > 0) == (ca > 0))
    total = np.where(over, ab + bc + ca, 1.0)
    heights = (bc * corners[:, 0, 2] + ca * corners[:, 1, 2] + ab * corners[:, 2, 2]) / total
    return bool(np.count_nonzero(over & (heights > point[2]) & (total != 0)) % 2)
