"""Cells of a thing that weighs: fields of the boat file as typed, and what they come to.

The weight table of Scales and the panel of a thing in hand show the same cells.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, get_args

from trimdive.boatfile.piece import Known, Piece
from trimdive.edits.writing import KINDS
from trimdive.hydrostatics.equilibrium.named import mass, mass_off

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.weights import Entry

KNOWN = ("", *get_args(Known))
ENDS = {  # fields that tell the same place, and what they are measured to
    "x": {"x": "", "x_aft": "after end", "x_fore": "fore end", "water_end": "water end"},
    "z": {"z": "", "z_bottom": "underside", "z_top": "top"},
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell: a field of the file as typed, or only what it comes to."""

    path: str  # of the field; "" where it cannot be typed here
    text: str  # as it stands in the file; "" where it is left out
    comes_to: str  # what it comes to, told where nothing is typed
    hint: str  # what it is measured to, where that is not the middle


def cells_of(
    her: "Assessment",
    piece: Piece,
    typed: Mapping[str, object],
    path: str,
    entry: "Entry | None",
    columns: Sequence[str],
) -> dict[str, Cell]:
    """Return cells of a piece, by their columns.

    Args:
        her: The boat.
        piece: As resolved.
        typed: The same as it stands in the file.
        path: Where it stands there, such as "part[3]".
        entry: What it weighs; None where it has no mass of its own.
        columns: Names of fields; of a place the one to the middle stands for whichever is typed.
    """
    comes = _comes_to(her, piece, columns) | ({} if entry is None else _weighs(her, entry))
    return {one: _cell(one, piece, typed, path, comes.get(one, "")) for one in columns}


def _comes_to(her: "Assessment", piece: Piece, columns: Sequence[str]) -> dict[str, str]:
    """Return what fields of a piece come to, as it was resolved."""
    values = {one: getattr(piece, one, None) for one in columns}
    return {
        one: her.boat.units.write(her.boat.along(value) if one == "x" else value, kind_of(one))
        for one, value in values.items()
        if isinstance(value, float)
    }


def kind_of(field: str) -> str:
    """Return of which kind a figure is.

    >>> kind_of("volume"), kind_of("wall")
    ('volume', 'length')
    """
    return KINDS.get(field, "length")


def _weighs(her: "Assessment", entry: "Entry") -> dict[str, str]:
    """Return what the mass of a piece, how it is known, and its place come to."""
    write = her.boat.units.write
    return {
        "mass": mass(her.boat, entry.mass),
        "known": entry.known,
        "spread": f"± {mass_off(her.boat, entry.spread)}",
        "x": write(her.boat.along(float(entry.place[0])), "length"),
        "y": write(float(entry.place[1]), "length"),
        "z": write(float(entry.place[2]), "length"),
    }


def _cell(column: str, piece: Piece, typed: Mapping[str, object], path: str, comes_to: str) -> Cell:
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
