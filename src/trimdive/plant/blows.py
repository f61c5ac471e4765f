"""Blows a bottle of gas gives, by temperature.

Sources: ideal gas law; Boyle's law; data/gas_vapour.csv [coolprop-2014].
"""

from dataclasses import dataclass, replace

from trimdive.plant.gases import amount, boiling_pressure, bottle_gives, gas, span
from trimdive.plant.system import Bottle, System
from trimdive.plant.water import pressure_at

TEMPERATURES = (5.0, 10.0, 15.0, 20.0, 25.0)  # of water in which boats are sailed [°C]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blow:
    """What a bottle does at one temperature and depth."""

    celsius: float  # of bottle and water [°C]
    depth: float  # of the tank [m]
    pressure: float  # in the bottle, absolute [Pa]
    mass: float  # of gas for a blow [kg]
    count: float  # whole blows [-]
    reaches: float  # depth at which it blows no more [m]


def blow(bottle: Bottle, room: float, depth: float, density: float, celsius: float) -> Blow | None:
    """Return what a bottle does; None where its gas's table does not reach.

    Args:
        bottle: The bottle.
        room: Of a tank to be blown [m³].
        depth: Of the tank [m].
        density: Of the water [kg/m³].
        celsius: Of bottle and water [°C].
    """
    against = pressure_at(depth, density)
    mass = amount(bottle.gas, room, against, celsius)
    metre = pressure_at(1.0, density) - pressure_at(0.0, density)
    if bottle.volume > 0:
        pressure = bottle.pressure
        count = bottle_gives(bottle.volume, pressure, against) / room
    else:
        low, high = span(bottle.gas) if gas(bottle.gas).liquefied else (1.0, 0.0)
        if not low <= celsius <= high:
            return None
        pressure = boiling_pressure(bottle.gas, celsius)
        count = bottle.mass * (1 - bottle.left) / mass if pressure > against else 0.0
    return Blow(
        celsius=celsius,
        depth=depth,
        pressure=pressure,
        mass=mass,
        count=float(int(count + 1e-9)),
        reaches=max(pressure - pressure_at(0.0, density), 0.0) / metre,
    )


def blows_in(system: System, depth: float) -> Blow | None:
    """Return what a plant's bottle does in the water she is in.

    Args:
        system: A plant of kind gas.
        depth: Of the tank [m].
    """
    if not isinstance(system.drive, Bottle):
        return None
    room = system.full - system.blown
    return blow(system.drive, room, depth, system.density, system.drive.celsius)


def blows(system: System, depth: float) -> tuple[Blow, ...]:
    """Return what a plant's bottle does by temperature, where its table reaches.

    Args:
        system: A plant of kind gas.
        depth: Of the tank [m].
    """
    if not isinstance(system.drive, Bottle):
        return ()
    room, bottle = system.full - system.blown, system.drive
    found = [blow(replace(bottle, celsius=t), room, depth, system.density, t) for t in TEMPERATURES]
    return tuple(one for one in found if one)
