"""One moment of a plant: pressures, force and torque, what flows and what it draws.

Air in a closed tank, or in the dry space behind one, has time to take the temperature of what is
around it; other tanks that take room from the same dry space fill as this one does.

Sources: the laws of shut-in air in ``dryspace``; closed forms.
"""

from dataclasses import dataclass
from functools import cache
from math import acos, pi, sqrt

import numpy as np

from trimdive.data import constant
from trimdive.geometry.lines.mesh import Floats
from trimdive.plant.driving import PumpCurve, screw_torque
from trimdive.plant.gases import boiling_pressure, gas, jet_flow
from trimdive.plant.system import Bottle, Piston, System
from trimdive.plant.water import AIR, hole_flow, pressure_at
from trimdive.vessels.dryspace import pressure, water_at
from trimdive.vessels.dryspace.laws import drawn

NEARLY = 0.9999  # of its room: fuller no air is ever squeezed [-]
SINKS_PAST = 0.005  # so far above the tank's top the water stands when it is full [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One moment."""

    flow: float  # of water into the tank, out of it as it empties [m³/s]
    inside: float  # absolute pressure of the air that the tank works against [Pa]
    dry: float  # absolute pressure in the dry space [Pa]
    against: float  # pressure that is worked against; below 0 it helps [Pa]
    force: float  # on a piston's screw, 0 of others [N]
    torque: float  # of a piston's motor, 0 of others [N m]
    current: float  # drawn [A]
    gas: float  # taken from the bottle [kg/s]


def fills_to(head: float, depth: float, density: float) -> float:
    """Return how full a pump makes a closed tank at the most: 1 - p0 / (p0 + G + rho g d) [-].

    Args:
        head: Pressure at which the pump moves nothing [Pa].
        depth: Of the water that it takes [m].
        density: Of the water [kg/m³].

    Source:
        Boyle's law.
    """
    return water_at(1.0, 0.0, pressure_at(depth, density) + head)


def inside(system: System, water: float) -> float:
    """Return the absolute pressure that the water of a tank stands against [Pa].

    Args:
        system: The plant.
        water: In the tank [m³].
    """
    if system.kind == "pump closed":
        return pressure(system.room, min(water, NEARLY * system.room), system.closed_with)
    stretched = system.stretch * water / system.room if system.kind == "pump bag" else 0.0
    return dry_space(system, water) + stretched


def beside(system: System, water: float) -> float:
    """Return the water in the other tanks of a plant's dry space, which fill as its own does [m³].

    Args:
        system: The plant.
        water: In its own tank [m³].
    """
    room = system.full - system.blown
    share = min(max((water - system.blown) / room, 0.0), 1.0) if room > 0 else 0.0
    return system.others.blown + share * (system.others.full - system.others.blown)


def dry_space(system: System, water: float) -> float:
    """Return the absolute pressure in the dry space behind a tank [Pa].

    Args:
        system: The plant.
        water: In the tank [m³].
    """
    taken = min(water + beside(system, water), NEARLY * system.air)
    return pressure(system.air, taken, system.closed_with + system.others.closed)


def own_water(system: System, absolute: float) -> float:
    """Return the water in a tank with which its dry space has a pressure [m³].

    Args:
        system: The plant.
        absolute: The pressure, absolute [Pa].
    """
    closed = system.closed_with + system.others.closed
    taken = water_at(system.air, closed, absolute) - system.others.blown
    room, others = system.full - system.blown, system.others.full - system.others.blown
    slope = others / room if room > 0 else 0.0
    low, high = taken, taken - others  # the others blown, or full
    if low <= system.blown:
        return low
    return high if high >= system.full else (taken + slope * system.blown) / (1 + slope)


def _bag(system: System, water: float, outside: float) -> tuple[float, float]:
    """Return absolute pressures in a bag of air outside the cylinder, and in the cylinder [Pa]."""
    size, closed = system.room - water, system.room - system.closed_with
    bag = outside + system.stretch * size / system.room
    return bag, drawn(system.air, system.air, bag * size, closed)


@cache
def _segment() -> tuple[Floats, Floats]:
    """Return share of area and of height of a circle filled from below, shape (n,) each [-]."""
    heights = np.linspace(0.0, 1.0, 201)
    shares = [(a - sqrt(max(1 - c * c, 0.0)) * c) / pi
              for c in 1 - 2 * heights for a in (acos(c),)]  # fmt: skip
    return np.array(shares), heights


def level(system: System, water: float) -> float:
    """Return the height of the water in a tank that lies level [m].

    Args:
        system: The plant.
        water: In the tank [m³].
    """
    share = min(max(water / system.room, 0.0), 1.0)
    high = float(np.interp(share, *_segment())) if system.is_round else share
    return system.low + high * (system.high - system.low)


def head(system: System, water: float, depth: float) -> float:
    """Return the head of the water outside over that in a tank that is open below [m].

    Afloat she sinks as she fills, at last past the tank's top; deeper, only the air's own column
    counts, up to the vent.

    Args:
        system: The plant.
        water: In the tank [m³].
        depth: Of the tank [m].
    """
    past = system.high + SINKS_PAST
    share = water / system.room
    up = system.waterline + share * max(past - system.waterline, 0.0) if depth <= 0 else past
    return up - level(system, water)


def _pumped(system: System, drive: PumpCurve, water: float, outside: float, up: bool) -> Point:
    air = inside(system, water)
    against = outside - air if up else air - outside
    flow = drive.against(against)
    is_closed = system.kind == "pump closed"
    dry = constant("atmosphere") if is_closed else dry_space(system, water)
    return Point(
        flow=flow, inside=air, dry=dry, against=against, force=0.0, torque=0.0,
        current=drive.draws(against, flow), gas=0.0,
    )  # fmt: skip


def _pushed(system: System, drive: Piston, water: float, outside: float, up: bool) -> Point:
    air = inside(system, water)
    against = outside - air if up else air - outside
    force = against * drive.area + drive.seal
    torque = screw_torque(drive.thread, force)
    flow = drive.motor.speed(torque) * drive.thread.lead * drive.area
    return Point(
        flow=flow, inside=air, dry=air, against=against, force=force, torque=torque,
        current=drive.motor.draws(torque), gas=0.0,
    )  # fmt: skip


def _aired(system: System, drive: PumpCurve, water: float, outside: float, up: bool) -> Point:
    """Return a moment of air that is pumped into a bag, or let back from it."""
    bag, dry = _bag(system, water, outside)
    against = bag - dry
    if up:
        flow = drive.against(against) * dry / bag
        current = drive.draws(against, flow)
    else:
        flow, current = _let_back(drive, against), 0.0
    return Point(
        flow=flow, inside=bag, dry=dry, against=against, force=0.0, torque=0.0,
        current=current, gas=0.0,
    )  # fmt: skip


def _let_back(drive: PumpCurve, pressure: float) -> float:
    """Return the air that flows back through the hose by itself [m³/s]."""
    if pressure <= 0:
        return 0.0
    low, high = 0.0, 1e-2
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if drive.way.loss(middle) < pressure else (low, middle)
    return low


def _flooded(system: System, water: float, depth: float) -> Point:
    """Return a moment of a tank open below, its vent open."""
    high = head(system, water, depth)
    air, outside = constant("atmosphere"), pressure_at(max(depth, 0.0), system.density)
    return Point(
        flow=hole_flow(high, system.holes, system.vent, system.density), inside=outside, dry=air,
        against=-system.density * constant("gravity") * high, force=0.0, torque=0.0,
        current=0.0, gas=0.0,
    )  # fmt: skip


def bottle_pressure(bottle: Bottle, used: float, celsius: float) -> float:
    """Return the absolute pressure in a bottle of which some gas is used [Pa].

    Args:
        bottle: The bottle.
        used: Gas taken from it [kg].
        celsius: Its temperature now [°C].
    """
    if bottle.volume > 0:
        kelvin = bottle.celsius + constant("zero-celsius")
        lost = used * constant("gas-constant") * kelvin / gas(bottle.gas).molar_mass
        return max(bottle.pressure - lost / bottle.volume, 0.0)
    if used >= bottle.mass * (1 - bottle.left):
        return 0.0
    return boiling_pressure(bottle.gas, celsius)


def _blown(
    system: System, drive: Bottle, outside: float, used: float, celsius: float
) -> Point:  # fmt: skip
    """Return a moment of a tank that is open below and blown."""
    there = bottle_pressure(drive, used, celsius)
    mass = jet_flow(drive.gas, drive.jet, there, outside, celsius)
    kelvin = system.celsius + constant("zero-celsius")
    made = mass * constant("gas-constant") * kelvin / (gas(drive.gas).molar_mass * outside)
    return Point(
        flow=made, inside=there, dry=constant("atmosphere"), against=outside - there,
        force=0.0, torque=0.0, current=0.0, gas=mass,
    )  # fmt: skip


def _snorkelled(system: System, drive: PumpCurve, water: float, depth: float) -> Point:
    """Return a moment of a tank that an air pump blows, its snorkel in the air."""
    high = head(system, water, 0.0)
    against = system.density * constant("gravity") * max(high, 0.0)
    flow = drive.against(against) if depth <= 0 else 0.0
    return Point(
        flow=flow, inside=constant("atmosphere") + against, dry=constant("atmosphere"),
        against=against, force=0.0, torque=0.0, current=drive.draws(against, flow), gas=0.0,
    )  # fmt: skip


def point(
    system: System,
    water: float,
    depth: float,
    *,
    up: bool,
    used: float = 0.0,
    celsius: float | None = None,
) -> Point:
    """Return one moment of a plant.

    Args:
        system: The plant.
        water: In the tank [m³].
        depth: Of the tank [m].
        up: Whether it empties.
        used: Gas taken from the bottle so far [kg].
        celsius: Temperature of the bottle; None: as it began [°C].
    """
    outside = pressure_at(max(depth, 0.0), system.density)
    drive = system.drive
    if isinstance(drive, Piston):
        return _pushed(system, drive, water, outside, up)
    if isinstance(drive, Bottle):
        cold = drive.celsius if celsius is None else celsius
        if up:
            return _blown(system, drive, outside, used, cold)
        return _flooded(system, water, depth)
    if system.kind == "snorkel":
        if up:
            return _snorkelled(system, drive, water, depth)
        return _flooded(system, water, depth)
    if system.kind == "air bag":
        return _aired(system, drive, water, outside, up)
    return _pumped(system, drive, water, outside, up)


__all__ = [
    "AIR",
    "Point",
    "bottle_pressure",
    "fills_to",
    "head",
    "inside",
    "level",
    "own_water",
    "point",
]
