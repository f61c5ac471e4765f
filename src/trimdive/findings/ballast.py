"""Checks of the ballast: litres, where they lie, and what should not be above the waterline."""

from collections.abc import Iterator
from functools import partial
from math import atan2, degrees, tan

from trimdive.ballast.need import foam_instead
from trimdive.fact import Fact, fact, together
from trimdive.findings.afloat import lead_counts, shifted, shifted_lead
from trimdive.findings.assessed import Assessed, once
from trimdive.findings.finding import Edit, Finding, Limit, Remedy, check, finding, limit_of
from trimdive.findings.tank_ways import without
from trimdive.findings.ways import Way, best, scales
from trimdive.findings.works import has_room, moved_tank, slipped, to_level
from trimdive.geometry.solids.build import numbered
from trimdive.geometry.solids.hull import density_of
from trimdive.geometry.solids.moments import above

NEAR = 1e-3  # places of tank water nearer than this are one [m]
LEVEL = 0.5  # on the surface she counts as level within this [°]


@check("tank-margin")
def room(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield tanks that hold less than she needs, or hardly more."""
    need = her.need
    if need.volume <= 0:
        return
    if not her.boat.tanks:
        yield _no_tanks(her, limit)
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
def much_room(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield tanks that hold so much more than she needs that a full one sinks her like a stone."""
    need = her.need
    if need.volume <= 0 or not her.boat.tanks or need.margin <= limit.value:
        return
    yield finding(
        limit=limit,
        subject="tanks",
        weight="look at",
        rank=5,
        beyond=need.margin,
        stands=need.margin,
        what=fact("tanks-large", held=need.fitted, over=need.margin, needed=need.volume),
        mend=fact("stop-filling", filled=1 / (1 + need.margin))
        if her.goes_under
        else fact("weight-before-tanks", light=her.light_by),
    )


def _no_tanks(her: Assessed, limit: Limit) -> Finding:
    return finding(
        subject="tanks",
        rank=50,
        what=fact("no-tank", needed=her.need.volume),
        stands=her.need.margin,
        limit=limit,
        mend=fact("add-tank", x=float(her.need.place[0])),
    )


def tip_of(her: Assessed) -> float:
    """Return how far the tank water's place tips her dived, bow down [rad]."""
    need = her.need
    moment = her.floater.density * need.volume * need.offset
    return atan2(moment, her.dived.displacement_mass * max(her.bg, 1e-4))


@check("tank-offset", limit="trim-dived")
def tank_place(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield tank water that does not lie under the volume above the waterline.

    Where other faults hide how far it really is off, the cure is for what is left without them.
    """
    need, plain = her.need, her.plain
    tips = [tip_of(her), tip_of(plain)]
    if need.fitted <= 0 or max(abs(tip) for tip in tips) <= limit.value or _hangs_level(her):
        return
    shown = plain if abs(tips[1]) > limit.value else her
    what = _off_place(her, shown)
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
        subject=her.boat.tanks[k].name,
        what=what,
        stands=tips[1],
        mend=together(mend, _foam(plain), fact("lead-does-not-do")),
        edits=edits,
        rank=40,
        beyond="by limit",
    )


def _hangs_level(her: Assessed) -> bool:
    """Return whether she lies level in both states, so that the places of both make up for it."""
    n, _ = her.waterline
    afloat = her.surfaced.trim_angle + float(n[0])
    most = limit_of("trim-surfaced", her.boat).value, limit_of("trim-dived", her.boat).value
    if her.surfaced.rest.under or not her.goes_under:
        return False
    return abs(afloat) <= most[0] and abs(her.dived.trim_angle) <= most[1]


def _off_place(her: Assessed, shown: Assessed) -> Fact:
    """Return how far her tank water lies off, where that is shown: as she is, or once cleared."""
    off, now = shown.need.offset, her.need.offset
    if shown is her or abs(now - off) <= NEAR:
        return fact("tank-water-off", off=off)
    return fact("tank-water-off-once", off=off, once=once(her), now=now)


def _foam(her: Assessed) -> Fact | None:
    """Return the foam that would do instead of moving a tank; None: no foam would."""
    bounds = her.hull.envelope.bounds[:, 0]
    foam = foam_instead(her.need, (float(bounds[0]), float(bounds[1])))
    return fact("foam-instead", volume=foam.volume, x=foam.x) if foam else None


def _tank_to_move(her: Assessed) -> tuple[int, float, bool]:
    """Return which tank to move, how far forward [m], and whether it has the room.

    One that has slipped off its works comes first, where moving it brings it nearer to them; then
    one that has no room as it lies, and has room there; then one that has room to move so far;
    then the one farthest out on the wrong side.
    """
    need = her.need
    sign = 1 if need.offset > 0 else -1
    moves: list[tuple[bool, bool, bool, float, int, float]] = []
    for k, tank in enumerate(her.boat.tanks):
        by = to_level(her, k)
        off = slipped(her, k)
        nearer = abs(off - by) < abs(off)
        is_free = has_room(her, k, by)
        clears = is_free and not has_room(her, k, 0.0)
        moves.append((nearer, clears, is_free, sign * tank.x, k, by))
    free = [move for move in moves if move[2]] or moves
    *_, is_free, _, k, by = max(free)
    return k, by, is_free


def _without(her: Assessed) -> Remedy | None:
    """Return which tank is taken out, where that leaves the water of the others in its place."""
    on = scales(her)
    ways = [way for k in range(len(her.boat.tanks)) if (way := without(her, k))]
    found = best(on, [*ways, Way(says=fact("nothing"), edits=())])
    return (found.says, found.edits) if found and found.edits else None


def _moved_tank(her: Assessed, k: int, shift: float) -> Remedy:
    """Return the move of a tank with its works, and lead to balance it, and as changes."""
    edits, carried = moved_tank(her, k, shift)
    name = her.boat.tanks[k].name
    lead = sum(piece.mass or 0.0 for piece in her.boat.lead)
    if not carried or not lead:
        return fact("move-tank", name=name, by=shift, is_back=False), tuple(edits)
    balance = -carried / (lead * lead_counts(her))
    edits += shifted_lead(her, balance)
    return fact("move-tank-and-lead", name=name, by=shift, lead_by=balance), tuple(edits)


@check("void-above")
def void_above(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield things that push aside far more water than their material can: closed somewhere."""
    n, d = her.waterline
    for path, part in numbered(her.boat):
        body = next((body for body in her.bodies if body.path == path), None)
        density = density_of(part.material, part.density)
        if body is None or part.mass is None or density is None or part.kind == "foam":
            continue
        mass = part.mass * (2 if part.pair == "each" else 1)
        solid = mass / density
        void = body.volume - solid
        upper = above(body, n, d).volume
        if void <= limit.value or upper <= 0:
            continue
        pull = abs(mass - her.floater.density * body.volume)
        each = solid / 2 if part.pair == "each" else solid
        yield finding(
            subject=part.name,
            rank=58,
            beyond=void / her.need.volume,
            stands=void,
            what=fact("closed-part", name=part.name, pull=pull, air=void),
            limit=limit,
            mend=fact("drill-holes", name=part.name),
            edits=(Edit(action="set", path=path, fields=(("hung", None), ("volume", each))),),
        )


@check("foam-above")
def foam_above(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield foam above the waterline that makes her tip dived, where without it she would not."""
    n, d = her.waterline
    need = her.need
    if need.fitted <= 0:
        return
    for i, piece in enumerate(her.boat.foam, 1):
        body = next((body for body in her.bodies if body.path == f"foam[{i}]"), None)
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
def trim_dived(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that hangs down by bow or stern when neutral."""
    state = her.dived
    angle = state.trim_angle
    if abs(angle) <= limit.value or not her.boat.tanks or not her.goes_under:
        return
    is_level = abs(degrees(her.surfaced.trim_angle)) < LEVEL and not her.surfaced.rest.under
    yield finding(
        subject="boat",
        rank=42,
        beyond="by limit",
        what=fact("trim-dived", trim=angle, is_level_afloat=is_level),
        stands=angle,
        limit=limit,
        mend=partial(_mend_dived, her, is_level),
    )


def _mend_dived(her: Assessed, is_level: bool) -> Remedy:
    """Return what brings her level dived: tank water in its place, or a small shift of lead.

    Dived she is so much softer that a shift which hardly shows on the surface turns her far.
    """
    angle = her.dived.trim_angle
    if abs(tip_of(her)) > abs(angle) / 2:
        return fact("water-under-middle"), ()
    if not is_level:
        return fact("level-afloat-first"), ()
    moment = her.dived.displacement_mass * her.bg * tan(angle)
    return shifted(her, -moment, is_dived=True)
