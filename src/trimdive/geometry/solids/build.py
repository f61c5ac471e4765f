"""Everything that displaces, as closed bodies, each with the share of its shape that does."""

from dataclasses import dataclass
from functools import lru_cache
from math import tan

import numpy as np

from trimdive.boatfile import Boat, Coat, Cylinder, Part, Tank, extents
from trimdive.boatfile.piece import HUNG_DENSITY
from trimdive.boatfile.tub import FromTub
from trimdive.geometry.lines.kept import while_used, with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh, join, volume
from trimdive.geometry.solids.hull import Hull, Skin, density_of
from trimdive.geometry.solids.inside import is_inside
from trimdive.geometry.solids.shapes import (
    along,
    box,
    capsule,
    cylinder,
    mirrored,
    moved,
    sloped,
    sphere,
    tube,
)
from trimdive.geometry.solids.surfaces import Files, mesh_of
from trimdive.records import short

TUB_BALL = 0.01  # diameter of the ball that stands for what the tub says displaces [m]


@dataclass(frozen=True, slots=True, weakref_slot=True, kw_only=True)
class Body:
    """Something that displaces water."""

    name: str
    kind: str  # region, coat, cylinder, tank, part, lead, foam or tub
    path: str  # its place in the boat file
    mesh: Mesh
    share: float  # of the mesh's volume that displaces [-]
    volume: float  # displaced when under [m³]
    is_pair: bool = False  # two alike, to port and starboard

    __repr__ = short

    @property
    def pieces(self) -> tuple[Mesh, ...]:
        """Return the meshes of its pieces: two for a pair."""
        return halves(self.mesh) if self.is_pair else (self.mesh,)


@with_mesh(1)
def halves(mesh: Mesh) -> tuple[Mesh, Mesh]:
    """Return the two meshes of a pair that was made by mirroring one."""
    corners, faces = len(mesh.vertices) // 2, len(mesh.triangles) // 2
    return (
        Mesh(vertices=mesh.vertices[:corners], triangles=mesh.triangles[:faces]),
        Mesh(vertices=mesh.vertices[corners:], triangles=mesh.triangles[faces:] - corners),
    )


def _centred(mesh: Mesh) -> Mesh:
    """Return a mesh about the middle of its bounds."""
    return moved(mesh, *(-mesh.bounds.mean(axis=0)))


def part_shape(part: Part, files: Files) -> Mesh | None:
    """Return the shape of one piece about its middle, or None for a bare point."""
    if part.shape == "box":
        return box(part.length, part.breadth, part.height)
    if part.shape == "cylinder":
        return along(cylinder(part.diameter, part.length), part.axis)
    if part.shape == "tube":
        return along(tube(part.diameter, part.wall, part.length), part.axis)
    if part.shape == "sphere":
        return sphere(part.diameter)
    if part.shape == "mesh":
        return _centred(mesh_of(files, part.mesh or "", part.file_unit or ""))
    return None


def part_volume(part: Part, shape: Mesh | None) -> float:
    """Return the volume of one piece [m³]: as measured, else by mass and material, else by shape.

    A pair whose figures are of both together is halved.
    """
    count = 2 if part.pair == "both" else 1
    density = density_of(part.material, part.density)
    if part.volume is not None:
        return part.volume / count
    if part.hung is not None and part.mass is not None:
        return (part.mass - part.hung) / HUNG_DENSITY / count
    if part.mass is not None and density is not None:
        return part.mass / density / count
    return 0.0 if shape is None else volume(shape)


def _pair(mesh: Mesh, is_pair: bool) -> Mesh:
    """Return a mesh, with its mirror image where there are two."""
    return join([mesh, mirrored(mesh)]) if is_pair else mesh


def part_body(part: Part, path: str, files: Files) -> Body | None:
    """Return a part as a body; None where it displaces nothing. It is kept by what it is."""
    beside = ((part.mesh, files[part.mesh]),) if part.mesh else ()
    return _part_body(part, path, beside)  # pyright: ignore[reportArgumentType] - frozen: hashable


@lru_cache(maxsize=64)  # of what was changed just now
@while_used
def _part_body(part: Part, path: str, beside: tuple[tuple[str, bytes], ...]) -> Body | None:
    if part.inside:
        return None
    shape = part_shape(part, dict(beside))
    one = part_volume(part, shape)
    if one <= 0:
        return None
    solid = sphere((6 * one / np.pi) ** (1 / 3), 12) if shape is None else shape
    mesh = _pair(moved(solid, part.x, part.y, part.z), bool(part.pair))
    return Body(
        name=part.name,
        kind=part.kind,
        path=path,
        mesh=mesh,
        share=one / volume(solid),
        volume=one * (2 if part.pair else 1),
        is_pair=bool(part.pair),
    )


def cylinder_shape(vessel: Cylinder, *, bore: bool = False) -> Mesh:
    """Return a watertight cylinder along x about the origin, by its outside or its room inside."""
    size = vessel.bore if bore else vessel.outside
    length = vessel.length - 2 * vessel.wall * bore
    return capsule(size, length) if vessel.ends == "round" else cylinder(size, length)


@lru_cache(maxsize=8)
@while_used
def cylinder_body(vessel: Cylinder, path: str) -> Body:
    """Return a watertight cylinder as a body, by its outside."""
    solid = sloped(cylinder_shape(vessel), vessel.slope)
    mesh = _pair(moved(solid, vessel.x, vessel.y, vessel.z), bool(vessel.pair))
    return Body(
        name=vessel.name,
        kind="cylinder",
        path=path,
        mesh=mesh,
        share=1.0,
        volume=volume(mesh),
        is_pair=bool(vessel.pair),
    )


def tank_room(tank: Tank, boat: Boat, files: Files, grown: float = 0.0) -> Mesh:
    """Return the space of a tank in the boat, ``grown`` by a wall on every side [m]."""
    length = tank.length + 2 * grown if tank.length else 0.0
    if tank.shape == "mesh":
        return moved(
            _centred(mesh_of(files, tank.mesh or "", tank.file_unit or "")), tank.x, tank.y, tank.z
        )
    if tank.shape == "box":
        solid = box(length, tank.breadth + 2 * grown, tank.height + 2 * grown)
    else:
        solid = cylinder(tank.bore + 2 * grown, length)
    slope = next((c.slope for c in boat.cylinders if c.name == tank.inside), 0.0)
    return moved(sloped(solid, slope), tank.x, tank.y, tank.z)


def coat_mass(coat: Coat, covered: float) -> float | None:
    """Return the dry mass of a coat [kg]: as told, or by the area that it covers [m²]."""
    if coat.mass is None and coat.per_area is not None:
        return coat.per_area * covered * coat.sides
    return coat.mass


def coat_bodies(coat: Coat, path: str, boat: Boat, skins: tuple[Skin, ...]) -> list[Body]:
    """Return a coat as bodies: each region's skin, at the share that the coat adds to it."""
    density = density_of(coat.material, coat.density)
    names = coat.on or tuple(region.name for region in boat.regions)
    chosen = [skin for skin in skins if skin.name in names]
    area = sum(skin.area for skin in chosen)
    mass = coat_mass(coat, area)
    if mass is None or density is None or area <= 0:
        return []
    whole = mass / density
    return [
        Body(
            name=coat.name,
            kind="coat",
            path=path,
            mesh=skin.body,
            share=whole * skin.area / area / skin.shape_volume,
            volume=whole * skin.area / area,
        )
        for skin in chosen
    ]


def bodies(boat: Boat, built: Hull, files: Files) -> tuple[Body, ...]:
    """Return everything that displaces, in the order of the boat file."""
    found: list[Body] = []
    for i, skin in enumerate(built.skins, 1):
        found.append(
            Body(
                name=skin.name,
                kind="region",
                path=f"region[{i}]",
                mesh=skin.body,
                share=skin.volume / skin.shape_volume,
                volume=skin.volume,
            )
        )
    for i, coat in enumerate(boat.coats, 1):
        found += coat_bodies(coat, f"coat[{i}]", boat, built.skins)
    for i, vessel in enumerate(boat.cylinders, 1):
        if vessel.inside:
            continue
        path = f"cylinder[{i}]"
        found.append(cylinder_body(vessel, path))  # pyright: ignore[reportArgumentType] - frozen
    for i, tank in enumerate(boat.tanks, 1):
        if tank.inside is None:
            mesh = tank_room(tank, boat, files, tank.wall)
            found.append(
                Body(
                    name=tank.name,
                    kind="tank",
                    path=f"tank[{i}]",
                    mesh=mesh,
                    share=1.0,
                    volume=volume(mesh),
                )
            )
    for path, piece in numbered(boat):
        body = part_body(piece, path, files)
        found += [body] if body else []
    found += _from_tub(boat)
    return tuple(body for body in found if not _is_shut_in(body, boat, built))


def _from_tub(boat: Boat) -> list[Body]:
    """Return what readings in the tub say displaces besides the list, as small balls.

    What is too much in the list displaces less than nothing.
    """
    found: list[Body] = []
    for i, piece in enumerate(boat.from_tub, 1):
        if piece.volume:
            found.append(_tub_body(piece, f"from_tub[{i}]"))  # pyright: ignore[reportArgumentType]
    return found


@lru_cache(maxsize=64)
def _tub_body(piece: FromTub, path: str) -> Body:
    ball = sphere(TUB_BALL, 12)
    return Body(
        name="from the tub",
        kind="tub",
        path=path,
        mesh=moved(ball, piece.x, piece.y, piece.z),
        share=piece.volume / volume(ball),
        volume=piece.volume,
    )


def _is_shut_in(body: Body, boat: Boat, built: Hull) -> bool:
    """Return whether a body lies within a sealed region, which displaces for it."""
    through = {path for path, part in numbered(boat) if part.through_hull}
    if body.kind in ("region", "coat", "tub") or body.path in through:
        return False
    middle = body.pieces[0].bounds.mean(axis=0)[None, :]
    return any(
        bool(is_inside(skin.outer, middle)[0])
        for region, skin in zip(boat.regions, built.skins, strict=True)
        if region.sealed
    )


def numbered(boat: Boat) -> list[tuple[str, Part]]:
    """Return parts, lead and foam with their places in the boat file."""
    lists: tuple[tuple[str, tuple[Part, ...]], ...] = (
        ("part", boat.parts),
        ("lead", boat.lead),
        ("foam", boat.foam),
    )
    return [(f"{key}[{i}]", part) for key, pieces in lists for i, part in enumerate(pieces, 1)]


def paths_by_name(boat: Boat) -> dict[str, str]:
    """Return the places in the boat file of cylinders, tanks, parts, lead and foam, by name."""
    found: dict[str, str] = {}
    for key, pieces in (("cylinder", boat.cylinders), ("tank", boat.tanks)):
        for k, piece in enumerate(pieces, 1):
            found.setdefault(piece.name, f"{key}[{k}]")
    for path, part in numbered(boat):
        found.setdefault(part.name, path)
    return found


def reach(part: Part) -> Floats | None:
    """Return half the length, breadth and height of a part, shape (3,) [m]; None for a point."""
    sizes = extents(part)
    if any(size is None for size in sizes):
        return None
    return np.array([size or 0.0 for size in sizes]) / 2


def axis_height(vessel: Cylinder, x: float) -> float:
    """Return the height of a cylinder's axis at a place along the boat [m]."""
    return vessel.z + (x - vessel.x) * tan(vessel.slope)
