"""Checks of the ballast: litres, where they lie, and what should not be above the waterline."""

from collections.abc import Iterator
from math import atan2, degrees

from trimdive.bodies.hull import density_of
from trimdive.bodies.moments import above
from trimdive.boatfile import Part, Tank
from trimdive.bodies.build import numbered, part_shape, part_volume
from trimdive.findings.afloat import shifted_lead
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, check
from trimdive.litres import foam_instead

WORKS = 0.02  # parts this far beyond a tank's ends still belong to it [m]
HOLES = "Drill two 8 mm holes low and a 5 mm vent at its highest point, so that water fills it."


@check("tank-margin")
def room(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield tanks that hold less than she needs, or hardly more."""
    need = facts.need
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
    most = need.shares[0]
    yield Finding(
        key=limit.key,
        subject="tanks",
        weight="put right",
        rank=50 + (limit.value - need.margin),
        what=what,
        limit=limit,
        mend=(
            f"Find {facts.volume(wanted - need.fitted)} more room, or bring down the volume above "
            f"the waterline; most of it is {most.name}, {facts.volume(most.volume)}."
        ),
        edits=(),
        left=(),
        hidden=(),
    )


def _no_tanks(facts: Facts, limit: Limit) -> Finding:
    need = facts.volume(facts.need.volume)
    return Finding(
        key=limit.key,
        subject="tanks",
        weight="put right",
        rank=50,
        what=f"she has no tank; what stands above the waterline needs {need} of water",
        limit=limit,
        mend=f"Add a tank with its middle at {facts.length(float(facts.need.place[0]))}.",
        edits=(),
        left=(),
        hidden=(),
    )


def tip_of(facts: Facts) -> float:
    """Return how far the tank water's place tips her dived, bow down [rad]."""
    need, state = facts.need, facts.dived
    moment = facts.floater.density * need.volume * need.offset
    return atan2(moment, state.displacement_mass * max(state.bg, 1e-4))


@check("tank-offset", limit="trim-dived")
def tank_place(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield tank water that does not lie under the volume above the waterline."""
    need = facts.need
    if not facts.boat.tanks or need.fitted <= 0:
        return
    tip = tip_of(facts)
    if abs(tip) <= limit.value:
        return
    way, back = ("forward", "aft") if need.offset > 0 else ("aft", "forward")
    end = "bow" if tip > 0 else "stern"
    what = (
        f"the tank water lies {facts.length(abs(need.offset))} {way} of the middle of what is "
        f"above the waterline; dived that alone tips her {abs(degrees(tip)):.0f}° "
        f"down by the {end}"
    )
    k, shift = _tank_to_move(facts)
    tank = facts.boat.tanks[k]
    mend, edits = _moved_tank(facts, k, shift)
    bounds = facts.hull.envelope.bounds[:, 0]
    foam = foam_instead(need, (float(bounds[0]), float(bounds[1])))
    other = (
        f" Or foam above the waterline, {facts.volume(foam.volume)} at {facts.length(foam.x)}, "
        f"for as much more water."
        if foam
        else ""
    )
    yield Finding(
        key="tank-offset",
        subject=tank.name,
        weight="put right",
        rank=40 + abs(tip) / limit.value,
        what=what,
        limit=limit,
        mend=f"Move {tank.name} {facts.length(abs(shift))} {back}{mend}.{other} "
        "No lead below the waterline can make her level in both states.",
        edits=edits,
        left=(),
        hidden=(),
    )


def _tank_to_move(facts: Facts) -> tuple[int, float]:
    """Return the tank that is farthest out on the wrong side, and how far forward to move it [m]."""
    need = facts.need
    places = [tank.x for tank in facts.boat.tanks]
    sign = 1 if need.offset > 0 else -1
    k = max(range(len(places)), key=lambda i: sign * (places[i] - float(need.place[0])))
    return k, -need.offset * float(need.takes.sum()) / max(float(need.takes[k]), 1e-12)


def _belongs(part: Part, tank: Tank) -> bool:
    """Return whether a part is the works of a tank: in its cylinder and between its ends."""
    half = (tank.length or 0.0) / 2 + WORKS
    return bool(part.inside) and part.inside == tank.inside and abs(part.x - tank.x) <= half


def _moved_tank(facts: Facts, k: int, shift: float) -> tuple[str, tuple[Edit, ...]]:
    """Return the changes that move a tank with its works, and lead to balance that."""
    tank = facts.boat.tanks[k]
    field, value = ("water_end", tank.water_end) if tank.kind == "piston" else ("x", tank.x)
    edits = [Edit(action="set", path=f"tank[{k + 1}]", fields=((field, value + shift),))]
    carried = 0.0
    for path, part in numbered(facts.boat):
        if _belongs(part, tank):
            edits.append(Edit(action="set", path=path, fields=(("x", part.x + shift),)))
            carried += (part.mass or 0.0) * shift
    lead = sum(piece.mass or 0.0 for piece in facts.boat.lead)
    if not carried or not lead:
        return "", tuple(edits)
    balance = -carried / lead
    edits += shifted_lead(facts, balance)
    way = "forward" if balance > 0 else "aft"
    return (
        f" with its works, and all the lead {facts.length(abs(balance))} {way}",
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
        solid = part.mass * (2 if part.pair == "each" else 1) / density
        void = body.volume - solid
        upper = above(body, n, d).volume
        if void <= limit.value or upper <= 0:
            continue
        pull = facts.mass(abs(part.mass - facts.floater.density * body.volume))
        yield Finding(
            key=limit.key,
            subject=part.name,
            weight="put right",
            rank=55 + void / facts.need.volume,
            what=(
                f"{part.name} is closed: under water it pulls up {pull}, which is "
                f"{facts.volume(void)} of air above the waterline that the tanks must pay for"
            ),
            limit=limit,
            mend=HOLES,
            edits=(Edit(action="set", path=path, fields=(("hung", None), ("volume", solid))),),
            left=(),
            hidden=(),
        )


@check("foam-above")
def foam_above(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield foam above the waterline that makes her tip dived, where without it she would not."""
    n, d = facts.waterline
    need = facts.need
    for i, piece in enumerate(facts.boat.foam, 1):
        body = next((body for body in facts.bodies if body.path == f"foam[{i}]"), None)
        if body is None:
            continue
        upper = above(body, n, d)
        if upper.volume <= limit.value:
            continue
        rest = need.volume - upper.volume
        x = (need.volume * need.place[0] - float(upper.moment[0])) / rest
        if abs(float(need.water_place[0]) - x) >= abs(need.offset):
            continue
        yield Finding(
            key=limit.key,
            subject=piece.name,
            weight="put right",
            rank=45 + upper.volume / need.volume,
            what=(
                f"{piece.name} holds {facts.volume(upper.volume)} of foam above the waterline at "
                f"{facts.length(piece.x)}: it takes as much of the tank, and the middle of what is "
                f"above the waterline with it"
            ),
            limit=limit,
            mend="Take it out; moving lead cannot cure what it does.",
            edits=(Edit(action="remove", path=f"foam[{i}]", fields=()),),
            left=(),
            hidden=(),
        )


@check("trim-dived")
def trim_dived(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that hangs down by bow or stern when neutral."""
    state = facts.dived
    angle = state.trim_angle
    if abs(angle) <= limit.value or not facts.boat.tanks:
        return
    end = "bow" if angle > 0 else "stern"
    off = abs(degrees(facts.surfaced.trim_angle)) < 0.5
    level = "level on the surface, " if off and not facts.surfaced.rest.under else ""
    yield Finding(
        key=limit.key,
        subject="boat",
        weight="put right",
        rank=42 + abs(angle) / limit.value,
        what=f"{level}dived she hangs {abs(degrees(angle)):.0f}° down by the {end}",
        limit=limit,
        mend=(
            "Bring the tank water under the middle of what is above the waterline."
            if level
            else "Bring her level on the surface first; the same shift works dived."
        ),
        edits=(),
        left=(),
        hidden=(),
    )


def volume_of(part: Part, facts: Facts) -> float:
    """Return the volume that a part pushes aside [m³]."""
    count = 2 if part.pair else 1
    return 0.0 if part.inside else part_volume(part, part_shape(part, facts.files)) * count
