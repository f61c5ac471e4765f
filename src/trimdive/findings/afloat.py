"""Checks of how she floats and whether she goes under."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from math import acos, copysign, degrees

import numpy as np

from trimdive.bodies.moments import centroid
from trimdive.fact import fact
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, Told, check, finding, limit_of
from trimdive.findings.less_lead import less_lead
from trimdive.findings.new_lead import LEAD, LEAD_HEIGHT, new_lead
from trimdive.findings.places import standing_out
from trimdive.rest.named import heel_at, lies, listed, weight
from trimdive.rest.solve import levels_at
from trimdive.rest.tankwater import tank_water
from trimdive.weights import Entry

UP = np.array([0.0, 0.0, 1.0])
LEVEL = 1e-6  # moments to the side below this are rounding [kg m]
SLACK = 0.001  # shifted lead may reach so far out of the hull's facets [m]
SMALL = 0.002  # of her mass: less than this short or over is no lead to speak of [-]
LARGE = 0.25  # of her mass: nobody adds or takes out more than this [-]
LEAST_SHIFT = 1e-3  # all the lead is moved by no less [m]
LEAST_MOVE = 5e-4  # nobody moves a thing by less [m]
FEW = 3  # pieces that are told one by one [-]


def lead_counts(facts: Facts) -> float:
    """Return how much of its mass a piece of lead counts under water [-]."""
    return 1 - facts.floater.density / LEAD


def _lacking(facts: Facts) -> tuple[float, float, float]:
    """Return weight under water, x and z of the lead that brings her to her waterline.

    Where she is heavy the weight is negative: what is to be taken out of her at that place.
    """
    short = facts.short
    n, _ = facts.waterline
    floater, need = facts.floater, facts.need
    waters = facts.surfaced.rest.waters
    blown = tank_water(floater, waters, n, levels_at(floater, waters, n))
    whole = floater.volume * (floater.buoyancy + floater.tree.centre)
    below = whole - need.volume * need.place
    gravity = floater.mass * (floater.gravity + floater.tree.centre)
    moment = floater.density * (below - blown.moment) - gravity
    z = min([piece.z for piece in facts.boat.lead], default=LEAD_HEIGHT)
    if not short:  # nothing lacks: no place is better than where she weighs
        return 0.0, float(gravity[0]) / floater.mass, z
    x = (moment[0] - float(n[0] / n[2]) * (moment[2] - short * z)) / short
    return short, float(x), z


@check("waterline-band")
def waterline(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield how far she floats off her waterline amidships, and the lead that mends it."""
    state, boat = facts.surfaced, facts.boat
    if state.rest.under:
        yield _sinks(facts, limit)
        return
    if not state.has_draughts:
        yield _steep(facts, limit)
        return
    off = _off_amidships(facts)
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
    yield finding(
        subject="boat",
        rank=30,
        beyond="by limit",
        what=what,
        stands=off,
        limit=limit,
        mend=partial(_mend_waterline, facts),
    )


def _steep(facts: Facts, limit: Limit) -> Finding:
    """Return that she floats so steeply that no draught says anything."""
    return finding(
        subject="boat",
        rank=30,
        beyond=abs(degrees(acos(facts.surfaced.rest.n[2]))),
        what=f"she floats {facts.surfaced.posture}, nowhere near her waterline",
        stands=None,
        limit=limit,
        mend=partial(_mend_waterline, facts),
    )


def _off_amidships(facts: Facts) -> float:
    """Return how far the water lies over the waterline meant, amidships [m]."""
    middle = float(facts.hull.envelope.bounds[:, 0].mean())
    return facts.surfaced.draught(middle) - _meant(facts, middle)


def _meant(facts: Facts, x: float) -> float:
    n, d = facts.waterline
    return float((d - n[0] * x) / n[2])


def _mend_waterline(facts: Facts) -> Told:
    """Return what brings her to her waterline, in words and as a change."""
    short, x, z = _lacking(facts)
    low, high = facts.hull.envelope.bounds[:, 0]
    mass = facts.floater.mass
    if abs(short) < SMALL * mass:
        return "Her weight is right: bring her level, and she floats at her waterline.", ()
    if abs(short) > LARGE * mass:
        much = f"{facts.mass(abs(short))} too {'little' if short > 0 else 'much'}"
        return f"She weighs {much}: look for a slipped figure, or what is not entered.", ()
    if short <= 0:
        return _taken_out(facts, -short, x if low < x < high else None)
    if not low < x < high:
        lead = short / lead_counts(facts)
        what = f"Add {facts.mass(lead)} of lead ({facts.mass(short)} under water)"
        return f"{what} and shift what is heavy along her.", ()
    return _added(facts, short, x, z)


def _added(facts: Facts, short: float, x: float, z: float) -> Told:
    """Return lead that is added for what she weighs too little under water, and where."""
    found = new_lead(facts, short, x, z)
    if found is None:
        mass = short / lead_counts(facts)
        lead = f"Add {facts.mass(mass)} of lead ({facts.mass(short)} under water)"
        return f"{lead} {facts.place(x)}, in small pieces: one bar has no room there.", ()
    lead = f"Add {facts.mass(found.mass)} of lead"
    where = facts.place(x)
    if found.homes:
        where = f"inside {' and '.join(found.homes)}, {where}"
    else:
        lead += f" ({facts.mass(short)} under water)"
    if found.count > 1:
        where += ", half of it aft and half forward of there"
    return f"{lead} {where}, as low as it goes.", found.edits


def _taken_out(facts: Facts, heavy: float, x: float | None) -> Told:
    """Return what a boat too heavy by so much [kg] is rid of, and where [m]."""
    if x is not None and (found := less_lead(facts, heavy, x)):
        each = [f"{facts.mass(mass)} of {name}" for name, mass in found.taken]
        if len(each) <= FEW:
            parts = listed(each)
        else:
            parts = f"from {found.taken[0][0]} to {found.taken[-1][0]}, {facts.mass(found.mass)}"
        place = facts.place(x)
        says = f"Take {facts.mass(heavy)} out of her cylinders, {place}; or of her lead {parts}."
        return says, found.edits
    where = " and shift what is heavy along her" if x is None else f", taken {facts.place(x)}"
    lead, has = heavy / lead_counts(facts), sum(one.mass or 0.0 for one in facts.boat.lead)
    or_lead = f", or {facts.mass(lead)} of her lead" if lead <= has else ""
    mend = f"Take {facts.mass(heavy)} out of her cylinders{or_lead}{where}"
    return f"{mend}; or move foam down across the waterline.", ()


def _sinks(facts: Facts, limit: Limit) -> Finding:
    return finding(
        limit=limit,
        subject="boat",
        rank=100,
        what=fact("sinks", excess=facts.surfaced.rest.excess),
        stands=None,
        mend=lambda: (fact("for-her-waterline", mend=_mend_waterline(facts)[0]), ()),
    )


@check("neutral-band", limit="lift-left")
def goes_under(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that stays up with every tank full, by however little: she does not dive."""
    if not facts.boat.tanks or facts.goes_under:
        return
    lift = facts.lift_left
    left = f"{weight(facts.boat, -lift)} with tanks full"
    what = f"she will not dive: {left}, {lies(facts.boat, facts.floater, facts.full)}"
    yield finding(
        key="neutral-band",
        subject="boat",
        rank=60,
        beyond=lift / facts.floater.mass,
        what=what,
        stands=lift,
        limit=limit,
        mend=partial(_mend_lift, facts, lift),
    )


def _mend_lift(facts: Facts, lift: float) -> Told:
    """Return what takes her under, in words and as a change: weight, room in the tanks, or both."""
    room, weighs = lacking(facts)
    reasons = [room] if room else []
    mend, edits = "", ()
    if weighs:
        if _is_told_high(facts):
            reasons.append(weighs)
        else:
            mend, edits = _mend_waterline(facts)
    if reasons:
        told = listed(reasons)
        mend = f"{mend} {told[:1].upper()}{told[1:]}: see what else is to be put right.".strip()
    if mend:
        return mend, edits
    wanted = facts.volume(lift / facts.floater.density)
    return f"Find {wanted} more room in the tanks, or as much less above the waterline.", ()


def lacking(facts: Facts) -> tuple[str, str]:
    """Return what room in the tanks and what weight a boat lacks that stays up; "" for none."""
    lacks = facts.need.volume - facts.need.fitted
    room = f"the tanks lack {facts.volume(lacks)}" if lacks > 0 else ""
    if facts.short <= SMALL * facts.floater.mass:
        return room, ""
    return room, f"she weighs {facts.mass(facts.short)} too little for her waterline"


def _is_told_high(facts: Facts) -> bool:
    """Return whether it is told for itself that she floats off her waterline."""
    if not facts.surfaced.has_draughts:
        return True
    return abs(_off_amidships(facts)) > limit_of("waterline-band", facts.boat).value


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
    of_line = " of her waterline" if n[0] else ""
    yield finding(
        subject="boat",
        rank=20,
        beyond="by limit",
        what=f"on the surface, tanks blown: trim {facts.trim(angle)}{of_line}",
        stands=angle,
        limit=limit,
        mend=partial(_levelled, facts, angle),
    )


def _levelled(facts: Facts, angle: float) -> Told:
    """Return what takes away a trim on the surface, bow down [rad]."""
    words, edits = shifted(facts, copysign(abs(_off_level(facts)), -angle))
    return f"Shift what is heavy {'aft' if angle > 0 else 'forward'}, {words}.", edits


def _off_level(facts: Facts) -> float:
    """Return how far weight and buoyancy lie apart along her at the waterline meant [kg m].

    About the middle of the waterplane, where what she rides too high or low does not count.
    """
    floater, need, f = facts.floater, facts.need, facts.surfaced.lcf
    waters = facts.surfaced.rest.waters
    blown = tank_water(floater, waters, UP, levels_at(floater, waters, UP))
    whole = floater.volume * float(floater.buoyancy[0] + floater.tree.centre[0] - f)
    below = whole - need.volume * float(need.place[0] - f)
    water = float(blown.moment[0]) - blown.volume * f
    weight = float(facts.masses.moment[0]) - facts.masses.mass * f
    return weight + floater.density * (water - below)


def shifted(facts: Facts, moment: float) -> Told:
    """Return what makes up for a moment forward [kg m], in words, and the changes for it.

    All the lead together, where no piece of it comes out of the hull by that; else a weight as
    heavy as it must be to be moved by a quarter of her length.
    """
    lead = sum(piece.mass or 0.0 for piece in facts.boat.lead) * lead_counts(facts)
    shift = moment / lead if lead > 0 else facts.floater.length
    some = facts.shift(moment, facts.floater.length / 4)
    if not _stays_inside(facts, shift):
        return f"such as {some}", ()
    words = f"all the lead by {facts.length(abs(shift))}"
    if abs(shift) < LEAST_SHIFT:  # nobody moves so much by so little
        words = f"{some}, as good as {words}"
    return f"such as {words}", shifted_lead(facts, shift)


def _stays_inside(facts: Facts, shift: float) -> bool:
    """Return whether the lead, shifted so far forward [m], is no farther out of the hull."""
    if not facts.boat.lead or abs(shift) >= facts.floater.length:
        return False
    by = np.array([shift, 0.0, 0.0])
    pieces = [body.mesh for body in facts.bodies if body.kind == "lead"]
    return all(
        standing_out(replace(mesh, vertices=mesh.vertices + by), facts.hull.envelope)[0]
        <= max(standing_out(mesh, facts.hull.envelope)[0], SLACK)
        for mesh in pieces
    )


def shifted_lead(facts: Facts, shift: float) -> tuple[Edit, ...]:
    """Return the changes that move all lead along her by ``shift``, forward [m]."""
    return tuple(
        Edit(action="set", path=f"lead[{i}]", fields=(("x", piece.x + shift),))
        for i, piece in enumerate(facts.boat.lead, 1)
    )


@check("heel")
def leans(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that leans because of where her masses and volumes lie, surfaced or dived.

    One that lolls, with all of them on the middle line, is for the check of stiffness.
    """
    sideways = _sideways(facts)
    if not sideways or abs(sum(moment for moment, _ in sideways)) < LEVEL:
        return
    name, low = facts.low
    blown = "on the surface, tanks blown"
    for state, where, named in (
        (facts.surfaced, "on the surface", blown), (low, "dived", name)
    ):  # fmt: skip
        if abs(state.heel) <= limit.value:
            continue
        moment = _off_middle(facts, afloat=state is facts.surfaced)
        yield finding(
            limit=limit,
            subject=where,
            rank=25,
            beyond="by limit",
            what=f"{named}: heel {heel_at(facts.boat, facts.floater, state)}",
            stands=state.heel,
            mend=partial(_to_middle, facts, sideways, state.heel, _across(facts, moment)),
        )


def _across(facts: Facts, moment: float) -> str:
    """Return a moment to the side [kg m] as so much moved by a tenth of her breadth."""
    return facts.shift(moment, float(np.ptp(facts.hull.envelope.bounds[:, 1])) / 10)


def _off_middle(facts: Facts, *, afloat: bool) -> float:
    """Return how far weight and buoyancy of her upright lie apart to the side [kg m]."""
    floater, need = facts.floater, facts.need
    lift = floater.volume * float(floater.buoyancy[1] + floater.tree.centre[1])
    if afloat:
        lift -= need.volume * float(need.place[1])
    return abs(float(facts.masses.moment[1]) - floater.density * lift)


def _sideways(facts: Facts) -> list[tuple[float, Entry]]:
    """Return each thing's pull down to port, less the water it displaces, and its entry."""
    lifts: dict[str, float] = {}
    for body in facts.bodies:
        lift = facts.floater.density * body.volume * float(centroid(body.mesh)[1])
        lifts[body.path] = lifts.get(body.path, 0.0) + lift
    return [
        (entry.mass * float(entry.place[1]) - lifts.get(entry.path, 0.0), entry)
        for entry in facts.masses.entries
    ]


def _to_middle(facts: Facts, sideways: list[tuple[float, Entry]], heel: float, moment: str) -> Told:
    """Return what brings her upright: what leans her most, put on the middle line.

    Args:
        facts: The boat.
        sideways: Each thing's pull down to port [kg m], and its entry.
        heel: Her heel, to starboard [rad].
        moment: What is to be made up for, in words.
    """
    sign, side = (-1.0, "port") if heel > 0 else (1.0, "starboard")
    worst = max(sideways, key=lambda pair: sign * pair[0])[1]
    off = float(worst.place[1])
    if worst.kind not in ("part", "lead", "foam") or abs(off) < LEAST_MOVE:
        return f"Shift what lies off the middle to {side}: {moment} in all.", ()
    way = "starboard" if off > 0 else "port"
    edit = Edit(action="set", path=worst.path, fields=(("y", 0.0),))
    return f"Move {worst.name} {facts.length(abs(off))} to {way}, to the middle line.", (edit,)
