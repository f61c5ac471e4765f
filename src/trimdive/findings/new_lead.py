"""Where new lead lies: low in the hull where it has room, else on the floor of a cylinder."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit
from trimdive.geometry.clashes.moves import GAP
from trimdive.geometry.clashes.shapes import Shape, Triple
from trimdive.geometry.clashes.solids import Bore, Solid
from trimdive.geometry.solids.hull import density_of
from trimdive.geometry.solids.inside import is_inside_grid

LEAD = density_of("lead", None) or 0.0  # density of new lead [kg/m³]
LEAD_HEIGHT = 0.01  # of new lead above the lowest lead aboard, or above the keel [m]
SECTIONS = (  # breadth and height of a bar, in shares of the usual ones [-]
    (1.0, 1.0), (1.0, 0.7), (0.7, 1.0), (1.0, 0.5), (0.6, 0.6), (1.0, 0.3), (0.4, 0.4),
)  # fmt: skip
ASIDE = (0.0, 0.2, 0.3)  # a pair lies so far to each side, in shares of the hull's breadth [-]
APART = (0.0, 0.03, 0.06, 0.09, 0.12, 0.16, 0.2, 0.25, 0.3)  # two, so far fore and aft [-]
LONGEST = 0.25  # of the hull's length, or of a bore's [-]
UP = 0.0005  # steps up from the keel in which room is looked for [m]
HIGHEST = 0.25  # of the hull's height: lead any higher is not low [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class NewLead:
    """Lead that has room where it lies, in one bar, a pair, or two fore and aft of the place."""

    mass: float  # in all [kg]
    homes: tuple[str, ...]  # cylinders in which it lies; none: all of it in the wet
    count: int  # bars, a pair counted as one [-]
    edits: tuple[Edit, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bar of lead, or a pair to port and starboard."""

    shape: Shape  # of the one to port
    home: str  # the cylinder in which it lies, or "" for the wet
    mass: float  # of both of a pair [kg]
    pair: bool


def new_lead(her: Assessed, short: float, x: float, z: float) -> NewLead | None:
    """Return lead that weighs so much under water and lies clear; None where none has room.

    Args:
        her: The boat.
        short: What it is to weigh under water [kg].
        x: Its place along her [m].
        z: Its height, where that is free [m].
    """
    for apart in APART:
        far = apart * her.floater.length
        places = (x - far, x + far) if far else (x,)
        bars = [_one(her, short / len(places), at, z) for at in places]
        found = [bar for bar in bars if bar]
        if len(found) == len(bars):
            return NewLead(
                mass=sum(bar.mass for bar in found),
                homes=tuple(dict.fromkeys(bar.home for bar in found if bar.home)),
                count=len(found),
                edits=tuple(_edit(bar, number) for number, bar in enumerate(found, 1)),
            )
    return None


def _one(her: Assessed, short: float, x: float, z: float) -> Bar | None:
    """Return one bar, or a pair, at a place along her; None where none has room."""
    wet = short / (1 - her.floater.density / LEAD)
    for aside in ASIDE:
        for shape in _in_hull(her, wet, (x, aside, z)):
            if _is_clear(her, shape, "", pair=aside > 0):
                return Bar(shape=shape, home="", mass=wet, pair=aside > 0)
    for bore in her.scene.aboard.bores:
        for shape in _on_floor(bore, short, x):
            if _is_clear(her, shape, bore.name, pair=False):
                return Bar(shape=shape, home=bore.name, mass=short, pair=False)
    return None


def _in_hull(her: Assessed, mass: float, at: Triple) -> Iterator[Shape]:
    """Yield bars in the wet, the usual one first, each as low as the hull lets it lie.

    Args:
        her: The boat.
        mass: Of all of it [kg].
        at: Its place, its share of the breadth to port [-], and its height where free [m].
    """
    low, high = her.hull.envelope.bounds
    whole = float(high[1] - low[1])
    y, count = at[1] * whole, 2 if at[1] else 1
    for broad, thick in SECTIONS:
        breadth, height = whole / 4 * broad / count, whole / 12 * thick
        long = mass / count / LEAD / (breadth * height)
        if long > LONGEST * float(high[0] - low[0]):
            continue
        usual = _bar((at[0], y, max(at[2], LEAD_HEIGHT)), (long, breadth, height))
        lowest = _lowest(her, usual)
        yield from (usual, *(() if lowest is None else (lowest,)))


def _lowest(her: Assessed, bar: Shape) -> Shape | None:
    """Return a bar as low as the skin lets it lie, looked at along a few columns of points."""
    low, high = her.hull.envelope.bounds[:, 2]
    levels = np.arange(float(low), float(low) + HIGHEST * float(high - low), UP)
    xs = np.linspace(*bar.spans[0], 5)
    ys = np.linspace(*bar.spans[1], 3)
    free = is_inside_grid(her.hull.envelope, xs, ys, levels)
    for _, _, skin in her.scene.skins:
        free &= ~is_inside_grid(skin, xs, ys, levels)
    rows = free.all(axis=(0, 1))
    if not rows.any():
        return None
    floor = float(levels[int(np.argmax(rows))]) + GAP
    return _bar((bar.place[0], bar.place[1], floor + bar.size[2] / 2), bar.size)


def _on_floor(bore: Bore, mass: float, x: float) -> Iterator[Shape]:
    """Yield bars on the floor of a bore, the flattest first."""
    room = bore.shapes[0]
    low, high = room.spans[0]
    if room.form == "mesh" or not low < x < high:
        return
    radius = room.size[1] / 2
    for share in (0.5, 0.6, 0.7, 0.4):  # of the bore across
        breadth = share * 2 * radius
        floor = room.place[2] - sqrt(radius**2 - (breadth / 2) ** 2) + GAP / 2
        for height in (0.003, 0.004, 0.006, 0.008, 0.010, 0.014):
            long = mass / LEAD / (breadth * height)
            if long <= LONGEST * (high - low):
                at = min(max(x, low + long / 2), high - long / 2)
                yield _bar((at, room.place[1], floor + height / 2), (long, breadth, height))


def _bar(place: Triple, size: Triple) -> Shape:
    return Shape(form="box", place=place, size=size)


def _is_clear(her: Assessed, shape: Shape, home: str, *, pair: bool) -> bool:
    both = (shape, replace(shape, place=(shape.place[0], -shape.place[1], shape.place[2])))
    return her.scene.is_clear(
        [
            Solid(
                name="added lead", path="lead", kind="lead", home=home, shape=one, claims=True,
                is_point=False, is_outline=False, through=False, mass=0.0,
            )
            for one in (both if pair else (shape,))
        ]
    )  # fmt: skip


def _edit(bar: Bar, number: int) -> Edit:
    """Return the change that adds a bar, or a pair."""
    shape = bar.shape
    fields: list[tuple[str, object]] = [
        ("name", "added lead" if number == 1 else f"added lead {number}"),
        ("mass", bar.mass),
        ("known", "worked out"),
        ("x", shape.place[0]),
        ("z", shape.place[2]),
        ("shape", "box"),
        ("length", shape.size[0]),
        ("breadth", shape.size[1]),
        ("height", shape.size[2]),
    ]
    if bar.pair:
        fields += [("y", shape.place[1]), ("pair", "both")]
    if bar.home:
        fields.insert(1, ("inside", bar.home))
    return Edit(action="add", path="lead", fields=tuple(fields))
