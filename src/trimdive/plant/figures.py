"""Figures of a plant, and why each is as it is."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from trimdive.data import constant
from trimdive.errors import BoatError
from trimdive.fact import Fact, fact
from trimdive.plant.blows import blows_in
from trimdive.plant.driving import PumpCurve, screw_efficiency
from trimdive.plant.fill import Fill, fill, fullest
from trimdive.plant.home import Home
from trimdive.plant.lost import does
from trimdive.plant.state import inside
from trimdive.plant.system import Bottle, Drive, Piston, System
from trimdive.plant.usual import usual
from trimdive.vessels.dryspace import FAST, Inside


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of a plant."""

    key: str
    value: float  # in SI [by its quantity]
    quantity: str  # kind of quantity, "count" for a number
    why: Fact  # what explains it


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """What figures are made of."""

    systems: tuple[System, ...]
    downs: tuple[Fill, ...]  # filled
    ups: tuple[Fill, ...]  # emptied
    depth: float  # that she is for [m]
    charge: float  # energy that her battery gives [J]
    comes: Home
    dry: tuple[Inside, ...]  # pressures in the dry space that it works in, not in the sun

    @property
    def first(self) -> System:
        """Return the first of the plants."""
        return self.systems[0]

    def down(self, depth: float) -> Fill | None:
        """Return the fill at a depth [m]."""
        return next((one for one in self.downs if one.depth == depth), None)

    def up(self, depth: float) -> Fill | None:
        """Return the emptying at a depth [m]."""
        return next((one for one in self.ups if one.depth == depth), None)


def figures(run: Run) -> Iterator[Figure]:
    """Yield every figure of a plant."""
    yield from _times(run)
    yield from _pressures(run)
    if isinstance(run.first.drive, Piston):
        yield from _screw(run)
    yield from _electric(run)
    if isinstance(run.first.drive, Bottle):
        yield from _gas(run)
    yield from _home(run)


def _moved(one: Fill) -> float:
    """Return the water that a fill moves [m³]."""
    return abs(one.reached - one.start)


def _filled(run: Run, one: Fill) -> Fact:
    """Return why a fill takes its time."""
    first = run.first
    if first.kind in ("gas", "snorkel"):
        return fact("falls-in", moved=_moved(one), holes=first.holes, vent=first.vent)
    if first.kind == "air bag":
        return fact("bag-pressed", moved=_moved(one))
    return _driven(first.drive, one, "in")


def _driven(drive: Drive, one: Fill, way: Literal["in", "out", "air"]) -> Fact:
    """Return how a piston or a pump moves its water, or air that makes room for it."""
    moved = _moved(one)
    mean = moved / max(one.time, 1e-9)
    if isinstance(drive, Piston):
        lead, area = drive.thread.lead, drive.area
        turns = mean / (area * lead)
        return fact("piston-moves", moved=moved, way=way, area=area, lead=lead, turns=turns)
    assert isinstance(drive, PumpCurve)  # of gas its jet is told
    return fact(
        "pump-moves", moved=moved, way=way, mean=mean, free=drive.flow,
        is_helped=one.up and mean > drive.flow,
    )  # fmt: skip


def _emptied(run: Run, one: Fill) -> Fact:
    """Return why an emptying takes its time."""
    if not one.done:
        return fact("some-stays-in", moved=_moved(one), time=one.time, left=one.reached)
    drive = run.first.drive
    if isinstance(drive, Bottle):
        cold = one.coldest if drive.volume == 0 else None
        return fact("jet-lets-through", jet=drive.jet, gas=one.gas, coldest=cold)
    return _driven(drive, one, "air" if run.first.kind in ("snorkel", "air bag") else "out")


def ends_at(system: System) -> Fact:
    """Return why a tank gets as full as it does: its shape, or what stands against its plant."""
    full = fullest(system)
    if full >= system.full:
        return fact("full-by-shape")
    return fact(
        "full-against-air",
        air=inside(system, full) - constant("atmosphere"),
        has_motor=isinstance(system.drive, Piston),
        planned=system.neutral / system.room if full < system.neutral else None,
    )


def _times(run: Run) -> Iterator[Figure]:
    """Yield times and the filling reached."""
    if one := run.down(0.0):
        yield Figure(key="fill-time", value=one.time, quantity="time", why=_filled(run, one))
        share, why = fullest(run.first) / run.first.room, ends_at(run.first)
        yield Figure(key="filling", value=share, quantity="percent", why=why)
    for depth in dict.fromkeys((0.0, run.depth)):
        if one := run.up(depth):
            key = "empty-time" if depth == 0 else "empty-deep"
            yield Figure(key=key, value=one.time, quantity="time", why=_emptied(run, one))


def _pressures(run: Run) -> Iterator[Figure]:
    """Yield the highest pressure inside, or the lowest where that is farther from the air's."""
    air = constant("atmosphere")
    fills = (*run.downs, *run.ups)
    if not fills or run.first.kind in ("gas", "snorkel"):
        return
    if run.first.kind == "pump closed":
        most = max(one.most_inside for one in fills) - air
        why = fact("tank-air-squeezed", fast=air * ((most + air) / air) ** FAST - air)
        yield Figure(key="tank-pressure", value=most, quantity="pressure", why=why)
        return
    found = [one for one in run.dry if not one.is_warm]
    if not found:
        return
    most, least = (do(found, key=lambda one: one.pressure) for do in (max, min))
    if most.pressure > -least.pressure:
        worst, why = most, fact("caps-pushed", state=most.state, why=most.why)
    else:
        worst, why = least, fact("water-drawn-in", state=least.state, why=least.why)
    yield Figure(key="dry-pressure", value=worst.pressure, quantity="pressure", why=why)


def _screw(run: Run) -> Iterator[Figure]:
    """Yield force and torque of a piston."""
    drive = run.first.drive
    fills = (*run.downs, *run.ups)
    if not isinstance(drive, Piston) or not fills:
        return
    force, torque = max(f.most_force for f in fills), max(f.most_torque for f in fills)
    why = fact("force-on-screw", area=drive.area, seal=drive.seal)
    yield Figure(key="force", value=force, quantity="force", why=why)
    back = screw_efficiency(drive.thread, max(force, 1.0))
    why = fact("torque-on-screw", given_back=back, stalls=drive.motor.torque)
    yield Figure(key="torque", value=torque, quantity="torque", why=why)


def _electric(run: Run) -> Iterator[Figure]:
    """Yield current, energy and cycles."""
    down, up = run.down(0.0), run.up(run.depth) or run.up(0.0)
    if run.first.kind == "gas" or down is None or up is None:
        return
    current = max(one.most_current for one in (*run.downs, *run.ups))
    why = fact("most-current", volts=run.first.volts)
    yield Figure(key="current", value=current, quantity="current", why=why)
    energy = sum(_cycle(one, up.depth) for one in run.systems)
    why = fact("energy-of-a-dive", depth=up.depth)
    yield Figure(key="energy", value=energy, quantity="energy", why=why)
    if run.charge > 0 and energy > 0:
        used = usual("battery-use")
        why = fact("battery-used", share=used)
        yield Figure(key="cycles", value=run.charge * used / energy, quantity="count", why=why)


def _cycle(system: System, depth: float) -> float:
    """Return the energy of a dive and up again [J]."""
    found = 0.0
    for way, deep in ((False, 0.0), (True, depth)):
        try:
            found += fill(system, deep, up=way).energy
        except BoatError:
            continue
    return found


def _gas(run: Run) -> Iterator[Figure]:
    """Yield gas for a blow and blows a bottle."""
    bottle, room = run.first.drive, run.first.full - run.first.blown
    found = blows_in(run.first, run.depth)
    if not isinstance(bottle, Bottle) or found is None:
        return
    why = fact("gas-of-a-blow", room=room, gas=bottle.gas)
    yield Figure(key="blow", value=found.mass, quantity="mass", why=why)
    yield Figure(key="blows", value=found.count, quantity="count", why=_held(bottle))


def _held(bottle: Bottle) -> Fact:
    """Return what a bottle holds."""
    if bottle.volume:
        over = bottle.pressure - constant("atmosphere")
        return fact("gas-in-bottle", volume=bottle.volume, pressure=over, celsius=bottle.celsius)
    return fact("liquid-in-bottle", mass=bottle.mass, left=bottle.left, celsius=bottle.celsius)


def _home(run: Run) -> Iterator[Figure]:
    """Yield what she does when the power goes."""
    comes = run.comes
    why = fact("left-without-power", does=does(run.first), on_top=comes.on_top)
    yield Figure(key="home-depth", value=comes.from_depth, quantity="length", why=why)
    why = fact("heavier-without-power", water=comes.water, squeezed=comes.squeezed)
    yield Figure(key="home-reserve", value=comes.reserve, quantity="mass", why=why)
