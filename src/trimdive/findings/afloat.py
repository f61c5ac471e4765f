"""Checks of how she floats and whether she goes under."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from math import acos, copysign, degrees

import numpy as np

from trimdive.fact import Fact, fact, together
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, Finding, Limit, Remedy, check, finding, limit_of
from trimdive.findings.less_lead import less_lead
from trimdive.findings.new_lead import LEAD, LEAD_HEIGHT, new_lead
from trimdive.findings.places import standing_out
from trimdive.geometry.solids.moments import centroid
from trimdive.hydrostatics.equilibrium.others import either_side
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.hydrostatics.weights import Entry

UP = np.array([0.0, 0.0, 1.0])
LEVEL = 1e-6  # moments to the side below this are rounding [kg m]
SLACK = 0.001  # shifted lead may reach so far out of the hull's facets [m]
SMALL = 0.002  # of her mass: less than this short or over is no lead to speak of [-]
LARGE = 0.25  # of her mass: nobody adds or takes out more than this [-]
LEAST_MOVE = 5e-4  # nobody moves a thing by less [m]


def lead_counts(her: Assessed) -> float:
    """Return how much of its mass a piece of lead counts under water [-]."""
    return 1 - her.floater.density / LEAD


def _lacking(her: Assessed) -> tuple[float, float, float]:
    """Return weight under water, x and z of the lead that brings her to her waterline.

    Where she is heavy the weight is negative: what is to be taken out of her at that place.
    """
    short = her.short
    n, _ = her.waterline
    floater, need = her.floater, her.need
    waters = her.surfaced.rest.waters
    blown = tank_water(floater, waters, n, levels_at(floater, waters, n))
    whole = floater.volume * (floater.buoyancy + floater.tree.centre)
    below = whole - need.volume * need.place
    gravity = floater.mass * (floater.gravity + floater.tree.centre)
    moment = floater.density * (below - blown.moment) - gravity
    z = min([piece.z for piece in her.boat.lead], default=LEAD_HEIGHT)
    if not short:  # nothing lacks: no place is better than where she weighs
        return 0.0, float(gravity[0]) / floater.mass, z
    x = (moment[0] - float(n[0] / n[2]) * (moment[2] - short * z)) / short
    return short, float(x), z


@check("waterline-band")
def waterline(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield how far she floats off her waterline amidships, and the lead that mends it."""
    state = her.surfaced
    if state.rest.under:
        yield _sinks(her, limit)
        return
    if not state.has_draughts:
        yield _steep(her, limit)
        return
    off = _off_amidships(her)
    if abs(off) <= limit.value:
        return
    ends = ((mark.name, state.draught(mark.x) - _meant(her, mark.x)) for mark in her.boat.marks)
    yield finding(
        subject="boat",
        rank=30,
        beyond="by limit",
        what=fact("off-waterline", off=off, marks=tuple(ends)),
        stands=off,
        limit=limit,
        mend=partial(_mend_waterline, her),
    )


def _steep(her: Assessed, limit: Limit) -> Finding:
    """Return that she floats so steeply that no draught says anything."""
    return finding(
        subject="boat",
        rank=30,
        beyond=abs(degrees(acos(her.surfaced.rest.n[2]))),
        what=fact("floats-steep", posture=her.surfaced.posture),
        stands=None,
        limit=limit,
        mend=partial(_mend_waterline, her),
    )


def _off_amidships(her: Assessed) -> float:
    """Return how far the water lies over the waterline meant, amidships [m]."""
    middle = float(her.hull.envelope.bounds[:, 0].mean())
    return her.surfaced.draught(middle) - _meant(her, middle)


def _meant(her: Assessed, x: float) -> float:
    n, d = her.waterline
    return float((d - n[0] * x) / n[2])


def _mend_waterline(her: Assessed) -> Remedy:
    """Return what brings her to her waterline, and as a change."""
    short, x, z = _lacking(her)
    low, high = her.hull.envelope.bounds[:, 0]
    mass = her.floater.mass
    if abs(short) < SMALL * mass:
        return fact("bring-level"), ()
    if abs(short) > LARGE * mass:
        return fact("weighs-far-off", short=short), ()
    if short <= 0:
        return _taken_out(her, -short, x if low < x < high else None)
    if not low < x < high:
        return fact("add-lead-and-shift", lead=short / lead_counts(her), under=short), ()
    return _added(her, short, x, z)


def _added(her: Assessed, short: float, x: float, z: float) -> Remedy:
    """Return lead that is added for what she weighs too little under water, and where."""
    found = new_lead(her, short, x, z)
    if found is None:
        lead = short / lead_counts(her)
        return fact("add-lead-in-pieces", lead=lead, under=short, x=x), ()
    homes, is_parted = found.homes, found.count > 1
    says = fact("add-lead", lead=found.mass, under=short, x=x, homes=homes, is_parted=is_parted)
    return says, found.edits


def _taken_out(her: Assessed, heavy: float, x: float | None) -> Remedy:
    """Return what a boat too heavy by so much [kg] is rid of, and where [m]."""
    if x is not None and (found := less_lead(her, heavy, x)):
        other = fact("take-out-of-cylinders", heavy=heavy, x=x)
        return together(fact("take-lead-out", lead=found.taken), other), found.edits
    lead, has = heavy / lead_counts(her), sum(one.mass or 0.0 for one in her.boat.lead)
    return fact("take-out", heavy=heavy, x=x, lead=lead if lead <= has else None), ()


def _sinks(her: Assessed, limit: Limit) -> Finding:
    return finding(
        limit=limit,
        subject="boat",
        rank=100,
        what=fact("sinks", excess=her.surfaced.rest.excess),
        stands=None,
        mend=lambda: (fact("for-her-waterline", mend=_mend_waterline(her)[0]), ()),
    )


@check("neutral-band", limit="lift-left")
def goes_under(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that stays up with every tank full, by however little: she does not dive."""
    if not her.boat.tanks or her.goes_under:
        return
    lift = her.light_by
    yield finding(
        key="neutral-band",
        subject="boat",
        rank=60,
        beyond=lift / her.floater.mass,
        what=_stays_up(her, lift),
        stands=lift,
        limit=limit,
        mend=partial(_mend_lift, her, lift),
    )


def _stays_up(her: Assessed, lift: float) -> Fact:
    """Return that she stays up with her tanks full, by so much [kg], and how she lies then."""
    state = her.full
    angles, either = (state.trim_angle, state.heel), either_side(her.floater, state.rest)
    return fact("will-not-dive", lift=lift, angles=angles, either=either)


def _mend_lift(her: Assessed, lift: float) -> Remedy:
    """Return what takes her under, and as a change: weight, room in the tanks, or both."""
    room, weighs = lacking(her)
    mend, edits = None, ()
    if weighs and not _is_entered_high(her):
        (mend, edits), weighs = _mend_waterline(her), None
    if room or weighs:
        return together(mend, fact("see-lacks", room=room, weight=weighs)), edits
    if mend:
        return mend, edits
    return fact("find-more-room", volume=lift / her.floater.density), ()


def lacking(her: Assessed) -> tuple[float | None, float | None]:
    """Return the room in the tanks [m³] and the weight [kg] that a boat lacks which stays up.

    None of what she does not lack.
    """
    lacks, short = her.need.volume - her.need.fitted, her.short
    is_light = short > SMALL * her.floater.mass
    return lacks if lacks > 0 else None, short if is_light else None


def _is_entered_high(her: Assessed) -> bool:
    """Return whether it is told for itself that she floats off her waterline."""
    if not her.surfaced.has_draughts:
        return True
    return abs(_off_amidships(her)) > limit_of("waterline-band", her.boat).value


@check("trim-surfaced")
def trim_surfaced(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that floats down by bow or stern of her waterline with tanks blown."""
    state = her.surfaced
    if state.rest.under:
        return
    n, _ = her.waterline
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
        mend=partial(_levelled, her, angle),
    )


def _levelled(her: Assessed, angle: float) -> Remedy:
    """Return what takes away a trim on the surface, bow down [rad]."""
    return shifted(her, copysign(abs(_off_level(her)), -angle), is_dived=False)


def _off_level(her: Assessed) -> float:
    """Return how far weight and buoyancy lie apart along her at the waterline meant [kg m].

    About the middle of the waterplane, where what she rides too high or low does not count.
    """
    floater, need, f = her.floater, her.need, her.surfaced.lcf
    waters = her.surfaced.rest.waters
    blown = tank_water(floater, waters, UP, levels_at(floater, waters, UP))
    whole = floater.volume * float(floater.buoyancy[0] + floater.tree.centre[0] - f)
    below = whole - need.volume * float(need.place[0] - f)
    water = float(blown.moment[0]) - blown.volume * f
    weight = float(her.masses.moment[0]) - her.masses.mass * f
    return weight + floater.density * (water - below)


def shifted(her: Assessed, moment: float, *, is_dived: bool) -> Remedy:
    """Return what makes up for a moment forward [kg m], and the changes for it.

    All the lead together, where no piece of it comes out of the hull by that; else a weight as
    heavy as it must be to be moved by a quarter of her length.

    Args:
        her: The boat.
        moment: Forward, what is lacking [kg m].
        is_dived: She tips dived; else on the surface.
    """
    lead = sum(piece.mass or 0.0 for piece in her.boat.lead) * lead_counts(her)
    shift = moment / lead if lead > 0 else her.floater.length
    far = her.floater.length / 4
    heavy = fact("shift-heavy", moment=moment, far=far, is_dived=is_dived)
    if not _stays_inside(her, shift):
        return heavy, ()
    lead_all = fact("shift-lead", shift=shift, is_dived=is_dived)
    return together(lead_all, fact("or-shift-heavy", moment=moment, far=far)), shifted_lead(
        her, shift
    )


def _stays_inside(her: Assessed, shift: float) -> bool:
    """Return whether the lead, shifted so far forward [m], is no farther out of the hull."""
    if not her.boat.lead or abs(shift) >= her.floater.length:
        return False
    by = np.array([shift, 0.0, 0.0])
    pieces = [body.mesh for body in her.bodies if body.kind == "lead"]
    return all(
        standing_out(replace(mesh, vertices=mesh.vertices + by), her.hull.envelope)[0]
        <= max(standing_out(mesh, her.hull.envelope)[0], SLACK)
        for mesh in pieces
    )


def shifted_lead(her: Assessed, shift: float) -> tuple[Edit, ...]:
    """Return the changes that move all lead along her by ``shift``, forward [m]."""
    return tuple(
        Edit(action="set", path=f"lead[{i}]", fields=(("x", piece.x + shift),))
        for i, piece in enumerate(her.boat.lead, 1)
    )


@check("heel")
def heels(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that leans because of where her masses and volumes lie, surfaced or dived.

    One that lolls, with all of them on the middle line, is for the check of stiffness.
    """
    sideways = _sideways(her)
    if not sideways or abs(sum(moment for moment, _ in sideways)) < LEVEL:
        return
    name, low = her.low
    for state, where, named in (
        (her.surfaced, "on the surface", "tanks blown"),
        (low, "dived", name),
    ):
        if abs(state.heel) <= limit.value:
            continue
        moment = _off_middle(her, afloat=state is her.surfaced)
        yield finding(
            limit=limit,
            subject=where,
            rank=25,
            beyond="by limit",
            what=fact(
                "heels",
                state=named,
                heel=state.heel,
                either=either_side(her.floater, state.rest),
            ),
            stands=state.heel,
            mend=partial(_to_middle, her, sideways, state.heel, moment),
        )


def _off_middle(her: Assessed, *, afloat: bool) -> float:
    """Return how far weight and buoyancy of her upright lie apart to the side [kg m]."""
    floater, need = her.floater, her.need
    lift = floater.volume * float(floater.buoyancy[1] + floater.tree.centre[1])
    if afloat:
        lift -= need.volume * float(need.place[1])
    return abs(float(her.masses.moment[1]) - floater.density * lift)


def _sideways(her: Assessed) -> list[tuple[float, Entry]]:
    """Return each thing's pull down to port, less the water it displaces, and its entry."""
    lifts: dict[str, float] = {}
    for body in her.bodies:
        lift = her.floater.density * body.volume * float(centroid(body.mesh)[1])
        lifts[body.path] = lifts.get(body.path, 0.0) + lift
    return [
        (entry.mass * float(entry.place[1]) - lifts.get(entry.path, 0.0), entry)
        for entry in her.masses.entries
    ]


def _to_middle(
    her: Assessed, sideways: list[tuple[float, Entry]], heel: float, moment: float
) -> Remedy:
    """Return what brings her upright: what leans her most, put on the middle line.

    Args:
        her: The boat.
        sideways: Each thing's pull down to port [kg m], and its entry.
        heel: Her heel, to starboard [rad].
        moment: What is to be made up for [kg m].
    """
    sign, side = (-1.0, "port") if heel > 0 else (1.0, "starboard")
    worst = max(sideways, key=lambda pair: sign * pair[0])[1]
    off = float(worst.place[1])
    if worst.kind not in ("part", "lead", "foam") or abs(off) < LEAST_MOVE:
        far = float(np.ptp(her.hull.envelope.bounds[:, 1])) / 10  # a tenth of her breadth
        return fact("shift-across", side=side, moment=moment, far=far), ()
    edit = Edit(action="set", path=worst.path, fields=(("y", 0.0),))
    return fact("move-to-middle", name=worst.name, off=off), (edit,)
