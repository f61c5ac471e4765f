"""Checks of what cannot be where or as large as it is written: far out of the hull, or above it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trimdive.boatfile import Part, PrismRegion, Tank, extents
from trimdive.boatfile.ref import ref
from trimdive.fact import fact, together
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.geometry.solids.build import numbered
from trimdive.geometry.solids.profile import Profile, profile

SLIPPED = 0.5  # lead that fills less than this share of the limit has a slipped figure [-]
RANK = 110  # above a boat that sinks: she may sink for this [-]
Box = tuple[float, float, float]


def _things(her: Assessed) -> Iterator[tuple[str, str, Box, Box]]:
    """Yield path, name, middle and size of everything aboard [m]."""
    for i, vessel in enumerate(her.boat.cylinders, 1):
        size = (vessel.length, vessel.outside, vessel.outside)
        yield f"cylinder[{i}]", vessel.name, (vessel.x, vessel.y, vessel.z), size
    for i, tank in enumerate(her.boat.tanks, 1):
        yield f"tank[{i}]", tank.name, (tank.x, tank.y, tank.z), _tank_size(tank)
    for path, part in numbered(her.boat):
        yield path, part.name, (part.x, part.y, part.z), _size(part)


def _size(part: Part) -> Box:
    long, broad, high = (size or 0.0 for size in extents(part))
    return long, broad, high


def _tank_size(tank: Tank) -> Box:
    across = tank.bore if tank.shape == "round" else None
    return tank.length or 0.0, across or tank.breadth or 0.0, across or tank.height or 0.0


def _hull(her: Assessed) -> Profile | None:
    return profile(her.plain.hull.envelope) if her.boat.regions else None


@check("place-far")
def far_out(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what lies nowhere near the hull: a slip, or another boat's figure."""
    if (hull := _hull(her)) is None:
        return
    least = limit.value * hull.length
    found: list[_Far] = []
    for path, name, (x, y, z), (long, broad, high) in _things(her):
        near = (-long / 2, -broad / 2, -high / 2)
        far = hull.beyond((x, y, z), near)
        if far > least:
            found.append(_Far(path=path, name=name, place=(x, y, z), high=high, far=far))
    left = found
    for number, region in enumerate(her.boat.regions, 1):
        if isinstance(region, PrismRegion):
            free = [one for one in left if _is_over(her, region, one, least)]
            if len(free) > len(_standing(her, region)):
                left = [one for one in left if one not in free]
                at = f"region[{number}]", region
                yield _moved_off(her, limit, hull.length, at, free)
    for one in left:
        beside = [
            region.name
            for region in her.boat.regions
            if isinstance(region, PrismRegion) and _is_over(her, region, one, least)
        ]
        yield finding(
            limit=limit,
            subject=one.path,
            rank=RANK,
            beyond=one.far / hull.length,
            stands=one.far / hull.length,
            what=fact("far-from-hull", name=one.name, far=one.far, place=one.place),
            mend=fact(
                "measure-place",
                along=(hull.aft, hull.fore),
                high=(float(hull.low.min()), float(hull.high.max())),
                beside=beside[0] if beside else "",
            ),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Far:
    """Something that lies nowhere near the hull."""

    path: str
    name: str
    place: Box  # of its middle [m]
    high: float  # [m]
    far: float  # out of the hull [m]


def _is_over(her: Assessed, tower: PrismRegion, one: _Far, least: float) -> bool:
    """Return whether a thing would stand on a tower, or in it, were that under it."""
    x, y, z = one.place
    bottom = z - one.high / 2
    low, high = her.hull.envelope.bounds[:, 0]
    is_aside = abs(y - tower.y) > tower.breadth / 2
    return low <= x <= high and not is_aside and bottom <= tower.z_top + least


def _standing(her: Assessed, tower: PrismRegion) -> list[str]:
    """Return the paths of what stands on a tower, or in the upper half of it."""
    half = (tower.z_bottom + tower.z_top) / 2
    return [
        path
        for path, _, (x, _, z), _ in _things(her)
        if tower.x_aft <= x <= tower.x_fore and z > half and ref(path).table != "cylinder"
    ]


def _moved_off(
    her: Assessed,
    limit: Limit,
    length: float,
    at: tuple[str, PrismRegion],
    free: Sequence[_Far],
) -> Finding:
    """Return that a tower does not lie under what stands on it.

    Args:
        her: The boat.
        limit: How far out of the hull a thing may be.
        length: Of the hull [m].
        at: The place of the tower in the boat file, and the tower.
        free: What stands on it.
    """
    path, tower = at
    far = max(one.far for one in free)
    return finding(
        limit=limit,
        subject=path,
        rank=RANK,
        beyond=far / her.floater.length,
        stands=far / length,
        what=fact(
            "not-under-its-load",
            name=tower.name,
            places=tuple((one.name, one.place[0]) for one in free),
        ),
        mend=fact("measure-ends", name=tower.name, ends=(tower.x_aft, tower.x_fore)),
    )


@check("size-most")
def too_large(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what is longer, broader or higher than the whole hull."""
    if (hull := _hull(her)) is None:
        return
    sides = (
        (hull.length, "length"),
        (2 * float(hull.breadth.max()), "breadth"),
        (float(hull.high.max() - hull.low.min()), "height"),
    )
    for path, name, _, size in _things(her):
        if (over := hull.larger(size)) <= limit.value:
            continue
        pairs = zip(size, sides, strict=True)
        one, (most, side) = max(pairs, key=lambda pair: pair[0] / pair[1][0])
        yield finding(
            limit=limit,
            subject=path,
            rank=RANK - 1,
            beyond=over,
            stands=over,
            what=fact("larger-than-hull", name=name, side=side, size=one, hull=most),
            mend=fact("measure-or-slipped"),
        )


@check("waterline-place")
def waterline_off(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a waterline that does not cut the hull."""
    if (hull := _hull(her)) is None:
        return
    n, d = her.waterline
    middle = (hull.aft + hull.fore) / 2
    height = float((d - n[0] * middle) / n[2])
    low, high = float(hull.low.min()), float(hull.high.max())
    if low + limit.value <= height <= high - limit.value:
        return
    yield finding(
        limit=limit,
        subject="waterline",
        rank=RANK + 1,
        stands=min(height - low, high - height),
        what=fact(
            "waterline-off-hull",
            height=height,
            is_above=height > high - limit.value,
            reaches=(low, high),
        ),
        mend=fact("set-waterline"),
        form="waterline.height",
    )


@check("figure-least")
def tiny(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield places and sizes that nobody can measure: metres entered as millimetres, mostly."""
    for path, part in numbered(her.boat):
        for field, value in (("z", part.z), ("y", part.y)):
            if value and abs(value) < limit.value:
                yield _tiny(limit, path, part, value, field)
        for value in (part.length, part.breadth, part.height, part.diameter):
            if value and abs(value) < limit.value:
                yield _tiny(limit, path, part, value)


def _tiny(limit: Limit, path: str, part: Part, value: float, field: str = "") -> Finding:
    """Return the finding of a figure that nobody can measure; of a place with what it may be."""
    edit = Edit(action="set", path=path, fields=((field, value * 1000),))
    return finding(
        limit=limit,
        subject=path,
        rank=RANK - 5 if field else 9,
        weight="put right" if field else "look at",
        what=fact("tiny-figure", name=part.name, field=field, value=value, likely=value * 1000),
        stands=abs(value),
        mend=together(fact("write-mm-for-m", likely=value * 1000), fact("or-nothing")),
        edits=(edit,) if field else (),
    )


@check("lead-fill")
def hollow_lead(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield lead that weighs far less than its shape of lead would: a slipped figure, mostly."""
    pieces = dict(numbered(her.boat))
    seen: set[str] = set()
    for body in her.bodies:
        part = pieces.get(body.path)
        if part is None or part.kind != "lead" or part.mass is None or body.path in seen:
            continue
        seen.add(body.path)
        if not 0 < body.share < limit.value or part.volume is not None or part.hung is not None:
            continue
        mass = part.mass / body.share
        is_slip = body.share < SLIPPED * limit.value
        edit = Edit(action="set", path=body.path, fields=(("mass", mass),))
        yield finding(
            limit=limit,
            subject=body.path,
            rank=11 if is_slip else 9,
            weight="put right" if is_slip else "look at",
            what=fact("lighter-than-its-lead", name=part.name, mass=part.mass, likely=mass),
            stands=body.share,
            mend=together(fact("weigh-lead", likely=mass), fact("measure-lead")),
            edits=(edit,) if is_slip else (),
        )
