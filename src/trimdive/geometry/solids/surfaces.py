"""The outer surface of each region of the hull, as one closed mesh."""

from collections.abc import Mapping
from functools import lru_cache

import numpy as np

from trimdive.boatfile import (
    Boat,
    LinesRegion,
    MeshRegion,
    MyringRegion,
    OutlineRegion,
    PrismRegion,
    Region,
    RoundRegion,
    Series58Region,
    Skin,
    SuboffRegion,
)
from trimdive.errors import BoatFileError
from trimdive.geometry.lines.forms import myring, series58, suboff
from trimdive.geometry.lines.loft import loft
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.lines.outline import outlined
from trimdive.geometry.lines.outline_given import outline_of, spread_of
from trimdive.geometry.lines.outline_spread import OutlineSpread
from trimdive.geometry.lines.table import LinesTable, read_table
from trimdive.geometry.solids.meshed import closed, meshed
from trimdive.geometry.solids.shapes import moved
from trimdive.units import read

Files = Mapping[str, bytes]  # what lies beside the boat file, by name
Form = PrismRegion | OutlineRegion | RoundRegion | MyringRegion | Series58Region | SuboffRegion
UNSKINNED = {name: field.default for name, field in Skin.model_fields.items()}  # a surface alone
CORNERS = 96  # points on the outline of a tower [-]


def files_of(boat: Boat) -> tuple[str, ...]:
    """Return the names of all files that a boat file names, each once."""
    further = [piece for region in boat.regions for piece in getattr(region, "pieces", ())]
    pieces = (*boat.regions, *further, *boat.tanks, *boat.pieces)
    names = [getattr(piece, field, None) for piece in pieces for field in ("file", "mesh")]
    return tuple(dict.fromkeys(name for name in names if name))


def text_of(files: Files, name: str) -> str:
    """Return the text of a file beside the boat file.

    Raises:
        BoatFileError: It is not UTF-8.
    """
    try:
        return files[name].decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = files[name].count(b"\n", 0, error.start) + 1
        what = f"byte 0x{files[name][error.start]:02x} is not UTF-8"
        raise BoatFileError(what, f"{name}:{line}", "Save the table as UTF-8.") from None


@lru_cache(maxsize=32)
def table_of(text: str, name: str) -> LinesTable:
    """Return a table of lines, kept by what it says."""
    return read_table(text, name)


@lru_cache(maxsize=8)
def _lofted(text: str, name: str, axis_z: float | None) -> Mesh:
    return loft(table_of(text, name), axis_z=axis_z)


def mesh_of(files: Files, name: str, file_unit: str) -> Mesh:
    """Return a closed mesh beside the boat file [m].

    Raises:
        GeometryError: It does not close.
    """
    return closed(files[name], name, read(f"1 {file_unit}", "length", None))


def outline(kind: str, length: float, breadth: float) -> Floats:
    """Return an outline seen from above about its middle, anticlockwise, shape (n, 2) [m]."""
    if kind == "box":
        return 0.5 * np.array(
            [[length, -breadth], [length, breadth], [-length, breadth], [-length, -breadth]]
        )
    angle = 2 * np.pi * (np.arange(CORNERS) + 0.5) / CORNERS
    around = 0.5 * np.column_stack([np.cos(angle), np.sin(angle)])
    if kind == "oval":
        return around * np.array([length, breadth])
    straight = np.sign(around[:, :1]) * np.array([max(length - breadth, 0.0) / 2, 0.0])
    return around * np.array([min(length, breadth), breadth]) + straight


def prism(region: PrismRegion) -> Mesh:
    """Return the tower or house as a closed mesh, its lower edge first."""
    points = outline(region.outline, region.x_fore - region.x_aft, region.breadth)
    count = len(points)
    middle = np.array([(region.x_aft + region.x_fore) / 2, region.y])
    rings = [
        np.column_stack([points + middle, np.full(count, z)])
        for z in (region.z_bottom, region.z_top)
    ]
    centres = np.array([[*middle, region.z_bottom], [*middle, region.z_top]])
    here = np.arange(count)
    after = (here + 1) % count
    bottom, top = here * 0 + 2 * count, here * 0 + 2 * count + 1
    faces = [
        [here, after, after + count],
        [here, after + count, here + count],
        [bottom, after, here],
        [top, here + count, after + count],
    ]
    return Mesh(
        vertices=np.vstack([*rings, centres]),
        triangles=np.vstack([np.column_stack(face) for face in faces]),
    )


def surface(region: Region, files: Files) -> Mesh:
    """Return the closed outer surface of a region, before anything is cut from it.

    Raises:
        GeometryError: Its table or mesh makes no closed surface.
    """
    if isinstance(region, LinesRegion):
        return _lofted(text_of(files, region.file), region.file, None)
    if isinstance(region, MeshRegion):
        bare = {"name": region.name, "sealed": region.sealed}
        return meshed(region.model_copy(update=UNSKINNED | bare), files)
    text = text_of(files, region.file) if isinstance(region, RoundRegion) else ""
    bare = region.model_copy(update=UNSKINNED)
    return _formed(bare, text)  # pyright: ignore[reportArgumentType] - frozen: hashable


@lru_cache(maxsize=16)
def _formed(region: Form, text: str) -> Mesh:
    """Return the surface of a region told by figures, and by a table where there is one."""
    if isinstance(region, PrismRegion):
        return prism(region)
    if isinstance(region, OutlineRegion):
        return outlined(outline_of(region))
    if isinstance(region, RoundRegion):
        return moved(_lofted(text, region.file, region.z), 0.0, region.y, 0.0)
    if isinstance(region, MyringRegion):
        profile = myring(
            nose=region.nose,
            middle=region.middle,
            tail=region.tail,
            diameter=region.diameter,
            power=region.power,
            tail_angle=region.tail_angle,
            nose_cut=region.nose_cut,
            tail_cut=region.tail_cut,
            x_aft=region.x_aft or 0.0,
        )
    elif isinstance(region, Series58Region):
        profile = series58(
            length=region.length,
            diameter=region.diameter,
            widest=region.widest,
            nose_radius=region.nose_radius,
            tail_radius=region.tail_radius,
            prismatic=region.prismatic,
            x_aft=region.x_aft or 0.0,
        )
    else:
        profile = suboff(length=region.length, x_aft=region.x_aft or 0.0)
    return moved(profile.mesh(axis_z=region.z), 0.0, region.y, 0.0)


def same_surface(one: Region, other: Region) -> bool:
    """Return whether two regions are parts of one surface: alike but for skin, mass and limits."""
    if type(one) is not type(other) or isinstance(one, PrismRegion):
        return one is other
    own = set(type(one).model_fields) - set(Skin.model_fields)
    return all(getattr(one, name) == getattr(other, name) for name in own)


def outline_spreads(boat: Boat) -> dict[str, OutlineSpread]:
    """Return how sure the volume and waterplane of each outlined region are, by its name."""
    found: list[OutlineRegion] = []
    for region in boat.regions:
        is_new = not any(same_surface(region, other) for other in found)
        if isinstance(region, OutlineRegion) and is_new:
            found.append(region)
    return {region.name: spread_of(region, boat.waterline) for region in found}
