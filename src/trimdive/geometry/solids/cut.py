"""Cuts bodies by a plane: what lies below it, and the waterplane, exact for the triangles.

Below the plane everything is counted in signed tetrahedra from a point on the plane, so the cap
needs no triangles of its own; the waterplane's moments come from the segments in which
the plane cuts the skin, by Green's theorem. A corner that lies on the plane counts as below.

The tree is walked in batches of nodes: boxes are seen, children listed, whole ones added, and the
triangles of leaves seen, listed and added likewise. No branch depends on the geometry, each
inner loop runs over neighbours in memory, so that the machine takes several at a time (its length
is read from an array, since loops of a length known beforehand are unrolled instead), and what
comes later in a list is fetched early; lists are short enough to stay in the nearest memory.
"""

from math import hypot
from typing import Any

import numpy as np
from numba import types
from numba.np.numpy_support import carray

from trimdive.geometry.lines.mesh import Floats, Ints
from trimdive.geometry.solids.kernel import apart, fetch, inner, kernel, loose, strict
from trimdive.geometry.solids.tree import BOX, FAN, LANES, LEAF, SUMS, Links, Singles, Tree
from trimdive.records import record

# What the inner loop writes, all from a point on the plane below or above the tree's centre.
VOLUME, MOMENT, AREA, AREA_MOMENT, AREA_SECOND, WIDTH = 0, 1, 4, 5, 7, 10
BATCH = 32  # nodes looked at together [-]; measured
ON_END = 1e-6  # of the vertical that is not along the boat: with less she stands on end [-]
DEEPEST = 12  # levels of nodes that a tree can have [-]; FAN ** 12 children are past counting
NUMBERS_IN_LINE = 8  # of double precision, in a line of memory [-]
ROWS = 1 << 40  # more than any array of a tree has; a walk goes where the tree's links lead it
DOUBLES, SINGLES, LINKS = (types.CPointer(kind) for kind in (types.f8, types.f4, types.i4))

Corner = tuple[float, float, float]  # along forward and port, and above the plane [m]
Ten = tuple[float, float, float, float, float, float, float, float, float, float]


@record
class Cut:
    """What a plane leaves below it, and the area in which it cuts."""

    volume: float  # below the plane [m³]
    moment: Floats  # first moment of that volume about the origin, shape (3,) [m⁴]
    area: float  # waterplane area [m²]
    area_moment: Floats  # first moment of the waterplane about the origin, shape (3,) [m³]
    area_second: Floats  # second moment of the waterplane about the origin, shape (3, 3) [m⁴]


@kernel
def axes_in_plane(n: Floats) -> tuple[Floats, Floats]:
    """Return forward and port, level, as unit vectors, for the upward unit vector ``n``.

    On end the keel takes the place of the bow; there too both are square to ``n`` itself.
    """
    forward = np.empty(3)
    length = hypot(n[1], n[2])
    if length > ON_END:
        forward[0] = length
        forward[1] = -n[0] * n[1] / length
        forward[2] = -n[0] * n[2] / length
    else:
        down = -1.0 if n[0] > 0 else 1.0
        share = down * n[2]
        forward[0], forward[1], forward[2] = -share * n[0], -share * n[1], down - share * n[2]
        size = np.sqrt(forward[0] ** 2 + forward[1] ** 2 + forward[2] ** 2)
        forward[0], forward[1], forward[2] = forward[0] / size, forward[1] / size, forward[2] / size
    port = np.empty(3)
    port[0] = n[1] * forward[2] - n[2] * forward[1]
    port[1] = n[2] * forward[0] - n[0] * forward[2]
    port[2] = n[0] * forward[1] - n[1] * forward[0]
    return forward, port


@strict
def _height(plane: Ten, x: float, y: float, z: float) -> float:
    """Return the height above the plane; strict, so that a corner has one height everywhere."""
    return plane[6] * x + plane[7] * y + plane[8] * z - plane[9]


@inner
def _plane(n: Floats, d: float) -> Ten:
    """Return forward, port, up and the height of the plane, one after another."""
    f, p = axes_in_plane(n)
    return f[0], f[1], f[2], p[0], p[1], p[2], n[0], n[1], n[2], d


@loose
def _see_boxes(nodes: Singles, front: Ints, n: Floats, d: float, sides: Links) -> None:
    """Write how each child's box lies: 2 below the plane, 1 across it, 0 above (or no child)."""
    nx, ny, nz = np.float32(n[0]), np.float32(n[1]), np.float32(n[2])
    ax, ay, az, level = abs(nx), abs(ny), abs(nz), np.float32(d)
    for i in range(len(front)):
        later = BOX * front[min(i + 6, len(front) - 1)]
        for k in range(0, BOX, 2 * NUMBERS_IN_LINE):
            fetch(nodes, later + k)
        box, side = nodes[front[i]], sides[i]
        for k in range(sides.shape[1]):
            s = nx * box[k] + ny * box[FAN + k] + nz * box[2 * FAN + k] - level
            r = ax * box[3 * FAN + k] + ay * box[4 * FAN + k] + az * box[5 * FAN + k]
            side[k] = np.int32(s <= r) + np.int32(s + r <= np.float32(0.0))


@loose
def _sort_boxes(
    links: Links, front: Ints, sides: Links, stack: Ints, size: int, leaves: Ints, below: Ints
) -> tuple[int, int, int]:
    """Put crossed children on the stack or the list of leaves, and list those below.

    Each child is written to every list, and only the list's length says whether it stays.

    Returns:
        How many are now on the stack, in the leaves and below.
    """
    cut_leaves = lower = 0
    for i in range(len(front)):
        link = links[front[i]]
        to_leaf = int(link < 0)
        first = ~link if link < 0 else link
        for k in range(FAN):
            under = int(sides[i, k]) >> 1
            crossed = int(sides[i, k]) & 1
            stack[size] = leaves[cut_leaves] = first + k
            below[lower] = FAN * front[i] + k
            size += crossed & ~to_leaf
            cut_leaves += crossed & to_leaf
            lower += under
    return size, cut_leaves, lower


@loose
def _add_whole(sums: Floats, below: Ints, whole: Floats) -> None:
    """Add the sums of children that lie wholly below."""
    for i in range(len(below)):
        later = SUMS * below[min(i + 8, len(below) - 1)]
        for k in range(0, SUMS, NUMBERS_IN_LINE):
            fetch(sums, later + k)
        row = sums[below[i]]
        for k in range(SUMS):
            whole[k] += row[k]


@loose
def _see_triangles(blocks: Floats, leaves: Ints, plane: Ten, sides: Ints, out: Floats) -> None:
    """Write 1 for each triangle that the plane crosses, else 0; add those wholly below."""
    ox, oy, oz = plane[9] * plane[6], plane[9] * plane[7], plane[9] * plane[8]
    volume = mx = my = mz = 0.0
    for i in range(len(leaves)):
        later = LEAF * leaves[min(i + 4, len(leaves) - 1)]
        for k in range(0, LEAF, NUMBERS_IN_LINE):
            fetch(blocks, later + k)
        t, side = blocks[leaves[i]], sides[i]
        for k in range(sides.shape[1]):
            x0, y0, z0 = t[k], t[LANES + k], t[2 * LANES + k]
            x1, y1, z1 = t[3 * LANES + k], t[4 * LANES + k], t[5 * LANES + k]
            x2, y2, z2 = t[6 * LANES + k], t[7 * LANES + k], t[8 * LANES + k]
            under = np.int64(_height(plane, x0, y0, z0) <= 0.0)
            under += np.int64(_height(plane, x1, y1, z1) <= 0.0)
            under += np.int64(_height(plane, x2, y2, z2) <= 0.0)
            side[k] = np.int64(under > 0) & np.int64(under < 3)
            x0, y0, z0 = x0 - ox, y0 - oy, z0 - oz
            x1, y1, z1 = x1 - ox, y1 - oy, z1 - oz
            x2, y2, z2 = x2 - ox, y2 - oy, z2 - oz
            w = x0 * (y1 * z2 - z1 * y2) + y0 * (z1 * x2 - x1 * z2) + z0 * (x1 * y2 - y1 * x2)
            w = t[9 * LANES + k] * w if under == 3 else 0.0
            volume += w
            mx += w * (x0 + x1 + x2)
            my += w * (y0 + y1 + y2)
            mz += w * (z0 + z1 + z2)
    out[VOLUME] += volume
    out[MOMENT] += mx
    out[MOMENT + 1] += my
    out[MOMENT + 2] += mz


@loose
def _sort_triangles(leaves: Ints, sides: Ints, places: Ints) -> int:
    """List where the numbers of each crossed triangle begin; return how many there are."""
    count = 0
    for i in range(len(leaves)):
        for k in range(LANES):
            places[count] = LEAF * leaves[i] + k
            count += sides[i, k]
    return count


@loose
def _corner(plane: Ten, numbers: Floats, place: int) -> Corner:
    """Return the corner kept from ``place`` on, along forward and port and above the plane."""
    x, y, z = numbers[place], numbers[place + LANES], numbers[place + 2 * LANES]
    u = plane[0] * x + plane[1] * y + plane[2] * z
    v = plane[3] * x + plane[4] * y + plane[5] * z
    return u, v, _height(plane, x, y, z)


@loose
def _part_below(lone: Corner, left: Corner, right: Corner) -> Ten:
    """Return what is below of a triangle of which one corner stands alone on its side."""
    u0, v0, h0 = lone
    u1, v1, h1 = left
    u2, v2, h2 = right
    t, q = h0 / (h0 - h1), h0 / (h0 - h2)
    up, vp = u0 + t * (u1 - u0), v0 + t * (v1 - v0)
    uq, vq = u0 + q * (u2 - u0), v0 + q * (v2 - v0)
    above = 1.0 if h0 > 0.0 else 0.0  # then the triangle is whole but for its lone corner
    sign = 1.0 - 2.0 * above
    w = h0 * (u1 * v2 - v1 * u2) + h1 * (u2 * v0 - v2 * u0) + h2 * (u0 * v1 - v0 * u1)
    corner = sign * t * q * w
    w *= above
    us, vs = up + uq, vp + vq
    turn = sign * (uq * vp - up * vq)
    return (
        w + corner,
        w * (u0 + u1 + u2) + corner * (u0 + us),
        w * (v0 + v1 + v2) + corner * (v0 + vs),
        w * (h0 + h1 + h2) + corner * h0,
        turn,
        turn * us,
        turn * vs,
        turn * (us * us - up * uq),
        turn * (us * vs + up * vp + uq * vq),
        turn * (vs * vs - vp * vq),
    )


@loose
def _add_crossed(numbers: Floats, places: Ints, plane: Ten, turned: Floats) -> None:
    """Add what is below of the triangles at these places, and the segments that they cut."""
    volume = mu = mv = mh = area = au = av = auu = auv = avv = 0.0
    for i in range(len(places)):
        place = places[i]
        a = _corner(plane, numbers, place)
        b = _corner(plane, numbers, place + 3 * LANES)
        c = _corner(plane, numbers, place + 6 * LANES)
        weight = numbers[place + 9 * LANES]
        lone, left, right = a, b, c
        if (a[2] <= 0.0) == (c[2] <= 0.0):
            lone, left, right = b, c, a
        if (a[2] <= 0.0) == (b[2] <= 0.0):
            lone, left, right = c, a, b
        part = _part_below(lone, left, right)
        volume += weight * part[0]
        mu += weight * part[1]
        mv += weight * part[2]
        mh += weight * part[3]
        area += weight * part[4]
        au += weight * part[5]
        av += weight * part[6]
        auu += weight * part[7]
        auv += weight * part[8]
        avv += weight * part[9]
    for k, value in enumerate((volume, mu, mv, mh, area, au, av, auu, auv, avv)):
        turned[k] += value


@inner
def _finish(n: Floats, d: float, whole: Floats, turned: Floats, out: Floats) -> None:
    """Put together what whole nodes, whole triangles and cut ones give, with their divisors."""
    forward, port = axes_in_plane(n)
    o = d * n[0], d * n[1], d * n[2]
    v = whole[0] - (o[0] * whole[1] + o[1] * whole[2] + o[2] * whole[3]) / 3.0
    out[VOLUME] = (out[VOLUME] + turned[VOLUME]) / 6.0 + v
    mu, mv, mh = turned[MOMENT], turned[MOMENT + 1], turned[MOMENT + 2]
    for k in range(3):
        across = o[0] * whole[7 + k] + o[1] * whole[10 + k] + o[2] * whole[13 + k]
        out[MOMENT + k] += mu * forward[k] + mv * port[k] + mh * n[k]
        out[MOMENT + k] /= 24.0
        out[MOMENT + k] += 0.25 * whole[4 + k] - across / 12.0 - 0.75 * o[k] * v
    out[AREA] = turned[AREA] / 2.0
    for k in range(2):
        out[AREA_MOMENT + k] = turned[AREA_MOMENT + k] / 6.0
    out[AREA_SECOND] = turned[AREA_SECOND] / 12.0
    out[AREA_SECOND + 1] = turned[AREA_SECOND + 1] / 24.0
    out[AREA_SECOND + 2] = turned[AREA_SECOND + 2] / 12.0


@apart(
    "trimdive_walk",
    types.void(DOUBLES, SINGLES, LINKS, DOUBLES, LINKS, types.i8, DOUBLES, types.f8, DOUBLES),
)
def _walk(
    leaves_at: Any, nodes_at: Any, links_at: Any, sums_at: Any, roots_at: Any, bodies: int,
    n_at: Any, d: float, out_at: Any,
) -> None:  # fmt: skip
    """Do what ``cut_raw`` says, with a tree's arrays by where they begin."""
    blocks, nodes = carray(leaves_at, (ROWS, LEAF)), carray(nodes_at, (ROWS, BOX))
    links, sums = carray(links_at, (ROWS,)), carray(sums_at, (ROWS, SUMS))
    roots, n, out = carray(roots_at, (bodies,)), carray(n_at, (3,)), carray(out_at, (WIDTH,))
    room = BATCH * FAN
    stack = np.empty(bodies + DEEPEST * (room + BATCH) + 1, np.int64)
    front, below = np.empty(BATCH, np.int64), np.empty(room + 1, np.int64)
    leaves, places = np.empty(room + 1, np.int64), np.empty(room * LANES + 1, np.int64)
    boxes, sides = np.empty((BATCH, FAN), np.int32), np.empty((room, LANES), np.int64)
    whole, turned = np.zeros(SUMS), np.zeros(WIDTH)
    plane, numbers = _plane(n, d), carray(leaves_at, (ROWS,))
    out[:] = 0.0
    size = bodies
    for i in range(bodies):
        stack[i] = roots[i]
    while size:
        some = min(size, BATCH)
        size -= some
        for i in range(some):
            front[i] = stack[size + i]
        _see_boxes(nodes, front[:some], n, d, boxes)
        size, count, lower = _sort_boxes(links, front[:some], boxes, stack, size, leaves, below)
        _add_whole(sums, below[:lower], whole)
        _see_triangles(blocks, leaves[:count], plane, sides, out)
        count = _sort_triangles(leaves[:count], sides, places)
        _add_crossed(numbers, places[:count], plane, turned)
    _finish(n, d, whole, turned, out)


@kernel
def cut_raw(tree: Tree, roots: Links, n: Floats, d: float, out: Floats) -> None:
    """Write volume, moment, area, its moments (in forward, port) about the point d n.

    ``d`` is measured from the tree's centre, as the triangles are; ``roots`` are the bodies cut.
    """
    _walk(
        tree.leaves.ctypes,
        tree.nodes.ctypes,
        tree.links.ctypes,
        tree.sums.ctypes,
        roots.ctypes,
        len(roots),
        n.ctypes,
        d,
        out.ctypes,
    )


@kernel
def _from_origin(tree: Tree, n: Floats, d: float) -> tuple[float, Floats, float, Floats, Floats]:
    """Return the cut by n·r = d with its moments about the origin, in the order of ``Cut``."""
    out, foot, in_plane, second = np.empty(WIDTH), np.empty(3), np.empty(3), np.empty((3, 3))
    moment, first = np.empty(3), np.empty(3)
    local = d - (n[0] * tree.centre[0] + n[1] * tree.centre[1] + n[2] * tree.centre[2])
    cut_raw(tree, tree.roots, n, local, out)
    forward, port = axes_in_plane(n)
    area = out[AREA]
    for i in range(3):
        foot[i] = tree.centre[i] + local * n[i]
        in_plane[i] = out[AREA_MOMENT] * forward[i] + out[AREA_MOMENT + 1] * port[i]
        moment[i] = out[MOMENT + i] + out[VOLUME] * foot[i]
        first[i] = in_plane[i] + area * foot[i]
    for i in range(3):
        for j in range(3):
            second[i, j] = (
                out[AREA_SECOND] * forward[i] * forward[j]
                + out[AREA_SECOND + 1] * (forward[i] * port[j] + port[i] * forward[j])
                + out[AREA_SECOND + 2] * port[i] * port[j]
                + foot[i] * in_plane[j]
                + in_plane[i] * foot[j]
                + area * foot[i] * foot[j]
            )
    return out[VOLUME], moment, area, first, second


def cut(tree: Tree, n: Floats, d: float) -> Cut:
    """Return what lies at n·r <= d, and the waterplane there.

    Args:
        tree: The bodies.
        n: Unit vector that points up, shape (3,) [-].
        d: Height of the plane along ``n`` above the origin [m].
    """
    volume, moment, area, area_moment, area_second = _from_origin(tree, n, d)
    return Cut(
        volume=volume,
        moment=moment,
        area=area,
        area_moment=area_moment,
        area_second=area_second,
    )
