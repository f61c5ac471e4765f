"""The boat in three dimensions: her bodies as one block of numbers for the page's own picture.

The bodies are those of which her buoyancy is calculated and those that are drawn: skins, then
everything aboard. The block is four bytes with the length of a head, the head as JSON, corners
as 32-bit floats [m], then triangles and sharp edges by the numbers of their corners, little-endian.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from starlette.responses import Response

from trimdive.assessment import Assessment
from trimdive.boatfile import Cylinder
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Ints, Mesh
from trimdive.geometry.meshes.edges import edges_of
from trimdive.geometry.solids.build import numbered
from trimdive.geometry.solids.shapes import turned_out
from trimdive.page.scene import scene_of
from trimdive.pictures.drawings.side import is_shut
from trimdive.pictures.drawings.things import Thing, things, vessel_meshes

if TYPE_CHECKING:
    from starlette.requests import Request

    from trimdive.page.desk import Desk

SHARP = np.cos(np.radians(35.0))  # triangles that meet at more than this angle meet in an edge [-]
ORDER = (
    "skin",
    "lump",
    "cylinder",
    "bore",
    "tank",
    "part",
    "hollow",
    "lead",
    "foam",
    "sparse",
    "point",
)
NONE = Mesh(vertices=np.zeros((0, 3)), triangles=np.zeros((0, 3), dtype=np.int64))  # of a point
KEPT = "in 3D"  # under which the block lies at the desk
ALIGN = 4  # numbers begin at multiples of this [bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """One body as it is shown; a bare point has no mesh."""

    kind: str  # of ORDER
    path: str  # its place in the boat file
    name: str
    says: str  # what is said of it where it is pointed at
    place: tuple[float, float, float]  # its middle [m]
    mesh: Mesh | None


def solids(her: Assessment) -> tuple[Solid, ...]:
    """Return everything that is shown of a boat, of one kind after another."""
    hollow = {path for path, part in numbered(her.boat) if part.shape == "tube"}
    aboard = (one for thing in things(her) for one in _of(thing, thing.path in hollow))
    found = [*_skins(her), *_bores(her), *aboard]
    return tuple(sorted(found, key=lambda one: ORDER.index(one.kind)))


def _skins(her: Assessment) -> Iterator[Solid]:
    ink = scene_of(her).ink
    for i, (skin, region) in enumerate(zip(her.hull.skins, her.boat.regions, strict=True), 1):
        kind = "lump" if is_shut(ink, skin, region) else "skin"
        says = her.boat.units.write(skin.thickness, "length") + " thick" if skin.thickness else ""
        yield _solid(kind, f"region[{i}]", skin.name, says, skin.body)


def _bores(her: Assessment) -> Iterator[Solid]:
    """Yield the room inside each cylinder, turned inside out: with its outside it is a wall."""
    for i, vessel in enumerate(her.boat.cylinders, 1):
        for mesh in _rooms(vessel):
            yield _solid("bore", f"cylinder[{i}]", vessel.name, "", mesh)


def _rooms(vessel: Cylinder) -> tuple[Mesh, ...]:
    return tuple(turned_out(mesh) for mesh in vessel_meshes(vessel, bore=True))


def _of(thing: Thing, is_hollow: bool) -> Iterator[Solid]:
    if not thing.meshes:
        place = tuple(thing.place.tolist())
        yield Solid(
            kind="point", path=thing.path, name=thing.name, says=thing.note, place=place, mesh=None
        )
    for mesh in thing.meshes:
        kind = "hollow" if is_hollow and thing.look == "part" else thing.look
        yield _solid(kind, thing.path, thing.name, thing.note, mesh)


def _solid(kind: str, path: str, name: str, says: str, mesh: Mesh) -> Solid:
    x, y, z = mesh.bounds.mean(axis=0).tolist()
    return Solid(kind=kind, path=path, name=name, says=says, place=(x, y, z), mesh=mesh)


@with_mesh(1)
def creased(mesh: Mesh) -> tuple[Mesh, Ints]:
    """Return a mesh parted along its sharp edges, and those edges.

    Corners that lie on a sharp edge are there once for each face beside it, so that each can be
    shaded as it faces; the surface is the same.

    Returns:
        The mesh, and the ends of each sharp edge by its corners, shape (e, 2) [-].
    """
    from scipy.sparse import coo_matrix
    from scipy.sparse.csgraph import connected_components

    if not len(mesh.triangles):
        return mesh, np.zeros((0, 2), dtype=np.int64)
    start = np.arange(mesh.triangles.size)
    stop = np.roll(start.reshape(-1, 3), -1, axis=1).ravel()  # where the side from there ends
    joined, sharp = _sides(mesh)
    one, other = joined
    rows = np.concatenate([start[one], stop[one]])
    columns = np.concatenate([stop[other], start[other]])
    links = coo_matrix((np.ones(len(rows), np.int8), (rows, columns)), shape=(len(start),) * 2)
    count, labels = connected_components(links, directed=False)
    places = np.zeros(count, dtype=np.int64)
    places[labels] = mesh.triangles.ravel()
    parted = Mesh(vertices=mesh.vertices[places], triangles=labels.reshape(-1, 3).astype(np.int64))
    return parted, np.stack([labels[start[sharp]], labels[stop[sharp]]], axis=1).astype(np.int64)


def _sides(mesh: Mesh) -> tuple[tuple[Ints, Ints], Ints]:
    """Return pairs of sides of triangles that go on into one another, and one of each sharp edge.

    A side is the number of the corner it begins at, three to a triangle.
    """
    edges = edges_of(mesh)
    a, b, c = np.moveaxis(mesh.corners, 1, 0)
    across = np.cross(b - a, c - a)
    faces = across / np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-30)
    order = np.argsort(edges.of.ravel(), kind="stable")
    starts = np.concatenate([[0], np.cumsum(edges.uses)[:-1]])
    twice = (edges.uses == 2) & (edges.turns == 0)
    first, second = order[starts[twice]], order[starts[twice] + 1]
    is_sharp = np.einsum("ij,ij->i", faces[first // 3], faces[second // 3]) < SHARP
    sharp = np.concatenate([first[is_sharp], order[starts[~twice]]])
    return (first[~is_sharp], second[~is_sharp]), sharp


def packed(her: Assessment) -> bytes:
    """Return her bodies as one block for the page."""
    found = solids(her)
    parted = [creased(NONE if one.mesh is None else one.mesh) for one in found]
    meshes, edges = [mesh for mesh, _ in parted], [sharp for _, sharp in parted]
    starts = _starts([len(mesh.vertices) for mesh in meshes])
    counts = [mesh.triangles.size for mesh in meshes], [edge.size for edge in edges]
    spans = zip(_starts(counts[0]), counts[0], _starts(counts[1]), counts[1], strict=True)
    bodies = [
        {
            "kind": one.kind,
            "path": one.path,
            "name": one.name,
            "says": one.says,
            "place": [round(at, 5) for at in one.place],
            **dict(zip(("first", "count", "line", "lines"), span, strict=True)),
        }
        for one, span in zip(found, spans, strict=True)
    ]
    head: dict[str, object] = {
        "corners": int(sum(len(mesh.vertices) for mesh in meshes)),
        "triangles": sum(counts[0]) // 3,
        "edges": sum(counts[1]) // 2,
        "bodies": bodies,
    }
    return b"".join(
        (
            _led(head),
            np.concatenate([mesh.vertices for mesh in meshes]).astype("<f4").tobytes(),
            _numbered([mesh.triangles for mesh in meshes], starts),
            _numbered(edges, starts),
        )
    )


def asked(desk: "Desk", _: "Request") -> Response:
    """Return her bodies as one block, kept as long as she is not changed."""
    with desk.working():
        state = (desk.revision, desk.units)
        kept = desk.kept.get(KEPT)
        if not isinstance(kept, tuple) or kept[0] != state:
            kept = desk.kept[KEPT] = (state, packed(desk.her))
    return Response(kept[1], media_type="application/octet-stream")


def _led(head: dict[str, object]) -> bytes:
    """Return the head with its length before it, filled up so that numbers can follow."""
    text = json.dumps(head, ensure_ascii=False, separators=(",", ":")).encode()
    text += b" " * (-len(text) % ALIGN)
    return len(text).to_bytes(ALIGN, "little") + text


def _starts(counts: list[int]) -> list[int]:
    """Return where each of some lists begins that are put one after another."""
    return [0, *np.cumsum(counts)[:-1].tolist()]


def _numbered(lists: list[Ints], starts: list[int]) -> bytes:
    """Return numbers of corners, each mesh's own made those of all corners together."""
    moved = [one + start for one, start in zip(lists, starts, strict=True)]
    return np.concatenate(moved).astype("<u4").tobytes()
