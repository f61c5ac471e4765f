"""Why the curves of a dive bend: each kink in a sentence, as far as it is known."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium.named import listed
from trimdive.text import words
from trimdive.text.moments import Happening, happenings

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.ballast.dive import Dive, Moment
    from trimdive.geometry.lines.mesh import Floats
    from trimdive.hydrostatics.equilibrium import State

ABOUT = 0.015  # share of the water before and after a kink that is looked at [-]
CLEAR = 0.12  # of the whole range of GM: a rise or fall smaller than this is no kink [-]
LESS = 0.9  # a waterplane that falls below this share of what it was is told [-]
HALF = 0.5  # GM_L that falls below this share of what it was is told [-]
LEAST = 0.0004  # a range of GM smaller than this has no kinks [m]
FASTER = 0.5  # a change of trim over the water coming in by more than this is told [rad]
TIPPED = 0.01  # tipping less than this she is level [rad]
SAME = 1e-6  # fillings closer than this are one [-]
AWAY = 5e-4  # water that comes in closer to B than this tips her by nothing [m]
SHOWN = 3  # names of what still stands out; beyond that parts are counted
MANY, MANY_PARTS = 2, 8  # regions and parts that are no longer called "only"
LOLLS = 0.05  # leaning more than this, her GM is that of a lolling boat [rad]
OUT = 5e-4  # standing out less than this is awash [m]


def _tops(her: "Assessment") -> list[tuple[str, "Floats"]]:
    """Return name and corners of everything that may stand out of the water."""
    regions = [(skin.name, skin.outline) for skin in her.hull.skins]
    parts = [
        (body.name, body.mesh.vertices)
        for body in her.bodies
        if body.kind in ("part", "foam", "lead", "cylinder", "tank")
    ]
    return [*regions, *parts]


def standing_out(her: "Assessment", state: "State") -> list[str]:
    """Return what still stands out of the water, the highest first."""
    n, d = state.rest.n, state.rest.d
    found = {name: float((corners @ n).max()) - d for name, corners in _tops(her)}
    return [name for name in sorted(found, key=lambda name: -found[name]) if found[name] > OUT]


def _only(her: "Assessment", happening: Happening) -> str:
    """Return what is left standing out, in words; nothing while much is."""
    events = {event.name for event in happening.events}
    left = [name for name in standing_out(her, happening.moment.state) if name not in events]
    regions = [name for name in left if name in {region.name for region in her.boat.regions}]
    parts = [name for name in left if name not in regions]
    if not left or len(regions) > MANY or len(parts) > MANY_PARTS:
        return ""
    some = parts if len(left) <= SHOWN else [f"{len(parts)} parts"] if len(parts) > 1 else parts
    return f"this leaves only {listed([*regions, *some])} above water"


def _around(way: "Dive", filling: float) -> tuple["Moment", "Moment"]:
    """Return the moments a little before and a little after a filling."""
    near = [m for m in way.moments if abs(m.filling - filling) <= ABOUT] or list(way.moments)
    low = min(way.moments, key=lambda m: abs(m.filling - max(filling - ABOUT, 0.0)))
    high = min(way.moments, key=lambda m: abs(m.filling - min(filling + ABOUT, 1.0)))
    return (low, high) if low is not high else (near[0], near[-1])


def _effects(her: "Assessment", way: "Dive", happening: Happening) -> Iterator[str]:
    """Yield what changes at an event: waterplane, stiffness lengthways, trim."""
    first, last = (moment.state for moment in _around(way, happening.filling))
    write = her.boat.units.write
    if not first.rest.under and not last.rest.under:
        if last.waterplane_area < LESS * first.waterplane_area:
            a, b = (words.area(her.boat, s.waterplane_area) for s in (first, last))
            yield f"the waterplane shrinks from {a} to {b}"
        if last.gm_l < HALF * first.gm_l:
            a, b = (write(s.gm_l, "length") for s in (first, last))
            yield f"GM lengthways falls from {a} to {b}"
        elif first.gm_l < HALF * last.gm_l:
            a, b = (write(s.gm_l, "length") for s in (first, last))
            yield f"GM lengthways grows again from {a} to {b}"
    yield from _turning(way, happening.filling)


def _slope(way: "Dive", low: float, high: float) -> float:
    """Return how much she tips for all of the water, between two fillings [rad]."""
    inside = [m for m in way.moments if low - 1e-9 <= m.filling <= high + 1e-9]
    if len(inside) < 2 or inside[-1].filling == inside[0].filling:
        return 0.0
    a, b = inside[0], inside[-1]
    return (b.state.trim_angle - a.state.trim_angle) / (b.filling - a.filling)


def _turning(way: "Dive", filling: float) -> Iterator[str]:
    """Yield how the trim goes on, where that changes."""
    others = [event.filling for event in way.events if abs(event.filling - filling) > SAME]
    start = max([filling - 2 * ABOUT, *(other for other in others if other < filling)])
    end = min([filling + 2 * ABOUT, *(other for other in others if other > filling)])
    first, last = _slope(way, start, filling), _slope(way, filling, end)
    if abs(last - first) < FASTER or filling > 1 - ABOUT:
        return
    at = min(way.moments, key=lambda m: abs(m.filling - filling)).state.trim_angle
    by = "bow" if last > 0 else "stern"
    if last * at < 0 and abs(at) > TIPPED:
        if first * at >= 0:
            yield "from here on she comes back towards level"
    elif first * last <= 0:
        yield f"from here on her {by} goes down"
    else:
        how = "faster" if abs(last) > abs(first) else "more slowly"
        yield f"from here on her {by} goes down {how}"


def _coming_in(her: "Assessment", way: "Dive", at: "Moment") -> Iterator[str]:
    """Yield where the water that comes in once she is under lies, and what that does."""
    one, other = at.state, way.moments[-1].state
    more = other.displacement_mass - one.displacement_mass
    if more <= 0:
        return
    moment = other.displacement_mass * other.lcg - one.displacement_mass * one.lcg
    off = moment / more - one.lcb
    if abs(off) < AWAY:
        yield "what comes in now only makes her heavier"
        return
    far, side = her.boat.units.write(abs(off), "length"), words.way(off)[0]
    yield f"what comes in now makes her heavier, and is {far} {side} of B"


def _event(her: "Assessment", way: "Dive", happening: Happening) -> str:
    """Return an event and why it bends the curves, in a sentence."""
    what, full = happening.what, happening.of_kind("full")
    if "" in happening.of_kind("under"):
        more = ["only BG keeps her upright", *_coming_in(her, way, happening.moment)]
        more += _turning(way, happening.filling)
    elif full:
        open_ones = [t.name for t in her.boat.tanks if t.kind == "open" and t.name in full]
        more = ["no free surface any more"] if open_ones else []
    elif happening.of_kind("out"):
        end = "bow" if happening.moment.state.trim_angle < 0 else "stern"
        tip = words.trim(her.boat, happening.moment.state.trim_angle)
        raised = f"with trim {tip} the {end} comes out again" if tip != "level" else "she comes up"
        more = [raised, *_effects(her, way, happening)]
    else:
        more = [_only(her, happening), *_effects(her, way, happening)]
    said = "; ".join(text for text in more if text)
    return f"{what}: {said}" if said else what


def _bends(way: "Dive") -> Iterator[tuple["Moment", bool]]:
    """Yield the moments at which GM turns, beyond small waves, and whether it falls from there."""
    gm = [moment.state.gm_t for moment in way.moments]
    clear = CLEAR * (max(gm) - min(gm))
    if max(gm) - min(gm) < LEAST:
        return
    low = high = 0
    rising: bool | None = None
    for k, value in enumerate(gm):
        low = k if value < gm[low] else low
        high = k if value > gm[high] else high
        if rising is not False and gm[high] - value > clear:
            if rising or (rising is None and high > 0):
                yield way.moments[high], True
            rising, low = False, k
        elif rising is not True and value - gm[low] > clear:
            if rising is False or (rising is None and low > 0):
                yield way.moments[low], False
            rising, high = True, k


def _share_of(one: "State", other: "State", *, rises: bool) -> tuple[str, bool]:
    """Return which part of GM does most to make it rise, or fall, and whether that part grows."""
    parts = {
        "waterplane": other.bm_t - one.bm_t,
        "tanks": one.free_surface_t - other.free_surface_t,
        "BG": other.bg - one.bg,
    }
    name = max(parts, key=lambda key: parts[key] if rises else -parts[key])
    return name, parts[name] > 0


REASONS = {
    ("waterplane", True): "a broad part of her, such as a flat deck, reaches the surface",
    ("waterplane", False): "a broad part of her has gone under, so that the waterplane is smaller",
    ("tanks", True): "the water in her tanks has less surface to run on",
    ("tanks", False): "the water in her tanks has more surface to run on",
    ("BG", True): "her buoyancy moves up: B rises over G",
    ("BG", False): "B sinks towards G",
}


def _bend(her: "Assessment", at: "Moment", then: "Moment", *, top: bool) -> str:
    """Return a turning point of GM and what makes it go on to the next, in a sentence."""
    gm = her.boat.units.write(at.state.gm_t, "length")
    part, more = _share_of(at.state, then.state, rises=not top)
    return f"GM {'falls' if top else 'grows'} from {gm}: {REASONS[part, more]}"


def kinks(her: "Assessment", way: "Dive") -> list[tuple["Moment", str]]:
    """Return each kink of a way down and why it is there, in the order in which they come."""
    found = [(h.moment, _event(her, way, h)) for h in happenings(way)]
    taken = [moment.filling for moment, _ in found]
    bends = [*_bends(way)]
    goals = [moment for moment, _ in bends[1:]] + [way.moments[-1]]
    found += [
        (at, _bend(her, at, then, top=top))
        for (at, top), then in zip(bends, goals, strict=bool(bends))
        if abs(at.state.heel) < LOLLS and all(abs(at.filling - other) > ABOUT for other in taken)
    ]
    return sorted(found, key=lambda kink: kink[0].filling)
