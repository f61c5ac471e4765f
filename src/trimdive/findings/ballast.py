"""Checks of the ballast: litres, where they lie, and what should not be above the waterline."""

from collections.abc import Iterator
from functools import partial
from math import atan2, degrees, tan

from trimdive.bodies.build import numbered
from trimdive.bodies.hull import density_of
from trimdive.bodies.moments import above
from trimdive.findings.afloat import lead_counts, shifted, shifted_lead
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, check, finding, limit_of
from trimdive.findings.tank_ways import without
from trimdive.findings.ways import Way, best, scales
from trimdive.findings.works import has_room, moved_tank, slipped, to_level
from trimdive.litres import foam_instead

LEVEL = 0.5  # on the surface she counts as level within this [°]
HOLES = "Drill two 8 mm holes low and a 5 mm vent at its highest point, so that water fills it."


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
    what = (
        f"the tanks hold {facts.volume(need.fitted)}; what stands above the waterline "
        f"needs {facts.volume(need.volume)}"
    )
    if need.margin >= 0:
        what += f": {facts.share(need.margin)} to spare, {facts.share(limit.value)} wanted"
    most = need.shares[0]
    yield finding(
        subject="tanks",
        rank=50,
        beyond=(limit.value - need.margin),
        over=limit.excess(need.margin),
        what=what,
        stands=need.margin,
        limit=limit,
        mend=(
            f"Find {facts.volume(wanted - need.fitted)} more room, or bring down the volume above "
            f"the waterline; most of it is {most.name}, {facts.volume(most.volume)}."
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
        what=(
            f"the tanks hold {facts.volume(need.fitted)}, {facts.share(need.margin)} more than "
            f"the {facts.volume(need.volume)} that she needs"
        ),
        mend=(
            f"Stop the filling at {facts.share(1 / (1 + need.margin))} and let nothing fill them "
            "further, or make them shorter."
        ),
    )


def _no_tanks(facts: Facts, limit: Limit) -> Finding:
    need = facts.volume(facts.need.volume)
    return finding(
        subject="tanks",
        rank=50,
        what=f"she has no tank; what stands above the waterline needs {need} of water",
        stands=facts.need.margin,
        limit=limit,
        mend=f"Add a tank with its middle {facts.place(float(facts.need.place[0]))}.",
    )


def tip_of(facts: Facts) -> float:
    """Return how far the tank water's place tips her dived, bow down [rad]."""
    need = facts.need
    moment = facts.floater.density * need.volume * need.offset
    return atan2(moment, facts.dived.displacement_mass * max(facts.bg, 1e-4))


def _way(offset: float) -> tuple[str, str]:
    """Return the way that water lies off, and the way back."""
    return ("forward", "aft") if offset > 0 else ("aft", "forward")


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
    off = shown.need.offset
    what = f"tank water {facts.length(abs(off))} too far {_way(off)[0]}"
    if shown is plain and plain is not facts and abs(need.offset - off) > 1e-3:
        what += f", {facts.once} ({facts.length(abs(need.offset))} now)"
    if abs(tips[1]) <= limit.value:
        yield finding(
            key="tank-offset",
            limit=limit,
            subject="tanks",
            what=what,
            stands=tips[0],
            mend="It goes with what else is to be put right; leave the tanks where they are.",
            rank=40,
        )
        return
    k, shift, is_free = _tank_to_move(plain)
    words, edits = _moved_tank(plain, k, shift)
    if not is_free:
        words, edits = _without(plain) or (_no_room(plain, k, shift), ())
    yield finding(
        key="tank-offset",
        limit=limit,
        subject=facts.boat.tanks[k].name,
        what=what,
        stands=tips[1],
        mend=words + _foam_words(plain),
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


def _foam_words(facts: Facts) -> str:
    """Return the foam that would do instead of moving a tank, in words."""
    bounds = facts.hull.envelope.bounds[:, 0]
    foam = foam_instead(facts.need, (float(bounds[0]), float(bounds[1])))
    other = (
        f" As a guide: {facts.volume(foam.volume)} of foam above the waterline, "
        f"{facts.place(foam.x)}, would do instead, and takes as much more water; placing "
        "with foam above allowed finds where it goes."
        if foam
        else ""
    )
    return f"{other} Lead below the waterline cannot make her level in both states."


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


def _without(facts: Facts) -> tuple[str, tuple[Edit, ...]] | None:
    """Return which tank is taken out, where that leaves the water of the others in its place."""
    on = scales(facts)
    ways = [way for k in range(len(facts.boat.tanks)) if (way := without(facts, k))]
    found = best(on, [*ways, Way(says="", edits=())])
    return (str(found.says), found.edits) if found and found.edits else None


def _no_room(facts: Facts, k: int, shift: float) -> str:
    """Return what is said of a tank that would have to go where it has no room."""
    name = facts.boat.tanks[k].name
    return (
        f"{name} would have to lie {facts.length(abs(shift))} {_way(shift)[0]}, where there is no "
        "room for it: move what is in its way, or the cylinder with all inside."
    )


def _moved_tank(facts: Facts, k: int, shift: float) -> tuple[str, tuple[Edit, ...]]:
    """Return the move of a tank with its works, and lead to balance it: words and changes."""
    edits, carried = moved_tank(facts, k, shift)
    words = f"Move {facts.boat.tanks[k].name} {facts.length(abs(shift))} {_way(shift)[0]}"
    lead = sum(piece.mass or 0.0 for piece in facts.boat.lead)
    if not carried or not lead:
        return f"{words}.", tuple(edits)
    balance = -carried / (lead * lead_counts(facts))
    edits += shifted_lead(facts, balance)
    return (
        f"{words} with its works, and all the lead {facts.length(abs(balance))} "
        f"{_way(balance)[0]} to balance that.",
        tuple(edits),
    )


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
        pull = facts.mass(abs(mass - facts.floater.density * body.volume))
        told = solid / 2 if part.pair == "each" else solid
        yield finding(
            subject=part.name,
            rank=58,
            beyond=void / facts.need.volume,
            stands=void,
            what=(
                f"{part.name} is closed: under water it pulls up {pull}, with "
                f"{facts.volume(void)} of air above the waterline: as much more ballast"
            ),
            limit=limit,
            mend=HOLES,
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
            what=(
                f"{piece.name} holds {facts.volume(upper.volume)} of foam above the waterline, "
                f"{facts.place(piece.x)}: it takes as much of the tank, and the middle of what is "
                f"above the waterline with it"
            ),
            limit=limit,
            mend="Take it out; moving lead cannot cure what it does.",
            edits=(Edit(action="remove", path=f"foam[{i}]", fields=()),),
        )


@check("trim-dived")
def trim_dived(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that hangs down by bow or stern when neutral."""
    state = facts.dived
    angle = state.trim_angle
    if abs(angle) <= limit.value or not facts.boat.tanks or not facts.goes_under:
        return
    off = abs(degrees(facts.surfaced.trim_angle)) < LEVEL
    level = ", though level on the surface" if off and not facts.surfaced.rest.under else ""
    yield finding(
        subject="boat",
        rank=42,
        beyond="by limit",
        what=f"dived at neutral: trim {facts.trim(angle)}{level}",
        stands=angle,
        limit=limit,
        mend=partial(_mend_dived, facts, bool(level)),
    )


def _mend_dived(facts: Facts, is_level: bool) -> tuple[str, tuple[Edit, ...]]:
    """Return what brings her level dived: tank water in its place, or a small shift of lead.

    Dived she is so much softer that a shift which hardly shows on the surface turns her far.
    """
    angle = facts.dived.trim_angle
    if abs(tip_of(facts)) > abs(angle) / 2:
        return "Bring the tank water under the middle of what is above the waterline.", ()
    if not is_level:
        return "Bring her level on the surface first; the same shift works dived.", ()
    moment = facts.dived.displacement_mass * facts.bg * tan(angle)
    words, edits = shifted(facts, -moment)
    way = "aft" if moment > 0 else "forward"
    return f"Shift what is heavy {way}, {words}; on the surface it hardly shows.", edits
