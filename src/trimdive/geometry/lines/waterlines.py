"""Half-breadths that stand off both along their waterline and down their section."""

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from trimdive.fact import fact
from trimdive.geometry.lines.batten import FEWEST, by_the_others, shares
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.suspects import (
    ALONE,
    EXPLAINS,
    MATTERS,
    Cell,
    Suspect,
    exchange_explains,
    exchanged,
    inexplicable,
    likely_slip,
    meant,
    suspect,
    typed,
)
from trimdive.geometry.lines.table import LinesTable

STANDS_OUT = 2.5  # times the roughness of the rest of the section, before a figure is doubted [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sections:
    """All sections, as half-breadths over heights, and the one that is looked at."""

    x: Floats  # rising, shape (n,) [m]
    curves: tuple[Floats, ...]  # height and half-breadth of each, shape (k, 2) [m]
    ends: Floats  # least and greatest height of each, shape (n, 2) [m]
    at: int  # the one looked at
    seen: dict[float, tuple[list[int], Floats]]  # waterlines by heights asked for [m]

    def waterline(self, height: float) -> tuple[list[int], Floats]:
        """Return which sections reach a height, and their half-breadths there, shape (n,) [m]."""
        if height not in self.seen:
            there = np.flatnonzero((self.ends[:, 0] <= height) & (height <= self.ends[:, 1]))
            y = np.array([np.interp(height, *self.curves[k].T) for k in there])
            self.seen[height] = there.tolist(), y
        there, y = self.seen[height]
        return there, y.copy()

    def expected(self, height: float, value: float) -> tuple[float, float, float]:
        """Return what the others expect in place of a half-breadth, and the strain of it.

        That is the half-breadth [m], the strain [m⁻¹] and its share of all strain there [-].
        """
        there, y = self.waterline(height)
        if self.at not in there or len(there) < FEWEST:
            return np.nan, 0.0, 0.0
        own = there.index(self.at)
        y[own] = value
        expected, strains = by_the_others(self.x[there], y)
        alone = shares(self.x[there], y, strains)
        at_end = own in {0, len(there) - 1}
        return float(expected[own]), float(strains[own]), 0.0 if at_end else float(alone[own])

    def beside(self, height: float) -> float:
        """Return the half-breadth on a straight line between the nearest others [m]."""
        near = [k for k in (self.at - 1, self.at + 1) if 0 <= k < len(self.x)]
        y = [np.interp(height, *self.curves[k].T) for k in near]
        return float(np.interp(self.x[self.at], self.x[near], y))


def waterline_suspects(table: LinesTable) -> Iterator[Suspect]:
    """Yield the half-breadths that stand off, and the heights of points likewise."""
    if table.layout not in {"offsets", "points"}:
        return
    matters = MATTERS * max(section.breadth for section in table.stations)
    order = np.argsort([section.x for section in table.stations]).tolist()
    curves = tuple(_curve(table.stations[at].points) for at in order)
    x = np.array([table.stations[at].x for at in order])
    ends = np.array([(curve[0, 0], curve[-1, 0]) for curve in curves])
    seen: dict[float, tuple[list[int], Floats]] = {}
    for k, at in enumerate(order):
        sections = Sections(x=x, curves=curves, ends=ends, at=k, seen=seen)
        yield from _of_section(table, _cells(table, at, sections), sections, matters)
        if table.layout == "points":
            yield from _height_slips(table, at)


def _curve(points: Floats) -> Floats:
    """Return heights, never falling, and half-breadths of a section, its deck left out."""
    kept = points[:-1] if len(points) > 1 and points[-1, 1] == points[-2, 1] else points
    kept = kept[1:] if len(kept) > 1 and kept[0, 1] == kept[1, 1] else kept
    return np.stack([np.maximum.accumulate(kept[:, 1]), kept[:, 0]], axis=1)


def _cells(table: LinesTable, at: int, sections: Sections) -> list[tuple[Cell, float]]:
    """Return the half-breadths of a section between keel and deck, with their heights."""
    section = table.stations[at]
    low, high = section.points[0, 1], section.points[-1, 1]
    found: list[tuple[Cell, float]] = []
    for row, column, height in _figures(table, at):
        value = float(table.figures[row, column])
        expected, strain, alone = sections.expected(height, value)
        if low < height < high and math.isfinite(expected):
            height_typed = _height(table, row, column)
            cell = Cell(
                row=row,
                column=column,
                what=fact("figure-at-height", height=height_typed, unit=table.unit),
                upright=False,
                value=value,
                off=value - expected,
                beside=sections.beside(height),
                strain=strain,
                alone=alone,
            )
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
    y, z = table.column("y") or 0, table.column("z") or 0
    for row in _rows(table, at):
        if table.figures[row, y] > 0.0:
            yield row, y, float(table.figures[row, z])


def _height(table: LinesTable, row: int, column: int) -> str:
    """Return the height of a half-breadth as it was typed."""
    if table.layout == "offsets":
        return table.columns[column].word
    return typed(table, row, table.column("z") or 0)


def apart(height: Floats, off: Floats) -> Floats:
    """Return how far each value stands off from the line between its neighbours.

    Args:
        height: Heights, rising, shape (n,) [m].
        off: Values, shape (n,) [m].

    Returns:
        Distances, shape (n,) [m].

    >>> apart(np.array([0.0, 1.0, 2.0]), np.array([1.0, -5.0, 1.0]))
    array([ 6., -6.,  6.])
    """
    if len(off) < 2:
        return off.copy()
    rest = [np.interp(height[k], np.delete(height, k), np.delete(off, k)) for k in range(len(off))]
    return off - np.array(rest)


def _of_section(
    table: LinesTable, figures: list[tuple[Cell, float]], sections: Sections, matters: float
) -> Iterator[Suspect]:
    """Yield the suspects of one section."""
    along = np.array([cell.off for cell, _ in figures])
    down = apart(np.array([height for _, height in figures]), along)
    sharp = np.where(along * down > 0.0, np.minimum(np.abs(along), np.abs(down)), 0.0)
    cells = [cell for cell, _ in figures]
    across = [replace(cell, off=float(d)) for cell, d in zip(cells, down, strict=True)]
    for k, cell in enumerate(cells):
        if not _stands_out(sharp, [k], matters):
            continue
        if likely := likely_slip(table, across[k]) or likely_slip(table, cell):
            yield suspect(table, cell, likely)
        elif table.layout == "points" and _are_swapped(table, cell, sections):
            yield exchanged(table, cell, _height_of(table, cell))
        else:
            yield from inexplicable(table, cell)
    for k, (first, second) in enumerate(pairwise(cells)):
        if _stands_out(sharp, [k, k + 1], matters) and exchange_explains(first, second):
            yield exchanged(table, first, second)


def _stands_out(sharp: Floats, those: list[int], matters: float) -> bool:
    """Whether those values stand out from the others of their section, which are never smooth."""
    others = np.delete(sharp, those)
    noise = float(others.max()) if len(others) else 0.0
    return bool(sharp[those].min() > max(matters, STANDS_OUT * noise))


def _height_slips(table: LinesTable, at: int) -> Iterator[Suspect]:
    """Yield the points of a section whose height runs back, though a slip would put it right."""
    column, breadth = table.column("z") or 0, table.column("y") or 0
    z = table.figures[:, column].tolist()
    rows = _rows(table, at)
    for row in rows[1:-1]:
        low, here, high = z[row - 1 : row + 2]
        if low > high or low <= here <= high:
            continue
        cell = Cell(
            row=row,
            column=column,
            what=fact("figure-at-breadth", breadth=typed(table, row, breadth), unit=table.unit),
            upright=True,
            value=here,
            off=here - min(max(here, low), high),
            beside=(low + high) / 2.0,
            strain=math.inf,
            alone=1.0,
        )
        fits = [(abs(h - cell.beside), text) for text, h in meant(table, cell) if low <= h <= high]
        if fits:
            yield suspect(table, cell, min(fits)[1])


def _rows(table: LinesTable, at: int) -> list[int]:
    """Return the rows of a section."""
    last = at + 1 == len(table.stations)
    stop = len(table.rows) if last else table.rows.index(table.stations[at + 1].row)
    return list(range(table.rows.index(table.stations[at].row), stop))


def _height_of(table: LinesTable, cell: Cell) -> Cell:
    """Return the height of a point whose half-breadth is given."""
    column = table.column("z") or 0
    z = float(table.figures[cell.row, column])
    return replace(cell, column=column, value=z, upright=True, what=fact("figure-height"))


def _are_swapped(table: LinesTable, cell: Cell, sections: Sections) -> bool:
    """Whether the half-breadth and the height of a point would fit in each other's place."""
    z = _height_of(table, cell).value
    left = abs(z - sections.expected(cell.value, z)[0])
    return cell.alone > ALONE and left <= EXPLAINS * abs(cell.off)
