"""Cuts bodies by a plane: what lies below it, and the waterplane, exact for the triangles.

Below the plane everything is counted in signed tetrahedra from a point on the plane, so the cap
needs no triangles of its own; the waterplane's moments come from the segments in which
the plane cuts the skin, by Green's theorem. A corner that lies on the plane counts as below.
"""

from dataclasses import dataclass
from math import hypot

import numpy as np

from trimdive.bodies.kernel import kernel
from trimdive.bodies.tree import CHILD, COUNT_BASE, LEAF, Links, Tree
from trimdive.lines.mesh import Floats, Ints

# What the inner loop writes, all from a point on the plane below or above the tree's centre.
VOLUME, MOMENT, AREA, AREA_MOMENT, AREA_SECOND, WIDTH = 0, 1, 4, 5, 7, 10
ALONE = np.array([0, 0, 1, 2, 2, 1, 0, 0])  # corner alone on its side, by which corners lie below (bits)
TURN = np.array([0, 1, 2, 3, 4, 5, 6, 7, 8, 0, 1, 2, 3])  # where the next corners' columns begin


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """What a plane leaves below it, and the area in which it cuts."""

    volume: float  # below the plane [m³]
    moment: Floats  # first moment of that volume about the origin, shape (3,) [m⁴]
    area: float  # waterplane area [m²]
    area_moment: Floats  # first moment of the waterplane about the origin, shape (3,) [m³]
    area_second: Floats  # second moment of the waterplane about the origin, shape (3, 3) [m⁴]


@kernel
def axes_in_plane(n: Floats) -> tuple[Floats, Floats]:
    """Return forward and port, level, as unit vectors, for the upward unit vector ``n``."""
    forward = np.empty(3)
    length = hypot(n[1], n[2])
    if length > 1e-6:
        forward[0] = length
        forward[1] = -n[0] * n[1] / length
        forward[2] = -n[0] * n[2] / length
    else:
        forward[0], forward[1], forward[2] = 0.0, 0.0, -1.0 if n[0] > 0 else 1.0
    port = np.empty(3)
    port[0] = n[1] * forward[2] - n[2] * forward[1]
    port[1] = n[2] * forward[0] - n[0] * forward[2]
    port[2] = n[0] * forward[1] - n[1] * forward[0]
    return forward, port


@kernel
def _walk(tree: Tree, roots: Links, n: Floats, d: float, whole: Floats) -> Links:
    """Add the sums of all nodes wholly below to ``whole``; return the leaves that may be cut.

    Level by level, without a branch that depends on the geometry: each node is written to every
    list, and only the list's length says whether it stays.
    """
    nodes, links, sums = tree.nodes, tree.links, tree.sums
    nx, ny, nz = n[0], n[1], n[2]
    ax, ay, az = abs(nx), abs(ny), abs(nz)
    room = len(nodes) + 2
    front, behind = np.empty(room, np.int32), np.empty(room, np.int32)
    below, leaves = np.empty(room, np.int32), np.empty(room, np.int32)
    count, cut_leaves = len(roots), 0
    front[:count] = roots
    while count:
        children = lower = 0
        for i in range(count):
            node = front[i]
            s = nx * nodes[node, 0] + ny * nodes[node, 1] + nz * nodes[node, 2] - d
            r = ax * nodes[node, 3] + ay * nodes[node, 4] + az * nodes[node, 5]
            under = s + r <= 0.0
            crossed = (s - r <= 0.0) & ~under
            child = links[node, CHILD]
            behind[children], behind[children + 1] = child, child + 1
            children += 2 * int(crossed & (child != 0))
            leaves[cut_leaves] = node
            cut_leaves += int(crossed & (child == 0))
            below[lower] = node
            lower += int(under)
        for i in range(lower):
            node = below[i]
            for k in range(16):
                whole[k] += sums[node, k]
        front, behind = behind, front
        count = children
    return leaves[:cut_leaves]


@kernel
def _sort_out(tree: Tree, leaves: Links, n: Floats, d: float) -> tuple[Ints, Ints]:
    """Return the triangles of these leaves that are wholly below, and those that are cut.

    A cut one is given as 4 times its number plus the corner that stands alone on its side.
    """
    triangles, links = tree.triangles, tree.links
    nx, ny, nz = n[0], n[1], n[2]
    room = COUNT_BASE * len(leaves) + 1
    under, crossed = np.empty(room, np.int64), np.empty(room, np.int64)
    unders = crosses = 0
    for leaf in leaves:
        code = links[leaf, LEAF]
        first = code // COUNT_BASE
        for i in range(first, first + code % COUNT_BASE):
            h0 = nx * triangles[i, 0] + ny * triangles[i, 1] + nz * triangles[i, 2]
            h1 = nx * triangles[i, 3] + ny * triangles[i, 4] + nz * triangles[i, 5]
            h2 = nx * triangles[i, 6] + ny * triangles[i, 7] + nz * triangles[i, 8]
            side = int(h0 <= d) + 2 * int(h1 <= d) + 4 * int(h2 <= d)
            under[unders] = i
            unders += int(side == 7)
            crossed[crosses] = 4 * i + ALONE[side]
            crosses += int((side != 0) & (side != 7))
    return under[:unders], crossed[:crosses]


@kernel
def _add_under(triangles: Floats, under: Ints, o: Floats, out: Floats) -> None:
    """Add the tetrahedra from ``o`` to these whole triangles; divisors come later."""
    volume = mx = my = mz = 0.0
    for i in under:
        x0, y0, z0 = triangles[i, 0] - o[0], triangles[i, 1] - o[1], triangles[i, 2] - o[2]
        x1, y1, z1 = triangles[i, 3] - o[0], triangles[i, 4] - o[1], triangles[i, 5] - o[2]
        x2, y2, z2 = triangles[i, 6] - o[0], triangles[i, 7] - o[1], triangles[i, 8] - o[2]
        w = triangles[i, 9] * (
            x0 * (y1 * z2 - z1 * y2) + y0 * (z1 * x2 - x1 * z2) + z0 * (x1 * y2 - y1 * x2)
        )
        volume += w
        mx += w * (x0 + x1 + x2)
        my += w * (y0 + y1 + y2)
        mz += w * (z0 + z1 + z2)
    out[0] += volume
    out[1] += mx
    out[2] += my
    out[3] += mz


@kernel
def _add_crossed(triangles: Floats, crossed: Ints, n: Floats, o: Floats, out: Floats) -> None:
    """Add the parts below the plane of these triangles, and the segments in which it cuts."""
    nx, ny, nz = n[0], n[1], n[2]
    forward, port = axes_in_plane(n)
    fx, fy, fz = forward[0], forward[1], forward[2]
    px, py, pz = port[0], port[1], port[2]
    volume = mx = my = mz = 0.0
    area = au = av = auu = auv = avv = 0.0
    for code in crossed:
        i = code // 4
        a = 3 * (code % 4)
        b, c = TURN[a + 3], TURN[a + 6]
        x0, y0, z0 = triangles[i, a] - o[0], triangles[i, a + 1] - o[1], triangles[i, a + 2] - o[2]
        x1, y1, z1 = triangles[i, b] - o[0], triangles[i, b + 1] - o[1], triangles[i, b + 2] - o[2]
        x2, y2, z2 = triangles[i, c] - o[0], triangles[i, c + 1] - o[1], triangles[i, c + 2] - o[2]
        weight = triangles[i, 9]
        h0 = nx * x0 + ny * y0 + nz * z0
        h1 = nx * x1 + ny * y1 + nz * z1
        h2 = nx * x2 + ny * y2 + nz * z2
        t, u = h0 / (h0 - h1), h0 / (h0 - h2)
        xp, yp, zp = x0 + t * (x1 - x0), y0 + t * (y1 - y0), z0 + t * (z1 - z0)
        xq, yq, zq = x0 + u * (x2 - x0), y0 + u * (y2 - y0), z0 + u * (z2 - z0)
        above = 1.0 * (h0 > 0.0)  # then the triangle is whole but for its lone corner
        sign = weight * (1.0 - 2.0 * above)
        w = x0 * (y1 * z2 - z1 * y2) + y0 * (z1 * x2 - x1 * z2) + z0 * (x1 * y2 - y1 * x2)
        corner = sign * t * u * w
        w *= weight * above
        volume += w + corner
        mx += w * (x0 + x1 + x2) + corner * (x0 + xp + xq)
        my += w * (y0 + y1 + y2) + corner * (y0 + yp + yq)
        mz += w * (z0 + z1 + z2) + corner * (z0 + zp + zq)
        up, vp = fx * xp + fy * yp + fz * zp, px * xp + py * yp + pz * zp
        uq, vq = fx * xq + fy * yq + fz * zq, px * xq + py * yq + pz * zq
        turn = sign * (uq * vp - up * vq)
        us, vs = up + uq, vp + vq
        area += turn
        au += turn * us
        av += turn * vs
        auu += turn * (us * us - up * uq)
        avv += turn * (vs * vs - vp * vq)
        auv += turn * (us * vs + up * vp + uq * vq)
    out[0] += volume
    out[1] += mx
    out[2] += my
    out[3] += mz
    out[4], out[5], out[6], out[7], out[8], out[9] = area, au, av, auu, auv, avv


@kernel
def cut_raw(tree: Tree, roots: Links, n: Floats, d: float, out: Floats) -> None:
    """Write volume, moment, area, its moments (in forward, port) about the point d n.

    ``d`` is measured from the tree's centre, as the triangles are; ``roots`` are the bodies cut.
    """
    whole = np.zeros(16)
    out[:] = 0.0
    o = d * n
    leaves = _walk(tree, roots, n, d, whole)
    under, crossed = _sort_out(tree, leaves, n, d)
    _add_under(tree.triangles, under, o, out)
    _add_crossed(tree.triangles, crossed, n, o, out)
    v = whole[0] - (o[0] * whole[1] + o[1] * whole[2] + o[2] * whole[3]) / 3.0
    out[VOLUME] = out[VOLUME] / 6.0 + v
    for k in range(3):
        turned = o[0] * whole[7 + k] + o[1] * whole[10 + k] + o[2] * whole[13 + k]
        below = 0.25 * whole[4 + k] - turned / 12.0 - 0.75 * o[k] * v
        out[MOMENT + k] = out[MOMENT + k] / 24.0 + below
    out[AREA] *= 0.5
    out[AREA_MOMENT] /= 6.0
    out[AREA_MOMENT + 1] /= 6.0
    out[AREA_SECOND] /= 12.0
    out[AREA_SECOND + 1] /= 24.0
    out[AREA_SECOND + 2] /= 12.0


def cut(tree: Tree, n: Floats, d: float) -> Cut:
    """Return what lies at n·r <= d, and the waterplane there.

    Args:
        tree: The bodies.
        n: Unit vector that points up, shape (3,) [-].
        d: Height of the plane along ``n`` above the origin [m].
    """
    out = np.empty(WIDTH)
    local = d - float(n @ tree.centre)
    cut_raw(tree, tree.roots, n, local, out)
    foot = tree.centre + local * n
    forward, port = axes_in_plane(n)
    in_plane = out[AREA_MOMENT] * forward + out[AREA_MOMENT + 1] * port
    second = (
        out[AREA_SECOND] * np.outer(forward, forward)
        + out[AREA_SECOND + 1] * (np.outer(forward, port) + np.outer(port, forward))
        + out[AREA_SECOND + 2] * np.outer(port, port)
    )
    mixed = np.outer(foot, in_plane)
    area = float(out[AREA])
    return Cut(
        volume=float(out[VOLUME]),
        moment=out[MOMENT : MOMENT + 3] + out[VOLUME] * foot,
        area=area,
        area_moment=in_plane + area * foot,
        area_second=second + mixed + mixed.T + area * np.outer(foot, foot),
    )
