"""A table of lines, as a builder writes it: which layout it has, and what stands where.

Four layouts, told by the words of the header: points, offsets, section figures, radii
(docs/lines.md describes them). Every row becomes part of a section.
"""

import csv
import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from trimdive.errors import BoatFileError, GeometryError, UnitError, fence
from trimdive.geometry.lines.layouts import sections
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.station import Station
from trimdive.units import read

Layout = Literal["points", "offsets", "figures", "radii"]

NEEDED: dict[Layout, tuple[str, ...]] = {
    "radii": ("x", "radius"),
    "figures": ("x", "keel", "widest", "half breadth", "deck", "deck half"),
    "points": ("x", "y", "z"),
    "offsets": ("x", "keel"),
}
ALLOWED: dict[Layout, tuple[str, ...]] = {
    "radii": ("axis",),
    "figures": ("power",),
    "points": ("knuckle",),
    "offsets": ("keel half", "deck", "deck half", "knuckles"),
}
WORDS = ("knuckle", "knuckles")  # columns that hold words
BARE = ("power", *WORDS)  # columns without a unit
KNOWN = tuple(dict.fromkeys(w for layout in NEEDED for w in NEEDED[layout] + ALLOWED[layout]))
LEAST_STATIONS = 3
MOST_STATIONS, MOST_ROWS, MOST_COLUMNS = 2000, 100_000, 500  # of a table [-]
SHOWN = 40  # letters of a cell that are shown [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column of the table."""

    word: str  # its name without the unit; for a column of offsets its height as typed
    scale: float  # metres in one unit of it; 1 for figures without a unit [m]
    height: float  # of a column of offsets; otherwise not a number [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class LinesTable:
    """A table of lines that was read; ``text`` is what it was read from."""

    name: str
    text: str
    layout: Layout
    unit: str  # of lengths, as the header names it
    head: int  # line of the file that the header stands on
    columns: tuple[Column, ...]
    rows: tuple[int, ...]  # the line of the file that each row stands on
    cells: tuple[tuple[str, ...], ...]  # as typed
    figures: Floats  # the cells in SI, shape (rows, columns), not a number where empty [m]
    stations: tuple[Station, ...]  # in the order of the file

    def column(self, word: str) -> int | None:
        """Return the index of the column of that name, or None."""
        return next((i for i, c in enumerate(self.columns) if c.word == word), None)


def read_table(text: str, name: str) -> LinesTable:
    """Return the table of lines that ``text`` holds.

    Args:
        text: Comma separated values; lines that begin with # are comments.
        name: What to call the table in messages, for example its file name.

    Raises:
        BoatFileError: A cell, the header or the number of stations cannot be right.
        GeometryError: A half-breadth is negative.
    """
    with fence("this table cannot be read", name, "See docs/lines.md for how tables are laid out."):
        return _read(text, name)


def _read(text: str, name: str) -> LinesTable:
    rows, cells = split_cells(text, name)
    if not cells:
        raise BoatFileError("the table is empty", name, "Write a header and a row a station.")
    where = f"{name}:{rows[0]}"
    for count, most, what in (
        (len(rows), MOST_ROWS, "rows"),
        (max(map(len, cells)), MOST_COLUMNS, "columns"),
    ):
        if count > most:
            mend = f"Up to {most} are read: leave out what is between."
            raise BoatFileError(f"the table has {count} {what}", name, mend)
    columns, unit = _columns(cells[0], where)
    layout = _layout(columns, where)
    figures = np.array(
        [
            _row(columns, row, f"{name}:{line}")
            for line, row in zip(rows[1:], cells[1:], strict=True)
        ]
    ).reshape(-1, len(columns))
    _check_figures(figures, columns, rows[1:], name)
    stations = sections(layout, [(c.word, c.height) for c in columns], figures, cells[1:], rows[1:])
    _check_stations(stations, name)
    return LinesTable(
        name=name,
        text=text,
        layout=layout,
        unit=unit,
        head=rows[0],
        columns=columns,
        rows=rows[1:],
        cells=cells[1:],
        figures=figures,
        stations=stations,
    )


def separator(text: str) -> str:
    """Return what stands between the cells: a tab, a semicolon or a comma."""
    header = next((line for line in text.splitlines() if _counts(line)), "")
    return next((mark for mark in "\t;" if mark in header), ",")


def _counts(line: str) -> bool:
    return bool(line.strip(" \t,;")) and not line.lstrip().startswith("#")


def split_cells(text: str, name: str) -> tuple[tuple[int, ...], tuple[tuple[str, ...], ...]]:
    """Return the line numbers and the cells of every line that is not empty or a comment."""
    rows: list[int] = []
    cells: list[tuple[str, ...]] = []
    mark = separator(text)
    for line, content in enumerate(text.removeprefix("\ufeff").splitlines(), start=1):
        if not _counts(content):
            continue
        try:
            row = next(csv.reader([content], delimiter=mark))
        except csv.Error as error:
            raise BoatFileError(
                f"this line cannot be read as a table ({error})",
                f"{name}:{line}",
                "Put commas between the figures.",
            ) from None
        rows.append(line)
        cells.append(tuple(cell.strip() for cell in row))
    return tuple(rows), tuple(cells)


def _columns(header: tuple[str, ...], where: str) -> tuple[tuple[Column, ...], str]:
    """Return the columns that the header names, and the unit that its x has."""
    unit = next((_word_and_unit(cell)[1] for cell in header if cell.split()[:1] == ["x"]), "")
    if not unit:
        raise BoatFileError(
            "the header does not say in which unit x is written",
            where,
            "Write for example 'x mm' as the head of the first column.",
        )
    columns = tuple(_column(cell, unit, where) for cell in header)
    words = [column.word for column in columns]
    if twice := next((word for word in words if words.count(word) > 1), None):
        raise BoatFileError(f"there are two columns '{twice}'", where, "Keep one of them.")
    return columns, unit


def _column(cell: str, unit: str, where: str) -> Column:
    """Return what one head of the table says."""
    word, own = _word_and_unit(cell)
    height = number(word)
    if word not in KNOWN and height is None:
        raise BoatFileError(
            f"'{cell}' is not the head of a column of lines",
            where,
            "Known: " + ", ".join(KNOWN) + ", or a height such as 20.",
        )
    scale = 1.0 if word in BARE else _metres(own or unit, where)
    tall = math.nan if height is None else height * scale
    return Column(word=word, scale=scale, height=tall)


def _metres(unit: str, where: str) -> float:
    """Return how long a unit is [m]."""
    try:
        return read(f"1 {unit}", "length")
    except UnitError:
        raise BoatFileError(
            f"'{unit}' is not a unit of length", where, "Use mm, cm, m, in or ft."
        ) from None


def _word_and_unit(cell: str) -> tuple[str, str]:
    """Return the name of a column and the unit after it.

    >>> _word_and_unit("half breadth [mm]")
    ('half breadth', 'mm')
    """
    words = cell.replace("[", " ").replace("]", " ").replace("(", " ").replace(")", " ").split()
    plain = " ".join(words).lower()
    if plain in KNOWN or len(words) < 2:
        return plain, ""
    return " ".join(words[:-1]).lower(), words[-1]


def _layout(columns: tuple[Column, ...], where: str) -> Layout:
    """Return which of the four layouts these columns are."""
    words = {column.word for column in columns}
    tall = sum(not math.isnan(column.height) for column in columns)
    for layout, needed in NEEDED.items():
        if not words.issuperset(needed) or (layout == "offsets" and not tall):
            continue
        fits = words.issubset(needed + ALLOWED[layout])
        if fits or layout == "offsets":
            return layout
    raise BoatFileError(
        "the header is none of the four layouts of lines",
        where,
        "Use x, y, z (points), or x, keel and heights (offsets), or x, keel, widest,"
        " half breadth, deck, deck half (section figures), or x, radius (round hulls).",
    )


def number(cell: str) -> float | None:
    """Return the number that a cell holds, or None.

    >>> number("59,8"), number("−3"), number("wide")
    (59.8, -3.0, None)
    """
    try:
        value = float(cell.replace("\u2212", "-").replace(",", "."))
    except ValueError:
        return None
    return value if math.isfinite(value) else None


def _row(columns: tuple[Column, ...], cells: tuple[str, ...], where: str) -> list[float]:
    """Return the figures of one row in SI, not a number where a cell is empty or holds words."""
    if any(cells[len(columns) :]):
        raise BoatFileError(
            f"this row has {len(cells)} cells under {len(columns)} heads",
            where,
            "Give every figure a head, or write decimals with a point.",
        )
    figures: list[float] = []
    for column, cell in zip(columns, cells + ("",) * len(columns), strict=False):
        value = number(cell) if cell and column.word not in WORDS else math.nan
        if value is None:
            raise BoatFileError(
                f"'{cell[:SHOWN]}' under '{column.word}' is not a number",
                where,
                "Write digits only.",
            )
        figures.append(value * column.scale)
    return figures


def _check_figures(
    figures: Floats, columns: tuple[Column, ...], rows: tuple[int, ...], name: str
) -> None:
    """Say so when a figure that is needed is missing, or a breadth is negative."""
    for at, column in enumerate(columns):
        if column.word in WORDS:
            continue
        values = figures[:, at]
        tall = not math.isnan(column.height)
        missing = np.flatnonzero(np.isnan(values) & (not tall))
        if len(missing):
            raise BoatFileError(
                f"the figure under '{column.word}' is missing",
                f"{name}:{rows[missing[0]]}",
                "Write it; only cells under heights may be empty.",
            )
        negative = np.flatnonzero(values < 0.0)
        if len(negative) and (tall or column.word in {"y", "radius", "half breadth", "deck half"}):
            raise GeometryError(
                f"'{column.word}' is negative ({values[negative[0]] * 1e3:g} mm)",
                f"{name}:{rows[negative[0]]}",
                "Half-breadths and radii are given for one side only, from the centre line.",
            )


def _check_stations(stations: tuple[Station, ...], name: str) -> None:
    """Say so when there are too few stations, or one stands twice."""
    if len(stations) < LEAST_STATIONS:
        few = "is only one station" if len(stations) == 1 else f"are only {len(stations)} stations"
        raise BoatFileError(
            f"there {few}",
            name,
            f"A hull needs at least {LEAST_STATIONS}.",
        )
    if len(stations) > MOST_STATIONS:
        what, mend = f"there are {len(stations)} stations", f"Keep {MOST_STATIONS} of them."
        raise BoatFileError(what, name, mend)
    for i, later in enumerate(stations):
        for earlier in stations[:i]:
            if math.isclose(earlier.x, later.x, abs_tol=1e-9):
                raise BoatFileError(
                    f"the station at {later.x * 1e3:g} mm stands twice, first in line"
                    f" {earlier.row}",
                    f"{name}:{later.row}",
                    "Keep one of them, or put right its x or that of the rows in between.",
                )
