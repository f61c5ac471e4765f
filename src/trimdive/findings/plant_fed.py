"""Checks of what feeds her plant and of what her servos move."""

from collections.abc import Iterator

from trimdive.fact import fact, together
from trimdive.findings.finding import Finding, Limit, finding
from trimdive.findings.plant import Works, plant_check
from trimdive.plant import Electric


def _battery(her: Works, one: Electric) -> str:
    names = [battery.name for battery in her.assessed.boat.batteries]
    return f"battery[{names.index(one.battery) + 1}]"


@plant_check("fuse-spare")
def fuse_holds(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield fuses that blow by what is drawn in ordinary use."""
    for one in her.feeding:
        if one.fuse and one.fuse < one.draws * (1 + limit.value) - 1e-9:
            yield finding(
                limit=limit, subject=_battery(her, one), rank=65, beyond=one.draws / one.fuse - 1,
                stands=one.fuse / one.draws - 1,
                what=fact("fuse-too-small", name=one.battery, fuse=one.fuse, draws=one.draws),
                mend=fact("put-in-fuse", fuse=one.fuse_wanted, wire=one.wire_wanted),
            )  # fmt: skip


@plant_check("fuse-wire")
def fuse_saves(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield fuses that do not protect their wires."""
    for one in her.feeding:
        if one.fuse and one.carries and one.fuse > one.carries * (1 + limit.value) + 1e-9:
            yield finding(
                limit=limit, subject=_battery(her, one), rank=66, beyond=one.fuse / one.carries - 1,
                stands=one.fuse / one.carries - 1,
                what=fact("wire-burns-first", name=one.battery, wire=one.wire,
                          carries=one.carries, fuse=one.fuse),
                mend=fact("fuse-or-wire", fuse=one.fuse_wanted, wire=one.wire_wanted),
            )  # fmt: skip


@plant_check("wire-drop")
def wire_loses(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield wires in which too much is lost."""
    for one in her.feeding:
        if one.drop > limit.value * one.volts:
            yield finding(
                limit=limit, subject=_battery(her, one), rank=35, weight="look at",
                beyond=one.drop / one.volts, stands=one.drop / one.volts,
                what=fact("volts-lost", name=one.battery, drop=one.drop, volts=one.volts),
                mend=fact("lay-wire", wire=one.wire_wanted),
            )  # fmt: skip


@plant_check("battery-low")
def counts_as_empty(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield batteries that count as empty when they are full, as after another one was put in."""
    for number, one in enumerate(her.assessed.boat.batteries, 1):
        if one.low is not None and one.low > limit.value * one.voltage:
            yield finding(
                limit=limit, subject=f"battery[{number}]", rank=68,
                beyond=one.low / one.voltage - 1, stands=one.low / one.voltage,
                what=fact("empty-when-full", name=one.name, volts=one.voltage, low=one.low),
                mend=together(fact("set-low", volts=round(USUAL_LOW * one.voltage, 1)),
                              fact("low-of-its-sheet")),
                form=f"battery[{number}].low",
            )  # fmt: skip


USUAL_LOW = 0.9  # of its voltage a battery counts as empty; common practice, no source [-]


def _linkage(her: Works, name: str) -> str:
    names = [one.name for one in her.assessed.boat.linkages]
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
                what=fact("planes-turn-less", name=one.name, turn=reached, wanted=one.wanted),
                mend=fact("longer-arm"),
            )  # fmt: skip


@plant_check("link-spare")
def servo_holds(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield servos that are too weak."""
    for one in her.links:
        if one.spare < limit.value:
            yield finding(
                limit=limit, subject=_linkage(her, one.name), rank=45,
                beyond=limit.value / max(one.spare, 1e-3) - 1, stands=one.spare,
                what=fact("servo-weak", name=one.name, spare=one.spare),
                mend=fact("stronger-servo", torque=one.torque * limit.value),
            )  # fmt: skip


@plant_check("link-clear")
def rod_clears(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield rods that come too near to a shaft."""
    for one in her.links:
        if one.clear < limit.value:
            yield finding(
                limit=limit, subject=_linkage(her, one.name), rank=50,
                beyond=limit.value - one.clear, stands=one.clear,
                what=fact("rod-near-shaft", name=one.name, clear=one.clear),
                mend=fact("move-rod-away", by=limit.value - one.clear),
            )  # fmt: skip


@plant_check("link-side")
def gland_bears(her: Works, limit: Limit) -> Iterator[Finding]:
    """Yield rods that pull sideways at their gland."""
    for one in her.links:
        if one.side_pull > limit.value:
            yield finding(
                limit=limit, subject=_linkage(her, one.name), rank=31, weight="look at",
                beyond=limit.excess(one.side_pull), stands=one.side_pull,
                what=fact("rod-pulls-sideways", name=one.name, pull=one.side_pull),
                mend=fact("guide-rod"),
            )  # fmt: skip
