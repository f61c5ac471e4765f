"""How many pieces a row holds, and whether the mass of one times them makes the row's total."""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trimdive.errors import UnitError
from trimdive.fact import fact
from trimdive.units import number_in
from trimdive.weightlists.numbers import Figure, Marks, count, figure
from trimdive.weightlists.records import ColumnRead
from trimdive.weightlists.sheet import Cell, Line

WHOLE = re.compile(r"\d{1,3}(?:[.,]0+)?")
MOST_PIECES = 999
USUAL = ("g", "kg", "oz", "lb")  # units that the mass of one may have where nothing tells it
HALF = 0.6  # of a last digit: so far rounding takes a figure, with a little to spare [-]
NOISE = 1e-9  # kg; and of the mass: what floating point leaves behind


def numbered(columns: Sequence[ColumnRead], body: Sequence[Line]) -> list[ColumnRead]:
    """Return the columns with one headed "No." taken for pieces, where it counts no rows.

    Beside a mass of one piece it can hardly be anything else; where its figures run on by one from
    row to row it only counts them.

    Args:
        columns: As read so far; such a column has the use "number".
        body: The rows below the heads.
    """
    uses = {column.use for column in columns}
    is_asked = bool(uses & {"mass_each", "mass_all"}) and "quantity" not in uses
    found: list[ColumnRead] = []
    for column in columns:
        if column.use != "number":
            found.append(column)
        elif is_asked and _counts_pieces(column, body):
            why = fact("column-holds", use="quantity")
            found.append(replace(column, use="quantity", why=why))
            is_asked = False
        else:
            found.append(replace(column, use="", why=fact("column-numbers-rows")))
    return found


def _counts_pieces(column: ColumnRead, body: Sequence[Line]) -> bool:
    """Return whether a column holds whole numbers that do not run on from row to row."""
    texts = [cell.text for line in body if (cell := line.cell(column.index)).text]
    if not texts or not all(WHOLE.fullmatch(text) for text in texts):
        return False
    values = [int(re.split(r"[.,]", text)[0]) for text in texts]
    rises = all(b == a + 1 for a, b in pairwise(values))
    return not (rises and len(values) > 1) and max(values) <= MOST_PIECES


def unit_of_one(
    column: ColumnRead, whole: ColumnRead, pieces: ColumnRead | None, body: Sequence[Line],
    how: Marks,
) -> str:  # fmt: skip
    """Return the unit in which one piece times its number makes the total of most rows, or "".

    Args:
        column: Mass of one piece, whose unit nothing tells.
        whole: Mass of all, whose unit is told.
        pieces: How many there are; None where no column says.
        body: The rows below the heads.
        how: How the list writes decimals.
    """
    right: dict[str, int] = dict.fromkeys(USUAL, 0)
    rows = 0
    for line in body:
        one, all_ = line.cell(column.index), line.cell(whole.index)
        if not one.text or not all_.text:
            continue
        try:
            number = count(line.cell(pieces.index), how) if pieces else 1.0
            total = figure(all_, "mass", whole.unit, how)
            tried = {unit: figure(one, "mass", unit, how) for unit in USUAL}
        except UnitError:
            continue
        rows += 1
        for unit, each in tried.items():
            right[unit] += makes(each, number, total)
    best = max(right, key=lambda unit: right[unit])
    return best if rows and right[best] > rows / 2 else ""


def without_running(
    columns: Sequence[ColumnRead], body: Sequence[Line], how: Marks
) -> list[ColumnRead]:
    """Return the columns with a total left aside that only runs on from row to row.

    Args:
        columns: With their units.
        body: The rows below the heads.
        how: How the list writes decimals.
    """
    uses = {column.use: column for column in columns}
    one, whole = uses.get("mass") or uses.get("mass_each"), uses.get("mass_all")
    if one is None or whole is None or "quantity" in uses or not _runs_on(one, whole, body, how):
        return list(columns)
    changed = {
        whole.index: replace(whole, use="", why=fact("column-runs-on")),
        one.index: replace(one, use="mass", why=fact("column-holds", use="mass")),
    }
    return [changed.get(column.index, column) for column in columns]


def _runs_on(one: ColumnRead, whole: ColumnRead, body: Sequence[Line], how: Marks) -> bool:
    """Return whether each total is that of the row before and the mass of its own row."""
    so_far, rows = 0.0, 0
    for line in body:
        cells = line.cell(one.index), line.cell(whole.index)
        if not cells[0].text or not cells[1].text:
            continue
        try:
            mass = figure(cells[0], "mass", one.unit, how)
            total = figure(cells[1], "mass", whole.unit or one.unit, how)
        except UnitError:
            return False
        so_far, rows = so_far + mass.value, rows + 1
        if abs(so_far - total.value) > total.digit + rows * mass.digit + NOISE:
            return False
    return rows > 1


def pieces_implied(each: Figure, total: Figure) -> bool:
    """Return whether a total is a whole number of pieces, as far as its digits tell."""
    number = round(total.value / each.value) if each.value > 0.0 else 0
    return 1 <= number <= MOST_PIECES and makes(each, float(number), total)


def makes(each: Figure, number: float, total: Figure) -> bool:
    """Return whether so many pieces make a total, as far as their digits tell."""
    room = HALF * (each.digit * number + total.digit) + NOISE * (1.0 + abs(total.value))
    return abs(each.value * number - total.value) <= room


def disagreement(
    each: Figure, number: float, total: Figure, unit: str, cells: tuple[Cell, Cell]
) -> UnitError:
    """Return what is wrong where the pieces of a row do not make its total.

    Args:
        each: Mass of one [kg].
        number: How many there are [-].
        total: What the row says of all [kg].
        unit: In which it is told.
        cells: Of both masses.
    """
    one, made, stated = (
        f"{number_in(value, 'mass', unit):.6g} {unit}"
        for value in (each.value, each.value * number, total.value)
    )
    what = f"{number:g} × {one} make {made}, but its total says {stated}"
    return UnitError(what, "", f"Mend '{cells[0].text}', '{cells[1].text}' or the pieces.")
