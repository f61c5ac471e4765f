"""The fields of a part in a list beside its name and mass: places, material, words."""

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from trimdive.data import table
from trimdive.errors import UnitError
from trimdive.fact import Fact, fact
from trimdive.units import read
from trimdive.weightlists.numbers import figure
from trimdive.weightlists.sheet import Cell, Line
from trimdive.weightlists.words import FIGURES, folded, meaning, unit_name, words

if TYPE_CHECKING:
    from trimdive.weightlists.records import ColumnRead
    from trimdive.weightlists.rows import Reader

PLAIN = (
    "x_aft",
    "x_fore",
    "y",
    "y_starboard",
    "z",
    "z_bottom",
    "z_top",
    "density",
    "hung",
    "soaked",
)
SIDE = re.compile(r"(.*\d.*?)[\s(]*(?:to\s+)?([^\W\d]+)[)\s.]*")
HAS_DIGIT = re.compile(r"\d")
TO_MIDDLE = ("x", "x_bow", "x_stern", "arm")
NO_FIGURE = ("-", "–", "—", "?")
AT_MIDDLE = {"cl", "middle", "centre", "center", "mitte", "milieu", "midden", "mezzo", "centro"}


def fields_of(reader: "Reader", line: Line) -> tuple[dict[str, str], dict[str, float], list[Fact]]:
    """Return the words, the figures [SI] and the doubts of a part."""
    given: dict[str, str] = {}
    doubts: list[Fact] = []
    for use in ("group", "note", "inside"):
        text = reader.text(line, use)
        if text:
            given[use] = "; ".join(cell.text for _, cell in reader.cells(line, use) if cell.text)
    _aboard(reader, line, given, doubts)
    _known(reader, line, given, doubts)
    _material(reader, line, given, doubts)
    figures = _figures(reader, line, doubts)
    _place(reader, line, given, figures, doubts)
    return given, figures, doubts


def _aboard(reader: "Reader", line: Line, given: dict[str, str], doubts: list[Fact]) -> None:
    """Put in whether the part is aboard today or still to come."""
    text = reader.text(line, "aboard")
    if text and not meaning(text, "aboard"):
        doubts.append(fact("aboard-not-clear", typed=text))
    elif text:
        given["aboard"] = meaning(text, "aboard")


def _known(reader: "Reader", line: Line, given: dict[str, str], doubts: list[Fact]) -> None:
    """Put in how the mass is known, and its ±."""
    text = reader.text(line, "known")
    known = meaning(text, "known") if text else ""
    if known:
        given["known"] = known
    elif text:
        doubts.append(fact("known-not-clear", typed=text))
    for column, cell in reader.cells(line, "spread"):
        if not cell.text or cell.text == "0":
            continue
        try:
            if "%" in cell.text:
                given["spread"] = f"± {cell.text.lstrip('±+-/ ')}"
            else:
                size = figure(
                    _bare(cell), "mass", column.unit or reader.answers.mass_unit, reader.how
                )
                given["spread"] = f"± {size.value * 1000:.9g} g"
        except UnitError as error:
            doubts.append(fact("spread-unread", what=error.what))


def _bare(cell: Cell) -> Cell:
    """Return a cell without its ±."""
    return Cell(text=cell.text.lstrip("±+-/ "), is_number=cell.is_number, unit=cell.unit)


def material_key(text: str) -> str:
    """Return the material of the table that a word means, or nothing.

    >>> material_key("Messing"), material_key("PVC-U clear"), material_key("unobtainium")
    ('brass', 'PVC-U clear', '')
    """
    plain = folded(text)
    own = {folded(entry["key"]): entry["key"] for entry in table("materials")}
    return own.get(plain) or words("material").get(plain, "") or meaning(text, "material")


def _material(reader: "Reader", line: Line, given: dict[str, str], doubts: list[Fact]) -> None:
    """Put in the material, where the table of materials knows it."""
    text = reader.text(line, "material")
    key = material_key(text) if text else ""
    if key:
        given["material"] = key
    elif text:
        given["note"] = "; ".join(filter(None, [given.get("note", ""), text]))
        doubts.append(fact("material-not-in-table", typed=text))


def _figures(reader: "Reader", line: Line, doubts: list[Fact]) -> dict[str, float]:
    """Return the plain figures [SI]: heights, places across, volume, density."""
    found: dict[str, float] = {}
    for column, cell in reader.cells(line, "volume", *PLAIN):
        if not cell.text or cell.text in NO_FIGURE:
            continue
        kind = FIGURES[column.use]
        if folded(cell.text) in AT_MIDDLE and column.use.startswith("y"):
            continue
        try:
            own = _length_unit(reader, line) if kind == "length" else ""
            cell, side = _without_side(cell) if column.use.startswith("y") else (cell, "")
            value = figure(cell, kind, column.unit or own, reader.how).value
        except UnitError as error:
            doubts.append(fact("figure-unread", head=column.head, what=error.what))
            continue
        if column.use in ("volume", "density") and value <= 0:
            continue  # nothing measured
        is_across = column.use.startswith("y")
        is_starboard = side == "starboard" or (column.use == "y_starboard" and not side)
        found["y" if is_across else column.use] = (-value if is_starboard else value) + 0.0
    if len([name for name in ("z", "z_bottom", "z_top") if name in found]) > 1:
        found = {name: v for name, v in found.items() if name not in ("z_bottom", "z_top")}
    return found


def _length_unit(reader: "Reader", line: Line) -> str:
    """Return the unit of a bare length: the row's own, or what was said."""
    return unit_name(reader.text(line, "unit_length"), "length") or reader.answers.length_unit


def _without_side(cell: Cell) -> tuple[Cell, str]:
    """Return a place across without the side behind its figure, and that side: "2.5 P"."""
    found = SIDE.fullmatch(cell.text)
    side = words("side").get(folded(found[2]), "") if found else ""
    if not found or not side or unit_name(found[2], "length"):
        return cell, ""
    return replace(cell, text=found[1].strip(), is_number=False), side


def _place(
    reader: "Reader",
    line: Line,
    given: dict[str, str],
    figures: dict[str, float],
    doubts: list[Fact],
) -> None:
    """Put in the place along the boat and the end from which it is measured."""
    own = reader.text(line, "from")
    if own and HAS_DIGIT.search(own):
        doubts.append(fact("no-end", typed=own))
        own = ""
    end = meaning(own, "end") or own or reader.answers.measured_from
    first: ColumnRead | None = None
    for column, cell in reader.cells(line, *TO_MIDDLE):
        if not cell.text or cell.text in NO_FIGURE:
            continue
        try:
            unit = column.unit or _length_unit(reader, line)
            value = figure(cell, "length", unit, reader.how).value
        except UnitError as error:
            doubts.append(fact("figure-unread", head=column.head, what=error.what))
            continue
        if first is not None:
            if (column.use, value) != (first.use, figures["x"]):
                doubts.append(
                    fact("two-places", taken=first.head, typed=cell.text, head=column.head)
                )
            continue
        figures["x"], first = value, column
        end = {"x_bow": "bow", "x_stern": "stern"}.get(column.use, end)
        given["is_arm"] = "yes" if column.use == "arm" and not end else ""
    ends = [figures.pop(name) for name in ("x_aft", "x_fore") if "x" in figures and name in figures]
    if ends:
        doubts.append(fact("ends-beside-middle"))
    if "x_aft" in figures and "x_fore" in figures:
        figures["x"] = (figures.pop("x_aft") + figures.pop("x_fore")) / 2
    _count_from(end, given, figures, reader.answers.length_unit)


def _count_from(end: str, given: dict[str, str], figures: dict[str, float], unit: str) -> None:
    """Put in the end from which a part is measured, or count its places from the stern."""
    if not end:
        return
    if end in ("bow", "stern") or not HAS_DIGIT.search(end):
        given["from"] = end  # an end, or the name of a mark
        return
    given["from"] = "stern"
    nought = read(end, "length", unit or None, "the list's zero")
    for name in ("x", "x_aft", "x_fore"):
        if name in figures:
            figures[name] += nought
