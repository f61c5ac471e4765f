"""From bodies, ledger and tanks to a boat that can be let go."""

import numpy as np

from trimdive.boatfile import Boat, Tank
from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.solids.build import Body, tank_room
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.moments import centroid
from trimdive.geometry.solids.surfaces import Files
from trimdive.geometry.solids.tree import Tree, forest, plant, planted
from trimdive.hydrostatics.equilibrium.problem import NO_TANKS, Floater, Tanks
from trimdive.hydrostatics.weights import Ledger


def _planted(bodies: tuple[Body, ...], centre: Floats) -> Tree:
    """Return all bodies as one tree; bodies of one mesh, such as skin and paint, are one."""
    shares: dict[int, float] = {}
    meshes: dict[int, Mesh] = {}
    for body in bodies:
        key = id(body.mesh)
        shares[key] = shares.get(key, 0.0) + body.share
        meshes[key] = body.mesh
    place = (float(centre[0]), float(centre[1]), float(centre[2]))
    return forest([planted(mesh, shares[key], place) for key, mesh in meshes.items()])


def tanks_of(boat: Boat, files: Files, centre: Floats) -> Tanks:
    """Return the tanks of a boat, measured from ``centre``."""
    if not boat.tanks:
        return NO_TANKS
    rooms = [tank_room(tank, boat, files) for tank in boat.tanks]
    volumes = np.array([volume(room) for room in rooms])
    run = [1.0 if tank.runs == "forward" else -1.0 for tank in boat.tanks]
    return Tanks(
        tree=forest([plant(room, 1.0, centre) for room in rooms]),
        volumes=volumes,
        centroids=np.array([centroid(room) - centre for room in rooms]),
        shares=np.array([1.0 - tank.lost for tank in boat.tanks]) + _found(boat) / volumes,
        pistons=np.array([float(tank.kind == "piston") for tank in boat.tanks]),
        ends=np.array([(tank.water_end or 0.0) - centre[0] for tank in boat.tanks]),
        strokes=np.array(
            [sign * (tank.stroke or 0.0) for sign, tank in zip(run, boat.tanks, strict=True)]
        ),
    )


def _found(boat: Boat) -> Floats:
    """Return how much more each tank takes than listed, by readings in the tub, shape (t,) [m³]."""
    return np.array(
        [sum(one.room for one in boat.from_tub if one.tank == tank.name) for tank in boat.tanks],
        dtype=float,
    )


def floater(
    boat: Boat, files: Files, bodies: tuple[Body, ...], masses: Ledger, density: float
) -> Floater:
    """Return the boat ready to be let go in water of this density [kg/m³].

    Raises:
        GeometryError: Nothing displaces, or nothing weighs.
    """
    if not bodies:
        raise GeometryError("nothing displaces", boat.name, "Add a hull region or a cylinder.")
    if masses.mass <= 0:
        raise GeometryError("nothing weighs", boat.name, "Add masses.")
    bounds = np.stack([body.mesh.bounds for body in bodies])
    low, high = bounds[:, 0].min(axis=0), bounds[:, 1].max(axis=0)
    centre = (low + high) / 2
    tree = _planted(bodies, centre)
    whole = cut(tree, np.array([0.0, 0.0, 1.0]), float(high[2]) + 1.0)
    return Floater(
        tree=tree,
        volume=whole.volume,
        buoyancy=whole.moment / whole.volume - centre,
        mass=masses.mass,
        gravity=masses.gravity - centre,
        tanks=tanks_of(boat, files, centre),
        density=density,
        length=float(high[0] - low[0]),
    )


def least_filling(tank: Tank, capacity: float) -> float:
    """Return how full a tank is when blown: as given, and never below its dead water [-]."""
    return max(tank.blown or 0.0, tank.dead_water / capacity)


def most_filling(tank: Tank, capacity: float) -> float:
    """Return how full a tank can get: its dead air stays in [-]."""
    return 1.0 - tank.dead_air / capacity


def tank_waters(boat: Boat, tanks: Tanks, filling: float | str) -> Floats:
    """Return the water in each tank [m³], shape (t,).

    Args:
        boat: The boat.
        tanks: Her tanks.
        filling: "blown", "full", "neutral" (as meant), or one filling for all [-], kept between
            what cannot be got out and what cannot be got in.
    """
    capacities = tanks.capacities
    least = np.array([least_filling(t, c) for t, c in zip(boat.tanks, capacities, strict=True)])
    most = np.array([most_filling(t, c) for t, c in zip(boat.tanks, capacities, strict=True)])
    if filling == "blown":
        return capacities * least
    if filling == "full":
        return capacities * most
    if filling == "neutral":
        return capacities * np.array([tank.neutral for tank in boat.tanks])
    return capacities * np.clip(float(filling), least, most)
