"""Rows of the weight table: what is typed in the file, and what it comes to."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.page.cells import KNOWN, Cell, cells_of
from trimdive.page.typed_fields import typed_in
from trimdive.units import number_in

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.weights import Entry
    from trimdive.page.desk import Desk

LISTS = {
    "region": ("regions", "hull"),
    "coat": ("coats", "paint"),
    "cylinder": ("cylinders", "cylinders"),
    "tank": ("tanks", "tanks"),
    "part": ("parts", "parts"),
    "lead": ("lead", "lead"),
    "foam": ("foam", "foam"),
}
COLUMNS = ("mass", "known", "spread", "x", "y", "z", "inside")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One thing that weighs, or that is still to be weighed."""

    path: str
    name: str
    group: str
    cells: Mapping[str, Cell]
    options: tuple[str, ...]  # how its mass may be known
    inside: str
    mass: float  # [kg]
    place: tuple[float, float, float]  # [m]
    is_guess: bool
    is_above: bool  # its middle lies above the waterline
    is_removable: bool  # it is a part, lead or foam


def rows(desk: "Desk") -> list[Row]:
    """Return every row, in the order of the boat file."""
    her = desk.her
    entries = {entry.path: entry for entry in her.masses.entries}
    return [row for kind in LISTS for row in _of_kind(desk, her, kind, entries)]


def _of_kind(
    desk: "Desk", her: "Assessment", kind: str, entries: "Mapping[str, Entry]"
) -> Iterator[Row]:
    pieces = getattr(her.boat, LISTS[kind][0])
    for number, (piece, typed) in enumerate(zip(pieces, typed_in(desk, kind), strict=True), 1):
        path = f"{kind}[{number}]"
        entry = entries.get(path)
        if entry is None and kind == "tank":
            continue  # a tank that has no mass of its own
        line = her.boat.waterline
        place = (0.0, 0.0, 0.0) if entry is None else tuple(float(one) for one in entry.place)
        yield Row(
            path=path,
            name=str(getattr(piece, "name", "") or typed.get("name", path)),
            group=LISTS[kind][1],
            cells=cells_of(her, piece, typed, path, entry, COLUMNS),
            options=KNOWN,
            inside=str(typed.get("inside", "")),
            mass=0.0 if entry is None else entry.mass,
            place=(place[0], place[1], place[2]),
            is_guess=entry is not None and entry.known == "guess",
            is_above=line is not None and place[2] > line.height_at(place[0]),
            is_removable=kind in ("part", "lead", "foam"),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Totals:
    """What all of it comes to, and how the browser writes sums of what is shown."""

    mass: str
    spread: str
    x: str
    y: str
    z: str
    count: int
    per_kilogram: float  # of the unit of mass [-]
    per_metre: float  # of the unit of length [-]
    mass_unit: str
    length_unit: str
    middle: float  # x of the middle of mass [m]
    zero: float  # where x is counted from [m]
    way: int  # and which way: 1 forward, -1 aft


def totals(her: "Assessment") -> Totals:
    """Return the sums of everything aboard."""
    boat, masses, units = her.boat, her.masses, her.boat.units
    g = masses.gravity
    mass_unit, length_unit = units.shown("mass"), units.shown("length")
    return Totals(
        mass=units.write(masses.mass, "mass"),
        spread=units.write(masses.spread, "mass"),
        x=boat.place(float(g[0])),
        y=units.write(float(g[1]), "length"),
        z=units.write(float(g[2]), "length"),
        count=len(masses.entries),
        per_kilogram=number_in(1.0, "mass", mass_unit),
        per_metre=number_in(1.0, "length", length_unit),
        mass_unit=mass_unit,
        length_unit=length_unit,
        middle=float(g[0]),
        zero=boat.along(0.0),
        way=1 if boat.along(1.0) > boat.along(0.0) else -1,
    )
