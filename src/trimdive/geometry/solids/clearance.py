"""Whether a thing is clear in many places at once: its points against a field and plain shapes.

The field holds on a grid how far each place is from the nearest wall, negative within one. Between
places of the grid it is straight along each axis, so that it is right to a fraction of the grid
where walls are smooth.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.kernel import inner, kernel
from trimdive.records import hashed, is_equal, short

Singles = NDArray[np.float32]


class Around(NamedTuple):
    """What a thing must be clear of."""

    field: Singles  # distance from the nearest wall, negative within one, shape (i, j, k) [m]
    least: Singles  # the least at the corners of each of its cells, shape (i-1, j-1, k-1) [m]
    far: float  # the most that the field tells: so far, or farther [m]
    low: Floats  # place of the field's first corner, shape (3,) [m]
    step: float  # between places of the field [m]
    shafts: Floats  # spaces in which no wall counts: middle, half size, shape (s, 6) [m]
    boxes: Floats  # middle, half size, shape (b, 6) [m]
    rounds: Floats  # middle, half length, radius, axis, shape (r, 6) [m, -]
    allowed: Floats  # least clearance from wall, from each box, each round, shape (1 + b + r,) [m]

    __repr__ = short
    __eq__ = is_equal
    __hash__ = hashed


@inner
def _of_box(x: float, y: float, z: float, box: Floats) -> float:
    """Return how far a place is from a box, negative within it [m]."""
    a, b, c = abs(x - box[0]) - box[3], abs(y - box[1]) - box[4], abs(z - box[2]) - box[5]
    within = min(max(a, b, c), 0.0)
    a, b, c = max(a, 0.0), max(b, 0.0), max(c, 0.0)
    return within + np.sqrt(a * a + b * b + c * c)


@inner
def _of_round(x: float, y: float, z: float, row: Floats) -> float:
    """Return how far a place is from a round shape along an axis, negative within it [m]."""
    u, v, w = x - row[0], y - row[1], z - row[2]
    if row[5] == 1.0:
        u, v = v, u
    elif row[5] == 2.0:
        u, w = w, u
    along, across = abs(u) - row[3], np.sqrt(v * v + w * w) - row[4]
    within = min(max(along, across), 0.0)
    along, across = max(along, 0.0), max(across, 0.0)
    return within + np.sqrt(along * along + across * across)


@inner
def _of_field(x: float, y: float, z: float, around: Around) -> float:
    """Return how far a place is from the nearest wall, by the field [m]."""
    low, step = around.low, around.step
    u, v, w = (x - low[0]) / step, (y - low[1]) / step, (z - low[2]) / step
    if u < 0.0 or v < 0.0 or w < 0.0:
        return around.far
    i, j, k = int(u), int(v), int(w)
    shape = around.least.shape
    if i >= shape[0] or j >= shape[1] or k >= shape[2]:
        return around.far
    if around.least[i, j, k] >= around.far:
        return around.far
    u, v, w = u - i, v - j, w - k
    field = around.field
    found = 0.0
    for a in range(2):
        for b in range(2):
            for c in range(2):
                share = (u if a else 1.0 - u) * (v if b else 1.0 - v) * (w if c else 1.0 - w)
                found += share * field[i + a, j + b, k + c]
    return found


@inner
def _turn(pitch: float, roll: float, into: Floats) -> None:
    """Write the matrix that rolls a thing, then pitches it bow up, shape (3, 3) [-]."""
    s, c, u, v = np.sin(pitch), np.cos(pitch), np.sin(roll), np.cos(roll)
    into[0, 0], into[0, 1], into[0, 2] = c, -s * u, -s * v
    into[1, 0], into[1, 1], into[1, 2] = 0.0, v, -u
    into[2, 0], into[2, 1], into[2, 2] = s, c * u, c * v


@kernel
def _clearances(
    points: Floats, poses: Floats, pivot: Floats, around: Around, early: bool
) -> Floats:
    """Return the least clearance beyond what is allowed, of each pose from each of these, (n, m).

    Where ``early``, a pose is looked at no further once something is nearer than allowed.
    """
    count = 1 + len(around.boxes) + len(around.rounds)
    found = np.full((len(poses), count), np.inf)
    turn = np.empty((3, 3))
    for n in range(len(poses)):
        is_shut = False
        _turn(poses[n, 3], poses[n, 4], turn)
        a, b, c = pivot[0] + poses[n, 0], pivot[1] + poses[n, 1], pivot[2] + poses[n, 2]
        for i in range(len(points)):
            p, q, r = points[i, 0], points[i, 1], points[i, 2]
            x = turn[0, 0] * p + turn[0, 1] * q + turn[0, 2] * r + a
            y = turn[1, 0] * p + turn[1, 1] * q + turn[1, 2] * r + b
            z = turn[2, 0] * p + turn[2, 1] * q + turn[2, 2] * r + c
            wall = _of_field(x, y, z, around)
            if wall < around.far:
                for s in range(len(around.shafts)):
                    wall = max(wall, -_of_box(x, y, z, around.shafts[s]))
            found[n, 0] = min(found[n, 0], wall - around.allowed[0])
            is_shut = found[n, 0] < 0.0
            for k in range(len(around.boxes)):
                off = _of_box(x, y, z, around.boxes[k]) - around.allowed[1 + k]
                found[n, 1 + k] = min(found[n, 1 + k], off)
                is_shut = is_shut or off < 0.0
            for k in range(len(around.rounds)):
                m = 1 + len(around.boxes) + k
                off = _of_round(x, y, z, around.rounds[k]) - around.allowed[m]
                found[n, m] = min(found[n, m], off)
                is_shut = is_shut or off < 0.0
            if early and is_shut:
                break
    return found


def clearances(
    points: Floats, poses: Floats, pivot: Floats, around: Around, *, early: bool = False
) -> Floats:
    """Return how much farther a thing is from everything than it must be, pose by pose.

    Args:
        points: Of the thing's surface, from its pivot, shape (p, 3) [m].
        poses: Shift along, across and up, pitch (bow up positive) and roll, shape (n, 5) [m, rad].
        pivot: The place about which it turns, shape (3,) [m].
        around: What it must be clear of.
        early: Whether a pose that is not clear is looked at no further.

    Returns:
        Of each pose from the walls, then each box, then each round, shape (n, m) [m].
    """
    points, poses, pivot = (np.ascontiguousarray(one, float) for one in (points, poses, pivot))
    return _clearances(points, poses, pivot, around, early)
