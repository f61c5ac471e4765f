"""A table of lines on the board: its cells as typed, what is doubted, one cell changed."""

from dataclasses import dataclass

from trimdive.boatfile import Units
from trimdive.errors import BoatFileError
from trimdive.geometry.lines.doubts import doubts
from trimdive.geometry.lines.table import LinesTable, number, read_table, separator
from trimdive.text.said import said
from trimdive.text.say import say_in
from trimdive.units import number_in, read

MOST = 4000  # cells shown; a longer table is edited in a spreadsheet [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One cell of the table."""

    line: int  # of the file
    column: int  # from 0
    typed: str
    label: str  # what it is, for reading
    is_doubted: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Offsets:
    """A table of lines as the page shows it."""

    file: str
    layout: str
    unit: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Cell, ...], ...]  # none where the table is too long
    doubts: tuple[tuple[str, str], ...]  # each in words, with the figure to write if one is likely


def offsets_of(text: str, file: str) -> Offsets:
    """Return a table of lines as the page shows it."""
    table, say = read_table(text, file), say_in(Units())  # figures are in the unit of the table
    is_long = len(table.rows) * len(table.columns) > MOST
    found = () if is_long else doubts(table)
    doubted = {(change.line, change.column) for doubt in found for change in doubt.changes}
    rows = () if is_long else tuple(_row(table, i, doubted) for i in range(len(table.rows)))
    return Offsets(
        file=file,
        layout=table.layout,
        unit=table.unit,
        heads=tuple(one.word for one in table.columns),
        rows=rows,
        doubts=tuple((said(say, one.what), one.likely if one.changes else "") for one in found),
    )


def _row(table: LinesTable, i: int, doubted: set[tuple[int, int]]) -> tuple[Cell, ...]:
    cells = table.cells[i]
    x = cells[table.column("x") or 0]
    return tuple(
        Cell(
            line=table.rows[i],
            column=k,
            typed=cells[k] if k < len(cells) else "",
            label=f"Station {x}, {column.word}",
            is_doubted=(table.rows[i], k) in doubted,
        )
        for k, column in enumerate(table.columns)
    )


def with_cell(text: str, file: str, line: int, column: int, typed: str) -> str:
    """Return a table with one cell changed, every other character as it was.

    Args:
        text: The table.
        file: Its name, for messages.
        line: Of the file, from 1.
        column: From 0.
        typed: What was typed, in any unit; "" leaves the cell empty.

    Raises:
        BoatFileError: There is no such cell, or what was typed is no figure.
        UnitError: Its unit is none of length.
        GeometryError: The table cannot be right then.
    """
    table = read_table(text, file)
    if line not in table.rows or not 0 <= column < len(table.columns):
        raise BoatFileError("there is no such cell", f"{file}:{line}", "Check the table again.")
    mark = separator(text)
    plain = figure(typed.strip(), table.unit)
    if mark in plain or '"' in plain:
        raise BoatFileError(f"'{typed}' is no figure", f"{file}:{line}", "Enter a number.")
    rows = text.splitlines(keepends=True)
    row = rows[line - 1]
    body = row.rstrip("\r\n")
    cells = body.split(mark) + [""] * (column + 1 - body.count(mark) - 1)
    cells[column] = plain
    rows[line - 1] = mark.join(cells) + row[len(body) :]
    new = "".join(rows)
    read_table(new, file)
    return new


def figure(typed: str, unit: str) -> str:
    """Return a figure as it is written in a table, in the table's unit.

    >>> figure("59,8", "mm"), figure("2.5 in", "mm"), figure("", "mm")
    ('59.8', '63.5', '')
    """
    if not typed:
        return ""
    found = number(typed)
    if found is not None:
        return typed.replace(",", ".").replace("\u2212", "-")
    return f"{number_in(read(typed, 'length', unit), 'length', unit):.6g}"
