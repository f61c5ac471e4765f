"""Checks of stability: BG dived, GM at every filling, whether she turns over."""

from collections.abc import Iterator
from functools import partial
from math import degrees, inf, sqrt

from trimdive.ballast.dive.upright import lolls, runs
from trimdive.ballast.need import pair_for_bg
from trimdive.boatfile import Cylinder, Part
from trimdive.fact import Fact, fact, together
from trimdive.findings.afloat import LARGE
from trimdive.findings.assessed import Assessed, once
from trimdive.findings.finding import Edit, Finding, Limit, Remedy, check, finding
from trimdive.geometry.clashes.scene import placed_at
from trimdive.geometry.solids.build import axis_height, reach
from trimdive.geometry.solids.hull import density_of

LOLLS = 3.0  # she lolls where she leans more than this with her masses on the middle line [°]
WORTH = 0.03  # of her mass: lighter parts are not worth lowering [-]
FOAM_DENSITY = "XPS foam"
FINE = 0.001  # steps up in which the lowest free place is looked for [m]


def _lowest(her: Assessed, path: str, part: Part, vessel: Cylinder) -> float | None:
    """Return the lowest height at which a part lies clear in its cylinder [m]; None: no lower."""
    half = reach(part)
    if half is None:
        return None
    radius = vessel.bore / 2
    aside = abs(part.y - vessel.y) + float(half[1])
    if aside >= radius:
        return None
    low = axis_height(vessel, part.x) - sqrt(radius**2 - aside**2) + float(half[2])
    solids = her.scene.by_path.get(path, ())
    for step in range(int(max(part.z - low, 0.0) / FINE)):
        there = low + step * FINE
        if her.scene.is_clear(placed_at(solids, (0.0, 0.0, there - part.z))):
            return there
    return None


Lowered = tuple[tuple[str, float], ...]  # names of parts, and how far each comes down [m]


def lowered(her: Assessed, wanted: float) -> tuple[Lowered, tuple[Edit, ...], float]:
    """Return parts in cylinders to lower until M times this much [m] is won, and what is won.

    The heaviest times deepest comes first; a few millimetres are not worth the work.
    """
    vessels = {vessel.name: vessel for vessel in her.boat.cylinders}
    chances: list[tuple[float, int, Part, float]] = []
    for i, part in enumerate(her.boat.parts, 1):
        vessel = vessels.get(part.inside or "")
        low = _lowest(her, f"part[{i}]", part, vessel) if vessel else None
        if low is None or part.mass is None or part.mass < WORTH * her.floater.mass:
            continue
        if part.z - low > 0.005:
            chances.append((part.mass * (part.z - low), i, part, low))
    won, parts, edits = 0.0, list[tuple[str, float]](), list[Edit]()
    for moment, i, part, low in sorted(chances, key=lambda chance: -chance[0]):
        if won >= wanted * her.dived.displacement_mass:
            break
        won += moment
        parts.append((part.name, part.z - low))
        edits.append(Edit(action="set", path=f"part[{i}]", fields=(("z", low),)))
    return tuple(parts), tuple(edits), won / her.dived.displacement_mass


def _pair(her: Assessed, gain: float) -> Fact | None:
    """Return lead low and foam high that would raise BG by so much [m]; None: by no such pair."""
    low = min([piece.z for piece in her.boat.lead], default=0.01)
    n, d = her.waterline
    high = float(d / n[2]) - 0.02
    lead = density_of("lead", None) or 0.0
    foam = density_of(FOAM_DENSITY, None) or 0.0
    pair = pair_for_bg(
        gain,
        (her.dived.displacement_mass, her.bg),
        (low, high),
        (her.floater.density, lead, foam),
    )
    if not 0 < pair.lead <= LARGE * her.floater.mass:
        return None
    return fact("lead-and-foam", lead=pair.lead, foam=pair.foam)


@check("bg-least")
def bg(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat whose G lies too close under her B when dived."""
    least = limit.value * her.floater.length
    plain = her.plain
    have = min(her.bg, plain.bg)
    if have >= least:
        return
    first = once(her) if plain.bg < her.bg else None
    yield finding(
        subject="boat",
        rank=35,
        beyond="by limit",
        stands=have / her.floater.length,
        what=fact("bg-short", bg=have, wanted=least, once=first),
        limit=limit,
        mend=partial(_deeper, plain, have, least - have),
    )


def _deeper(her: Assessed, bg: float, gain: float) -> Remedy:
    """Return what raises BG [m] by so much [m]."""
    parts, edits, won = lowered(her, gain)
    lower = fact("lower-for-bg", parts=parts, bg=bg + won) if parts else None
    pair = _pair(her, gain)
    return together(lower, pair) if lower or pair else fact("nothing"), edits


@check("gm-least")
def gm(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield fillings at which she will not stand upright, or hardly."""
    centred = abs(her.masses.gravity[1]) < 1e-4
    found = [*lolls(her.floater, runs(her.floater, her.down))] if centred else []
    found = [one for one in found if degrees(one.heel) > LOLLS]
    worst = her.down.least_gm
    if found:
        worst_of = max(found, key=lambda one: one.heel)
        filled = tuple((one.first, one.last) for one in found)
        what = fact("not-upright", filled=filled, does=worst_of.does)
        stands, short, over = min(one.gm for one in found), limit.value + 0.002, inf
    elif worst.state.gm_t < limit.value:
        stands = worst.state.gm_t
        what = fact("gm-short", gm=stands, filled=her.filled(worst), wanted=limit.value)
        short, over = limit.value - stands, limit.excess(stands)
    else:
        return
    yield finding(
        subject="boat",
        rank=37,
        beyond=bool(found),
        over=over,
        what=what,
        stands=stands,
        limit=limit,
        mend=partial(_stiffer, her, short),
    )


def _stiffer(her: Assessed, gain: float) -> Remedy:
    """Return what raises GM by so much [m]."""
    parts, edits, _ = lowered(her, gain)
    return fact("lower", parts=parts) if parts else fact("lead-low-foam-high"), edits
