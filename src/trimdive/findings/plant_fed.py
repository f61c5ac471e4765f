"""Checks of what feeds her plant and of what her servos move."""

from collections.abc import Iterator
from math import degrees

from trimdive.findings.finding import Finding, Limit, finding
from trimdive.findings.plant import Works, plant_check
from trimdive.plant import Electric
from trimdive.units import write


def _amps(value: float) -> str:
    return write(value, "current", "A", 1).replace(".0 A", " A")


def _square(value: float) -> str:
    return f"{value * 1e6:g} mm²"


def _battery(her: Works, one: Electric) -> str:
    names = [battery.name for battery in her.facts.boat.batteries]
    return f"battery[{names.index(one.battery) + 1}]"


@plant_check("fuse-spare")
def fuse_holds(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield fuses that blow by what is drawn in ordinary use."""
    for one in her.feeding:
        if one.fuse and one.fuse < one.draws * (1 + limit.value) - 1e-9:
            yield finding(
                limit=limit, subject=_battery(her, one), rank=65, beyond=one.draws / one.fuse - 1,
                stands=one.fuse / one.draws - 1,
                what=f"{one.battery} has a fuse of {_amps(one.fuse)}; with pump and motors "
                f"{_amps(one.draws)} flow",
                mend=f"Put in {_amps(one.fuse_wanted)}, on copper of {_square(one.wire_wanted)}.",
            )  # fmt: skip


@plant_check("fuse-wire")
def fuse_saves(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield fuses that do not protect their wires."""
    for one in her.feeding:
        if one.fuse and one.carries and one.fuse > one.carries * (1 + limit.value) + 1e-9:
            yield finding(
                limit=limit, subject=_battery(her, one), rank=66, beyond=one.fuse / one.carries - 1,
                stands=one.fuse / one.carries - 1,
                what=f"{one.battery}: {_square(one.wire)} of copper carry {_amps(one.carries)}, "
                f"and the fuse holds {_amps(one.fuse)}: the wire burns first",
                mend=f"Put in {_amps(one.fuse_wanted)}, or lay {_square(one.wire_wanted)}.",
            )  # fmt: skip


@plant_check("wire-drop")
def wire_loses(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield wires in which too much is lost."""
    for one in her.feeding:
        if one.drop > limit.value * one.volts:
            yield finding(
                limit=limit, subject=_battery(her, one), rank=35, weight="look at",
                beyond=one.drop / one.volts, stands=one.drop / one.volts,
                what=f"{one.drop:.2f} V of {one.volts:.1f} V are lost in wires of {one.battery}",
                mend=f"Lay {_square(one.wire_wanted)}, or shorten them.",
            )  # fmt: skip


@plant_check("battery-low")
def counts_as_empty(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield batteries that count as empty when they are full, as after another one was put in."""
    for number, one in enumerate(her.facts.boat.batteries, 1):
        if one.low is not None and one.low > limit.value * one.voltage:
            yield finding(
                limit=limit, subject=f"battery[{number}]", rank=68,
                beyond=one.low / one.voltage - 1, stands=one.low / one.voltage,
                what=f"{one.name} of {one.voltage:.1f} V counts as empty at {one.low:.1f} V: she "
                "comes up as soon as she is switched on",
                mend=f"Set it to {0.9 * one.voltage:.1f} V, by the new battery's own sheet.",
            )  # fmt: skip


def _linkage(her: Works, name: str) -> str:
    names = [one.name for one in her.facts.boat.linkages]
    return f"linkage[{names.index(name) + 1}]"


@plant_check("link-throw")
def throws(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield linkages that do not turn as far as wanted."""
    for one in her.links:
        reached = min(one.one_way, one.other_way)
        if one.wanted - reached > limit.value + 1e-9:
            yield finding(
                limit=limit, subject=_linkage(her, one.name), rank=32,
                beyond=one.wanted - reached, stands=one.wanted - reached,
                what=f"{one.name} turn {degrees(reached):.0f}°; wanted are "
                f"{degrees(one.wanted):.0f}°",
                mend="Take a longer arm, a shorter horn, or more travel of the servo.",
            )  # fmt: skip


@plant_check("link-spare")
def servo_holds(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield servos that are too weak."""
    for one in her.links:
        if one.spare < limit.value:
            yield finding(
                limit=limit, subject=_linkage(her, one.name), rank=45,
                beyond=limit.value / max(one.spare, 1e-3) - 1, stands=one.spare,
                what=f"the servo of {one.name} holds {one.spare:.1f} times what plane and seal ask",
                mend=f"Take one that holds {one.torque * limit.value * 100:.0f} N cm, or a "
                "shorter arm.",
            )  # fmt: skip


@plant_check("link-clear")
def rod_clears(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield rods that come too near to a shaft."""
    for one in her.links:
        if one.clear < limit.value:
            near = her.facts.length(max(one.clear, 0.0))
            yield finding(
                limit=limit, subject=_linkage(her, one.name), rank=50,
                beyond=limit.value - one.clear, stands=one.clear,
                what=f"the rod of {one.name} comes as near as {near} to the shaft"
                if one.clear > 0 else f"the rod of {one.name} strikes the shaft",
                mend=f"Move it {her.facts.length(limit.value - one.clear)} away.",
            )  # fmt: skip


@plant_check("link-side")
def gland_bears(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield rods that pull sideways at their gland."""
    for one in her.links:
        if one.side_pull > limit.value:
            yield finding(
                limit=limit, subject=_linkage(her, one.name), rank=31, weight="look at",
                beyond=limit.excess(one.side_pull), stands=one.side_pull,
                what=f"the rod of {one.name} pulls {one.side_pull:.1f} N sideways at its gland",
                mend="Set the servo farther from the gland, or put a guide bush before it.",
            )  # fmt: skip
