"""Whether two neighbouring points of a section stand in each other's place.

A section runs from the keel up to the deck. Where its heights break that order once, and two
neighbouring rows exchanged restore it on a shorter way round, they are doubted.

Source: common practice, no source.
"""

from collections.abc import Iterator

import numpy as np

from trimdive.fact import fact
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.suspects import Change, Suspect
from trimdive.geometry.lines.table import LinesTable

SHORTER = 0.05  # of the way round, that the exchange must save [-]


def swapped_points(table: LinesTable) -> Iterator[Suspect]:
    """Yield the points of a table in the layout of points that stand in each other's place.

    Args:
        table: Lines as read.
    """
    if table.layout != "points":
        return
    at_x, at_y, at_z = (table.column(word) or 0 for word in ("x", "y", "z"))
    for rows in _sections(table.figures[:, at_x]):
        points = table.figures[np.ix_(rows, [at_y, at_z])]
        at = _swapped(points)
        if at is not None:
            yield _suspect(table, rows[at], at, float(points[at, 1] - points[at + 1, 1]))


def _sections(x: Floats) -> list[list[int]]:
    """Return the rows of each section: those that follow one another at one place."""
    found: list[list[int]] = []
    for row, place in enumerate(x):
        if found and place == x[found[-1][-1]]:
            found[-1].append(row)
        else:
            found.append([row])
    return found


def _swapped(points: Floats) -> int | None:
    """Return the point that stands in the place of the next, or None.

    Args:
        points: Half-breadth and height, keel to deck, shape (n, 2) [m].
    """
    falls = np.flatnonzero(np.diff(points[:, 1]) < 0.0)
    if len(points) < 4 or len(falls) != 1:
        return None
    at = int(falls[0])
    other = points.copy()
    other[[at, at + 1]] = points[[at + 1, at]]
    is_ordered = bool(np.all(np.diff(other[:, 1]) >= 0.0))
    return at if is_ordered and _way(other) < (1.0 - SHORTER) * _way(points) else None


def _way(points: Floats) -> float:
    """Return how long the way from point to point is [m]."""
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def _suspect(table: LinesTable, row: int, at: int, off: float) -> Suspect:
    """Return the doubt about a row and the next."""
    x = table.column("x") or 0
    a, b = table.cells[row], table.cells[row + 1]
    own = [k for k in range(len(table.columns)) if k != x]
    first, second = (", ".join(cells[k] for k in own[:2] if k < len(cells)) for cells in (a, b))
    lines = table.rows[row], table.rows[row + 1]
    return Suspect(
        line=lines[0],
        what=fact("points-exchanged", station=a[x], first=at + 1, typed=(first, second)),
        found=first,
        likely=second,
        off=off,
        strain=np.inf,
        changes=tuple(
            Change(line=line, column=k, likely=cells[k])
            for line, cells in zip(lines, (b, a), strict=True)
            for k in own
            if k < min(len(a), len(b))
        ),
    )
