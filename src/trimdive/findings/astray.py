"""Checks of what cannot be where or as large as it is written: far out of the hull, or above it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trimdive.boatfile import Part, PrismRegion, Tank, extents
from trimdive.boatfile.ref import ref
from trimdive.bodies.build import numbered
from trimdive.bodies.profile import Profile, profile
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.rest.named import listed

SLIPPED = 0.5  # lead that fills less than this share of the limit has a slipped figure [-]
RANK = 110  # above a boat that sinks: she may sink for this [-]
Box = tuple[float, float, float]


def _things(facts: Facts) -> Iterator[tuple[str, str, Box, Box]]:
    """Yield path, name, middle and size of everything aboard [m]."""
    for i, vessel in enumerate(facts.boat.cylinders, 1):
        size = (vessel.length, vessel.outside, vessel.outside)
        yield f"cylinder[{i}]", vessel.name, (vessel.x, vessel.y, vessel.z), size
    for i, tank in enumerate(facts.boat.tanks, 1):
        yield f"tank[{i}]", tank.name, (tank.x, tank.y, tank.z), _tank_size(tank)
    for path, part in numbered(facts.boat):
        yield path, part.name, (part.x, part.y, part.z), _size(part)


def _size(part: Part) -> Box:
    long, broad, high = (size or 0.0 for size in extents(part))
    return long, broad, high


def _tank_size(tank: Tank) -> Box:
    across = tank.bore if tank.shape == "round" else None
    return tank.length or 0.0, across or tank.breadth or 0.0, across or tank.height or 0.0


def _hull(facts: Facts) -> Profile | None:
    return profile(facts.plain.hull.envelope) if facts.boat.regions else None


@check("place-far")
def far_out(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield what lies nowhere near the hull: a slip, or another boat's figure."""
    if (hull := _hull(facts)) is None:
        return
    least = limit.value * hull.length
    found: list[_Far] = []
    for path, name, (x, y, z), (long, broad, high) in _things(facts):
        near = (-long / 2, -broad / 2, -high / 2)
        far = hull.beyond((x, y, z), near)
        if far > least:
            found.append(_Far(path=path, name=name, place=(x, y, z), high=high, far=far))
    left = found
    for number, region in enumerate(facts.boat.regions, 1):
        if isinstance(region, PrismRegion):
            free = [one for one in left if _is_over(facts, region, one, least)]
            if len(free) > len(_standing(facts, region)):
                left = [one for one in left if one not in free]
                at = f"region[{number}]", region
                yield _moved_off(facts, limit, hull.length, at, free)
    for one in left:
        x, y, z = one.place
        beside = [
            region.name
            for region in facts.boat.regions
            if isinstance(region, PrismRegion) and _is_over(facts, region, one, least)
        ]
        also = f"; or that of {beside[0]}, which does not reach under it" if beside else ""
        yield finding(
            limit=limit,
            subject=one.path,
            rank=RANK,
            beyond=one.far / hull.length,
            stands=one.far / hull.length,
            what=(
                f"{one.name}: {facts.length(one.far)} out of the hull, {facts.place(x)}, "
                f"{facts.length(z)} high{_aside(facts, y)}"
            ),
            mend=f"Measure its place again: {_ends(facts, hull)}{also}.",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Far:
    """Something that lies nowhere near the hull."""

    path: str
    name: str
    place: Box  # of its middle [m]
    high: float  # [m]
    far: float  # out of the hull [m]


def _is_over(facts: Facts, tower: PrismRegion, one: _Far, least: float) -> bool:
    """Return whether a thing would stand on a tower, or in it, were that under it."""
    x, y, z = one.place
    bottom = z - one.high / 2
    low, high = facts.hull.envelope.bounds[:, 0]
    is_aside = abs(y - tower.y) > tower.breadth / 2
    return low <= x <= high and not is_aside and bottom <= tower.z_top + least


def _standing(facts: Facts, tower: PrismRegion) -> list[str]:
    """Return the paths of what stands on a tower, or in the upper half of it."""
    half = (tower.z_bottom + tower.z_top) / 2
    return [
        path
        for path, _, (x, _, z), _ in _things(facts)
        if tower.x_aft <= x <= tower.x_fore and z > half and ref(path).table != "cylinder"
    ]


def _moved_off(
    facts: Facts,
    limit: Limit,
    length: float,
    at: tuple[str, PrismRegion],
    free: Sequence[_Far],
) -> Finding:
    """Return that a tower does not lie under what stands on it.

    Args:
        facts: The boat.
        limit: How far out of the hull a thing may be.
        length: Of the hull [m].
        at: The place of the tower in the boat file, and the tower.
        free: What stands on it.
    """
    path, tower = at
    places = listed([f"{one.name} {facts.place(one.place[0])}" for one in free])
    far = max(one.far for one in free)
    begins, ends = facts.place(tower.x_aft), facts.place(tower.x_fore)
    return finding(
        limit=limit,
        subject=path,
        rank=RANK,
        beyond=far / facts.floater.length,
        stands=far / length,
        what=f"{tower.name} does not lie under what stands on it: {places}",
        mend=f"Measure the ends of {tower.name} again: now {begins} and {ends}.",
    )


def _aside(facts: Facts, y: float) -> str:
    if abs(y) < 1e-4:
        return ""
    return f", {facts.length(abs(y))} to {'port' if y > 0 else 'starboard'}"


def _ends(facts: Facts, hull: Profile) -> str:
    boat = facts.boat
    ends = sorted(boat.along(x) for x in (hull.aft, hull.fore))
    low, high = (boat.units.write(x, "length") for x in ends)
    return (
        f"the hull lies from {low} to {high} from the {boat.told_from}, and from "
        f"{facts.length(float(hull.low.min()))} to {facts.length(float(hull.high.max()))} high"
    )


@check("size-most")
def too_large(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield what is longer, broader or higher than the whole hull."""
    if (hull := _hull(facts)) is None:
        return
    sides = (
        (hull.length, "long"),
        (2 * float(hull.breadth.max()), "broad"),
        (float(hull.high.max() - hull.low.min()), "high"),
    )
    for path, name, _, size in _things(facts):
        if (over := hull.larger(size)) <= limit.value:
            continue
        pairs = zip(size, sides, strict=True)
        one, (most, word) = max(pairs, key=lambda pair: pair[0] / pair[1][0])
        yield finding(
            limit=limit,
            subject=path,
            rank=RANK - 1,
            beyond=over,
            stands=over,
            what=(
                f"{name}: {facts.length(one)} {word}; the whole hull is {facts.length(most)} {word}"
            ),
            mend="Measure it again; look for a slipped figure.",
        )


@check("waterline-place")
def waterline_off(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a waterline that does not cut the hull."""
    if (hull := _hull(facts)) is None:
        return
    n, d = facts.waterline
    middle = (hull.aft + hull.fore) / 2
    height = float((d - n[0] * middle) / n[2])
    low, high = float(hull.low.min()), float(hull.high.max())
    if low + limit.value <= height <= high - limit.value:
        return
    where = "above the whole hull" if height > high - limit.value else "below the keel"
    yield finding(
        limit=limit,
        subject="waterline",
        rank=RANK + 1,
        stands=min(height - low, high - height),
        what=(
            f"the waterline is {facts.length(height)} high, {where}: "
            f"she reaches from {facts.length(low)} to {facts.length(high)}"
        ),
        mend="Set [waterline] height to where she is meant to float, above the keel line.",
    )


@check("figure-least")
def tiny(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield places and sizes that nobody can measure: metres entered as millimetres, mostly."""
    for path, part in numbered(facts.boat):
        places = (("z", part.z, "{} above the keel line"), ("y", part.y, "{} off the middle"))
        for field, value, says in places:
            if value and abs(value) < limit.value:
                yield _tiny(facts, limit, path, part, (value, says), field)
        for value in (part.length, part.breadth, part.height, part.diameter):
            if value and abs(value) < limit.value:
                yield _tiny(facts, limit, path, part, (value, "{} in size"))


def _tiny(
    facts: Facts, limit: Limit, path: str, part: Part, told: tuple[float, str], field: str = ""
) -> Finding:
    """Return the finding of a figure that nobody can measure; of a place with what it may be."""
    value, says = told
    would, written = facts.length(value * 1000), facts.boat.units.write_fine(value, "length")
    edit = Edit(action="set", path=path, fields=((field, value * 1000),))
    return finding(
        limit=limit,
        subject=path,
        rank=RANK - 5 if field else 9,
        weight="put right" if field else "look at",
        what=f"{part.name}, {says.format(written)}: {would}?",
        stands=abs(value),
        mend=f"Write {would} (mm for m), or 0, if that is what was measured.",
        edits=(edit,) if field else (),
    )


@check("lead-fill")
def hollow_lead(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield lead that weighs far less than its shape of lead would: a slipped figure, mostly."""
    pieces = dict(numbered(facts.boat))
    seen: set[str] = set()
    for body in facts.bodies:
        part = pieces.get(body.path)
        if part is None or part.kind != "lead" or part.mass is None or body.path in seen:
            continue
        seen.add(body.path)
        if not 0 < body.share < limit.value or part.volume is not None or part.hung is not None:
            continue
        mass = part.mass / body.share
        would, is_slip = facts.mass(mass), body.share < SLIPPED * limit.value
        edit = Edit(action="set", path=body.path, fields=(("mass", mass),))
        yield finding(
            limit=limit,
            subject=body.path,
            rank=11 if is_slip else 9,
            weight="put right" if is_slip else "look at",
            what=f"{part.name}: {facts.mass(part.mass)}; its shape in lead is {would}",
            stands=body.share,
            mend=f"Weigh it again, and write {would} if it does; or measure its size again.",
            edits=(edit,) if is_slip else (),
        )
