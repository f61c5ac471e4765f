"""What stands in a mesh: its bodies, and everything about it that may be a trouble."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.mesh import Floats, Ints, Mesh
from trimdive.geometry.meshes.bodies import LOOSE, Bodies, bodies_of
from trimdive.geometry.meshes.crossing import crossings
from trimdive.geometry.meshes.edges import (
    FLAT,
    Edges,
    areas,
    edges_of,
    hanging,
    unlike,
    weld_distance,
)
from trimdive.geometry.meshes.holes import Hole, holes
from trimdive.geometry.meshes.union import overlap

DIRECTIONS = 48  # cells on each side of a cube by which points are thinned [-]

Step = Callable[[str], None]  # takes what is being done: "edges", "bodies", "crossings" or "hull"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeshReport:
    """What stands in a mesh."""

    name: str
    points: int
    triangles: int
    bounds: Floats  # least and greatest corner, shape (2, 3) [m]
    area: float  # [m²]
    volume: float  # enclosed, bodies added up, negative where inside out [m³]
    filled: float  # each body turned the right way, and what bodies have in common once [m³]
    hull_volume: float  # of the hull of points around it [m³]
    bodies: Bodies
    holes: tuple[Hole, ...]
    open_edges: int
    turned_edges: int  # between triangles that face opposite ways
    crowded_edges: int  # on more than two triangles
    doubled: int  # triangles on the same three points as another of their body
    flat: int  # triangles without area, two of whose corners are one or all three in line
    hanging: int  # of those, triangles that leave edges open and close nothing
    loose: int  # triangles that hang together with hardly any other
    crossings: int  # pairs of triangles that pass through each other
    crossing_bodies: int  # of those, pairs of triangles of two different bodies
    overlap: float  # volume counted more than once; negative: left out more than once [m³]
    is_overlap_known: bool  # whether every body closes, so that it could be worked out
    near_points: int  # points that lie so near another that one was meant

    @property
    def size(self) -> Floats:
        """Return its length, breadth and height, shape (3,) [m]."""
        return np.ptp(self.bounds, axis=0)

    @property
    def is_closed(self) -> bool:
        """Return whether every edge lies between two triangles that face the same way."""
        return self.open_edges == 0 and self.turned_edges == 0

    @property
    def solid_bodies(self) -> int:
        """Return how many bodies there are that are no cavities and no loose triangles."""
        return int(np.sum(~self.bodies.is_cavity & (self.bodies.triangles > LOOSE)))

    @property
    def cavities(self) -> int:
        """Return how many rooms inside bodies there are."""
        return int(np.sum(self.bodies.is_cavity & (self.bodies.triangles > LOOSE)))

    @property
    def inside_out(self) -> int:
        """Return how many closed bodies are inside out."""
        return int(np.sum(self.bodies.is_inside_out & (self.bodies.open_edges == 0)))

    @property
    def wall(self) -> float:
        """Return how thick it is in the mean, if it is a wall with both its faces [m]."""
        return 2 * abs(self.filled) / self.area if self.area else 0.0


def report(
    mesh: Mesh, name: str, step: Step = lambda _: None, *, is_deep: bool = True
) -> MeshReport:
    """Return what stands in a mesh.

    Args:
        mesh: As read, in metres.
        name: What to call it.
        step: Takes what is being done, for whoever waits.
        is_deep: Whether to look for faces that pass through each other, and for overlaps.
    """
    step("edges")
    edges = edges_of(mesh)
    step("bodies")
    found = bodies_of(mesh, edges)
    first, _ = unlike(mesh)
    size = float(np.ptp(mesh.bounds, axis=0).max())
    each = areas(mesh)
    step("crossings")
    pairs = crossings(mesh) if is_deep else np.empty((0, 2), np.int64)
    between = found.labels[pairs[:, 0]] != found.labels[pairs[:, 1]]
    closed = not (edges.is_open.any() or edges.is_turned.any())
    common = overlap(mesh, found, name) if closed and is_deep else None
    step("hull")
    return MeshReport(
        name=name,
        points=len(mesh.vertices),
        triangles=len(mesh.triangles),
        bounds=mesh.bounds,
        area=float(each.sum()),
        volume=float(found.volumes.sum()),
        filled=found.counted - (common or 0.0),
        hull_volume=hull_volume(mesh.vertices) if is_deep else 0.0,
        bodies=found,
        holes=holes(mesh, edges),
        open_edges=int(edges.is_open.sum()),
        turned_edges=int(edges.is_turned.sum()),
        crowded_edges=int(edges.is_crowded.sum()),
        doubled=_doubled(first, found, edges),
        flat=int(np.sum(each <= FLAT * size**2)),
        hanging=int(hanging(mesh, edges).sum()),
        loose=int(found.triangles[found.triangles <= LOOSE].sum()),
        crossings=len(pairs),
        crossing_bodies=int(between.sum()),
        overlap=common or 0.0,
        is_overlap_known=common is not None,
        near_points=_near_points(mesh, edges, size),
    )


def _doubled(first: Ints, found: Bodies, edges: Edges) -> int:
    """Return how many triangles stand on three points on which one stood before.

    Two bodies that each close may have a face in common: they touch, or overlap.
    """
    again = np.flatnonzero(first != np.arange(len(first)))
    turned = np.bincount(found.labels, weights=edges.is_turned[edges.of].any(axis=1))
    closed = (found.open_edges == 0) & (turned == 0)
    one, other = found.labels[first[again]], found.labels[again]
    return int(np.sum((one == other) | ~closed[one] | ~closed[other]))


def _near_points(mesh: Mesh, edges: Edges, size: float) -> int:
    """Return how many points on open edges lie nearly where another one does."""
    from scipy.spatial import KDTree

    rim = np.unique(edges.ends[edges.is_open])
    if len(rim) < 2:
        return 0
    pairs = KDTree(mesh.vertices[rim]).query_pairs(weld_distance(size), output_type="ndarray")
    return len(np.unique(pairs[:, 1]))


def hull_volume(points: Floats) -> float:
    """Return the volume of the hull of points; of very many, that of those farthest out [m³].

    Args:
        points: Shape (n, 3) [m].
    """
    from scipy.spatial import ConvexHull, QhullError

    try:
        return float(ConvexHull(_farthest(points)).volume)
    except (QhullError, ValueError):
        return 0.0  # all in one plane


def _farthest(points: Floats) -> Floats:
    """Return of very many points the farthest in each direction from the middle."""
    if len(points) < 6 * DIRECTIONS**2:
        return points
    low, high = points.min(axis=0), points.max(axis=0)
    away = (points - (low + high) / 2) / np.maximum(high - low, 1e-300)
    axis = np.abs(away).argmax(axis=1)
    rows = np.arange(len(away))
    far = away[rows, axis]
    side = np.where(far == 0, 1.0, far)[:, None]
    u = away[rows, (axis + 1) % 3][:, None] / side
    v = away[rows, (axis + 2) % 3][:, None] / side
    cell = ((np.hstack([u, v]) + 1) / 2 * (DIRECTIONS - 1e-9)).astype(np.int64)
    key = ((axis * 2 + (far > 0)) * DIRECTIONS + cell[:, 0]) * DIRECTIONS + cell[:, 1]
    order = np.lexsort((-np.einsum("ij,ij->i", away, away), key))
    _, first = np.unique(key[order], return_index=True)
    return points[order[first]]
