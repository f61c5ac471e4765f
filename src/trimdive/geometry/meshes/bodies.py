"""Bodies of a mesh: which lie inside which, and so which are cavities and which inside out.

A body lies in another where nothing of it stands out, told by the exact difference of the two;
where surfaces only touch or lie in one plane that is as sure as elsewhere.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Ints, Mesh
from trimdive.geometry.meshes.edges import Bools, Edges, body_volumes, components, part
from trimdive.geometry.meshes.solid import solid_of

if TYPE_CHECKING:
    from manifold3d import Manifold

LOOSE = 2  # bodies of so few triangles are loose triangles, not bodies [-]
MOST = 400  # bodies that are looked at one against another; beyond that the largest [-]
MOST_EXACT = 64  # pairs of which the difference is worked out; beyond that by points alone [-]
STANDS_OUT = 1e-6  # share of a body outside another that is no more than rounding [-]
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
    is_cavity: Bools  # which are rooms in another: within it, and facing the other way, shape (b,)

    @property
    def is_turned(self) -> Bools:
        """Return which face the wrong way: solids that face inward, rooms that face outward."""
        return np.where(self.is_cavity, self.volumes > 0, self.volumes < 0)

    @property
    def is_inside_out(self) -> Bools:
        """Return which bodies, rooms in them left aside, face inward."""
        return self.is_turned & ~self.is_cavity

    @property
    def counted(self) -> float:
        """Return the volume with every body turned the right way, rooms taken off [m³]."""
        return float(np.where(self.is_cavity, -1.0, 1.0) @ np.abs(self.volumes))


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
        is_cavity=_cavities(volumes, around, depth),
    )


def outermost(around: Ints, depth: Ints) -> Ints:
    """Return for each body the one that lies in no other and that it lies in, or itself."""
    outer = np.arange(len(around))
    for _ in range(int(depth.max(initial=0))):
        outer = np.where(around[outer] >= 0, around[outer], outer)
    return outer


def right_way(mesh: Mesh, found: Bodies) -> Mesh:
    """Return a mesh with every body turned the right way, each on points of its own.

    Rooms inside stay rooms. A mesh of one body that is right is returned itself.
    """
    turned = found.is_turned
    if len(found.volumes) == 1 and not turned[0]:
        return mesh
    triangles = mesh.triangles.copy()
    reversed_ = turned[found.labels]
    triangles[reversed_] = triangles[reversed_, ::-1]
    points, index = np.unique(
        found.labels[:, None] * len(mesh.vertices) + triangles, return_inverse=True
    )
    return Mesh(vertices=mesh.vertices[points % len(mesh.vertices)], triangles=index.reshape(-1, 3))


def _cavities(volumes: Floats, around: Ints, depth: Ints) -> Bools:
    """Return which bodies are rooms: right within a solid, and facing the other way.

    Which way is right is that of the outermost body around; so a mesh that is inside out as a
    whole keeps its rooms.
    """
    way = np.sign(volumes[outermost(around, depth)])
    found = np.zeros(len(volumes), dtype=bool)
    for body in np.argsort(depth, kind="stable"):
        home = around[body]
        found[body] = home >= 0 and not found[home] and volumes[body] * way[body] < 0
    return found


class _Looked:
    """The bodies of a mesh as they are needed, one against another."""

    def __init__(self, mesh: Mesh, labels: Ints, volumes: Floats, order: Ints) -> None:
        self._mesh, self._labels, self._volumes = mesh, labels, volumes
        by_body = np.argsort(labels, kind="stable")
        starts = np.searchsorted(labels[by_body], np.arange(len(volumes) + 1))
        self._corners = {int(b): mesh.corners[by_body[starts[b] : starts[b + 1]]] for b in order}
        self._bounds = {
            b: np.stack([c.min(axis=(0, 1)), c.max(axis=(0, 1))]) for b, c in self._corners.items()
        }
        self._left = MOST_EXACT

    def lies_in(self, inner: int, outer: int) -> bool:
        """Return whether nothing of a body stands out of a larger one."""
        low, high = self._bounds[inner]
        reach = STANDS_OUT * float((high - low).max())
        within = self._bounds[outer]
        if (within[0] > low + reach).any() or (within[1] < high - reach).any():
            return False
        under = _beneath(self._corners[outer], low, high)
        seen = [_covers(under, point) for point in _outlying(self._corners[inner])]
        if not any(seen):
            return False
        exact = self._difference(inner, outer) if self._left > 0 else None
        return all(seen) if exact is None else exact

    def _difference(self, inner: int, outer: int) -> bool | None:
        """Return whether a body less another is nothing; None where one does not close."""
        self._left -= 1
        try:
            rest = self._solid(inner) - self._solid(outer)
        except GeometryError:
            return None
        return float(rest.volume()) <= STANDS_OUT * abs(self._volumes[inner])

    def _solid(self, body: int) -> "Manifold":
        one = part(self._mesh, self._labels == body)
        if self._volumes[body] < 0:
            one = Mesh(vertices=one.vertices, triangles=one.triangles[:, ::-1])
        return solid_of(one, "body")


def _nested(mesh: Mesh, labels: Ints, volumes: Floats) -> tuple[Ints, Ints]:
    """Return for each body the smallest that it lies in, or -1, and in how many it lies."""
    count = len(volumes)
    around, depth = np.full(count, -1), np.zeros(count, np.int64)
    if count == 1:
        return around, depth
    order = np.argsort(-np.abs(volumes), kind="stable")[:MOST]
    looked = _Looked(mesh, labels, volumes, order)
    for k, inner in enumerate(order):
        for outer in order[:k]:
            if looked.lies_in(int(inner), int(outer)):
                depth[inner] += 1
                around[inner] = outer  # they come in order of size, so the smallest comes last
    return around, depth


def _outlying(corners: Floats) -> Iterator[Floats]:
    """Yield middles of those triangles of a body that lie farthest out along each axis."""
    middles = corners.mean(axis=1)
    for row in sorted({*middles.argmin(axis=0).tolist(), *middles.argmax(axis=0).tolist()}):
        yield middles[row]


def _beneath(corners: Floats, low: Floats, high: Floats) -> Floats:
    """Return those triangles that lie over or under a box, shape (k, 3, 3) [m]."""
    reach = 1e-6 * float(np.ptp(corners[..., 0], axis=None))
    flat = corners[..., :2]
    over = (flat.min(axis=1) <= high[:2] + reach) & (flat.max(axis=1) >= low[:2] - reach)
    return corners[over.all(axis=1)]


def _covers(corners: Floats, point: Floats) -> bool:
    """Return whether a point lies within a closed surface: under an odd number of its faces."""
    if not len(corners):
        return False
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
