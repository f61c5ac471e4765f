"""Checks of how she floats and whether she goes under."""

from collections.abc import Iterator
from math import copysign, degrees

import numpy as np

from trimdive.bodies.hull import density_of
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, check, finding

LEAD_HEIGHT = 0.01  # of new lead above the lowest lead aboard, or above the keel [m]
SMALL = 0.002  # of her mass: less than this short is no lead to speak of [-]


def _lead_to_add(facts: Facts) -> tuple[float, float, float] | None:
    """Return mass, x and z of the lead that brings her to her waterline; None where she is heavy.

    Lead under water counts less by the water it pushes aside.
    """
    short = facts.short
    if short <= 0:
        return None
    n, _ = facts.waterline
    floater, need = facts.floater, facts.need
    whole = floater.volume * (floater.buoyancy + floater.tree.centre)
    below = whole - need.volume * need.place
    blown = facts.surfaced.rest.waters
    water = floater.density * float(blown.sum())
    gravity = floater.mass * (floater.gravity + floater.tree.centre)
    moment = floater.density * below[0] - gravity[0] - water * need.water_place[0]
    z = min([piece.z for piece in facts.boat.lead], default=LEAD_HEIGHT)
    lean = float(n[0] / n[2]) * (floater.density * below[2] - gravity[2] - short * z)
    lead = density_of("lead", None) or 11340.0
    x = (moment - lean) / short
    return short / (1 - floater.density / lead), x, z


@check("waterline-band")
def waterline(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield how far she floats off her waterline amidships, and the lead that mends it."""
    state, boat = facts.surfaced, facts.boat
    if state.rest.under:
        yield _sinks(facts, limit)
        return
    middle = float(facts.hull.envelope.bounds[:, 0].mean())
    off = state.draught(middle) - _meant(facts, middle)
    if abs(off) <= limit.value:
        return
    way = "low" if off > 0 else "high"
    ends = [
        f"{facts.length(abs(state.draught(m.x) - _meant(facts, m.x)))}"
        f" {'low' if state.draught(m.x) > _meant(facts, m.x) else 'high'} at {m.name}"
        for m in boat.marks
    ]
    what = f"she floats {facts.length(abs(off))} {way} amidships"
    what += f" ({', '.join(ends)})" if ends else ""
    mend, edits = _mend_waterline(facts)
    yield finding(
        subject="boat",
        rank=30 + abs(off) / limit.value,
        what=what,
        limit=limit,
        mend=mend,
        edits=edits,
    )


def _meant(facts: Facts, x: float) -> float:
    n, d = facts.waterline
    return float((d - n[0] * x) / n[2])


def _mend_waterline(facts: Facts) -> tuple[str, tuple[Edit, ...]]:
    """Return what brings her to her waterline, in words and as a change."""
    found = _lead_to_add(facts)
    if found is None:
        heavy = facts.mass(-facts.short)
        mend = f"Take {heavy} out of her, or move foam down across the waterline."
        return mend, ()
    mass, x, z = found
    low, high = facts.hull.envelope.bounds[:, 0]
    if not low < x < high:
        return f"Add {facts.mass(mass)} of lead and shift what is heavy along her.", ()
    mend = f"Add {facts.mass(mass)} of lead {facts.place(x)}, as low as it goes."
    return mend, (Edit(action="add", path="lead", fields=_bar(facts, mass, x, z)),)


def _bar(facts: Facts, mass: float, x: float, z: float) -> tuple[tuple[str, object], ...]:
    """Return the fields of a flat bar of lead, a quarter as broad as the hull, on the keel."""
    breadth = float(np.ptp(facts.hull.envelope.bounds[:, 1])) / 4
    height = breadth / 3
    length = mass / (density_of("lead", None) or 11340.0) / (breadth * height)
    return (
        ("name", "added lead"),
        ("mass", mass),
        ("known", "worked out"),
        ("x", x),
        ("z", max(z, LEAD_HEIGHT)),
        ("shape", "box"),
        ("length", length),
        ("breadth", breadth),
        ("height", height),
    )


def _sinks(facts: Facts, limit: Limit) -> Finding:
    heavy, over = facts.mass(facts.surfaced.rest.excess), facts.mass(-facts.short)
    return finding(
        limit=limit,
        subject="boat",
        rank=100,
        what=f"with her tanks blown she sinks: she is {heavy} too heavy to float at all",
        mend=f"She floats on her waterline with {over} less, or as much more lift from foam.",
    )


@check("neutral-band")
def goes_under(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that stays up with every tank full."""
    if not facts.boat.tanks or facts.lift_left <= limit.value * facts.floater.mass:
        return
    lift = facts.lift_left
    state, need = facts.full, facts.need
    angle = degrees(state.trim_angle)
    what = f"with her tanks full she is {facts.mass(lift)} too light to go under"
    if abs(angle) >= 1:
        what += f" and hangs {abs(angle):.0f}° down by the {'bow' if angle > 0 else 'stern'}"
    reasons: list[str] = []
    if need.volume > need.fitted:
        reasons.append(f"the tanks lack {facts.volume(need.volume - need.fitted)}")
    if facts.short > SMALL * facts.floater.mass:
        reasons.append(f"she weighs {facts.mass(facts.short)} too little for her waterline")
    mend = f"{' and '.join(reasons).capitalize()}: see what else is to be put right."
    yield finding(
        subject="boat",
        rank=60 + lift / facts.floater.mass,
        what=what,
        limit=limit,
        mend=mend,
    )


@check("trim-surfaced")
def trim_surfaced(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that floats down by bow or stern of her waterline with tanks blown."""
    state = facts.surfaced
    if state.rest.under:
        return
    n, _ = facts.waterline
    angle = state.trim_angle + float(n[0])
    if abs(angle) <= limit.value:
        return
    end, other = ("bow", "aft") if angle > 0 else ("stern", "forward")
    moment = abs(degrees(angle)) * state.moment_to_trim_1_degree
    lead = sum(piece.mass or 0.0 for piece in facts.boat.lead)
    mend = f"Shift what is heavy {other}: {facts.moment(moment)}"
    edits: tuple[Edit, ...] = ()
    if lead > 0 and moment / lead < 0.1 * facts.floater.length:
        shift = copysign(moment / lead, -angle)
        mend += f", such as all the lead by {facts.length(abs(shift))}"
        edits = shifted_lead(facts, shift)
    yield finding(
        subject="boat",
        rank=20 + abs(angle) / limit.value,
        what=f"she floats {abs(degrees(angle)):.1f}° down by the {end}",
        limit=limit,
        mend=f"{mend}.",
        edits=edits,
    )


def shifted_lead(facts: Facts, shift: float) -> tuple[Edit, ...]:
    """Return the changes that move all lead along her by ``shift``, forward [m]."""
    return tuple(
        Edit(action="set", path=f"lead[{i}]", fields=(("x", piece.x + shift),))
        for i, piece in enumerate(facts.boat.lead, 1)
    )


@check("heel")
def leans(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that leans because of where her masses lie, surfaced or dived."""
    for state, where in ((facts.surfaced, "on the surface"), (facts.dived, "dived")):
        if abs(state.heel) <= limit.value or abs(facts.masses.gravity[1]) < 1e-6:
            continue
        moment = facts.masses.moment[1]
        side, other = ("port", "starboard") if moment > 0 else ("starboard", "port")
        amount = facts.moment(moment)
        yield finding(
            subject=where,
            rank=25 + abs(state.heel) / limit.value,
            what=f"she leans {abs(degrees(state.heel)):.0f}° to {side} {where}",
            limit=limit,
            mend=f"Shift what lies off the middle to {other}: {amount} in all.",
            edits=_to_middle(facts),
        )


def _to_middle(facts: Facts) -> tuple[Edit, ...]:
    """Return the change that puts the part which leans her most on the middle line."""
    moments = [(abs(e.mass * e.place[1]), e) for e in facts.masses.entries]
    worst = max(moments, key=lambda pair: pair[0])[1]
    if worst.kind not in ("part", "lead", "foam"):
        return ()
    return (Edit(action="set", path=worst.path, fields=(("y", 0.0),)),)
