"""Meshes that a boat file names, as closed surfaces in their places; mended only as it says.

A mesh that is wholly inside out is counted as if it were turned, since a closed surface has but
one outside; the checks say so until the boat file does.
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache

from trimdive.boatfile import MeshRegion
from trimdive.bodies.shapes import turned_out
from trimdive.bodies.solids import union
from trimdive.errors import GeometryError
from trimdive.lines.mesh import Mesh, join, volume
from trimdive.meshes import (
    MeshReport,
    in_metres,
    mended,
    put,
    read,
    report,
    shell,
    span_of,
    troubles,
    turned,
)
from trimdive.units import read as read_quantity
from trimdive.units import write

ON_EACH = ("weld", "drop", "flip", "cap")  # repairs that are done on each mesh by itself
HALF = 0.5  # walls that enclose less than this share of what they span do not close round it [-]
UNITS = {"length": "mm", "volume": "cm³"}


def in_words(value: float, kind: str) -> str:
    """Return a length or volume as text, for messages about a mesh by itself."""
    return write(value, kind, UNITS[kind])


@lru_cache(maxsize=32)
def _metres(data: bytes, name: str, unit: float | None, scale: float) -> Mesh:
    return in_metres(read(data, name), unit, scale)


@lru_cache(maxsize=32)
def _mended(mesh: Mesh, repairs: tuple[str, ...], name: str) -> Mesh:
    return mended(mesh, repairs, name).mesh


@lru_cache(maxsize=32)
def looked_at(mesh: Mesh, name: str, is_deep: bool) -> MeshReport:
    """Return what stands in a mesh, kept by the mesh."""
    return report(mesh, name, is_deep=is_deep)


def drawn_pieces(region: MeshRegion, files: Mapping[str, bytes]) -> list[tuple[str, Mesh]]:
    """Return the meshes of a region with their files, mended one by one as its file says [m].

    Raises:
        GeometryError: One cannot be read, or a repair cannot be done.
    """
    own = tuple(repair for repair in ON_EACH if repair in region.repairs)
    found: list[tuple[str, Mesh]] = []
    for piece in region.files:
        unit = read_quantity(f"1 {piece.file_unit}", "length", None) if piece.file_unit else None
        mesh = _metres(files[piece.file], piece.file, unit, piece.file_scale)
        found.append((piece.file, _mended(mesh, own, piece.file) if own else mesh))
    return found


def _check(mesh: Mesh, name: str) -> None:
    """Refuse a mesh with which nothing can be worked out.

    Raises:
        GeometryError: It does not close, or its triangles face this way and that.
    """
    for trouble in troubles(looked_at(mesh, name, False), in_words):
        if trouble.stops:
            ask = f'Write repairs = ["{trouble.repair}"] there.'
            raise GeometryError(trouble.what, name, ask if trouble.repair else trouble.mend)


def _right_way_out(mesh: Mesh) -> Mesh:
    return turned_out(mesh) if volume(mesh) < 0 else mesh


@lru_cache(maxsize=32)
def closed(data: bytes, name: str, unit: float) -> Mesh:
    """Return a closed mesh that needs no repair.

    Args:
        data: The file.
        name: Its name.
        unit: Length of one unit of the file [m].

    Raises:
        GeometryError: It cannot be read, does not close, or is inside out.
    """
    mesh = _metres(data, name, unit, 1.0)
    _check(mesh, name)
    if volume(mesh) <= 0:
        mend = "Turn its triangles round where it was drawn."
        raise GeometryError("the mesh is inside out", name, mend)
    return mesh


def meshed(region: MeshRegion, files: Mapping[str, bytes]) -> Mesh:
    """Return the closed surface of a region that is drawn as meshes, in its place.

    Raises:
        GeometryError: One of them cannot be read, does not close, or cannot be mended as asked.
    """
    beside = tuple((piece.file, files[piece.file]) for piece in region.files)
    return _meshed(region, beside)  # pyright: ignore[reportArgumentType] - frozen: hashable


@lru_cache(maxsize=32)
def _meshed(region: MeshRegion, beside: tuple[tuple[str, bytes], ...]) -> Mesh:
    pieces: list[Mesh] = []
    for (name, mesh), piece in zip(drawn_pieces(region, dict(beside)), region.files, strict=True):
        _check(mesh, name)
        lies = turned(_right_way_out(mesh), piece.forward, piece.up, name)
        pieces.append(put(lies, piece.x_aft, piece.y, piece.z_bottom))
    whole = pieces[0] if len(pieces) == 1 else join(pieces)
    if "union" in region.repairs:
        whole = _mended(whole, ("union",), region.name)
    return shell(whole, region.name) if region.sealed else whole


def outside(walls: Sequence[Mesh], name: str) -> Mesh:
    """Return the outside of walls, with all that they enclose.

    Where they do not close round a room, as a tube that is open at its ends, the hull of points
    of each stands for it.

    Raises:
        GeometryError: One of them is not closed.
    """
    whole = shell(union(walls, name), name)
    spanned = [span_of(wall) for wall in walls]
    if volume(whole) > HALF * sum(volume(one) for one in spanned):
        return whole
    return union(spanned, name)
