"""The dive as a table of states, from which the browser moves the boat between two of them."""

from math import degrees

import numpy as np

from trimdive.assessment import Assessment
from trimdive.dive import Dive
from trimdive.dive.upright import stands_upright
from trimdive.drawings.view import MM
from trimdive.drawings.words import places
from trimdive.findings.stability import LOLLS
from trimdive.page.scene import bounds, tanks, water_hatch
from trimdive.rest import State
from trimdive.rest.named import how_full
from trimdive.text.moments import event_words
from trimdive.units import number_in, unit_named

CLEAR = 0.035  # of her length: room shown between the water and what is wholly under it [-]
SINKS = 0.03  # filling over which that room comes to be [-]

# How near to what was worked out the browser may show her between two moments: as one is told.
NEAR = np.array([1.0, 3e-4, 3e-4, 3e-4, 0.3, 0.5, 0.5, 0.5, 0.5, 0.02, 0.05])  # [-, mm, °]
NEAR_IN_TANK = np.array([2e-3, 0.3])  # share, and height of the water [-, mm]

Told = dict[str, object]


def lie(her: Assessment, state: State, gone: float) -> list[float]:
    """Return how she lies, as the browser takes it.

    Args:
        her: The boat.
        state: At rest.
        gone: How far she is taken to have sunk below the surface where she is under, 0 to 1 [-].

    Returns:
        Up in her axes (3), height of the water along it [mm], G x and z, B x and z [mm], trim by
        the bow and heel to starboard [°]; then for each tank how full it is [-] and the height
        of its water along up [mm].
    """
    at = state.rest
    water = at.d + (gone * CLEAR * her.floater.length if at.under else 0.0)
    levels = [
        value
        for k, room in enumerate(her.floater.tanks.capacities)
        for value in (float(at.waters[k] / room), MM * float(at.levels[k]))
    ]
    places = [MM * one for one in (water, state.lcg, state.kg, state.lcb, state.kb)]
    turned = [degrees(state.trim_angle), degrees(state.heel)]
    rounded = [round(float(one), 2) for one in (*places, *turned)]
    return [*(round(float(one), 5) for one in at.n), *rounded, *(round(one, 3) for one in levels)]


def exact(her: Assessment, state: State, filling: float) -> list[float]:
    """Return how she lies in one state at a filling [-], as ``lie`` does."""
    return [filling, *lie(her, state, _gone(filling, _under_from(her.down)))]


def _under_from(way: Dive) -> float:
    """Return the least filling at which she is wholly under; above 1 where she never is [-]."""
    return min((one.filling for one in way.moments if one.state.rest.under), default=2.0)


def _gone(filling: float, start: float) -> float:
    return min(max((filling - start) / SINKS, 0.0), 1.0)


def runs(her: Assessment, way: Dive) -> list[list[list[float]]]:
    """Return the way as runs of moments in rising order, each without a jump.

    Between two moments of one run the browser may show what lies between; a run ends at a jump
    and where a rest would not hold.
    """
    start = _under_from(her.down)
    jumped = {id(jump.before) for jump in way.jumps}
    found: list[list[list[float]]] = [[]]
    for one in way.moments:
        told = [round(one.filling, 6), *lie(her, one.state, _gone(one.filling, start))]
        if not one.state.rest.stable:
            found += [[told], []]
            continue
        found[-1].append(told)
        if id(one.state) in jumped:
            found.append([])
    kept = [thinned(sorted(run)) for run in found if run]
    return kept[::-1] if way is her.up else kept


def thinned(run: list[list[float]]) -> list[list[float]]:
    """Return a run without the moments that the browser finds between their neighbours itself.

    >>> len(thinned([[k / 4, *([0.0] * 10)] for k in range(5)]))
    2
    """
    table = np.array(run)
    near = np.concatenate([NEAR, np.tile(NEAR_IN_TANK, (table.shape[1] - len(NEAR)) // 2)])
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
    return [run[i] for i in np.flatnonzero(keep)]


def leaning(her: Assessment, way: Dive) -> list[list[float]]:
    """Return the stretches of filling over which she is not upright: first, last, heel [°]."""
    found: list[list[float]] = []
    was = False
    for one in sorted(way.moments, key=lambda moment: moment.filling):
        heel = abs(degrees(one.state.heel))
        leans = heel > LOLLS or not stands_upright(her.floater, one.state)
        if leans and was:
            found[-1][1:] = [one.filling, max(found[-1][2], round(heel, 2))]
        elif leans:
            found.append([one.filling, one.filling, round(heel, 2)])
        was = leans
    return found


def weight_table(her: Assessment) -> Told:
    """Return weight less buoyancy blown and full, for the browser, in the unit she is shown in."""
    unit = unit_named(her.boat.units.shown("mass"), "mass")
    ends = (her.surfaced.rest.excess, her.full.rest.excess)
    return {
        "ends": [unit.number(one) for one in ends],
        "unit": unit.name,
        "decimals": unit.decimals,
    }


def marks(her: Assessment) -> list[list[float | str]]:
    """Return where it is told how far off her waterline she floats: name, x and its height [mm]."""
    line = her.boat.waterline
    if line is None:
        return []
    return [[name, round(MM * x, 1), round(MM * line.height_at(x), 2)] for name, x in places(her)]


def table(her: Assessment) -> Told:
    """Return the whole dive for the browser."""
    is_one = not her.down.jumps and not her.up.jumps
    down = runs(her, her.down)
    unit = her.boat.units.shown("length")
    return {
        "bounds": bounds(her),
        "middle": round(MM * her.midships, 1),
        "tanks": tanks(her),
        "marks": marks(her),
        "length": [number_in(1 / MM, "length", unit), unit, unit_named(unit, "length").decimals],
        "weight": weight_table(her),
        "hatch": water_hatch(her),
        "full": [how_full(her.floater, her.blown_water), how_full(her.floater, her.full_water)],
        "down": down,
        "up": down if is_one else runs(her, her.up),
        "leans": leaning(her, her.down),
        "jumps": [[round(j.filling, 5), round(degrees(j.angle), 1)] for j in her.down.jumps],
        "events": [
            [round(event.filling, 4), event.kind, event_words([event])] for event in her.down.events
        ],
    }
