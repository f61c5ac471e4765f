"""Power lost: what the tank does then by itself, and how fast.

A screw that holds, a shut valve, a hose pump: the water stays. Through a gear pump that stands, or
an open valve, it goes where the pressure pushes it until both sides are equal: out of a tank whose
air is pressed, into one that is not.

Sources: Boyle's law.
"""

from trimdive.errors import BoatError
from trimdive.fact import Fact, fact
from trimdive.plant.fill import begins
from trimdive.plant.state import inside, own_water
from trimdive.plant.system import Bottle, System
from trimdive.plant.water import pressure_at
from trimdive.vessels.dryspace import water_at


def levels_out(room: float, closed_with: float, depth: float, density: float) -> float:
    """Return the water at which the air over it has the pressure outside [m³].

    Args:
        room: Of air and water together [m³].
        closed_with: Water when it was closed at the air's pressure [m³].
        depth: Of the tank [m].
        density: Of the water [kg/m³].

    Source:
        Boyle's law.
    """
    return water_at(room, closed_with, pressure_at(depth, density))


def unpowered(system: System, water: float, depth: float) -> float:
    """Return the water in a tank, left to itself without power, in the end [m³].

    Args:
        system: The plant.
        water: In it as the power goes [m³].
        depth: Of the tank [m].
    """
    if system.unpowered != "open":
        return water
    if isinstance(system.drive, Bottle):
        return system.blown if _blows(system, water, depth) else water
    if system.kind == "snorkel":
        return system.full
    if system.kind == "air bag":
        return system.full
    if system.kind == "pump closed":
        end = levels_out(system.room, system.closed_with, depth, system.density)
    else:
        end = own_water(system, pressure_at(depth, system.density))
    return min(max(end, system.blown), system.full)


def _blows(system: System, water: float, depth: float) -> bool:
    """Return whether a bottle whose valve springs open blows the tank."""
    try:
        begins(system, water, depth, up=True)
    except BoatError:
        return False
    return True


def leak_flow(system: System, water: float, depth: float) -> float:
    """Return what leaks into a tank whose pump stands; below 0 it leaks out [m³/s].

    Args:
        system: The plant.
        water: In it [m³].
        depth: Of the tank [m].
    """
    if not system.leaks:
        return 0.0
    return system.leaks * (pressure_at(depth, system.density) - inside(system, water))


def does(system: System) -> Fact:
    """Return what a tank does by itself without power."""
    if system.unpowered == "open":
        if isinstance(system.drive, Bottle):
            return fact("gas-blows-it")
        if system.kind in ("snorkel", "air bag"):
            return fact("water-sinks-her")
        return fact("pump-leaks") if system.leaks else fact("valve-opens")
    return fact("screw-holds") if system.kind == "piston" else fact("valve-stays-shut")
