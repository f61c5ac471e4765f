"""Figures under suspicion: what is asked of them, and what is doubted."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from trimdive.fact import Fact, fact
from trimdive.geometry.lines.slips import slipped_points, swapped_digits
from trimdive.geometry.lines.table import LinesTable, number
from trimdive.units import number_in

MATTERS = 0.02  # of the greatest half-breadth or the range of a column; less is let pass [-]
ALONE = 0.5  # share of the strain of a line that a figure causes, before it is doubted [-]
QUITE_ALONE = 0.8  # the same, where no common slip explains the figure [-]
FAR = 0.1  # of the greatest half-breadth, likewise [-]
EXPLAINS = 0.15  # what a slip may leave of the distance, and yet be likely [-]

NEARLY = 0.6  # of what was meant, that the neighbours may miss it by; else any small one fits [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One cell of a table, and what it ought to hold."""

    line: int  # of the file, from 1
    column: int  # from 0
    likely: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """A figure that looks wrong."""

    line: int  # of the file
    what: Fact  # the doubt
    found: str  # as typed
    likely: str  # '' where nothing common explains it
    off: float  # how far it stands off its neighbours, outwards or upwards positive [m]
    strain: float  # that it causes in a batten along the hull [m⁻¹]
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One figure, and how far it stands off what its neighbours say."""

    row: int  # index into the rows of the table
    column: int
    what: Fact  # which figure
    upright: bool  # a height; otherwise a breadth
    value: float  # [m]
    off: float  # outwards or upwards positive [m]
    beside: float  # straight between the neighbouring stations [m]
    strain: float  # that it causes in a batten along the hull [m⁻¹]
    alone: float  # share of all strain there that it causes; nought at the ends of a line [-]


def length(value: float, table: LinesTable) -> str:
    """Return a length in the unit of the table, for reading [m]."""
    return length_in(value, table.unit)


def length_in(value: float, unit: str) -> str:
    """Return a length in a unit, for reading [m]."""
    figure = number_in(abs(value), "length", unit)
    digits = 0 if figure >= 10.0 else 1 if figure >= 1.0 else 2
    return f"{figure:.{digits}f} {unit}"


def typed(table: LinesTable, row: int, column: int) -> str:
    """Return a cell as it was typed."""
    return table.cells[row][column]


def meant(table: LinesTable, cell: Cell) -> Iterator[tuple[str, float]]:
    """Yield what a figure may have been meant to be, as text and in SI [m].

    Swapped digits change a figure little, so they need a figure that alone makes the lines unfair.
    """
    scale = table.columns[cell.column].scale
    found = typed(table, cell.row, cell.column)
    swaps = swapped_digits(found) if cell.alone > ALONE else ()
    for text in (*slipped_points(found), *swaps):
        yield text, (number(text) or 0.0) * scale


def likely_slip(table: LinesTable, cell: Cell) -> str:
    """Return the slip that explains a figure best, or ''."""
    best, least = "", EXPLAINS * abs(cell.off)
    for text, value in meant(table, cell):
        if (value - cell.value) * (cell.beside - cell.value) < 0:  # farther from its neighbours
            continue
        left = abs(cell.off + value - cell.value)
        if left <= min(least, NEARLY * abs(value)):
            best, least = text, left
    return best


def inexplicable(table: LinesTable, cell: Cell) -> Iterator[Suspect]:
    """Yield a figure that stands far off though no common slip explains it."""
    breadth = max(section.breadth for section in table.stations)
    if cell.alone > QUITE_ALONE and abs(cell.off) > FAR * breadth:
        about = max(cell.value - cell.off, 0.0)
        yield replace(suspect(table, cell, ""), what=_off(table, cell, about=about), changes=())


def suspect(table: LinesTable, cell: Cell, likely: str) -> Suspect:
    """Return the suspect for one figure, with the figure that was likely meant."""
    found = typed(table, cell.row, cell.column)
    line = table.rows[cell.row]
    return Suspect(
        line=line,
        what=_off(table, cell, likely=likely),
        found=found,
        likely=likely,
        off=cell.off,
        strain=cell.strain,
        changes=(Change(line=line, column=cell.column, likely=likely),),
    )


def exchanged(table: LinesTable, first: Cell, second: Cell) -> Suspect:
    """Return the suspect for two figures of one row that stand in each other's place."""
    a, b = (typed(table, cell.row, cell.column) for cell in (first, second))
    line = table.rows[first.row]
    return Suspect(
        line=line,
        what=fact(
            "figures-exchanged",
            station=_station(table, first),
            figure=first.what,
            other=second.what,
            typed=(a, b),
        ),
        found=a,
        likely=b,
        off=first.off,
        strain=max(first.strain, second.strain),
        changes=(
            Change(line=line, column=first.column, likely=b),
            Change(line=line, column=second.column, likely=a),
        ),
    )


def exchange_explains(first: Cell, second: Cell) -> bool:
    """Whether both figures would fit if they stood in each other's place."""
    a = first.off + second.value - first.value
    b = second.off + first.value - second.value
    return abs(a) <= EXPLAINS * abs(first.off) and abs(b) <= EXPLAINS * abs(second.off)


def _off(table: LinesTable, cell: Cell, *, likely: str = "", about: float = 0.0) -> Fact:
    """Return that a figure lies off its neighbours, and what was meant, or about what [m]."""
    return fact(
        "figure-off",
        station=_station(table, cell),
        figure=cell.what,
        typed=typed(table, cell.row, cell.column),
        off=cell.value - cell.beside,
        is_height=cell.upright,
        likely=likely,
        about=about,
        unit=table.unit,
    )


def _station(table: LinesTable, cell: Cell) -> str:
    """Return the place of a station as it was typed."""
    return typed(table, cell.row, table.column("x") or 0)
