"""A tank filled or emptied in time: how long, how far, and what it takes.

Sources: the moments of ``state``; integrated with scipy's Runge-Kutta 5(4).
"""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import floor
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from trimdive.errors import PlantError
from trimdive.geometry.lines.mesh import Floats
from trimdive.plant.gases import gas, span
from trimdive.plant.state import Point, bottle_pressure, point
from trimdive.plant.system import Bottle, Piston, System
from trimdive.plant.water import pressure_at
from trimdive.records import record

CRAWLS = 0.02  # share of the fastest flow below which it counts as stalled [-]
LONGEST = 3600.0  # a fill that takes longer is none [s]
LOOKED = 9  # levels on the way [-]
CLOSE = 1e-9  # water that is told from none [m³]

Ended = Literal["as wanted", "stalled", "bottle empty", "too slow"]


@record
class Fill:
    """A tank filled or emptied at one depth."""

    depth: float  # of the tank [m]
    up: bool  # whether it was emptied
    start: float  # water as it began [m³]
    wanted: float  # water that was wanted [m³]
    reached: float  # water as it ended [m³]
    ended: Ended
    time: float  # that it took [s]
    charge: float  # taken from the battery [A s]
    energy: float  # taken from the battery [J]
    most_current: float  # [A]
    most_inside: float  # highest absolute pressure of the air in tank or bag [Pa]
    most_dry: float  # highest absolute pressure in the dry space [Pa]
    least_dry: float  # lowest absolute pressure in the dry space [Pa]
    most_force: float  # on a piston's screw [N]
    most_torque: float  # of a piston's motor [N m]
    gas: float  # taken from the bottle [kg]
    coldest: float  # of the bottle [°C]
    times: Floats  # of the moments kept, shape (n,) [s]
    waters: Floats  # in the tank at those moments, shape (n,) [m³]

    @property
    def done(self) -> bool:
        """Return whether as much was moved as was wanted."""
        return self.ended == "as wanted"


def begins(system: System, water: float, depth: float, *, up: bool, used: float = 0.0) -> Point:
    """Return the first moment of a fill.

    Args:
        system: The plant.
        water: In the tank [m³].
        depth: Of the tank [m].
        up: Whether it empties.
        used: Gas taken from the bottle before [kg].

    Raises:
        PlantError: The plant cannot start.
    """
    drive = system.drive
    needs_power = not (isinstance(drive, Bottle) or (not up and system.kind in FALLS))
    if needs_power and system.share < system.starts:
        gets, starts = 100 * system.share, 100 * system.starts
        what = f"it gets {gets:.0f} % of its voltage and starts at {starts:.0f} %"
        raise PlantError(what, system.name, f"Give it at least {_volts(system)}.")
    if isinstance(drive, Bottle) and up:
        _can_blow(system, drive, depth, used)
    first = point(system, water, depth, up=up, used=used)
    if first.flow > 0:
        return first
    if isinstance(drive, Piston):
        what = f"the screw asks for {first.torque:.2f} N m and the motor stalls at "
        what += f"{drive.motor.torque:.2f} N m"
        raise _too_weak(what, system, water, depth, up=up)
    if isinstance(drive, Bottle) or system.kind in FALLS:
        if up:
            what = "the snorkel is under water"
            raise PlantError(what, system.name, "It works at 0 m: come up to it under power.")
        what = "no water comes in by itself"
        raise PlantError(what, system.name, "Open holes below and a vent above.")
    if system.kind == "air bag" and not up:
        what = "the bag is not pressed, so no air goes back"
        raise PlantError(what, system.name, "Let it back under water, or pump it.")
    what = f"{first.against / 1e5:.2f} bar stand against the pump, which ends at "
    what += f"{drive.head / 1e5:.2f} bar"
    raise _too_weak(what, system, water, depth, up=up)


FALLS = ("gas", "snorkel")  # kinds whose tanks fill by themselves


def _volts(system: System) -> str:
    return f"{system.volts / system.share * system.starts:.1f} V"


def _can_blow(system: System, bottle: Bottle, depth: float, used: float) -> None:
    """Refuse a blow for which there is no gas, or too weak a one.

    Raises:
        PlantError: As said.
    """
    if bottle.volume == 0:
        low, high = span(bottle.gas)
        if not low <= bottle.celsius <= high:
            near = low if bottle.celsius < low else high
            what = f"{bottle.gas} is known from {low:g} to {high:g} °C, not at "
            what += f"{bottle.celsius:g} °C"
            raise PlantError(what, system.name, f"The nearest that works is {near:g} °C.")
    pressure = bottle_pressure(bottle, used, bottle.celsius)
    if pressure == 0:
        what = f"the bottle is empty: {used * 1e3:.0f} g of {bottle.mass * 1e3:.0f} g are gone"
        raise PlantError(what, system.name, "Fill it again; count the blows.")
    if pressure <= pressure_at(depth, system.density):
        over = max(pressure - pressure_at(0.0, system.density), 0.0)
        reach = over / (pressure_at(1.0, system.density) - pressure_at(0.0, system.density))
        what = f"{bottle.gas} at {bottle.celsius:.0f} °C gives {pressure / 1e5:.2f} bar, too weak "
        what += f"at {depth:g} m"
        raise PlantError(what, system.name, f"It blows down to {floor(10 * reach) / 10:.1f} m.")


def _too_weak(what: str, system: System, water: float, depth: float, *, up: bool) -> PlantError:
    """Return that a plant does not start, and from where it would, or what would."""
    mend = "Take a stronger one, or leave more free air."
    for k in range(1, 41):
        near = depth - k * 0.25 if up else depth + k * 0.25
        if near >= 0 and point(system, water, near, up=up).flow > 0:
            mend = f"The nearest that works is {near:g} m down; or take a stronger one."
            break
    return PlantError(what, system.name, mend)


def fill(
    system: System,
    depth: float,
    *,
    up: bool = False,
    start: float | None = None,
    wanted: float | None = None,
    used: float = 0.0,
) -> Fill:
    """Return a tank filled, or emptied, at a depth.

    Args:
        system: The plant.
        depth: Of the tank [m].
        up: Whether it is emptied.
        start: Water as it begins; None: blown, or as full as it gets where it is emptied [m³].
        wanted: Water wanted; None: full, or blown where it is emptied [m³].
        used: Gas taken from the bottle before [kg].

    Raises:
        PlantError: The plant cannot start.
    """
    first = (fullest(system) if up else system.blown) if start is None else start
    last = (system.blown if up else system.full) if wanted is None else wanted
    if (first - last if up else last - first) <= CLOSE:
        return _nothing(system, depth, up, first, last)
    begin = begins(system, first, depth, up=up, used=used)
    unnamed = replace(system, name="", tanks=(), assumed=())  # what was run before is kept
    return _run(unnamed, depth, up, first, last, used, begin)


PRESSED = ("piston", "pump closed", "pump vented", "pump bag")  # kinds whose water presses air
HALVINGS = 60  # until how full it gets is known to the last digit [-]


def fullest(system: System) -> float:
    """Return the water in a tank as full as its plant makes it at the surface [m³].

    There the air that the water presses holds against pump or piston.

    Args:
        system: The plant.
    """
    unnamed = replace(system, name="", tanks=(), assumed=())
    return _fullest(unnamed) if system.kind in PRESSED else system.full


@lru_cache(maxsize=512)
def _fullest(system: System) -> float:
    def flows(water: float) -> bool:
        return point(system, water, 0.0, up=False).flow > 0

    if flows(system.full):
        return system.full
    low, high = system.blown, system.full
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if flows(middle) else (low, middle)
    return low


def _nothing(system: System, depth: float, up: bool, first: float, last: float) -> Fill:
    """Return a fill in which nothing is to be moved."""
    at = point(system, min(first, system.full), depth, up=up)
    return Fill(
        depth=depth, up=up, start=first, wanted=last, reached=first, ended="as wanted",
        time=0.0, charge=0.0, energy=0.0, most_current=0.0, most_inside=at.inside,
        most_dry=at.dry, least_dry=at.dry, most_force=0.0, most_torque=0.0, gas=0.0,
        coldest=system.celsius, times=np.zeros(1), waters=np.array([first]),
    )  # fmt: skip


@lru_cache(maxsize=512)
def _run(
    system: System,
    depth: float,
    up: bool,
    first: float,
    last: float,
    used: float,
    begin: Point,
) -> Fill:
    """Return a fill, integrated: water, charge, gas used and the bottle's temperature."""
    from scipy.integrate import solve_ivp  # slow to import, and only asked for here

    sign, drive = (-1.0 if up else 1.0), system.drive
    bottle = drive if isinstance(drive, Bottle) and up else None
    cold = bottle.celsius if bottle else system.celsius
    crawl = CRAWLS * begin.flow
    most = min(system.room, system.air) * (1 - 1e-9)

    def at(y: NDArray[np.float64]) -> Point:
        water = min(max(float(y[0]), 0.0), most)
        return point(system, water, depth, up=up, used=float(y[2]), celsius=float(y[3]))

    def slope(_: float, y: NDArray[np.float64]) -> list[float]:
        now = at(y)
        chill = _chill(bottle, float(y[2])) * now.gas if bottle else 0.0
        return [sign * now.flow, now.current, now.gas, -chill]

    def there(_: float, y: NDArray[np.float64]) -> float:
        return float(y[0]) - last

    def stalls(_: float, y: NDArray[np.float64]) -> float:
        return at(y).flow - crawl

    for event in (there, stalls):
        event.terminal = True  # pyright: ignore[reportFunctionMemberAccess] - as scipy asks
    found = solve_ivp(
        slope, (0.0, LONGEST), [first, 0.0, used, cold], events=(there, stalls),
        rtol=1e-6, atol=[1e-10, 1e-4, 1e-8, 1e-4],
    )  # fmt: skip
    ended: Ended = "as wanted" if len(found.t_events[0]) else "too slow"
    if len(found.t_events[1]):
        empty = bottle and bottle_pressure(bottle, float(found.y[2, -1]), cold) == 0
        ended = "bottle empty" if empty else "stalled"
    asked = _Run(system=system, depth=depth, up=up, first=first, last=last, used=used)
    return _filled(asked, found.t, found.y, [at(column) for column in found.y.T], ended)


def _chill(bottle: Bottle | None, used: float) -> float:
    """Return by how much each kilogram that boils off cools a bottle [K/kg]."""
    if bottle is None or bottle.volume > 0:
        return 0.0
    one = gas(bottle.gas)
    left = max(bottle.mass - used, 0.0)
    return one.evaporation / (left * one.liquid_heat + bottle.metal)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Run:
    """What was asked of a fill."""

    system: System
    depth: float  # [m]
    up: bool
    first: float  # water as it began [m³]
    last: float  # water wanted [m³]
    used: float  # gas taken before [kg]


def _filled(
    asked: _Run, times: Floats, y: Floats, moments: list[Point], ended: Ended
) -> Fill:  # fmt: skip
    """Return what was found of a fill.

    Args:
        asked: What was asked.
        times: Of the steps, shape (n,) [s].
        y: Water, charge, gas and temperature at them, shape (4, n) [m³, A s, kg, °C].
        moments: The moments at them.
        ended: How it ended.
    """
    dry = [one.dry for one in moments]
    return Fill(
        depth=asked.depth,
        up=asked.up,
        start=asked.first,
        wanted=asked.last,
        reached=asked.last if ended == "as wanted" else float(y[0, -1]),
        ended=ended,
        time=float(times[-1]),
        charge=float(y[1, -1]),
        energy=float(y[1, -1]) * asked.system.volts,
        most_current=max(one.current for one in moments),
        most_inside=max(one.inside for one in moments),
        most_dry=max(dry),
        least_dry=min(dry),
        most_force=max(one.force for one in moments),
        most_torque=max(one.torque for one in moments),
        gas=float(y[2, -1]) - asked.used,
        coldest=float(y[3].min()),
        times=times,
        waters=y[0],
    )


def emptied(system: System, depth: float, water: float) -> tuple[float, bool]:
    """Return the water that is left when a tank is emptied [m³], and whether it is as wanted.

    Where something flows at every level on the way it needs no time to be sure of that.

    Args:
        system: The plant.
        depth: Of the tank [m].
        water: In it as it begins [m³].

    Raises:
        PlantError: The plant cannot start.
    """
    if water - system.blown <= CLOSE:
        return water, True
    first = begins(system, water, depth, up=True).flow
    if not isinstance(system.drive, Bottle):
        levels = np.linspace(water, system.blown, LOOKED)
        flows = (point(system, float(one), depth, up=True).flow for one in levels)
        if all(flow > CRAWLS * first for flow in flows):
            return system.blown, True
    found = fill(system, depth, up=True, start=water)
    return found.reached, found.done


def forget() -> None:
    """Forget what was run before, so that a fill is worked out anew."""
    _run.cache_clear()
    _fullest.cache_clear()
