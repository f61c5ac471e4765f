"""Meshes that a boat file names, as closed surfaces in their places; mended only as it says.

A body that is inside out is counted as if it were turned, since a closed surface has but one
outside; the checks say so until the boat file does.
"""

from collections.abc import Mapping, Sequence
from functools import lru_cache

from trimdive.boatfile import MeshRegion
from trimdive.errors import GeometryError, UnmendedError
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Mesh, join, volume
from trimdive.geometry.meshes import (
    MeshReport,
    Tried,
    Trouble,
    advised,
    in_metres,
    mended,
    overlap,
    put,
    read,
    report,
    right_way,
    shell,
    span_of,
    tried,
    troubles,
    turned,
)
from trimdive.geometry.solids.solids import union
from trimdive.units import read as read_quantity
from trimdive.units import write_fine

ON_EACH = ("weld", "drop", "flip", "cap")  # repairs that are done on each mesh by itself
HALF = 0.5  # walls that enclose less than this share of what they span do not close round it [-]
UNITS = {"length": "mm", "volume": "cm³"}


def in_words(value: float, kind: str) -> str:
    """Return a length or volume as text, for messages about a mesh by itself."""
    return write_fine(value, kind, UNITS[kind])


@lru_cache(maxsize=32)
def _metres(data: bytes, name: str, unit: float | None, scale: float) -> Mesh:
    return in_metres(read(data, name), unit, scale)


@with_mesh(4)
def _mended(mesh: Mesh, repairs: tuple[str, ...], name: str) -> Mesh:
    return mended(mesh, repairs, name).mesh


@with_mesh(4)
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


@with_mesh(4)
def _tried(mesh: Mesh, name: str, is_deep: bool) -> dict[str, Tried]:
    return tried(mesh, looked_at(mesh, name, is_deep), name)


def advice(
    mesh: Mesh, name: str, done: Sequence[str], *, is_deep: bool = True
) -> tuple[Trouble, ...]:
    """Return the troubles of a mesh, each with a repair that was tried and helps, or a dead end.

    Args:
        mesh: After the repairs that were done.
        name: Its file.
        done: Those repairs.
        is_deep: Whether to look for overlaps and faces that pass through each other.
    """
    own = tuple(repair for repair in done if repair in ON_EACH)  # the others come later
    return advised(looked_at(mesh, name, is_deep), _tried(mesh, name, is_deep), own)


def _check(mesh: Mesh, name: str, done: Sequence[str] | None) -> None:
    """Refuse a mesh with which nothing can be worked out.

    Args:
        mesh: After the repairs that were done.
        name: Its file.
        done: Those repairs; None where a boat file cannot ask for any.

    Raises:
        GeometryError: It does not close, or its triangles face this way and that.
    """
    if not any(trouble.stops for trouble in troubles(looked_at(mesh, name, False))):
        return
    for trouble in advice(mesh, name, done or (), is_deep=False):
        if trouble.stops:
            raise _refused(trouble, name, done)


def _refused(trouble: Trouble, name: str, done: Sequence[str] | None) -> GeometryError:
    """Return the error by which a mesh is refused over a trouble, with its repair."""
    wrong = _unusable(trouble, name)
    if not trouble.repair:
        return wrong
    if done is None:
        mend = f"Mend it by: trimdive mesh {name} --repair {trouble.repair} --out NEW.stl"
        return GeometryError(wrong.what, name, mend)
    asked = tuple(dict.fromkeys((*done, trouble.repair)))
    mend = "Write repairs = [" + ", ".join(f'"{one}"' for one in asked) + "] there."
    return UnmendedError(wrong.what, name, mend, repairs=asked)


def _unusable(trouble: Trouble, name: str) -> GeometryError:
    """Return the error of a mesh that no repair mends."""
    held, mend = trouble.what.values, "Repair it where it was drawn."
    match trouble.key:
        case "open":
            what = f"it is not closed: {_so_many(held['edges'], 'open edge')}"
            if isinstance(widest := held["widest"], float):
                holes, across = _so_many(held["holes"], "hole"), in_words(widest, "length")
                what += f" round {holes}, the widest {across} across"
            mend = "Close it where it was drawn, or give the outside as a table of lines."
        case "turned":
            what = f"at {_so_many(held['edges'], 'edge')} two triangles face opposite ways"
        case "overlap":
            return _counted_twice(held.get("common"), name, mend)
        case _:
            are = "is" if held["triangles"] == 1 else "are"
            what = f"{_so_many(held['triangles'], 'triangle')} {are} {trouble.key}"
    return GeometryError(what, name, mend)


def _so_many(count: object, one: str) -> str:
    return f"{count} {one if count == 1 else f'{one}s'}"


def _counted_twice(common: object, name: str, mend: str) -> GeometryError:
    """Return the error of bodies that have some volume in common [m³]."""
    held = f" {in_words(common, 'volume')}" if isinstance(common, float) else ""
    return GeometryError(f"its bodies have{held} in common, which counts twice", name, mend)


def counted_once(region: MeshRegion, files: Mapping[str, bytes]) -> None:
    """Refuse a region of which some room counts twice, or is left out twice.

    Raises:
        GeometryError: Its bodies overlap; or it cannot be read or mended, or does not close.
    """
    for name, mesh in drawn_pieces(region, files):
        for trouble in advice(mesh, name, region.repairs):
            if trouble.key == "overlap" and "union" not in region.repairs:
                raise _refused(trouble, name, region.repairs)


@lru_cache(maxsize=32)
def closed(data: bytes, name: str, unit: float) -> Mesh:
    """Return a closed mesh that needs no repair.

    Args:
        data: The file.
        name: Its name.
        unit: Length of one unit of the file [m].

    Raises:
        GeometryError: It cannot be read, does not close, is inside out, or counts something twice.
    """
    mesh = _metres(data, name, unit, 1.0)
    _check(mesh, name, None)
    found = looked_at(mesh, name, False).bodies
    if found.is_turned.any():
        what = "the mesh is inside out" if found.is_turned.all() else "a body of it is inside out"
        mend = f"Turn it where it was drawn, or: trimdive mesh {name} --repair flip --out NEW.stl"
        raise GeometryError(what, name, mend)
    if common := overlap(mesh, found, name):
        mend = f"Make them one: trimdive mesh {name} --repair union --out NEW.stl"
        raise _counted_twice(abs(common), name, mend)
    return mesh


def meshed(region: MeshRegion, files: Mapping[str, bytes]) -> Mesh:
    """Return the closed surface of a region that is drawn as meshes, in its place.

    Raises:
        GeometryError: One of them cannot be read, does not close, or cannot be mended as asked.
    """
    beside = tuple((piece.file, files[piece.file]) for piece in region.files)
    return _meshed(region, beside)  # pyright: ignore[reportArgumentType] - frozen: hashable


@lru_cache(maxsize=8)
def _meshed(region: MeshRegion, beside: tuple[tuple[str, bytes], ...]) -> Mesh:
    pieces = _in_place(region, dict(beside))
    whole = pieces[0] if len(pieces) == 1 else join(pieces)
    if "union" in region.repairs:
        whole = _mended(whole, ("union",), region.name)
    return shell(whole, region.name) if region.sealed else whole


def _in_place(region: MeshRegion, files: Mapping[str, bytes]) -> list[Mesh]:
    """Return the closed meshes of a region, each the right way out and in its place."""
    pieces: list[Mesh] = []
    for (name, mesh), piece in zip(drawn_pieces(region, files), region.files, strict=True):
        _check(mesh, name, region.repairs)
        outward = right_way(mesh, looked_at(mesh, name, False).bodies)
        lies = turned(outward, piece.forward, piece.up, name)
        pieces.append(put(lies, piece.x_aft, piece.y, piece.z_bottom))
    return pieces


def shared_by_pieces(region: MeshRegion, files: Mapping[str, bytes]) -> float:
    """Return the volume that the meshes of a region have in common with each other [m³]."""
    solids = [union([piece], region.name) for piece in _in_place(region, files)]
    return sum(volume(one) for one in solids) - volume(union(solids, region.name))


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
