"""Half-breadths that stand off both along their waterline and down their section."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from trimdive.lines.batten import at_one_place
from trimdive.lines.mesh import Floats
from trimdive.lines.suspects import (
    EXPLAINS,
    MATTERS,
    Cell,
    Suspect,
    exchange_explains,
    exchanged,
    likely_slip,
    meant,
    suspect,
    typed,
)
from trimdive.lines.table import LinesTable


@dataclass(frozen=True, slots=True, kw_only=True)
class Others:
    """All sections but one, as half-breadths over heights."""

    place: float  # of the one left out [m]
    x: Floats  # of the others, rising, shape (n,) [m]
    curves: tuple[Floats, ...]  # height and half-breadth of each, shape (k, 2) [m]

    def breadth(self, height: float) -> float:
        """Return the half-breadth that the others expect at a height, or not a number [m]."""
        there = [c[0, 0] <= height <= c[-1, 0] for c in self.curves]
        if sum(there) < 2:
            return np.nan
        y = [np.interp(height, *c.T) for c, here in zip(self.curves, there, strict=True) if here]
        return at_one_place(self.x[there], np.array(y), self.place)


def waterline_suspects(table: LinesTable) -> Iterator[Suspect]:
    """Yield the half-breadths that stand off, and the heights of points likewise."""
    if table.layout not in {"offsets", "points"}:
        return
    matters = MATTERS * max(section.breadth for section in table.stations)
    order = np.argsort([section.x for section in table.stations]).tolist()
    curves = [_curve(table.stations[at].points) for at in order]
    x = np.array([table.stations[at].x for at in order])
    for k, at in enumerate(order):
        others = Others(
            place=float(x[k]), x=np.delete(x, k), curves=(*curves[:k], *curves[k + 1 :])
        )
        yield from _of_section(table, _cells(table, at, others), others, matters)


def _curve(points: Floats) -> Floats:
    """Return heights, never falling, and half-breadths of a section, its deck left out."""
    kept = points[:-1] if points[-1, 1] == points[-2, 1] else points
    kept = kept[1:] if len(kept) > 1 and kept[0, 1] == kept[1, 1] else kept
    return np.stack([np.maximum.accumulate(kept[:, 1]), kept[:, 0]], axis=1)


def _cells(table: LinesTable, at: int, others: Others) -> list[tuple[Cell, float]]:
    """Return the half-breadths of a section between keel and deck, with their heights."""
    section = table.stations[at]
    low, high = section.points[0, 1], section.points[-1, 1]
    found: list[tuple[Cell, float]] = []
    for row, column, height in _figures(table, at):
        value = float(table.figures[row, column])
        off = value - others.breadth(height)
        if low < height < high and np.isfinite(off):
            what = f"height {_height(table, row, column)} {table.unit}"
            cell = Cell(row=row, column=column, what=what, upright=False, value=value, off=off)
            found.append((cell, height))
    return found


def _figures(table: LinesTable, at: int) -> Iterator[tuple[int, int, float]]:
    """Yield row, column and height of the half-breadths of a section, keel first."""
    first = table.rows.index(table.stations[at].row)
    if table.layout == "offsets":
        tall = [(c.height, k) for k, c in enumerate(table.columns) if np.isfinite(c.height)]
        for height, column in sorted(tall):
            if np.isfinite(table.figures[first, column]):
                yield first, column, height
        return
    after = table.stations[at + 1].row if at + 1 < len(table.stations) else table.rows[-1] + 1
    y, z = table.column("y") or 0, table.column("z") or 0
    for row, line in enumerate(table.rows):
        if table.stations[at].row <= line < after and table.figures[row, y] > 0.0:
            yield row, y, float(table.figures[row, z])


def _height(table: LinesTable, row: int, column: int) -> str:
    """Return the height of a half-breadth as it was typed."""
    if table.layout == "offsets":
        return table.columns[column].word
    return typed(table, row, table.column("z") or 0)


def spikes(height: Floats, off: Floats) -> Floats:
    """Return how far each value stands off both from nothing and from its neighbours.

    Args:
        height: Heights, shape (n,) [m].
        off: Values, shape (n,) [m].

    Returns:
        The lesser of the two distances, nought where they disagree in sign, shape (n,) [m].

    >>> spikes(np.array([0.0, 1.0, 2.0]), np.array([1.0, -5.0, 1.0]))
    array([ 1., -5.,  1.])
    """
    found = np.zeros_like(off)
    for k in range(len(off)):
        apart = off[k]
        if len(off) > 1:
            apart -= np.interp(height[k], np.delete(height, k), np.delete(off, k))
        if apart * off[k] > 0.0:
            found[k] = np.sign(apart) * min(abs(apart), abs(off[k]))
    return found


def _of_section(
    table: LinesTable, figures: list[tuple[Cell, float]], others: Others, matters: float
) -> Iterator[Suspect]:
    """Yield the suspects of one section."""
    height = np.array([h for _, h in figures])
    sharp = spikes(height, np.array([cell.off for cell, _ in figures]))
    cells = [replace(cell, off=float(s)) for (cell, _), s in zip(figures, sharp, strict=True)]
    for cell in cells:
        if abs(cell.off) <= matters:
            continue
        if likely := likely_slip(table, cell):
            yield suspect(table, cell, likely)
        elif table.layout == "points":
            yield from _height_slip(table, cell, others)
    for first, second in pairwise(cells):
        out = min(abs(first.off), abs(second.off)) > matters
        if out and exchange_explains(first, second):
            yield exchanged(table, first, second)


def _height_slip(table: LinesTable, cell: Cell, others: Others) -> Iterator[Suspect]:
    """Yield the suspect for a point whose height slipped, or whose two figures are swapped."""
    column = table.column("z") or 0
    z = float(table.figures[cell.row, column])
    upright = replace(cell, column=column, value=z, upright=True, what="height")
    for text, height in meant(table, upright):
        left = cell.value - others.breadth(height)
        if abs(left) <= EXPLAINS * abs(cell.off) and _between(table, cell.row, height):
            yield suspect(table, replace(upright, off=z - height), text)
            return
    if abs(z - others.breadth(cell.value)) <= EXPLAINS * abs(cell.off):
        yield exchanged(table, cell, upright)


def _between(table: LinesTable, row: int, height: float) -> bool:
    """Whether a height lies between those of the rows before and after."""
    z = table.figures[:, table.column("z") or 0]
    before, after = z[max(row - 1, 0)], z[min(row + 1, len(z) - 1)]
    return bool(min(before, after) <= height <= max(before, after))
