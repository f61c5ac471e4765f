"""Rows of the weight table: what is typed in the file, and what it comes to."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.boatfile.piece import Weighed
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
KNOWN = ("", "guess", "worked out", "catalogue", "weighed")
ENDS = {  # fields that tell the same place, and what they are measured to
    "x": {"x": "", "x_aft": "after end", "x_fore": "fore end", "water_end": "water end"},
    "z": {"z": "", "z_bottom": "underside", "z_top": "top"},
}
COLUMNS = ("mass", "known", "spread", "x", "y", "z", "inside")
MM = 1e3


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell: a field of the file as typed, or only what it comes to."""

    path: str  # of the field; "" where it cannot be typed here
    text: str  # as it stands in the file; "" where it is left out
    comes_to: str  # what it comes to, told where nothing is typed
    hint: str  # what it is measured to, where that is not the middle


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
            cells=_cells(her, piece, typed, path, entry),
            options=KNOWN,
            inside=str(typed.get("inside", "")),
            mass=0.0 if entry is None else entry.mass,
            place=(place[0], place[1], place[2]),
            is_guess=entry is not None and entry.known == "guess",
            is_above=line is not None and place[2] > line.height_at(place[0]),
            is_removable=kind in ("part", "lead", "foam"),
        )


def _cells(
    her: "Assessment",
    piece: Weighed,
    typed: Mapping[str, object],
    path: str,
    entry: "Entry | None",
) -> dict[str, Cell]:
    write = her.boat.units.write
    comes = dict.fromkeys(COLUMNS, "")
    if entry is not None:
        comes = {
            "mass": write(entry.mass, "mass"),
            "known": entry.known,
            "spread": f"± {write(entry.spread, 'mass')}",
            "x": write(her.boat.along(float(entry.place[0])), "length"),
            "y": write(float(entry.place[1]), "length"),
            "z": write(float(entry.place[2]), "length"),
            "inside": "",
        }
    return {column: _cell(column, piece, typed, path, comes[column]) for column in COLUMNS}


def _cell(
    column: str, piece: Weighed, typed: Mapping[str, object], path: str, comes_to: str
) -> Cell:
    """Return a cell: the field that the piece has it in, or the one it would go into."""
    fields = type(piece).model_fields
    names = ENDS.get(column, {column: ""})
    own = next((name for name in names if name in typed), column)
    by_ends = "by_ends" in typed and column in ("mass", "x")
    can = own in fields and not by_ends and not isinstance(typed.get(own), dict | list)
    hint = "by its two ends" if by_ends else names.get(own, "")
    measured = typed.get("from")
    if column == "x" and isinstance(measured, str) and own in typed:
        hint = " ".join([hint, f"from the {measured}"]).strip()
    return Cell(
        path=f"{path}.{own}" if can else "",
        text=str(typed.get(own, "")) if can else "",
        comes_to=comes_to,
        hint=hint,
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
