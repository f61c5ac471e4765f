"""What a boat lifts, the depth she is for, and what her batteries give: for her plant."""

from typing import Literal, NamedTuple

import numpy as np

from trimdive.ballast.depth import Compressibility, compressibility, open_tank_air
from trimdive.ballast.dive.whatif import Made
from trimdive.boatfile import Boat
from trimdive.boatfile.plant import Plant
from trimdive.geometry.lines.mesh import Floats
from trimdive.plant import Lift, battery_of, usual
from trimdive.plant.system import OPEN_BELOW


class Meant(NamedTuple):
    """The depth that a boat is for, and what tells it."""

    depth: float  # [m]
    by: Literal["failsafe", "brief", "usual"]


def meant(boat: Boat) -> Meant:
    """Return the depth she is for: as promised, or as her failsafe bounds it, or usual.

    Args:
        boat: Her boat file.
    """
    set_depth = boat.failsafe.too_deep_at if boat.failsafe else None
    pond = boat.brief.pond_depth if boat.brief else None
    if set_depth is not None and (pond is None or set_depth < pond):
        return Meant(set_depth, "failsafe")
    return Meant(usual("depth"), "usual") if pond is None else Meant(pond, "brief")


def depth_meant(boat: Boat) -> float:
    """Return the depth she is for [m].

    Args:
        boat: Her boat file.
    """
    return meant(boat).depth


def planned(her: Made) -> Floats:
    """Return the water in each tank when she is dived as planned, shape (t,) [m³]."""
    return np.array(
        [
            tank.neutral * float(room)
            for tank, room in zip(her.boat.tanks, her.floater.tanks.capacities, strict=True)
        ]
    )


def served(boat: Boat) -> set[str]:
    """Return the names of the tanks that a plant serves."""
    return {name for plant in boat.plants for name in plant.tanks}


def soft(her: Made, plants: tuple[Plant, ...]) -> Compressibility:
    """Return all of her that shrinks with depth, the air in tanks that are open below too.

    Args:
        her: The boat.
        plants: Hers, or those that she might have.
    """
    names = [name for plant in plants if plant.kind in OPEN_BELOW for name in plant.tanks]
    return compressibility(her, open_tank_air(her.boat, her.floater, planned(her), names))


def lift(her: Made, plants: tuple[Plant, ...]) -> Lift:
    """Return what she lifts with the tanks of these plants without water.

    Args:
        her: The boat.
        plants: Hers, or those that she might have.
    """
    boat, names = her.floater, {name for plant in plants for name in plant.tanks}
    waters = planned(her)
    other = sum(
        float(water) for tank, water in zip(her.boat.tanks, waters, strict=True)
        if tank.name not in names
    )  # fmt: skip
    return Lift(
        empty=boat.density * boat.volume - boat.mass,
        other=other,
        density=boat.density,
        heavier=soft(her, plants).heavier,
    )


def charge(boat: Boat, plants: tuple[Plant, ...]) -> float:
    """Return the energy of the batteries that feed some plants [J].

    Args:
        boat: Her boat file.
        plants: Hers, or those that she might have.
    """
    fed = {one.name: one for plant in plants if (one := battery_of(boat, plant))}
    return sum(one.capacity * one.voltage for one in fed.values())
