"""The outline of a starter hull: plain proportions, those of the demo boats made alike.

Source: common practice, no source.
"""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import partial

import numpy as np

from trimdive.estimates.starter.figures import number
from trimdive.estimates.starter.pieces import Line, lines, quotes
from trimdive.estimates.starter.wish import Factors, Plan, Section

Rows = tuple[tuple[float, ...], ...]

WET_PROFILE: Rows = (  # place, keel in heights of the waterline, deck in heights amidships [-]
    (0.0, 0.86, 0.94),
    (0.1, 0.44, 0.95),
    (0.2, 0.12, 0.96),
    (0.32, 0.0, 0.98),
    (0.5, 0.0, 1.0),
    (0.72, 0.0, 1.02),
    (0.9, 0.08, 1.07),
    (1.0, 0.48, 1.12),
)
WET_BREADTHS: Rows = (  # place, breadth, widest in heights of the waterline, deck's flat [-]
    (0.0, 0.06, 0.99, 0.05),
    (0.1, 0.52, 0.88, 0.28),
    (0.2, 0.81, 0.78, 0.42),
    (0.35, 0.97, 0.68, 0.53),
    (0.5, 1.0, 0.67, 0.56),
    (0.65, 0.98, 0.67, 0.55),
    (0.8, 0.83, 0.70, 0.45),
    (0.9, 0.57, 0.77, 0.31),
    (1.0, 0.07, 0.97, 0.05),
)
DRY_PROFILE: Rows = (  # as above: a spindle, low in the water
    (0.0, 0.52, 0.58),
    (0.1, 0.30, 0.79),
    (0.25, 0.08, 0.96),
    (0.4, 0.0, 1.0),
    (0.55, 0.0, 1.0),
    (0.75, 0.0, 1.0),
    (0.9, 0.10, 0.94),
    (1.0, 0.46, 0.64),
)
DRY_BREADTHS: Rows = (  # as above; no flat of the deck
    (0.0, 0.07, 0.62, 0.0),
    (0.1, 0.42, 0.62, 0.0),
    (0.25, 0.80, 0.62, 0.0),
    (0.4, 0.98, 0.62, 0.0),
    (0.55, 1.0, 0.62, 0.0),
    (0.75, 0.97, 0.62, 0.0),
    (0.9, 0.64, 0.62, 0.0),
    (1.0, 0.12, 0.62, 0.0),
)
NEAR = 0.02  # of the length: a section this near a row of breadths stands for it [-]
LOW = 0.05  # where a girth was measured the plain deck lies at least so high, in heights [-]
JOINT = 1.02  # where the upper moulding begins, in heights of the waterline [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tower:
    """The tower over the casing."""

    aft: float  # [m]
    fore: float  # [m]
    breadth: float  # [m]
    bottom: float  # well below the casing, which it stands on [m]
    top: float  # [m]
    wall: float  # [m]


def tower(plan: Plan) -> Tower:
    """Return a plain tower."""
    length = plan.wish.length
    return Tower(
        aft=0.545 * length,
        fore=0.665 * length,
        breadth=0.36 * plan.breadth,
        bottom=0.98 * plan.waterline,
        top=2.1 * plan.waterline,
        wall=max(0.0012, round(0.72 * plan.wall, 4)),
    )


def lines_of(plan: Plan) -> tuple[Rows, Rows]:
    """Return profile and breadths of her kind of hull, through what was measured or drawn."""
    if plan.wish.drawn:
        line, high, broad = plan.waterline, plan.height, plan.breadth
        return (
            tuple((x, keel / line, deck / high) for x, keel, deck in plan.wish.drawn.profile),
            tuple((x, b / broad, z / line, 0.0) for x, b, z in plan.wish.drawn.breadths),
        )
    if plan.wish.kind == "dry":
        profile, breadths = DRY_PROFILE, _through_sections(plan, DRY_BREADTHS)
    else:
        profile, breadths = WET_PROFILE, _through_sections(plan, WET_BREADTHS)
    taped = plan.wish.taped
    if taped is None or not taped.rise:
        return profile, breadths
    line = plan.waterline / plan.height
    return (
        tuple(
            (x, keel, line + _rise(taped.rise, x, deck - line))
            for x, keel, deck in _with_places(profile, taped.rise)
        ),
        tuple(
            (x, b * f, z, min(flat * f, 0.9 * b * f))
            for x, b, z, flat in _with_places(breadths, taped.wide)
            for f in (_by(taped.wide, x),)
        ),
    )


def _rise(factors: Factors, x: float, plain: float) -> float:
    """Return how high a deck lies over the waterline, in heights amidships [-].

    Args:
        factors: By place.
        x: Share of the length [-].
        plain: How high the plain form's deck lies; it may go under beyond the outermost girth [-].
    """
    is_between = factors[0][0] <= x <= factors[-1][0]
    return _by(factors, x) * max(plain, LOW) if is_between or plain > 0 else plain


def _by(factors: Factors, x: float) -> float:
    """Return the factor at a place: straight between places, the same beyond the outermost."""
    places, found = zip(*factors, strict=True)
    return float(np.interp(x, places, found))


def _with_places(rows: Rows, factors: Factors) -> Rows:
    """Return rows at the places of factors too."""
    return tuple(sorted((*rows, *_between(rows, [x for x, _ in factors]))))


def _through_sections(plan: Plan, rows: Rows) -> Rows:
    """Return rows of breadths as much fuller or finer, place by place, as the sections are."""
    if not (found := plan.wish.sections):
        return rows
    places, breadths = [row[0] for row in rows], [row[1] for row in rows]
    at = [one.x / plan.wish.length for one in found]
    fuller = [
        one.breadth / plan.breadth / float(np.interp(x, places, breadths))
        for x, one in zip(at, found, strict=True)
    ]
    made = [
        (x, min(b * f, 1.0), z, min(flat * f, 0.9 * b * f))
        for x, b, z, flat in sorted((*rows, *_between(rows, at)))
        for f in (float(np.interp(x, at, fuller)),)
    ]
    return tuple(made)


def _between(rows: Rows, at: list[float]) -> Rows:
    """Return rows at the places of the sections that have none yet."""
    columns = tuple(zip(*rows, strict=True))
    return tuple(
        (x, *(float(np.interp(x, columns[0], column)) for column in columns[1:]))
        for x in at
        if all(abs(x - place) > NEAR for place in columns[0])
    )


def _characters(plan: Plan) -> tuple[Section, ...]:
    """Return the sections whose character is told: as measured, or ovals."""
    length = plan.wish.length
    return plan.wish.sections or tuple(
        Section(x=x * length, breadth=plan.breadth, shape="oval", radius=0.0)
        for x in (0.1, 0.5, 0.9)
    )


def joint(plan: Plan) -> float:
    """Return the height at which the upper moulding begins [m]."""
    taped = plan.wish.taped
    if taped and taped.result.readings.moulding:
        return plan.waterline + taped.result.readings.moulding.edge
    return JOINT * plan.waterline


def deck_at(plan: Plan, x: float) -> float:
    """Return about how high the deck stands at a place [m].

    Args:
        plan: Her proportions.
        x: Forward of the stern [m].
    """
    places, _, decks = zip(*lines_of(plan)[0], strict=True)
    return float(np.interp(x / plan.wish.length, places, decks)) * plan.height


def outline_lines(plan: Plan) -> tuple[Line, ...]:
    """Return the lines of the boat file that tell the outline."""
    length = plan.wish.length
    profile, breadths = lines_of(plan)
    write = partial(number, kind="length", units=plan.wish.units)
    keels = (
        {"x": x * length, "keel": keel * plan.waterline, "deck": deck * plan.height}
        for x, keel, deck in profile
    )
    widths = (
        {"x": x * length, "breadth": b * plan.breadth, "widest": z * plan.waterline}
        | ({"deck_breadth": flat * plan.breadth} if flat else {})
        for x, b, z, flat in breadths
    )
    sections = (
        {"x": one.x, "shape": one.shape} | ({"radius": one.radius} if one.radius else {})
        for one in _characters(plan)
    )
    return lines(
        length=quotes(write(length)),
        breadth=quotes(write(plan.breadth)),
        height=quotes(write(deck_at(plan, length / 2))),
        profile=_rows(keels, write),
        breadths=_rows(widths, write),
        section=_rows(sections, write),
    )


def _rows(rows: Iterable[Mapping[str, float | str]], write: Callable[[float], str]) -> str:
    """Return rows of lengths [m] and words as TOML writes them, one a line."""
    made = (
        ", ".join(
            f"{key} = {quotes(one if isinstance(one, str) else write(one))}"
            for key, one in row.items()
        )
        for row in rows
    )
    return "\n".join(("[", *(f"  {{ {row} }}," for row in made), "]"))
