"""What is built into the boat, as it is drawn: shapes, hatches, and how surely it is known."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile import Boat, Cylinder, Part, Tank
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh, join
from trimdive.geometry.solids.build import cylinder_shape, numbered, part_shape, tank_room
from trimdive.geometry.solids.shapes import mirrored, moved, sloped
from trimdive.hydrostatics.equilibrium import State
from trimdive.hydrostatics.weights.ledger import Entry
from trimdive.pictures.drawings.flat import below, outline, wrapped
from trimdive.pictures.drawings.view import View

SPARSE = 0.05  # what fills less of its outline than this is spread out in it [-]

Look = Literal["cylinder", "tank", "part", "lead", "foam", "sparse", "point"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """One thing aboard, as it is drawn."""

    name: str
    path: str  # its place in the boat file
    look: Look
    is_guess: bool  # its mass is only guessed
    note: str  # what is said of it: how heavy, and how that is known
    place: Floats  # its middle, shape (3,) [m]
    meshes: tuple[Mesh, ...]  # its shape; two of a pair; none of a bare point
    is_convex: bool

    def loops(self, view: View) -> list[Floats]:
        """Return its outline in a view, on the sheet [mm]; a pair's two where they differ."""
        found = [seen(mesh, view, convex=self.is_convex) for mesh in self.meshes]
        bounds = [(loop.min(axis=0), loop.max(axis=0)) for loop in found]
        return found[:1] if len(found) == 2 and np.allclose(*bounds, atol=0.05) else found

    @property
    def title(self) -> str:
        """Return what is said of it where it is pointed at."""
        return f"{self.name}: {self.note}"


def shell(assessed: Assessment) -> Mesh:
    """Return her outside: the hull, or everything that displaces where she has none."""
    if assessed.hull.skins:
        return assessed.hull.envelope
    return join([body.mesh for body in assessed.bodies])


def seen(mesh: Mesh, view: View, *, convex: bool) -> Floats:
    """Return the outline of a body on the sheet, shape (k, 2) [mm]."""
    if convex:
        place = (float(view.x), float(view.y))
        return _wrapped(mesh, tuple(view.right.tolist()), tuple(view.up.tolist()), place)
    return view.lifted(outline(mesh, view.right, view.up).loop)


@with_mesh(8)
def _wrapped(
    mesh: Mesh, right: tuple[float, ...], up: tuple[float, ...], place: tuple[float, float]
) -> Floats:
    """Return the outline of a convex body on the sheet, shape (k, 2) [mm], kept by its mesh."""
    view = View(right=np.array(right), up=np.array(up), x=place[0], y=place[1])
    return wrapped(view.on(mesh.vertices))


def vessel_meshes(vessel: Cylinder, *, bore: bool) -> tuple[Mesh, ...]:
    """Return a watertight cylinder by its outside, or by its room inside; two of a pair."""
    solid = sloped(cylinder_shape(vessel, bore=bore), vessel.slope)
    mesh = moved(solid, vessel.x, vessel.y, vessel.z)
    return (mesh, mirrored(mesh)) if vessel.pair else (mesh,)


def things(assessed: Assessment) -> tuple[Thing, ...]:
    """Return everything aboard but the skins, in the order of the boat file."""
    boat, files = assessed.boat, assessed.files
    filled = {body.path: body.share for body in assessed.bodies}
    weighed = {entry.path: entry for entry in assessed.masses.entries}
    found: list[Thing] = []
    for i, vessel in enumerate(boat.cylinders, 1):
        shape = vessel_meshes(vessel, bore=False)
        found.append(
            _thing(boat, weighed, vessel, vessel.name, f"cylinder[{i}]", "cylinder", shape)
        )
    for i, tank in enumerate(boat.tanks, 1):
        room = (tank_room(tank, boat, files),)
        found.append(_thing(boat, weighed, tank, tank.name, f"tank[{i}]", "tank", room))
    for path, part in numbered(boat):
        beside = ((part.mesh, files[part.mesh]),) if part.mesh else ()
        meshes = _meshes(part, beside)  # pyright: ignore[reportArgumentType] - frozen: hashable
        found.append(
            _thing(boat, weighed, part, part.name, path, _look(part, filled.get(path, 1.0)), meshes)
        )
    return tuple(found)


@lru_cache(maxsize=128)
def _meshes(part: Part, beside: tuple[tuple[str, bytes], ...]) -> tuple[Mesh, ...]:
    """Return the shape of a part where it lies, two of a pair, none of a bare point."""
    solid = part_shape(part, dict(beside))
    if solid is None:
        return ()
    one = moved(solid, part.x, part.y, part.z)
    return (one, mirrored(one)) if part.pair else (one,)


def _look(part: Part, filled: float) -> Look:
    """Return how a part is drawn, which fills a share of its outline [-]."""
    if part.kind in ("lead", "foam"):
        return "lead" if part.kind == "lead" else "foam"
    if part.shape == "point":
        return "point"
    return "sparse" if filled < SPARSE else "part"


def _thing(
    boat: Boat,
    weighed: dict[str, Entry],
    piece: Cylinder | Tank | Part,
    name: str,
    path: str,
    look: Look,
    meshes: tuple[Mesh, ...],
) -> Thing:
    entry = weighed.get(path)
    note = (
        "no mass of its own"
        if entry is None
        else f"{boat.units.write(entry.mass, 'mass')}, {entry.known}"
    )
    return Thing(
        name=name,
        path=path,
        look=look,
        is_guess=entry is not None and entry.known == "guess",
        note=note,
        place=np.array([piece.x, piece.y, piece.z]),
        meshes=meshes,
        is_convex=getattr(piece, "shape", "") != "mesh",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class TankWater:
    """The water in one tank, at rest."""

    name: str
    volume: float  # [m³]
    share: float  # how full the tank is [-]
    mesh: Mesh  # the tank's room
    wet: Floats  # corners of the water, shape (k, 3) [m]; none where the tank is dry
    level: float  # of its surface along ``up`` [m]
    is_level: bool  # it has a free surface


def tank_water(assessed: Assessment, state: State) -> tuple[TankWater, ...]:
    """Return the water in every tank as it lies in a state."""
    at, tanks = state.rest, assessed.floater.tanks
    found: list[TankWater] = []
    for k, tank in enumerate(assessed.boat.tanks):
        mesh = tank_room(tank, assessed.boat, assessed.files)
        water, capacity = float(at.waters[k]), float(tanks.capacities[k])
        share = water / capacity
        is_level = tank.kind == "open" and 1e-9 < share < 1 - 1e-9
        if tank.kind == "piston":
            run = tank.stroke * share * (1.0 if tank.runs == "forward" else -1.0)
            wet = (
                _slice(mesh, tank.water_end, tank.water_end + run)
                if share > 1e-9
                else mesh.vertices[:0]
            )
        elif is_level:
            wet = below(mesh, at.n, float(at.levels[k]))
        else:
            wet = mesh.vertices if share > 0.5 else mesh.vertices[:0]
        found.append(
            TankWater(
                name=tank.name,
                volume=water,
                share=share,
                mesh=mesh,
                wet=wet,
                level=float(at.levels[k]),
                is_level=is_level,
            )
        )
    return tuple(found)


def _slice(mesh: Mesh, one: float, other: float) -> Floats:
    """Return corners of what of a tank along x lies between two places [m]."""
    low, high = min(one, other), max(one, other)
    points = mesh.vertices.copy()
    points[:, 0] = np.clip(points[:, 0], low, high)
    return points
