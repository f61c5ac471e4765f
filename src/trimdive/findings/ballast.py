"""Checks of the ballast: litres, where they lie, and what should not be above the waterline."""

from collections.abc import Iterator
from functools import partial
from math import atan2, degrees, tan

from trimdive.bodies.build import numbered
from trimdive.bodies.hull import density_of
from trimdive.bodies.moments import above
from trimdive.fact import Fact, fact, together
from trimdive.findings.afloat import lead_counts, shifted, shifted_lead
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, Told, check, finding, limit_of
from trimdive.findings.tank_ways import without
from trimdive.findings.ways import Way, best, scales
from trimdive.findings.works import has_room, moved_tank, slipped, to_level
from trimdive.litres import foam_instead

NEAR = 1e-3  # places of tank water nearer than this are one [m]
LEVEL = 0.5  # on the surface she counts as level within this [°]


@check("tank-margin")
def room(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield tanks that hold less than she needs, or hardly more."""
    need = facts.need
    if need.volume <= 0:
        return
    if not facts.boat.tanks:
        yield _no_tanks(facts, limit)
        return
    if need.margin >= limit.value:
        return
    wanted = need.volume * (1 + limit.value)
    spare = (need.margin, limit.value) if need.margin >= 0 else None
    most = need.shares[0]
    yield finding(
        subject="tanks",
        rank=50,
        beyond=(limit.value - need.margin),
        over=limit.excess(need.margin),
        what=fact("tanks-short", held=need.fitted, needed=need.volume, spare=spare),
        stands=need.margin,
        limit=limit,
        mend=fact(
            "find-room",
            room=wanted - need.fitted,
            most=most.name,
            most_volume=most.volume,
        ),
    )


@check("tank-most")
def much_room(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield tanks that hold so much more than she needs that a full one sinks her like a stone."""
    need = facts.need
    if need.volume <= 0 or not facts.boat.tanks or need.margin <= limit.value:
        return
    yield finding(
        limit=limit,
        subject="tanks",
        weight="look at",
        rank=5,
        beyond=need.margin,
        stands=need.margin,
        what=fact("tanks-large", held=need.fitted, over=need.margin, needed=need.volume),
        mend=fact("stop-filling", filled=1 / (1 + need.margin)),
    )


def _no_tanks(facts: Facts, limit: Limit) -> Finding:
    return finding(
        subject="tanks",
        rank=50,
        what=fact("no-tank", needed=facts.need.volume),
        stands=facts.need.margin,
        limit=limit,
        mend=fact("add-tank", x=float(facts.need.place[0])),
    )


def tip_of(facts: Facts) -> float:
    """Return how far the tank water's place tips her dived, bow down [rad]."""
    need = facts.need
    moment = facts.floater.density * need.volume * need.offset
    return atan2(moment, facts.dived.displacement_mass * max(facts.bg, 1e-4))


@check("tank-offset", limit="trim-dived")
def tank_place(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield tank water that does not lie under the volume above the waterline.

    Where other faults hide how far it really is off, the cure is for what is left without them.
    """
    need, plain = facts.need, facts.plain
    tips = [tip_of(facts), tip_of(plain)]
    if need.fitted <= 0 or max(abs(tip) for tip in tips) <= limit.value or _hangs_level(facts):
        return
    shown = plain if abs(tips[1]) > limit.value else facts
    what = _off_place(facts, shown)
    if abs(tips[1]) <= limit.value:
        yield finding(
            key="tank-offset",
            limit=limit,
            subject="tanks",
            what=what,
            stands=tips[0],
            mend=fact("leave-tanks"),
            rank=40,
        )
        return
    k, shift, is_free = _tank_to_move(plain)
    mend, edits = _moved_tank(plain, k, shift)
    if not is_free:
        name = plain.boat.tanks[k].name
        mend, edits = _without(plain) or (fact("no-room-for-tank", name=name, by=shift), ())
    yield finding(
        key="tank-offset",
        limit=limit,
        subject=facts.boat.tanks[k].name,
        what=what,
        stands=tips[1],
        mend=together(mend, _foam(plain), fact("lead-does-not-do")),
        edits=edits,
        rank=40,
        beyond="by limit",
    )


def _hangs_level(facts: Facts) -> bool:
    """Return whether she lies level in both states, so that the places of both make up for it."""
    n, _ = facts.waterline
    afloat = facts.surfaced.trim_angle + float(n[0])
    most = limit_of("trim-surfaced", facts.boat).value, limit_of("trim-dived", facts.boat).value
    if facts.surfaced.rest.under or not facts.goes_under:
        return False
    return abs(afloat) <= most[0] and abs(facts.dived.trim_angle) <= most[1]


def _off_place(facts: Facts, shown: Facts) -> Fact:
    """Return how far her tank water lies off, where that is shown: as she is, or once cleared."""
    off, now = shown.need.offset, facts.need.offset
    if shown is facts or abs(now - off) <= NEAR:
        return fact("tank-water-off", off=off)
    return fact("tank-water-off-once", off=off, once=facts.once, now=now)


def _foam(facts: Facts) -> Fact | None:
    """Return the foam that would do instead of moving a tank; None: no foam would."""
    bounds = facts.hull.envelope.bounds[:, 0]
    foam = foam_instead(facts.need, (float(bounds[0]), float(bounds[1])))
    return fact("foam-instead", volume=foam.volume, x=foam.x) if foam else None


def _tank_to_move(facts: Facts) -> tuple[int, float, bool]:
    """Return which tank to move, how far forward [m], and whether it has the room.

    One that has slipped off its works comes first, where moving it brings it nearer to them; then
    one that has no room as it lies, and has room there; then one that has room to move so far;
    then the one farthest out on the wrong side.
    """
    need = facts.need
    sign = 1 if need.offset > 0 else -1
    moves: list[tuple[bool, bool, bool, float, int, float]] = []
    for k, tank in enumerate(facts.boat.tanks):
        by = to_level(facts, k)
        off = slipped(facts, k)
        nearer = abs(off - by) < abs(off)
        is_free = has_room(facts, k, by)
        clears = is_free and not has_room(facts, k, 0.0)
        moves.append((nearer, clears, is_free, sign * tank.x, k, by))
    free = [move for move in moves if move[2]] or moves
    *_, is_free, _, k, by = max(free)
    return k, by, is_free


def _without(facts: Facts) -> Told | None:
    """Return which tank is taken out, where that leaves the water of the others in its place."""
    on = scales(facts)
    ways = [way for k in range(len(facts.boat.tanks)) if (way := without(facts, k))]
    found = best(on, [*ways, Way(says=fact("nothing"), edits=())])
    return (found.says, found.edits) if found and found.edits else None


def _moved_tank(facts: Facts, k: int, shift: float) -> Told:
    """Return the move of a tank with its works, and lead to balance it, and as changes."""
    edits, carried = moved_tank(facts, k, shift)
    name = facts.boat.tanks[k].name
    lead = sum(piece.mass or 0.0 for piece in facts.boat.lead)
    if not carried or not lead:
        return fact("move-tank", name=name, by=shift, is_back=False), tuple(edits)
    balance = -carried / (lead * lead_counts(facts))
    edits += shifted_lead(facts, balance)
    return fact("move-tank-and-lead", name=name, by=shift, lead_by=balance), tuple(edits)


@check("void-above")
def void_above(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield things that push aside far more water than their material can: closed somewhere."""
    n, d = facts.waterline
    for path, part in numbered(facts.boat):
        body = next((body for body in facts.bodies if body.path == path), None)
        density = density_of(part.material, part.density)
        if body is None or part.mass is None or density is None or part.kind == "foam":
            continue
        mass = part.mass * (2 if part.pair == "each" else 1)
        solid = mass / density
        void = body.volume - solid
        upper = above(body, n, d).volume
        if void <= limit.value or upper <= 0:
            continue
        pull = abs(mass - facts.floater.density * body.volume)
        told = solid / 2 if part.pair == "each" else solid
        yield finding(
            subject=part.name,
            rank=58,
            beyond=void / facts.need.volume,
            stands=void,
            what=fact("closed-part", name=part.name, pull=pull, air=void),
            limit=limit,
            mend=fact("drill-holes"),
            edits=(Edit(action="set", path=path, fields=(("hung", None), ("volume", told))),),
        )


@check("foam-above")
def foam_above(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield foam above the waterline that makes her tip dived, where without it she would not."""
    n, d = facts.waterline
    need = facts.need
    if need.fitted <= 0:
        return
    for i, piece in enumerate(facts.boat.foam, 1):
        body = next((body for body in facts.bodies if body.path == f"foam[{i}]"), None)
        if body is None:
            continue
        upper = above(body, n, d)
        if upper.volume <= limit.value:
            continue
        rest = need.volume - upper.volume
        left = need.volume * need.place[0] - float(upper.moment[0])
        is_all = rest <= 1e-9  # nothing else stands above: without it no water is needed
        if not is_all and abs(float(need.water_place[0]) - left / rest) >= abs(need.offset):
            continue
        yield finding(
            subject=piece.name,
            rank=45,
            beyond=upper.volume / need.volume,
            stands=upper.volume,
            what=fact("foam-above", name=piece.name, volume=upper.volume, x=piece.x),
            limit=limit,
            mend=fact("take-foam-out"),
            edits=(Edit(action="remove", path=f"foam[{i}]", fields=()),),
        )


@check("trim-dived")
def trim_dived(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that hangs down by bow or stern when neutral."""
    state = facts.dived
    angle = state.trim_angle
    if abs(angle) <= limit.value or not facts.boat.tanks or not facts.goes_under:
        return
    is_level = abs(degrees(facts.surfaced.trim_angle)) < LEVEL and not facts.surfaced.rest.under
    yield finding(
        subject="boat",
        rank=42,
        beyond="by limit",
        what=fact("trim-dived", trim=angle, is_level_afloat=is_level),
        stands=angle,
        limit=limit,
        mend=partial(_mend_dived, facts, is_level),
    )


def _mend_dived(facts: Facts, is_level: bool) -> Told:
    """Return what brings her level dived: tank water in its place, or a small shift of lead.

    Dived she is so much softer that a shift which hardly shows on the surface turns her far.
    """
    angle = facts.dived.trim_angle
    if abs(tip_of(facts)) > abs(angle) / 2:
        return fact("water-under-middle"), ()
    if not is_level:
        return fact("level-afloat-first"), ()
    moment = facts.dived.displacement_mass * facts.bg * tan(angle)
    by, edits = shifted(facts, -moment)
    return fact("shift-heavy-dived", way="aft" if moment > 0 else "forward", by=by), edits
