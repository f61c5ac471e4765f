"""Figures of a plant, each with a sentence that explains it."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from math import isinf, pi

from trimdive.data import constant
from trimdive.dryspace import FAST, Inside
from trimdive.errors import BoatError
from trimdive.plant.blows import blows_in
from trimdive.plant.driving import PumpCurve, screw_efficiency
from trimdive.plant.fill import Fill, fill, fullest
from trimdive.plant.home import DEEPEST, Home
from trimdive.plant.lost import does
from trimdive.plant.state import inside
from trimdive.plant.system import Bottle, Piston, System
from trimdive.plant.usual import usual
from trimdive.units import write

MINUTES = 120.0  # from here on times are told in minutes [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of a plant."""

    key: str
    label: str  # what it is, plainly
    value: float  # in SI [by its quantity]
    quantity: str  # kind of quantity, "count" for a number
    text: str  # as a builder reads it
    why: str  # one sentence that explains it


def seconds(value: float) -> str:
    """Return a time as a builder reads it.

    Args:
        value: Time [s].
    """
    if isinf(value):
        return "never"
    if value < MINUTES:
        return write(value, "time", "s", 0 if value >= 10 else 1)
    return write(value, "time", "min", 1)


def bars(value: float) -> str:
    """Return a pressure above the air's as a builder reads it.

    Args:
        value: Pressure [Pa].
    """
    return write(value, "pressure", "bar", 2)


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

    @property
    def litres(self) -> str:
        """Return the water of one tank in words."""
        return f"{(self.first.full - self.first.blown) * 1e3:.2f} L"

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


def _moved(one: Fill) -> str:
    return f"{abs(one.reached - one.start) * 1e3:.2f} L"


def _at(depth: float) -> str:
    return "at the surface" if depth <= 0 else f"at {depth:g} m"


def _filled(run: Run, one: Fill) -> str:
    """Return why a fill takes its time."""
    first = run.first
    if first.kind in ("gas", "snorkel"):
        vent = 2e3 * (first.vent / pi) ** 0.5
        return f"{_moved(one)} fall in through {first.holes * 1e6:.0f} mm² below, as fast as a "\
               f"vent of {vent:.1f} mm lets the air go"  # fmt: skip
    if first.kind == "air bag":
        return f"the water presses {_moved(one)} of air out of the bag, back through its valve"
    return _driven(run, one, "in")


def _driven(run: Run, one: Fill, way: str) -> str:
    """Return how a piston or a pump moves its water."""
    drive, mean = run.first.drive, abs(one.reached - one.start) / max(one.time, 1e-9)
    if isinstance(drive, Piston):
        turns = mean / (drive.area * drive.thread.lead) * 60
        return f"{drive.area * 1e4:.1f} cm² of piston, {drive.thread.lead * 1e3:g} mm a turn at "\
               f"{turns:.0f} rpm: {_moved(one)} {way}"  # fmt: skip
    if isinstance(drive, PumpCurve):
        helped = ", and the pressed air helps" if one.up and mean > drive.flow else ""
        return f"{_moved(one)} {way} at {mean * 6e4:.1f} L/min in the mean; the pump moves "\
               f"{drive.flow * 6e4:.1f} against nothing{helped}"  # fmt: skip
    return ""


def _emptied(run: Run, one: Fill) -> str:
    """Return why an emptying takes its time."""
    if not one.done:
        return (
            f"{_moved(one)} come out in {seconds(one.time)}, and {one.reached * 1e3:.2f} L stay in"
        )
    drive = run.first.drive
    if isinstance(drive, Bottle):
        cold = f"; the bottle falls to {one.coldest:.0f} °C" if drive.volume == 0 else ""
        return f"a jet of {drive.jet * 1e3:.1f} mm lets {one.gas * 1e3:.1f} g through{cold}"
    if run.first.kind in ("snorkel", "air bag"):
        return _driven(run, one, "of room made by air")
    return _driven(run, one, "out")


def _time_out(one: Fill) -> str:
    """Return how long an emptying takes, or that it does not come to its end."""
    return seconds(one.time) if one.done else "stalls"


def ends_at(system: System) -> str:
    """Return why a tank gets as full as it does: its shape, or what stands against its plant."""
    full = fullest(system)
    if full >= system.full:
        return "as full as its shape lets it be"
    air = bars(inside(system, full) - constant("atmosphere"))
    drive = system.drive
    does = "its motor stalls" if isinstance(drive, Piston) else "its pump moves no more"
    wanted = ""
    if full < system.neutral:
        share = f"{system.neutral / system.room:.0%}".replace("%", " %")
        wanted = f"; planned is {share}"
    return f"there {air} of pressed air stand against it and {does}{wanted}"


def _times(run: Run) -> Iterator[Figure]:
    """Yield times and the filling reached."""
    if one := run.down(0.0):
        room = run.first.room
        yield Figure(key="fill-time", label="to fill at the surface", value=one.time,
                     quantity="time", text=seconds(one.time), why=_filled(run, one))  # fmt: skip
        share, how = fullest(run.first) / room, ends_at(run.first)
        yield Figure(key="filling", label="as full as it gets", value=share, quantity="percent",
                     text=f"{share:.0%}".replace("%", " %"), why=how)  # fmt: skip
    for depth in dict.fromkeys((0.0, run.depth)):
        if one := run.up(depth):
            yield Figure(
                key="empty-time" if depth == 0 else "empty-deep",
                label=f"to empty {_at(depth)}",
                value=one.time, quantity="time", text=_time_out(one), why=_emptied(run, one),
            )  # fmt: skip


def _pressures(run: Run) -> Iterator[Figure]:
    """Yield the highest and the lowest pressure inside."""
    air = constant("atmosphere")
    fills = (*run.downs, *run.ups)
    if not fills or run.first.kind in ("gas", "snorkel"):
        return
    if run.first.kind == "pump closed":
        most = max(one.most_inside for one in fills) - air
        fast = air * ((most + air) / air) ** FAST - air
        why = f"the water squeezes it, not the dry space; filled at once it is up to {bars(fast)}, "
        why += "until it has cooled"
        yield Figure(key="tank-pressure", label="air in the tank", value=most, quantity="pressure",
                     text=bars(most), why=why)  # fmt: skip
        return
    found = [one for one in run.dry if not one.is_warm]
    if not found:
        return
    most, least = (do(found, key=lambda one: one.pressure) for do in (max, min))
    if most.pressure > -least.pressure:
        yield Figure(key="dry-pressure", label="pressure in the dry space", value=most.pressure,
                     quantity="pressure", text=bars(most.pressure),
                     why=f"{most.says}: {most.why}; it pushes the caps off")  # fmt: skip
    else:
        yield Figure(key="dry-pressure", label="vacuum in the dry space", value=least.pressure,
                     quantity="pressure", text=bars(least.pressure),
                     why=f"{least.says}: {least.why}; a leak draws water in")  # fmt: skip


def _screw(run: Run) -> Iterator[Figure]:
    """Yield force and torque of a piston."""
    drive = run.first.drive
    fills = (*run.downs, *run.ups)
    if not isinstance(drive, Piston) or not fills:
        return
    force, torque = max(f.most_force for f in fills), max(f.most_torque for f in fills)
    area, seal = drive.area * 1e4, drive.seal
    yield Figure(
        key="force", label="force on the screw", value=force, quantity="force",
        text=write(force, "force", "N", 0),
        why=f"pressure on {area:.1f} cm² of piston, and {seal:.0f} N that its seal rubs",
    )  # fmt: skip
    share = screw_efficiency(drive.thread, max(force, 1.0))
    yield Figure(
        key="torque", label="torque on the screw", value=torque, quantity="torque",
        text=write(torque, "torque", "N m", 2),
        why=f"the thread gives {share:.0%} of it back; the motor stalls at "
        f"{drive.motor.torque:.2f} N m",
    )  # fmt: skip


def _electric(run: Run) -> Iterator[Figure]:
    """Yield current, energy and cycles."""
    down, up = run.down(0.0), run.up(run.depth) or run.up(0.0)
    if run.first.kind == "gas" or down is None or up is None:
        return
    current = max(one.most_current for one in (*run.downs, *run.ups))
    each = " each" if len(run.systems) > 1 else ""
    yield Figure(
        key="current", label=f"draws at most{each}", value=current, quantity="current",
        text=write(current, "current", "A", 1),
        why=f"at {run.first.volts:.1f} V, where most stands against it",
    )  # fmt: skip
    energy = sum(_cycle(one, up.depth) for one in run.systems)
    yield Figure(
        key="energy", label="one dive and up again", value=energy, quantity="energy",
        text=write(energy, "energy", "Wh", 2),
        why=f"filled at the surface and emptied {_at(up.depth)}, all tanks",
    )  # fmt: skip
    if run.charge > 0 and energy > 0:
        times = run.charge * usual("battery-use") / energy
        yield Figure(
            key="cycles", label="dives a charge", value=times, quantity="count",
            text=f"{times:.0f}",
            why=f"{usual('battery-use'):.0%} of the battery, if the plant alone drew on it",
        )  # fmt: skip


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
    bottle = run.first.drive
    found = blows_in(run.first, run.depth)
    if not isinstance(bottle, Bottle) or found is None:
        return
    yield Figure(
        key="blow", label=f"gas for a blow at {run.depth:g} m", value=found.mass, quantity="mass",
        text=write(found.mass, "mass", "g", 1),
        why=f"{run.litres} of {bottle.gas} at the pressure down there",
    )  # fmt: skip
    held = f"{bottle.mass * 1e3:.0f} g less {bottle.left:.0%} that stays in the bottle"
    if bottle.volume:
        held = f"{bottle.volume * 1e3:.2f} L at {bars(bottle.pressure - constant('atmosphere'))}"
    yield Figure(
        key="blows", label=f"blows a bottle at {run.depth:g} m", value=found.count,
        quantity="count", text=f"{found.count:.0f}",
        why=f"{held}, at {bottle.celsius:.0f} °C",
    )  # fmt: skip


def _home(run: Run) -> Iterator[Figure]:
    """Yield what she does when the power goes."""
    comes = run.comes
    grams = partial(write, kind="mass", unit="g", digits=0)
    text = f"{comes.from_depth:.1f} m" if comes.from_depth > 0 else "nowhere"
    if comes.from_depth >= DEEPEST:
        text = f"over {DEEPEST:.0f} m"
    on_top = "light" if comes.on_top > 0 else "heavy"
    yield Figure(
        key="home-depth", label="without power she comes up from", value=comes.from_depth,
        quantity="length", text=text,
        why=f"{does(run.first)}; left so she is {grams(abs(comes.on_top))} {on_top} just under "
        "the surface, and depth takes its share",
    )  # fmt: skip
    way = "light" if comes.reserve > 0 else "heavy"
    yield Figure(
        key="home-reserve", label=f"without power {_at(comes.depth)}", value=comes.reserve,
        quantity="mass", text=f"{grams(abs(comes.reserve))} {way}",
        why=f"{comes.water * 1e3:.2f} L are in her tanks then, and pressure has made her "
        f"{grams(comes.squeezed)} heavier",
    )  # fmt: skip
