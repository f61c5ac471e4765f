"""Whether two heads of a table of offsets stand in each other's place."""

import math
from itertools import pairwise

import numpy as np

from trimdive.fact import fact
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.suspects import Change, Suspect
from trimdive.geometry.lines.table import LinesTable, separator

SMOOTHER = 0.5  # roughness of a section that the right order of the heads may leave [-]
MOST = 0.7  # of the stations must speak for it [-]
FEWEST = 3  # stations that must speak for it [-]


def heads_doubt(table: LinesTable) -> Suspect | None:
    """Return the doubt about two columns of half-breadths that are swapped, or None."""
    tall = sorted((c.height, k) for k, c in enumerate(table.columns) if not math.isnan(c.height))
    height = np.array([h for h, _ in tall])
    columns = [k for _, k in tall]
    breadths = table.figures[:, columns]
    for k, (first, second) in enumerate(pairwise(columns)):
        other = breadths.copy()
        other[:, [k, k + 1]] = breadths[:, [k + 1, k]]
        near = slice(max(k - 1, 0), k + 3)
        now = roughness(height[near], breadths[:, near])
        speaking = now > 0.0
        better = roughness(height[near], other[:, near]) < SMOOTHER * now
        if better.sum() >= max(FEWEST, MOST * speaking.sum()):
            return _swapped(table, first, second)
    return None


def roughness(height: Floats, breadths: Floats) -> Floats:
    """Return how much the slopes of each section jump about.

    Args:
        height: Heights, rising, shape (m,) [m].
        breadths: Half-breadths, not a number where there is no hull, shape (n, m) [m].

    Returns:
        Sums of the jumps; nought with fewer than three heights, shape (n,) [-].
    """
    jumps = np.abs(np.diff(np.diff(breadths, axis=1) / np.diff(height), axis=1))
    return np.nansum(jumps, axis=1)


def _swapped(table: LinesTable, first: int, second: int) -> Suspect:
    """Return the suspect for two heads."""
    heads = table.text.splitlines()[table.head - 1].split(separator(table.text))
    a, b = heads[first], heads[second]
    return Suspect(
        line=table.head,
        what=fact("heads-exchanged", first=a.strip(), second=b.strip()),
        found=a.strip(),
        likely=b.strip(),
        off=0.0,
        strain=math.inf,
        changes=(
            Change(line=table.head, column=first, likely=b),
            Change(line=table.head, column=second, likely=a),
        ),
    )
