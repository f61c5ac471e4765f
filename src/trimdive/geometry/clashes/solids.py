"""What takes up room aboard: tanks, cylinders, parts, lead and foam, each as a shape in its place.

A part that is told as a bare point takes none that is known; nor does an outline (open = true),
or what is known to fill less than half of the shape that is told for it: things may lie within.
A tube takes its wall.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from math import pi
from typing import Literal

from trimdive.boatfile import Boat, Cylinder, Part, Tank, extents
from trimdive.geometry.clashes.shapes import Form, Shape, of_mesh
from trimdive.geometry.clashes.swept import swept
from trimdive.geometry.solids.build import (
    cylinder_body,
    cylinder_shape,
    numbered,
    part_body,
    part_shape,
    tank_room,
)
from trimdive.geometry.solids.hull import density_of
from trimdive.geometry.solids.shapes import mirrored, moved, sloped
from trimdive.geometry.solids.surfaces import Files
from trimdive.records import record

Kind = Literal["cylinder", "tank", "part", "lead", "foam"]
NO_SIZE = 1e-6  # of a bare point of which nothing more is known [m]
FILLED = 0.5  # what fills less of its shape than this is an outline [-]
FORMS: dict[str, Form] = {"box": "box", "cylinder": "round", "sphere": "ball"}


@record
class Solid:
    """One thing in its place; of a pair the piece to port, then the one to starboard."""

    name: str
    path: str  # in the boat file
    kind: Kind
    home: str  # the cylinder in which it is told to lie, or "" for the hull
    shape: Shape
    claims: bool  # whether nothing else may lie where it lies
    is_point: bool  # only its middle is known
    is_outline: bool  # its shape is an outline that things may lie in
    through: bool  # it passes through the hull
    mass: float  # of one piece; 0 where not told [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore:
    """The room inside one cylinder: between its caps, within its wall."""

    name: str
    path: str
    shapes: tuple[Shape, ...]  # one, or two of a pair


@record
class Aboard:
    """Everything that takes up room, and the rooms inside cylinders."""

    solids: tuple[Solid, ...]
    bores: tuple[Bore, ...]
    moving: tuple[tuple[Solid, Shape], ...] = ()  # what moves, and the space that it sweeps

    def bore_of(self, home: str) -> Bore | None:
        """Return the room of the cylinder with this name."""
        return next((bore for bore in self.bores if bore.name == home), None)


def aboard(boat: Boat, files: Files) -> Aboard:
    """Return everything that takes up room in a boat.

    Args:
        boat: A resolved boat.
        files: Meshes beside the boat file.
    """
    homes = {vessel.name: vessel for vessel in boat.cylinders}
    solids = [
        one
        for i, vessel in enumerate(boat.cylinders, 1)
        for one in _of_cylinder(vessel, f"cylinder[{i}]")
    ]
    for i, tank in enumerate(boat.tanks, 1):
        home = homes.get(tank.inside or "")
        solids.append(_of_tank(tank, f"tank[{i}]", home, boat, files))
    for path, part in numbered(boat):
        solids += _of_part(part, path, homes, files)
    bores = tuple(
        bore_of(vessel, f"cylinder[{i}]")  # pyright: ignore[reportArgumentType] - frozen: hashable
        for i, vessel in enumerate(boat.cylinders, 1)
    )
    travels = {path: part.moving for path, part in numbered(boat) if part.moving}
    moving = tuple(
        (one, swept(one.shape, travels[one.path]))  # pyright: ignore[reportArgumentType] - frozen
        for one in solids
        if one.path in travels
    )
    return Aboard(solids=tuple(solids), bores=bores, moving=moving)


def _of_cylinder(vessel: Cylinder, path: str) -> Iterator[Solid]:
    """Yield a watertight cylinder by its outside, both of a pair."""
    for shape in _cylinder_shapes(vessel):  # pyright: ignore[reportArgumentType] - frozen
        yield Solid(
            name=vessel.name, path=path, kind="cylinder", home="", shape=shape, claims=True,
            is_point=False, is_outline=False, through=False, mass=vessel.mass or 0.0,
        )  # fmt: skip


def _both(place: tuple[float, float, float], pair: object) -> list[tuple[float, float, float]]:
    x, y, z = place
    return [(x, y, z), (x, -y, z)] if pair else [(x, y, z)]


@lru_cache(maxsize=64)
def _cylinder_shapes(vessel: Cylinder) -> tuple[Shape, ...]:
    if vessel.slope or vessel.ends == "round":
        body = cylinder_body(vessel, "")  # pyright: ignore[reportArgumentType] - frozen: hashable
        return tuple(of_mesh(mesh) for mesh in body.pieces)
    size = (vessel.length, vessel.outside, vessel.outside)
    places = _both((vessel.x, vessel.y, vessel.z), vessel.pair)
    return tuple(Shape(form="round", place=at, size=size) for at in places)


def cap_thickness(vessel: Cylinder) -> tuple[float, float]:
    """Return how thick the after and the fore cap are, where told, else 0 [m]."""
    aft, fore = vessel.aft_cap or vessel.caps, vessel.fore_cap or vessel.caps
    return (aft.thickness or 0.0) if aft else 0.0, (fore.thickness or 0.0) if fore else 0.0


@lru_cache(maxsize=64)
def bore_of(vessel: Cylinder, path: str) -> Bore:
    """Return the room inside a cylinder: within its wall, between its caps where they are told."""
    places = _both((vessel.x, vessel.y, vessel.z), vessel.pair)
    if vessel.slope or vessel.ends == "round":
        inner = sloped(cylinder_shape(vessel, bore=True), vessel.slope)
        found = [of_mesh(moved(inner, *at)) for at in places]
    else:
        aft, fore = cap_thickness(vessel)
        size = (vessel.length - aft - fore, vessel.bore, vessel.bore)
        middle = (aft - fore) / 2
        found = [Shape(form="round", place=(x + middle, y, z), size=size) for x, y, z in places]
    return Bore(name=vessel.name, path=path, shapes=tuple(found))


def _of_tank(tank: Tank, path: str, home: Cylinder | None, boat: Boat, files: Files) -> Solid:
    """Return a tank: its room for water, with the wall of one that stands free."""
    wall = 0.0 if home else tank.wall
    shape: Shape
    if tank.shape == "mesh" or (home and home.slope):
        shape = of_mesh(tank_room(tank, boat, files, wall))
    else:
        across = (tank.breadth, tank.height) if tank.shape == "box" else (tank.bore, tank.bore)
        size = (tank.length + 2 * wall, across[0] + 2 * wall, across[1] + 2 * wall)
        form = "box" if tank.shape == "box" else "round"
        shape = Shape(form=form, place=(tank.x, tank.y, tank.z), size=size)
    return Solid(
        name=tank.name, path=path, kind="tank", home=home.name if home else "", shape=shape,
        claims=True, is_point=False, is_outline=False, through=False, mass=tank.mass or 0.0,
    )  # fmt: skip


def _of_part(part: Part, path: str, homes: dict[str, Cylinder], files: Files) -> Iterator[Solid]:
    """Yield a part, both pieces of a pair."""
    is_gone = (part.mass or 0.0) < 0  # what is taken out takes no room
    is_point = part.shape == "point"
    is_outline = not is_point and (part.open or _fills_little(part, path, files))
    for shape in _part_shapes(part, files):
        yield Solid(
            name=part.name,
            path=path,
            kind=part.kind,  # pyright: ignore[reportArgumentType] - part, lead or foam
            home=part.inside if part.inside in homes else "",  # pyright: ignore[reportArgumentType]
            shape=shape,
            claims=not (is_point or is_outline or is_gone),
            is_point=is_point,
            is_outline=is_outline,
            through=part.through_hull,
            mass=(part.mass or 0.0) / (2 if part.pair == "both" else 1),
        )


def _as_a_ball(part: Part) -> float:
    """Return how wide a bare point would be as one ball of its material; next to nothing, else."""
    density = density_of(part.material, part.density)
    if not density or not part.mass or part.mass < 0:
        return NO_SIZE
    each = part.mass / (2 if part.pair == "both" else 1)
    return max(float(6 * each / density / pi) ** (1 / 3), NO_SIZE)


def _fills_little(part: Part, path: str, files: Files) -> bool:
    body = part_body(part, path, files)
    return body is not None and body.share < FILLED


def _part_shapes(part: Part, files: Files) -> tuple[Shape, ...]:
    """Return a part's shape, both of a pair; a bare point stands for itself."""
    places = _both((part.x, part.y, part.z), part.pair)
    if part.shape == "point":
        wide = _as_a_ball(part)
        return tuple(Shape(form="ball", place=at, size=(wide, wide, wide)) for at in places)
    if part.shape in FORMS:
        long, broad, high = (size or 0.0 for size in extents(part))
        axis = "xyz".index(part.axis) if part.shape == "cylinder" else 0
        form = FORMS[part.shape]
        size = (long, broad, high)
        return tuple(Shape(form=form, place=at, size=size, axis=axis) for at in places)
    beside = ((part.mesh, files[part.mesh]),) if part.mesh else ()
    return _meshed(part, beside)  # pyright: ignore[reportArgumentType] - frozen: hashable


@lru_cache(maxsize=64)
def _meshed(part: Part, beside: tuple[tuple[str, bytes], ...]) -> tuple[Shape, ...]:
    """Return a tube or a mesh as told, in its place."""
    shape = part_shape(part, dict(beside))
    assert shape is not None
    port = moved(shape, part.x, part.y, part.z)
    return tuple(of_mesh(mesh) for mesh in ((port, mirrored(port)) if part.pair else (port,)))
