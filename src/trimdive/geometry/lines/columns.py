"""Figures that stand off along the hull: the keel, the deck, the radii, station by station."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

import numpy as np

from trimdive.fact import fact
from trimdive.geometry.lines.batten import by_the_others, shares
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.suspects import (
    ALONE,
    MATTERS,
    Cell,
    Suspect,
    exchange_explains,
    exchanged,
    inexplicable,
    likely_slip,
    suspect,
)
from trimdive.geometry.lines.table import LinesTable

WILD = 1.0  # of the greatest half-breadth; further off, an end station is doubted as others [-]
RUNNING = (  # columns that run along the hull
    "keel",
    "keel half",
    "widest",
    "half breadth",
    "deck",
    "deck half",
    "radius",
    "axis",
)
HEIGHTS = ("keel", "widest", "deck", "axis")


def column_suspects(table: LinesTable) -> Iterator[Suspect]:
    """Yield the figures that stand off from the rest of their column."""
    doubted: dict[int, list[Cell]] = {}
    wild = WILD * max(section.breadth for section in table.stations)
    for word, column, rows in _columns(table):
        for cell in _down(table, word, column, rows):
            doubted.setdefault(cell.row, []).append(cell)
            x = table.figures[rows, table.column("x") or 0]
            at_end = x[rows.index(cell.row)] in {x.min(), x.max()}
            careful = replace(cell, alone=0.0) if at_end and abs(cell.off) < wild else cell
            if cell.alone > ALONE and (likely := likely_slip(table, careful)):
                yield suspect(table, cell, likely)
            else:
                yield from inexplicable(table, careful)
    for cells in doubted.values():
        for first, second in combinations(cells, 2):
            if exchange_explains(first, second):
                yield exchanged(table, first, second)


def _columns(table: LinesTable) -> Iterator[tuple[str, int, list[int]]]:
    """Yield what runs along the hull: its name, its column, and one row a station."""
    if table.layout != "points":
        for word in RUNNING:
            if (column := table.column(word)) is not None:
                yield word, column, list(range(len(table.rows)))
        return
    first = [table.rows.index(section.row) for section in table.stations]
    last = [row - 1 for row in [*first[1:], len(table.rows)]]
    height = table.column("z") or 0
    yield "keel", height, first
    yield "deck", height, last
    z = table.figures[:, height]
    if all(z[row] == z[row - 1] for row in last):
        yield "deck half", table.column("y") or 0, [row - 1 for row in last]


def _down(table: LinesTable, word: str, column: int, rows: list[int]) -> Iterator[Cell]:
    """Yield the figures of a column that stand off."""
    x, v = table.figures[rows, table.column("x") or 0], table.figures[rows, column]
    order = np.argsort(x)
    full = 2.0 if word == "radius" else 1.0  # the square of a radius runs fair to a blunt end
    pins = v[order] ** full
    expected, strains = by_the_others(x[order], pins)
    alone = shares(x[order], pins, strains)
    expected = np.maximum(expected, 0.0) ** (1.0 / full) if full > 1.0 else expected
    matters = MATTERS * max(float(np.ptp(v)), 0.1 * float(np.abs(v).max()))
    for at, place in enumerate(order.tolist()):
        off = float(v[place] - expected[at])
        if abs(off) > matters:
            yield Cell(
                row=rows[place],
                column=column,
                what=fact("figure-under", column=word),
                upright=word in HEIGHTS,
                value=float(v[place]),
                off=off,
                beside=_beside(x[order], v[order], at),
                strain=float(strains[at]),
                alone=float(alone[at]),
            )


def _beside(x: Floats, v: Floats, at: int) -> float:
    """Return the value straight between the pins on either side, or of the one beside an end."""
    return float(np.interp(x[at], np.delete(x, at), np.delete(v, at)))
