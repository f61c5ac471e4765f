"""The dive as a table of states, from which the browser moves the boat between two of them."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from math import degrees

import numpy as np

from trimdive.assessment import Assessment
from trimdive.ballast.dive import Dive
from trimdive.ballast.dive.upright import stands_upright
from trimdive.findings.stability import LOLLS
from trimdive.hydrostatics.equilibrium import State
from trimdive.hydrostatics.equilibrium.named import how_full
from trimdive.page.scene import bounds, tanks, water_hatch
from trimdive.pictures.drawings.view import MM
from trimdive.pictures.drawings.words import places
from trimdive.text.moments import event_words
from trimdive.units import number_in, unit_named

CLEAR = 0.035  # of her length: room shown between the water and what is wholly under it [-]
SINKS = 0.03  # filling over which that room comes to be [-]

# How near to what was worked out the browser may show her between two moments: as one is told.
NEAR = {  # [-, mm, °]
    "filling": 1.0,
    "up_x": 3e-4,
    "up_y": 3e-4,
    "up_z": 3e-4,
    "water": 0.3,
    "g_x": 0.5,
    "g_z": 0.5,
    "b_x": 0.5,
    "b_z": 0.5,
    "bg": 0.5,
    "trim": 0.02,
    "heel": 0.05,
}
NEAR_IN_TANK = {"share": 2e-3, "level": 0.3}  # of each tank [-, mm]

View = dict[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class InTank:
    """Water in a tank."""

    share: float  # how full it is [-]
    level: float  # height of the water along up [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lie:
    """How she lies, as the browser takes it."""

    filling: float  # on the way from blown to full [-]
    up_x: float  # what is up, in her axes [-]
    up_y: float  # [-]
    up_z: float  # [-]
    water: float  # height of the water along up [mm]
    g_x: float  # place of G [mm]
    g_z: float  # [mm]
    b_x: float  # place of B [mm]
    b_z: float  # [mm]
    bg: float  # B over G along the plumb line, as the figure beside her has it [mm]
    trim: float  # by the bow [°]
    heel: float  # to starboard [°]
    tanks: tuple[InTank, ...]  # in the order of the boat file


def lying(her: Assessment, state: State, filling: float, gone: float) -> Lie:
    """Return how she lies.

    Args:
        her: The boat.
        state: At rest.
        filling: Where that is on the way from blown to full [-].
        gone: How far she is taken to have sunk below the surface where she is under, 0 to 1 [-].
    """
    at = state.rest
    water = float(at.d) + (gone * CLEAR * her.floater.length if at.under else 0.0)
    x, y, z = (round(float(one), 5) for one in at.n)
    return Lie(
        filling=filling,
        up_x=x,
        up_y=y,
        up_z=z,
        water=round(MM * water, 2),
        g_x=round(MM * float(state.lcg), 2),
        g_z=round(MM * float(state.kg), 2),
        b_x=round(MM * float(state.lcb), 2),
        b_z=round(MM * float(state.kb), 2),
        bg=round(MM * float(state.bg), 4),
        trim=round(degrees(state.trim_angle), 2),
        heel=round(degrees(state.heel), 2),
        tanks=tuple(
            InTank(
                share=round(float(at.waters[k] / room), 3), level=round(MM * float(at.levels[k]), 2)
            )
            for k, room in enumerate(her.floater.tanks.capacities)
        ),
    )


def lie(her: Assessment, state: State, filling: float, gone: float) -> View:
    """Return how she lies, by the names of ``Lie``, for the browser."""
    return asdict(lying(her, state, filling, gone))


def exact(her: Assessment, state: State, filling: float) -> View:
    """Return how she lies in one state at a filling [-], as ``lie`` does."""
    return lie(her, state, filling, _gone(filling, _under_from(her.down)))


def _under_from(way: Dive) -> float:
    """Return the least filling at which she is wholly under; above 1 where she never is [-]."""
    return min((one.filling for one in way.moments if one.state.rest.under), default=2.0)


def _gone(filling: float, start: float) -> float:
    return min(max((filling - start) / SINKS, 0.0), 1.0)


def runs(her: Assessment, way: Dive) -> list[View]:
    """Return the way as runs of moments in rising order, each without a jump: columns by name.

    Between two moments of one run the browser may show what lies between; a run ends at a jump
    and where a rest would not hold.
    """
    start = _under_from(her.down)
    jumped = {id(jump.before) for jump in way.jumps}
    found: list[list[Lie]] = [[]]
    for one in way.moments:
        given = lying(her, one.state, round(one.filling, 6), _gone(one.filling, start))
        if not one.state.rest.stable:
            found += [[given], []]
            continue
        found[-1].append(given)
        if id(one.state) in jumped:
            found.append([])
    kept = [columns(thinned(sorted(run, key=_numbers))) for run in found if run]
    return kept[::-1] if way is her.up else kept


def _numbers(one: Lie) -> list[float]:
    """Return how she lies as one row of a table."""
    own: list[float] = [getattr(one, name) for name in NEAR]
    return own + [getattr(tank, name) for tank in one.tanks for name in NEAR_IN_TANK]


def columns(run: Sequence[Lie]) -> View:
    """Return a run with a list for each name of ``Lie``, and of each tank."""
    view: View = {name: [getattr(one, name) for one in run] for name in NEAR}
    tanks = zip(*(one.tanks for one in run), strict=True)
    view["tanks"] = [
        {name: [getattr(one, name) for one in tank] for name in NEAR_IN_TANK} for tank in tanks
    ]
    return view


def thinned(run: Sequence[Lie]) -> list[Lie]:
    """Return a run without the moments that the browser finds between their neighbours itself.

    >>> level = dict.fromkeys(NEAR, 0.0)
    >>> len(thinned([Lie(**{**level, "filling": k / 4}, tanks=()) for k in range(5)]))
    2
    """
    table = np.array([_numbers(one) for one in run])
    near = np.array([*NEAR.values(), *(list(NEAR_IN_TANK.values()) * len(run[0].tanks))])
    keep = np.zeros(len(run), dtype=bool)
    keep[[0, -1]] = True
    spans = [(0, len(run) - 1)]
    while spans:
        i, j = spans.pop()
        if j - i < 2:
            continue
        share = (table[i + 1 : j, :1] - table[i, 0]) / (table[j, 0] - table[i, 0])
        between = table[i] + share * (table[j] - table[i])
        off = np.abs((table[i + 1 : j] - between) / near).max(axis=1)
        k = int(off.argmax())
        if off[k] > 1.0:
            keep[i + 1 + k] = True
            spans += [(i, i + 1 + k), (i + 1 + k, j)]
    return [one for one, is_kept in zip(run, keep, strict=True) if is_kept]


def leaning(her: Assessment, way: Dive) -> list[dict[str, float]]:
    """Return the stretches of filling over which she is not upright: start, end, heel [°]."""
    found: list[dict[str, float]] = []
    was = False
    for one in sorted(way.moments, key=lambda moment: moment.filling):
        heel = round(abs(degrees(one.state.heel)), 2)
        is_large = heel > LOLLS or not stands_upright(her.floater, one.state)
        if is_large and was:
            found[-1] |= {"end": one.filling, "heel": max(found[-1]["heel"], heel)}
        elif is_large:
            found.append({"start": one.filling, "end": one.filling, "heel": heel})
        was = is_large
    return found


def weight_table(her: Assessment) -> View:
    """Return weight less buoyancy blown and full, for the browser, in the unit she is shown in."""
    unit = unit_named(her.boat.units.shown("mass"), "mass")
    return {
        "blown": unit.number(her.surfaced.rest.excess),
        "full": unit.number(her.full.rest.excess),
        "name": unit.name,
        "decimals": unit.decimals,
    }


def neutral(her: Assessment) -> float | None:
    """Return where on the way she is neutral wholly under [-]; None where she never is."""
    is_there = her.full.rest.under and not her.surfaced.rest.under
    return round(her.neutral, 5) if is_there and 0 <= her.neutral <= 1 else None


def marks(her: Assessment) -> list[View]:
    """Return where it is told how far off her waterline she floats: name, x and its height [mm]."""
    line = her.boat.waterline
    if line is None:
        return []
    return [
        {"name": name, "x": round(MM * x, 1), "z": round(MM * line.height_at(x), 2)}
        for name, x in places(her)
    ]


def table(her: Assessment) -> View:
    """Return the whole dive for the browser."""
    is_one = not her.down.jumps and not her.up.jumps
    down = runs(her, her.down)
    unit = her.boat.units.shown("length")
    return {
        "bounds": bounds(her),
        "middle": round(MM * her.midships, 1),
        "tanks": tanks(her),
        "marks": marks(her),
        "length": {
            "per_mm": number_in(1 / MM, "length", unit),
            "name": unit,
            "decimals": unit_named(unit, "length").decimals,
        },
        "weight": weight_table(her),
        "hatch": water_hatch(her),
        "share": {
            "blown": how_full(her.floater, her.blown_water),
            "full": how_full(her.floater, her.full_water),
        },
        "neutral": neutral(her),
        "down": down,
        "up": down if is_one else runs(her, her.up),
        "heels": leaning(her, her.down),
        "jumps": [
            {"filling": round(j.filling, 5), "angle": round(degrees(j.angle), 1)}
            for j in her.down.jumps
        ],
        "events": [
            {
                "filling": round(event.filling, 4),
                "kind": event.kind,
                "says": event_words([event]),
            }
            for event in her.down.events
        ],
    }
