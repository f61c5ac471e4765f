"""Everything that one figure may have been meant to be: each a change of one thing, tried alone."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from trimdive.boatfile import Boat, Cylinder, Part, Tank
from trimdive.boatfile.pieces import Coat, Waterline
from trimdive.boatfile.regions import OutlineRegion, PrismRegion, Skin
from trimdive.fact import Fact, fact
from trimdive.findings.finding import Edit
from trimdive.findings.slips.factors import factors
from trimdive.geometry.solids.build import numbered
from trimdive.units import number_in

KINDS = {"mass": "mass", "hung": "mass", "volume": "volume", "density": "density"}
SIZES = ("length", "breadth", "height", "diameter", "wall")
PART = ("mass", "hung", "volume", "density", "x", "y", "z", *SIZES)
CYLINDER = ("mass", "outside", "wall", "length", "x", "y", "z")
TANK = ("mass", "x", "water_end", "stroke", "length", "bore", "breadth", "height", "y", "z")
OUTLINE = ("length", "breadth", "height")
PRISM = ("x_aft", "x_fore", "breadth", "z_bottom", "z_top")
SKIN = (
    "mass",
    "hung",
    "density",
    "thickness",
    "x",
    "above",
    "below",
    "forward_of",
    "aft_of",
    "inset",
)
ALONG = ("x", "x_aft", "x_fore", "water_end", "forward_of", "aft_of")
SWAPS = (("x", "z"), ("y", "z"), ("x", "y"))
ENDS = (("x_aft", "x_fore"), ("z_bottom", "z_top"))
TURNED = (
    ("length", "breadth"),
    ("length", "height"),
    ("breadth", "height"),
    ("diameter", "length"),
)
RARE_END, RARE_SWAP = 0.4, 0.7  # how much rarer than a slipped decimal point, as a logarithm [-]
PLAIN = 0.5  # how much likelier for each digit fewer, as a logarithm [-]
LEAST_WALL = 0.0002  # no wall and no skin is thinner [m]
LEAST_SIZE = 0.002  # no thing aboard is less long, broad or high, walls aside [m]
PLACES = ("x", "y", "z")
LEAST_PLACE = 0.0005  # nobody measures a place nearer to where it is measured from [m]
SAME = 1e-9  # figures nearer than this are one [m]

Piece = Part | Cylinder | Tank | Coat | Skin | Waterline


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One figure, and what it may have been meant to be."""

    path: str  # of the thing
    name: str  # of the thing
    field: str  # of its figure, as in the boat file
    kind: str  # of quantity
    was: float  # as written [SI]
    would: float  # [SI]
    why: Fact  # how it slipped
    rare: float  # how much rarer than a slipped decimal point, as a logarithm [-]
    changes: tuple[tuple[str, Any], ...]  # fields of the thing

    @property
    def is_nothing(self) -> bool:
        """Return whether nobody measures so: smaller than anything aboard, or nearer to zero."""
        if self.field in ("wall", "thickness"):
            return self.would < min(LEAST_WALL, self.was)
        if self.field in PLACES:
            return 0 < abs(self.would) < min(LEAST_PLACE, abs(self.was))
        return self.field in SIZES and self.would < min(LEAST_SIZE, self.was)

    @property
    def edits(self) -> tuple[Edit, ...]:
        """Return it as a change of the boat."""
        return (Edit(action="set", path=self.path, fields=self.changes),)


def things(boat: Boat) -> Iterator[tuple[str, Piece]]:
    """Yield everything whose figures may have slipped, with its path."""
    for i, region in enumerate(boat.regions, 1):
        yield f"region[{i}]", region
    for i, coat in enumerate(boat.coats, 1):
        yield f"coat[{i}]", coat
    for i, vessel in enumerate(boat.cylinders, 1):
        yield f"cylinder[{i}]", vessel
    for i, tank in enumerate(boat.tanks, 1):
        yield f"tank[{i}]", tank
    yield from numbered(boat)
    if boat.waterline is not None and boat.waterline.height is not None:
        yield "waterline", boat.waterline


def fields_of(piece: Piece) -> tuple[str, ...]:
    """Return the names of the figures that may have slipped.

    A thickness has no say where the wall was measured at several spots.
    """
    named = _named(piece)
    if isinstance(piece, Skin) and piece.spots:
        return tuple(name for name in named if name != "thickness")
    return named


def _named(piece: Piece) -> tuple[str, ...]:
    match piece:
        case Part():
            return PART
        case Cylinder():
            return CYLINDER
        case Tank():
            return TANK
        case PrismRegion():
            return (*SKIN[:5], *PRISM)
        case OutlineRegion():
            return (*SKIN, *OUTLINE)
        case Coat():
            return ("mass", "density")
        case Waterline():
            return ("height",)
        case _:
            return SKIN


def candidates(boat: Boat, path: str, piece: Piece) -> Iterator[Candidate]:
    """Yield what each figure of a thing may have been meant to be.

    Args:
        boat: The boat, resolved.
        path: Of the thing.
        piece: The thing.
    """
    for field in fields_of(piece):
        yield from of_figure(boat, path, piece, field)
    if isinstance(piece, Part | Cylinder | PrismRegion):
        yield from _swapped(path, piece)


def of_figure(boat: Boat, path: str, piece: Piece, field: str) -> Iterator[Candidate]:
    """Yield what one figure of a thing may have been meant to be; nothing where it is none.

    Args:
        boat: The boat, resolved.
        path: Of the thing.
        piece: The thing.
        field: Name of the figure, as in the boat file.
    """
    value = getattr(piece, field, None)
    is_figure = isinstance(value, int | float) and not isinstance(value, bool)
    if is_figure and value and not _follows(piece, field):
        yield from _slips(boat, path, piece, field, float(value))


def _follows(piece: Piece, field: str) -> bool:
    """Return whether a figure is not written but follows from others."""
    if isinstance(piece, Tank) and piece.kind == "piston":
        return field in ("x", "length")
    return isinstance(piece, Tank) and piece.inside is not None and field in ("y", "z")


def _slips(boat: Boat, path: str, piece: Piece, field: str, value: float) -> Iterator[Candidate]:
    kind = KINDS.get(field, "length")
    is_turned = field in ALONG and boat.entered_from == "bow" and boat.length
    written = boat.along(value) if is_turned else value
    for one in factors(kind, field, boat.scale):
        would = boat.along(written * one.times) if is_turned else written * one.times
        rare = one.rare - (_plainer(boat, kind, value, would) if one.is_converted else 0.0)
        yield _candidate(path, piece, field, kind, value, would, one.why, rare)
    long = boat.length
    if field in ALONG and long:
        other = long - value
        if abs(other - value) > 0.01 * long:
            why = fact("slip-other-end")
            yield _candidate(path, piece, field, kind, value, other, why, RARE_END)


def _plainer(boat: Boat, kind: str, was: float, would: float) -> float:
    """Return how much likelier a figure is that is written with fewer digits put right [-].

    Hardly any number divided by 25.4, or by a scale, comes out rounder unless it was made so.
    """
    unit = boat.units.shown(kind)
    lost = _digits(number_in(was, kind, unit)) - _digits(number_in(would, kind, unit))
    return PLAIN * min(max(lost, 0), 2)


def _digits(number: float) -> int:
    """Return with how many digits a number is written.

    >>> _digits(574.04), _digits(22.6), _digits(1680.0)
    (5, 3, 3)
    """
    return len(f"{abs(number):.6g}".partition("e")[0].replace(".", "").strip("0"))


def _candidate(
    path: str, piece: Piece, field: str, kind: str, was: float, would: float, why: Fact, rare: float
) -> Candidate:
    changes: tuple[tuple[str, Any], ...] = ((field, would),)
    name = "the waterline" if isinstance(piece, Waterline) else piece.name
    return Candidate(
        path=path, name=name, field=field, kind=kind, was=was, would=would, why=why,
        rare=rare, changes=changes,
    )  # fmt: skip


def _swapped(path: str, piece: Part | Cylinder | PrismRegion) -> Iterator[Candidate]:
    """Yield two figures of a thing that may stand in each other's place."""
    pairs = ENDS if isinstance(piece, PrismRegion) else SWAPS
    for first, second in (*pairs, *(TURNED if isinstance(piece, Part) else ())):
        a, b = getattr(piece, first, None), getattr(piece, second, None)
        if a is None or b is None or abs(a - b) < SAME or (second == "y" and not b):
            continue
        if isinstance(piece, Part) and piece.pair and (first, second) == ("x", "y"):
            continue
        why = fact("slip-swapped", first=first, second=second)
        changes: tuple[tuple[str, Any], ...] = ((first, b), (second, a))
        yield Candidate(
            path=path, name=piece.name, field=first, kind="length", was=a, would=b, why=why,
            rare=RARE_SWAP, changes=changes,
        )  # fmt: skip
