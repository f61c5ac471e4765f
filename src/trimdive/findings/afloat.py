"""Checks of how she floats and whether she goes under."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from math import acos, copysign, degrees

import numpy as np

from trimdive.bodies.moments import centroid
from trimdive.fact import Fact, fact, together
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, Told, check, finding, limit_of
from trimdive.findings.less_lead import less_lead
from trimdive.findings.new_lead import LEAD, LEAD_HEIGHT, new_lead
from trimdive.findings.places import standing_out
from trimdive.rest.others import either_side
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
    state = facts.surfaced
    if state.rest.under:
        yield _sinks(facts, limit)
        return
    if not state.has_draughts:
        yield _steep(facts, limit)
        return
    off = _off_amidships(facts)
    if abs(off) <= limit.value:
        return
    ends = ((mark.name, state.draught(mark.x) - _meant(facts, mark.x)) for mark in facts.boat.marks)
    yield finding(
        subject="boat",
        rank=30,
        beyond="by limit",
        what=fact("off-waterline", off=off, marks=tuple(ends)),
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
        what=fact("floats-steep", posture=facts.surfaced.posture),
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
    """Return what brings her to her waterline, and as a change."""
    short, x, z = _lacking(facts)
    low, high = facts.hull.envelope.bounds[:, 0]
    mass = facts.floater.mass
    if abs(short) < SMALL * mass:
        return fact("bring-level"), ()
    if abs(short) > LARGE * mass:
        return fact("weighs-far-off", short=short), ()
    if short <= 0:
        return _taken_out(facts, -short, x if low < x < high else None)
    if not low < x < high:
        return fact("add-lead-and-shift", lead=short / lead_counts(facts), under=short), ()
    return _added(facts, short, x, z)


def _added(facts: Facts, short: float, x: float, z: float) -> Told:
    """Return lead that is added for what she weighs too little under water, and where."""
    found = new_lead(facts, short, x, z)
    if found is None:
        lead = short / lead_counts(facts)
        return fact("add-lead-in-pieces", lead=lead, under=short, x=x), ()
    homes, is_parted = found.homes, found.count > 1
    says = fact("add-lead", lead=found.mass, under=short, x=x, homes=homes, is_parted=is_parted)
    return says, found.edits


def _taken_out(facts: Facts, heavy: float, x: float | None) -> Told:
    """Return what a boat too heavy by so much [kg] is rid of, and where [m]."""
    if x is not None and (found := less_lead(facts, heavy, x)):
        return fact("take-out-or-lead", heavy=heavy, x=x, lead=found.taken), found.edits
    lead, has = heavy / lead_counts(facts), sum(one.mass or 0.0 for one in facts.boat.lead)
    return fact("take-out", heavy=heavy, x=x, lead=lead if lead <= has else None), ()


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
    yield finding(
        key="neutral-band",
        subject="boat",
        rank=60,
        beyond=lift / facts.floater.mass,
        what=_stays_up(facts, lift),
        stands=lift,
        limit=limit,
        mend=partial(_mend_lift, facts, lift),
    )


def _stays_up(facts: Facts, lift: float) -> Fact:
    """Return that she stays up with her tanks full, by so much [kg], and how she lies then."""
    state = facts.full
    angles, either = (state.trim_angle, state.heel), either_side(facts.floater, state.rest)
    return fact("will-not-dive", lift=lift, angles=angles, either=either)


def _mend_lift(facts: Facts, lift: float) -> Told:
    """Return what takes her under, and as a change: weight, room in the tanks, or both."""
    room, weighs = lacking(facts)
    mend, edits = None, ()
    if weighs and not _is_told_high(facts):
        (mend, edits), weighs = _mend_waterline(facts), None
    if room or weighs:
        return together(mend, fact("see-lacks", room=room, weight=weighs)), edits
    if mend:
        return mend, edits
    return fact("find-more-room", volume=lift / facts.floater.density), ()


def lacking(facts: Facts) -> tuple[float | None, float | None]:
    """Return the room in the tanks [m³] and the weight [kg] that a boat lacks which stays up.

    None of what she does not lack.
    """
    lacks, short = facts.need.volume - facts.need.fitted, facts.short
    is_light = short > SMALL * facts.floater.mass
    return lacks if lacks > 0 else None, short if is_light else None


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
    yield finding(
        subject="boat",
        rank=20,
        beyond="by limit",
        what=fact("trim-afloat", trim=angle, of_line=bool(n[0])),
        stands=angle,
        limit=limit,
        mend=partial(_levelled, facts, angle),
    )


def _levelled(facts: Facts, angle: float) -> Told:
    """Return what takes away a trim on the surface, bow down [rad]."""
    by, edits = shifted(facts, copysign(abs(_off_level(facts)), -angle))
    return fact("shift-heavy", way="aft" if angle > 0 else "forward", by=by), edits


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
    """Return what makes up for a moment forward [kg m], and the changes for it.

    All the lead together, where no piece of it comes out of the hull by that; else a weight as
    heavy as it must be to be moved by a quarter of her length.
    """
    lead = sum(piece.mass or 0.0 for piece in facts.boat.lead) * lead_counts(facts)
    shift = moment / lead if lead > 0 else facts.floater.length
    far = facts.floater.length / 4
    if not _stays_inside(facts, shift):
        return fact("such-as-weight", moment=moment, far=far), ()
    is_slight = abs(shift) < LEAST_SHIFT  # nobody moves so much by so little
    says = fact("such-as-lead", moment=moment, far=far, shift=shift, is_slight=is_slight)
    return says, shifted_lead(facts, shift)


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
    for state, where, named in (
        (facts.surfaced, "on the surface", "tanks blown"),
        (low, "dived", name),
    ):
        if abs(state.heel) <= limit.value:
            continue
        moment = _off_middle(facts, afloat=state is facts.surfaced)
        yield finding(
            limit=limit,
            subject=where,
            rank=25,
            beyond="by limit",
            what=fact(
                "heels",
                state=named,
                heel=state.heel,
                either=either_side(facts.floater, state.rest),
            ),
            stands=state.heel,
            mend=partial(_to_middle, facts, sideways, state.heel, moment),
        )


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


def _to_middle(
    facts: Facts, sideways: list[tuple[float, Entry]], heel: float, moment: float
) -> Told:
    """Return what brings her upright: what leans her most, put on the middle line.

    Args:
        facts: The boat.
        sideways: Each thing's pull down to port [kg m], and its entry.
        heel: Her heel, to starboard [rad].
        moment: What is to be made up for [kg m].
    """
    sign, side = (-1.0, "port") if heel > 0 else (1.0, "starboard")
    worst = max(sideways, key=lambda pair: sign * pair[0])[1]
    off = float(worst.place[1])
    if worst.kind not in ("part", "lead", "foam") or abs(off) < LEAST_MOVE:
        far = float(np.ptp(facts.hull.envelope.bounds[:, 1])) / 10  # a tenth of her breadth
        return fact("shift-across", side=side, moment=moment, far=far), ()
    edit = Edit(action="set", path=worst.path, fields=(("y", 0.0),))
    return fact("move-to-middle", name=worst.name, off=off), (edit,)
