"""Whether the stations stand in order along the hull, and which place slipped if not."""

import numpy as np

from trimdive.fact import Fact, fact
from trimdive.geometry.lines.batten import strain
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.slips import slips, swapped_digits
from trimdive.geometry.lines.station import Station
from trimdive.geometry.lines.suspects import Change, Suspect
from trimdive.geometry.lines.table import LinesTable, number

LONE = 4.0  # an end station this many times the widest other spacing away is doubted [-]
RELIEVED = 0.15  # of the strain that another place leaves, if that place was meant [-]


def order_doubt(table: LinesTable) -> Suspect | None:
    """Return the doubt about the first place that breaks the order, or None."""
    x = np.array([section.x for section in table.stations])
    direction = _direction(x)
    steps = direction * np.diff(x)
    if np.all(steps > 0.0):
        return _lone_end(table, direction * x, direction)
    broken = int(np.argmax(steps <= 0.0))
    odd = [at for at in (broken + 1, broken) if _rises(np.delete(direction * x, at))]
    meant = [(at, likely) for at in odd if (likely := _fitting(table, at, direction))]
    if not meant:
        return _suspect(table, odd[0] if odd else broken + 1, "")
    return _suspect(table, *min(meant, key=lambda one: _widest_step(table, *one)))


def place_doubt(table: LinesTable) -> Suspect | None:
    """Return the doubt about a place that keeps the order but makes all lines unfair, or None."""
    x = np.array([section.x for section in table.stations])
    direction = _direction(x)
    runs = _runs(table.stations)
    now = _strain(direction * x, runs)
    best: tuple[float, int, str] = (RELIEVED * now, -1, "")
    for at in range(1, len(x) - 1):
        for text in swapped_digits(_typed(table, at)):
            moved = direction * x
            moved[at] = direction * _place(table, text)
            if _rises(moved) and (left := _strain(moved, runs)) < best[0]:
                best = (left, at, text)
    return _suspect(table, best[1], best[2]) if best[2] else None


def _runs(stations: tuple[Station, ...]) -> list[Floats]:
    """Return what ought to run fair along the hull, each as a share of its range."""
    runs = [
        np.array([section.breadth for section in stations]),
        np.array([section.points[0, 1] for section in stations]),
        np.array([section.points[-1, 1] for section in stations]),
        np.sqrt(np.abs([section.half_area for section in stations])),
    ]
    return [run / np.ptp(run) for run in runs if np.ptp(run) > 0.0]


def _strain(x: Floats, runs: list[Floats]) -> float:
    return sum(strain(x, run) for run in runs)


def _direction(x: Floats) -> float:
    return 1.0 if np.median(np.sign(np.diff(x))) >= 0.0 else -1.0


def _widest_step(table: LinesTable, at: int, text: str) -> float:
    x = np.array([section.x for section in table.stations])
    x[at] = _place(table, text)
    return float(np.abs(np.diff(x)).max())


def _place(table: LinesTable, text: str) -> float:
    """Return a place in SI [m]."""
    return (number(text) or 0.0) * table.columns[_x_column(table)].scale


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
    best, off = "", np.inf
    for text in slips(_typed(table, at)):
        place = direction * _place(table, text)
        joins = table.layout == "points" and place in {low, high}
        if (low < place < high or joins) and abs(place - (low + high) / 2.0) < off:
            best, off = text, abs(place - (low + high) / 2.0)
    return best


def _suspect(table: LinesTable, at: int, likely: str) -> Suspect:
    section = table.stations[at]
    typed = _typed(table, at)
    column = _x_column(table)
    stop = table.stations[at + 1].row if at + 1 < len(table.stations) else table.rows[-1] + 1
    rows = [line for line in table.rows if section.row <= line < stop]
    return Suspect(
        line=section.row,
        what=_what(table, at, likely),
        found=typed,
        likely=likely,
        off=_gap(table, at),
        strain=np.inf,
        changes=tuple(Change(line=row, column=column, likely=likely) for row in rows if likely),
    )


def _what(table: LinesTable, at: int, likely: str) -> Fact:
    """Return what is doubted of the place of a station."""
    typed = _typed(table, at)
    if _rises_all(table):
        gap = _gap(table, at)
        return fact("station-unfair", station=typed, gap=gap, unit=table.unit, likely=likely)
    beside = _typed(table, at - 1 if at else 1)
    return fact(
        "station-out-of-order", station=typed, beside=beside, is_first=not at, likely=likely
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
