"""Pressure inside a cylinder in every state: tanks that take its air, the sun, closed tanks full.

Gas or a battery that vents is not bounded: a valve or a cap that lifts is the answer, no figure.

Sources: Boyle's and Gay-Lussac's laws, as in strength.
"""

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING

from trimdive.boatfile import Boat, Cylinder
from trimdive.strength import safety, squeezed, warmed

if TYPE_CHECKING:
    from trimdive.rest import Floater

TAKES_AIR = ("pump vented", "pump bag")  # kinds of plant whose tank fills from the dry space


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """Pressure inside in one state."""

    key: str
    says: str  # the state, in words
    pressure: float  # above the air's; below zero a vacuum [Pa]
    why: str  # how it comes about


def free_air(vessel: Cylinder, assumed: list[str]) -> float:
    """Return the free air in a cylinder with its tanks empty [m³].

    Args:
        vessel: The cylinder.
        assumed: What is assumed is added to it.
    """
    if vessel.air is not None:
        return vessel.air
    assumed.append(f"free air: {safety('free-air'):.0%} of its room")
    return safety("free-air") * pi / 4 * vessel.bore**2 * vessel.length


def insides(
    boat: Boat, vessel: Cylinder, floater: "Floater", air: float, assumed: list[str]
) -> tuple[Inside, ...]:
    """Return the pressure in a cylinder in every state.

    Args:
        boat: The boat.
        vessel: The cylinder.
        floater: For what her tanks take.
        air: Free in it with its tanks empty [m³].
        assumed: What is assumed is added to it.

    Raises:
        BoatFileError: The tanks take all of its air.
    """
    found: list[Inside] = []
    taken = _taken(boat, vessel, floater)
    closed, hottest = boat.water.temperature, vessel.hottest
    if hottest is None:
        hottest = safety("hottest")
        assumed.append(f"{hottest:g} °C at the hottest, closed")
    left = air
    if taken > 0:
        # closed with its tanks full it holds so much less air, and they give room back
        start = air - taken if vessel.closed == "tanks full" else air
        change = -taken if vessel.closed == "tanks full" else taken
        left = start
        state = "tank emptied" if change < 0 else "tank full"
        does = "gives back" if change < 0 else "takes"
        why = f"the tank {does} {taken * 1e3:.2f} L of {start * 1e3:.2f} L of air"
        found.append(Inside(key=state, says=state, pressure=squeezed(start, change), why=why))
    sun = warmed(closed, max(hottest, closed))
    why = f"closed at {closed:g} °C, {max(hottest, closed):g} °C now, {left * 1e3:.2f} L of air"
    found.append(Inside(key="sun", says="in the sun", pressure=sun, why=why))
    return tuple(found)


def _taken(boat: Boat, vessel: Cylinder, floater: "Floater") -> float:
    """Return the room that tanks take of a cylinder's air from blown to full [m³]."""
    served = {name for plant in boat.plants if plant.kind in TAKES_AIR for name in plant.tanks}
    return sum(
        float(capacity)
        for tank, capacity in zip(boat.tanks, floater.tanks.capacities, strict=True)
        if tank.inside == vessel.name and tank.name in served
    )
