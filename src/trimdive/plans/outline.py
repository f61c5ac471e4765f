"""From traced lines to the figures of an outline, as a boat file has them.

Of a traced line as few points are taken as a batten needs to pass all the others within half a
pixel: ends, the middle and the greatest first, then wherever the batten is furthest off.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np

from trimdive.boatfile import OutlineRegion
from trimdive.geometry.lines import Floats
from trimdive.geometry.lines.loft import ROUND_BELOW
from trimdive.geometry.lines.outline import Finish, Pins, through
from trimdive.plans.agree import on_line
from trimdive.plans.views import Traced, TracedSection

PASSES = 0.5  # how near a batten passes the points left out, in pixels [-]
FINEST = 1e-4  # and nearer than this share of the length is never needed [-]
MOST = 60  # points of one line [-]
DIGITS = 5  # decimals of a metre that are written
NOTHING = 1e-6  # less than this is no length [m]

Rows = list[dict[str, object]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """How the half-breadths finish."""

    stern: Finish
    bow: Finish


def outline_figures(hull: Traced) -> dict[str, object]:
    """Return the figures of an outline, by their names in a boat file, in SI.

    Args:
        hull: The lines that are taken.
    """
    middle = (hull.ends[0] + hull.ends[1]) / 2.0
    keel, deck = (_pins(line, hull, level=level, also=(middle,)) for line, level in _profile(hull))
    half = _half(hull)
    sections: Rows = [
        {
            "x": _mm(one.x),
            "shape": "points",
            **_points(one),
        }
        for one in hull.sections
    ]
    broadest = max([y for _, y in half] + [float(one.points[:, 0].max()) for one in hull.sections])
    at = {name: dict(line) for name, line in (("keel", keel), ("deck", deck))}
    places = sorted({x for x, _ in (*keel, *deck)})
    profile: Rows = [{"x": x, **{name: z[x] for name, z in at.items() if x in z}} for x in places]
    figures: dict[str, object] = {
        "length": _mm(places[-1] - places[0]),
        "breadth": _mm(2.0 * broadest),
        "height": _mm(at["deck"][_mm(middle)] - at["keel"][_mm(middle)]),
        "profile": profile,
        "breadths": [{"x": x, "half": y} for x, y in half],
        "section": sections,
    }
    ends = finishes(hull)
    known = {"stern": ends.stern, "bow": ends.bow}
    return figures | {end: how for end, how in known.items() if how != "not entered"}


def _points(section: TracedSection) -> dict[str, object]:
    """Return points and knuckles of a section; points that are written alike only once."""
    points = [[_mm(y), _mm(z)] for y, z in section.points.tolist()]
    kept = [k for k, point in enumerate(points) if point not in points[:k]]
    knuckles = [kept.index(k - 1) + 1 for k in section.knuckles if k - 1 in kept]
    return {"points": [points[k] for k in kept], "knuckles": knuckles}


def outline_region(hull: Traced, name: str) -> OutlineRegion:
    """Return the region of a boat file with these lines, without its skin.

    Args:
        hull: The lines that are taken.
        name: What the builder calls it.

    Raises:
        UnitError: A length is more than a model boat can have, as on a plan at no scale.
    """
    told: dict[str, Any] = {"surface": "outline", "name": name, **outline_figures(hull)}
    return OutlineRegion(**told)


def finishes(hull: Traced) -> Ends:
    """Return how the half-breadths finish: round where they grow fast from an end.

    Args:
        hull: The lines; without a plan traced to an end, nothing is known of it.
    """
    low, high = hull.ends
    stern = _finish(hull.half, low, hull.worth)
    return Ends(stern=stern, bow=_finish(hull.half[::-1], high, hull.worth))


def _finish(line: Floats, end: float, worth: float) -> Finish:
    """Return how a line finishes at its first point."""
    if len(line) < 3 or abs(line[0, 0] - end) > worth or line[0, 1] > worth:
        return "not entered"
    run = np.abs(line[1:3, 0] - line[0, 0])
    rise = line[1:3, 1] - line[0, 1]
    if rise.min() <= 0.0 or rise[0] == rise[1]:
        return "not entered"
    return "round" if np.log(rise[1] / rise[0]) / np.log(run[1] / run[0]) < ROUND_BELOW else "sharp"


def _profile(hull: Traced) -> tuple[tuple[Floats, Callable[[list[float]], float] | None], ...]:
    """Return keel and deck, each with what picks the place at which it runs level."""
    return (hull.keel, min), (hull.deck, None)


def _half(hull: Traced) -> list[tuple[float, float]]:
    """Return the half-breadths that are written; nothing between the ends without breadth."""
    if not len(hull.half):
        return []
    ends = finishes(hull)
    pins = _pins(hull.half, hull, level=max, ends=ends)
    low, high = (_mm(end) for end in hull.ends)
    pointed = {x for x, k in ((low, 0), (high, -1)) if hull.deck[k, 1] - hull.keel[k, 1] < NOTHING}
    return [(x, y) for x, y in pins if (x not in pointed if y > NOTHING else x in (low, high))]


def _pins(
    line: Floats,
    hull: Traced,
    *,
    level: Callable[[list[float]], float] | None,
    also: tuple[float, ...] = (),
    ends: Ends | None = None,
) -> Pins:
    """Return as few points of a line as a batten needs to pass near all the others."""
    nearest = max(PASSES * hull.worth, FINEST * (hull.ends[1] - hull.ends[0]))
    stern, bow = (ends.stern, ends.bow) if ends else ("sharp", "sharp")
    x, v = line.T
    taken = {0, len(x) - 1, int(np.argmax(v)), int(np.argmin(v))}
    more = {place: float(on_line(line, np.array([place]))[0]) for place in also}
    while True:
        run = {float(x[k]): float(v[k]) for k in taken} | more
        pins = tuple(sorted((_mm(place), _mm(figure)) for place, figure in run.items()))
        off = np.abs(through(pins, x, stern, bow, level) - v)
        off[list(taken)] = 0.0
        worst = int(np.argmax(off))
        if off[worst] <= nearest or len(pins) >= MOST:
            return pins
        taken.add(worst)


def _mm(figure: float) -> float:
    """Return a length as it is written, to the hundredth of a millimetre [m]."""
    return round(figure, DIGITS) + 0.0
