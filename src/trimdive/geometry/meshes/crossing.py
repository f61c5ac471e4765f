"""Finds triangles that pass through each other, by a tree of boxes over a space-filling curve.

Triangles that share a corner are not looked at: neighbours always touch. Faces that lie upon each
other in one plane do not count as crossing; they only touch.
"""

import numba
import numpy as np

from trimdive.geometry.lines.mesh import Floats, Ints, Mesh

LEAF = 4  # triangles in a box of the lowest level [-]
MOST = 200_000  # crossings after which the search ends [-]
MOST_LOOKS = 1_000_000_000  # pairs looked at, after which it ends [-]; a usual mesh takes 20 each
AWAY = 1e-9  # an edge must reach this far through a face, as a share of the mesh's size [-]


def _spread(values: Ints) -> Ints:
    """Return 20-bit numbers with two empty bits after each bit."""
    x = values & 0xFFFFF
    for shift, mask in (
        (32, 0x1F00000000FFFF),
        (16, 0x1F0000FF0000FF),
        (8, 0x100F00F00F00F00F),
        (4, 0x10C30C30C30C30C3),
        (2, 0x1249249249249249),
    ):
        x = (x | (x << shift)) & mask
    return x


def _order(corners: Floats) -> Ints:
    """Return the triangles along a space-filling curve."""
    middles = corners.mean(axis=1)
    low, high = middles.min(axis=0), middles.max(axis=0)
    cells = ((middles - low) / max(float((high - low).max()), 1e-300) * 0xFFFFF).astype(np.int64)
    code = _spread(cells[:, 0]) | _spread(cells[:, 1]) << 1 | _spread(cells[:, 2]) << 2
    return np.argsort(code, kind="stable")


def _boxes(corners: Floats) -> tuple[Floats, Ints]:
    """Return boxes (low, high) level by level, the lowest first, and where each level begins."""
    low, high = corners.min(axis=1), corners.max(axis=1)
    size, levels, starts = LEAF, [], [0]
    while True:
        cuts = np.arange(0, len(low), size)
        low = np.minimum.reduceat(low, cuts)
        high = np.maximum.reduceat(high, cuts)
        levels.append(np.hstack([low, high]))
        starts.append(starts[-1] + len(low))
        if len(low) == 1:
            return np.vstack(levels), np.array(starts)
        size = 2


@numba.njit(cache=True, error_model="numpy")
def pierces(p: Floats, q: Floats, t: Floats, away: float) -> bool:
    """Return whether the segment p q passes through the triangle t."""
    ab, ac = t[1] - t[0], t[2] - t[0]
    nx = ab[1] * ac[2] - ab[2] * ac[1]
    ny = ab[2] * ac[0] - ab[0] * ac[2]
    nz = ab[0] * ac[1] - ab[1] * ac[0]
    size = np.sqrt(nx * nx + ny * ny + nz * nz)
    if size == 0.0:
        return False
    hp = (nx * (p[0] - t[0, 0]) + ny * (p[1] - t[0, 1]) + nz * (p[2] - t[0, 2])) / size
    hq = (nx * (q[0] - t[0, 0]) + ny * (q[1] - t[0, 1]) + nz * (q[2] - t[0, 2])) / size
    if min(hp, hq) > -away or max(hp, hq) < away or hp == hq:  # one in its plane runs through none
        return False
    share = hp / (hp - hq)
    for k in range(3):
        a, b = t[k], t[(k + 1) % 3]
        ex, ey, ez = b[0] - a[0], b[1] - a[1], b[2] - a[2]
        rx = p[0] + share * (q[0] - p[0]) - a[0]
        ry = p[1] + share * (q[1] - p[1]) - a[1]
        rz = p[2] + share * (q[2] - p[2]) - a[2]
        turn = nx * (ey * rz - ez * ry) + ny * (ez * rx - ex * rz) + nz * (ex * ry - ey * rx)
        if turn <= away * size * np.sqrt(ex * ex + ey * ey + ez * ez):
            return False
    return True


@numba.njit(cache=True)
def _on_one_side(s: Floats, t: Floats, away: float) -> bool:
    """Return whether a triangle lies on one side of another's plane, or in it."""
    ax, ay, az = s[1, 0] - s[0, 0], s[1, 1] - s[0, 1], s[1, 2] - s[0, 2]
    bx, by, bz = s[2, 0] - s[0, 0], s[2, 1] - s[0, 1], s[2, 2] - s[0, 2]
    nx, ny, nz = ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx
    reach = away * np.sqrt(nx * nx + ny * ny + nz * nz)
    least, most = np.inf, -np.inf
    for k in range(3):
        h = nx * (t[k, 0] - s[0, 0]) + ny * (t[k, 1] - s[0, 1]) + nz * (t[k, 2] - s[0, 2])
        least, most = min(least, h), max(most, h)
    return least >= -reach or most <= reach


@numba.njit(cache=True, error_model="numpy")
def _cross(s: Floats, t: Floats, away: float) -> bool:
    """Return whether two triangles pass through each other."""
    if _on_one_side(s, t, away) or _on_one_side(t, s, away):
        return False
    for k in range(3):
        if pierces(s[k], s[(k + 1) % 3], t, away) or pierces(t[k], t[(k + 1) % 3], s, away):
            return True
    return False


@numba.njit(cache=True)
def _apart(boxes: Floats, i: int, others: Floats, j: int) -> bool:
    """Return whether two boxes do not meet."""
    for k in range(3):  # noqa: SIM110 - compiled, a plain loop is faster
        if boxes[i, 3 + k] < others[j, k] or boxes[i, k] > others[j, 3 + k]:
            return True
    return False


@numba.njit(cache=True)
def _share(ids: Ints, i: int, j: int) -> bool:
    """Return whether two triangles have a corner in common."""
    for k in range(3):
        for m in range(3):
            if ids[i, k] == ids[j, m]:
                return True
    return False


@numba.njit(cache=True)
def _near(boxes: Floats, starts: Ints, leaf: int, room: Ints, stack: Ints) -> int:
    """Write the lowest boxes from ``leaf`` on that meet it into ``room``; return how many."""
    count, waiting = 0, 1
    stack[0, 0], stack[0, 1] = len(starts) - 2, 0
    while waiting:
        waiting -= 1
        level, node = stack[waiting, 0], stack[waiting, 1]
        if (node + 1) << level <= leaf or _apart(boxes, leaf, boxes, starts[level] + node):
            continue
        if level == 0:
            room[count] = node
            count += 1
            continue
        for child in range(2 * node, min(2 * node + 2, starts[level] - starts[level - 1])):
            stack[waiting, 0], stack[waiting, 1] = level - 1, child
            waiting += 1
    return count


@numba.njit(cache=True)
def _pairs(
    corners: Floats, own: Floats, ids: Ints, boxes: Floats, starts: Ints, away: float, most: int
) -> Ints:
    """Return the pairs of triangles that pass through each other, shape (k, 2)."""
    found = np.empty((most, 2), np.int64)
    room, stack = np.empty(starts[1], np.int64), np.empty((256, 2), np.int64)
    count = looks = 0
    for leaf in range(starts[1]):
        if looks > MOST_LOOKS:
            break
        for r in range(_near(boxes, starts, leaf, room, stack)):
            stop = min((room[r] + 1) * LEAF, len(corners))
            for i in range(leaf * LEAF, min((leaf + 1) * LEAF, len(corners))):
                if _apart(own, i, boxes, room[r]):
                    continue
                looks += stop - room[r] * LEAF
                for j in range(max(i + 1, room[r] * LEAF), stop):
                    if _apart(own, i, own, j) or _share(ids, i, j):
                        continue
                    if _cross(corners[i], corners[j], away):
                        found[count, 0], found[count, 1] = i, j
                        count += 1
                        if count == most:
                            return found
    return found[:count]


def crossings(mesh: Mesh, most: int = MOST) -> Ints:
    """Return the pairs of triangles that pass through each other, at most so many, shape (k, 2)."""
    corners = mesh.corners
    order = _order(corners)
    corners = np.ascontiguousarray(corners[order])
    boxes, starts = _boxes(corners)
    away = AWAY * float(np.ptp(mesh.bounds, axis=0).max())
    own = np.hstack([corners.min(axis=1), corners.max(axis=1)])
    ids = np.ascontiguousarray(mesh.triangles[order])
    return order[_pairs(corners, own, ids, boxes, starts, away, most)]
