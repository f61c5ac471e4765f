"""Whether a table of offsets leads its sections to the keel as it says: round, or to a knuckle.

Near a round keel the half-breadth grows with the root of the height above it, near a sharp one with
the height itself. What the lowest two half-breadths say is held against what the table says.

Source: common practice, no source (leading terms of a circle and of a straight line).
"""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.table import LinesTable, separator

SHARP, ROUND = 0.8, 0.55  # powers of the height beyond which a keel is surely one of the two [-]
FEWEST = 3  # sections that must say so [-]
HALFWAY = 0.5**0.5 - 0.5  # of the lowest half-breadth, by which the two differ halfway down [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class KeelDoubt:
    """A keel that the sections meet otherwise than the table says."""

    is_sharp: bool  # they run straight to it, and the table marks no knuckle; else the reverse
    unit: str  # of the table
    off: float  # how far the sections differ near the keel [m]
    text: str  # the table as it would be right


def keel_doubt(table: LinesTable) -> KeelDoubt | None:
    """Return the doubt about how sections meet the keel, or None; only offsets leave it open."""
    if table.layout != "offsets" or table.column("keel half") is not None:
        return None
    rows, powers, breadths = _lowest(table)
    if len(powers) < FEWEST:
        return None
    marked = np.array(["keel" in _knuckles(table, row) for row in rows])
    power, off = float(np.median(powers)), HALFWAY * float(np.median(breadths))
    if power > SHARP and not marked.any():
        return _doubt(table, off, is_sharp=True)
    if power < ROUND and marked.all():
        return _doubt(table, off, is_sharp=False)
    return None


def _doubt(table: LinesTable, off: float, *, is_sharp: bool) -> KeelDoubt:
    text = _written(table, is_sharp=is_sharp)
    return KeelDoubt(is_sharp=is_sharp, unit=table.unit, off=off, text=text)


def _lowest(table: LinesTable) -> tuple[list[int], Floats, Floats]:
    """Return rows, powers of the height, and lowest half-breadths of the sections that say one."""
    tall = sorted((c.height, k) for k, c in enumerate(table.columns) if np.isfinite(c.height))
    heights, columns = np.array([h for h, _ in tall]), [k for _, k in tall]
    keel = table.column("keel") or 0
    rows: list[int] = []
    powers: list[float] = []
    breadths: list[float] = []
    for row, figures in enumerate(table.figures):
        above = heights - figures[keel]
        y = figures[columns]
        pins = np.flatnonzero((above > 0.0) & (y > 0.0))[:2]
        if len(pins) == 2:
            rise = np.log(above[pins[1]] / above[pins[0]])
            rows.append(row)
            powers.append(float(np.log(y[pins[1]] / y[pins[0]]) / rise))
            breadths.append(float(y[pins[0]]))
    return rows, np.array(powers), np.array(breadths)


def _knuckles(table: LinesTable, row: int) -> list[str]:
    """Return what stands under the knuckles of a row."""
    column = table.column("knuckles")
    cells = table.cells[row]
    if column is None or column >= len(cells):
        return []
    return cells[column].lower().split()


def _written(table: LinesTable, *, is_sharp: bool) -> str:
    """Return the table with the keel marked as a knuckle in every row, or in none."""
    mark = separator(table.text)
    column, wide = table.column("knuckles"), len(table.columns)
    lines = table.text.splitlines()
    if column is None:
        lines[table.head - 1] += f"{mark}knuckles"
        column, wide = wide, wide + 1
    for row, line in enumerate(table.rows):
        cells = lines[line - 1].split(mark)
        cells += [""] * (wide - len(cells))
        words = [word for word in _knuckles(table, row) if word != "keel"]
        cells[column] = " ".join(["keel", *words] if is_sharp else words)
        lines[line - 1] = mark.join(cells)
    return "\n".join([*lines, ""])
