"""Repairs, one by one: each takes a mesh, returns a mended one, and what it did."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from trimdive.errors import GeometryError
from trimdive.fact import Fact, fact
from trimdive.geometry.lines.mesh import Ints, Mesh, volume
from trimdive.geometry.meshes.bodies import LOOSE, bodies_of
from trimdive.geometry.meshes.edges import (
    Bools,
    Edges,
    edges_of,
    hanging,
    part,
    unlike,
    weld_distance,
)
from trimdive.geometry.meshes.holes import SMALL_HOLE, holes
from trimdive.geometry.meshes.union import united


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mended:
    """A mesh after repairs."""

    mesh: Mesh
    did: tuple[Fact, ...]  # what each of them did


def weld(mesh: Mesh, name: str) -> tuple[Mesh, Fact]:
    """Return the mesh with points that lie as good as together made one."""
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components
    from scipy.spatial import KDTree

    near = weld_distance(float(np.ptp(mesh.bounds, axis=0).max()))
    pairs = KDTree(mesh.vertices).query_pairs(near, output_type="ndarray")
    n = len(mesh.vertices)
    links = coo_matrix((np.ones(len(pairs), np.int8), (pairs[:, 0], pairs[:, 1])), shape=(n, n))
    count, labels = connected_components(links, directed=False)
    _, first = np.unique(labels, return_index=True)
    triangles = labels[mesh.triangles].astype(np.int64)
    welded = Mesh(vertices=mesh.vertices[first], triangles=triangles[_has_corners(triangles)])
    if not len(welded.triangles):
        raise GeometryError("nothing is left of it when it is welded", name, "Check its unit.")
    return welded, fact("points-welded", points=n - count)


def _has_corners(triangles: Ints) -> Bools:
    """Return which triangles have three different corners."""
    a, b, c = triangles.T
    return (a != b) & (b != c) & (c != a)


def drop(mesh: Mesh, name: str) -> tuple[Mesh, Fact]:
    """Return the mesh without doubled, flat and loose triangles.

    Flat ones go that close nothing: with two corners on one point, or in one line on open edges.
    Of triangles on the same three points one is kept where they face the same way; two that face
    opposite ways enclose nothing and both go.
    """
    kept = ~hanging(mesh, edges_of(mesh))
    first, ways = unlike(mesh)
    sums = np.bincount(first, weights=ways * kept, minlength=len(first))
    kept &= (first == np.arange(len(first))) & (sums != 0)
    turned = kept & (np.sign(sums) != ways)
    triangles = mesh.triangles.copy()
    triangles[turned] = triangles[turned, ::-1]
    left = part(Mesh(vertices=mesh.vertices, triangles=triangles), kept)
    if len(left.triangles):
        edges = edges_of(left)
        found = bodies_of(left, edges)
        left = part(left, (found.triangles > LOOSE)[found.labels])
    if not len(left.triangles):
        raise GeometryError("it is nothing but loose triangles", name, "Export the mesh again.")
    return left, fact("triangles-dropped", triangles=len(mesh.triangles) - len(left.triangles))


def flip(mesh: Mesh, name: str) -> tuple[Mesh, Fact]:
    """Return the mesh with every body's triangles facing one way, outward; cavities inward.

    Raises:
        GeometryError: A body has only one side, as a twisted band has.
    """
    triangles = mesh.triangles.copy()
    turned = _turned(edges_of(mesh), name)
    triangles[turned] = triangles[turned, ::-1]
    mesh = Mesh(vertices=mesh.vertices, triangles=triangles)
    found = bodies_of(mesh, edges_of(mesh))
    reversed_ = found.is_turned[found.labels]
    triangles[reversed_] = triangles[reversed_, ::-1]
    count = int(np.sum(turned ^ reversed_))
    did = fact("triangles-turned", triangles=count)
    return Mesh(vertices=mesh.vertices, triangles=triangles), did


def _turned(edges: Edges, name: str) -> Bools:
    """Return which triangles to turn so that neighbours face the same way, the fewer of each body.

    Each triangle stands twice in a graph, as it is and turned; links across edges keep the two
    ways of a body apart.
    """
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    m = len(edges.of)
    simple = np.flatnonzero((edges.uses == 2)[edges.of].ravel())
    sides = simple[np.argsort(edges.of.ravel()[simple], kind="stable")].reshape(-1, 2)
    one, other = sides[:, 0] // 3, sides[:, 1] // 3
    along = edges.along.ravel()
    is_same = along[sides[:, 0]] == along[sides[:, 1]]
    rows = np.concatenate([one, one + m])
    columns = np.concatenate([other + m * is_same, other + m * ~is_same])
    links = coo_matrix((np.ones(len(rows), np.int8), (rows, columns)), shape=(2 * m, 2 * m))
    _, labels = connected_components(links, directed=False)
    if (labels[:m] == labels[m:]).any():
        what = "it has a body with only one side, like a twisted band"
        raise GeometryError(what, name, "Repair it where it was drawn.")
    body = np.minimum(labels[:m], labels[m:])
    turned = labels[:m] != body
    share = np.bincount(body, weights=turned) / np.maximum(np.bincount(body), 1)
    return turned ^ (share > 0.5)[body]


def cap(mesh: Mesh, name: str) -> tuple[Mesh, Fact]:
    """Return the mesh with its small holes closed, each by a fan of triangles."""
    most = SMALL_HOLE * float(np.ptp(mesh.bounds, axis=0).max())
    small = [hole for hole in holes(mesh, edges_of(mesh)) if hole.span <= most]
    vertices, triangles = [mesh.vertices], [mesh.triangles]
    count = len(mesh.vertices)
    for hole in small:
        rim, after = hole.points, np.roll(hole.points, -1)
        if len(rim) == 3:
            triangles.append(rim[None, ::-1])
            continue
        vertices.append(hole.middle[None, :])
        triangles.append(np.stack([np.full(len(rim), count), after, rim], axis=1))
        count += 1
    widest = max((hole.span for hole in small), default=0.0)
    capped = Mesh(vertices=np.concatenate(vertices), triangles=np.concatenate(triangles))
    return capped, fact("holes-capped", holes=len(small), widest=widest)


def union(mesh: Mesh, name: str) -> tuple[Mesh, Fact]:
    """Return the mesh with its bodies made one where they overlap or touch.

    A body that is inside out is turned first, as it is counted.

    Raises:
        GeometryError: A body does not close.
    """
    found = bodies_of(mesh, edges_of(mesh))
    whole = united(mesh, found, name)
    bodies = int(np.sum(~found.is_cavity & (found.triangles > LOOSE)))
    turned = int(np.sum(found.is_inside_out & (found.triangles > LOOSE)))
    less = found.counted - volume(whole)
    return whole, fact("bodies-united", bodies=bodies, turned=turned, less=less)


REPAIRS: dict[str, Callable[[Mesh, str], tuple[Mesh, Fact]]] = {
    "weld": weld,
    "drop": drop,
    "flip": flip,
    "cap": cap,
    "union": union,
}


def mended(mesh: Mesh, repairs: Sequence[str], name: str) -> Mended:
    """Return the mesh after the repairs that are asked for, in the order in which they help.

    Args:
        mesh: As read.
        repairs: Names of repairs; others are passed over.
        name: What to call the mesh.

    Raises:
        GeometryError: One of them cannot be done.
    """
    done: list[Fact] = []
    for key, repair in REPAIRS.items():
        if key in repairs:
            mesh, did = repair(mesh, name)
            done.append(did)
    return Mended(mesh=mesh, did=tuple(done))
