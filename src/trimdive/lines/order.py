"""Whether the stations stand in order along the hull, and which place slipped if not."""

import numpy as np

from trimdive.lines.mesh import Floats
from trimdive.lines.slips import slips
from trimdive.lines.suspects import Change, Suspect, length
from trimdive.lines.table import LinesTable, number

LONE = 4.0  # an end station this many times the widest other spacing away is doubted [-]


def order_doubt(table: LinesTable) -> Suspect | None:
    """Return the doubt about the first place that breaks the order, or None."""
    x = np.array([section.x for section in table.stations])
    steps = np.diff(x)
    direction = 1.0 if np.median(np.sign(steps)) >= 0.0 else -1.0
    if np.all(direction * steps > 0.0):
        return _lone_end(table, direction * x, direction)
    broken = int(np.argmax(direction * steps <= 0.0))
    tried = [broken + 1, broken]
    for at in tried:
        if _rises(np.delete(direction * x, at)) and (likely := _fitting(table, at, direction)):
            return _suspect(table, at, likely)
    odd = next((at for at in tried if _rises(np.delete(direction * x, at))), broken + 1)
    return _suspect(table, odd, "")


def _lone_end(table: LinesTable, x: Floats, direction: float) -> Suspect | None:
    """Return the doubt about an end station that lies far off all the others, or None."""
    steps = np.diff(x)
    if len(x) < 5:
        return None
    for at, step, others in ((0, steps[0], steps[1:]), (len(x) - 1, steps[-1], steps[:-1])):
        if step > LONE * others.max() and (likely := _fitting(table, at, direction)):
            return _suspect(table, at, likely)
    return None


def _fitting(table: LinesTable, at: int, direction: float) -> str:
    """Return the slip that puts a station in its order, nearest to the middle of its gap."""
    x = direction * np.array([section.x for section in table.stations])
    others = np.delete(x, at)
    widest = np.diff(others).max()
    low = others[at - 1] if at > 0 else others[0] - 2.0 * widest
    high = others[at] if at < len(others) else others[-1] + 2.0 * widest
    column = _x_column(table)
    best, off = "", np.inf
    for text in slips(_typed(table, at)):
        place = direction * (number(text) or 0.0) * table.columns[column].scale
        if low < place < high and abs(place - (low + high) / 2.0) < off:
            best, off = text, abs(place - (low + high) / 2.0)
    return best


def _suspect(table: LinesTable, at: int, likely: str) -> Suspect:
    section = table.stations[at]
    typed = _typed(table, at)
    column = _x_column(table)
    before = f"after {_typed(table, at - 1)}" if at else f"before {_typed(table, 1)}"
    asked = f"; {likely}?" if likely else "; the stations are taken in order of x."
    stop = table.stations[at + 1].row if at + 1 < len(table.stations) else table.rows[-1] + 1
    rows = [line for line in table.rows if section.row <= line < stop]
    return Suspect(
        line=section.row,
        text=f"station {typed} stands {before} and is out of order{asked}"
        if not _rises_all(table)
        else f"station {typed} lies {length(_gap(table, at), table)} from all others{asked}",
        found=typed,
        likely=likely,
        off=_gap(table, at),
        changes=tuple(Change(line=row, column=column, likely=likely) for row in rows if likely),
    )


def _gap(table: LinesTable, at: int) -> float:
    x = np.array([section.x for section in table.stations])
    return float(np.abs(np.delete(x, at) - x[at]).min())


def _rises(x: Floats) -> bool:
    return bool(np.all(np.diff(x) > 0.0))


def _rises_all(table: LinesTable) -> bool:
    x = np.array([section.x for section in table.stations])
    return _rises(x) or _rises(-x)


def _x_column(table: LinesTable) -> int:
    column = table.column("x")
    if column is None:
        raise AssertionError("a table without x")
    return column


def _typed(table: LinesTable, at: int) -> str:
    """Return the place of a station as it was typed."""
    row = table.rows.index(table.stations[at].row)
    return table.cells[row][_x_column(table)]
