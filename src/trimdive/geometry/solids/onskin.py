"""Finds a place on the skin: by its height, by its girth from the keel, or on deck.

Every place is cut out of the real surface, triangle by triangle. A girth is the way along the skin
from the keel round one side, in the plane of one section; over a well through the keel it goes
straight across. A developed length is the way along the skin, never its projection.
"""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from trimdive.errors import GeometryError
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.section import segments
from trimdive.records import record

Way = Literal["port", "starboard"]
Flags = NDArray[np.bool_]
SIDES: dict[Way, float] = {"port": 1.0, "starboard": -1.0}
AHEAD, UP = np.array([1.0, 0.0, 0.0]), np.array([0.0, 0.0, 1.0])
SAME = 1e-8  # ends of pieces of line nearer than this are one [m]
BRIDGED = 1e-6  # a line goes on over a gap no wider than this [m]
BESIDE = 1e-4  # a place farther from the way round the hull than this has no girth [m]
WITHIN = 1e-6  # so far within the ends a section is cut that is asked for at them [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place on the skin."""

    x: float  # along the boat [m]
    y: float  # to port [m]
    z: float  # above the keel line [m]
    girth: float  # from the keel along the skin; nan where no way round leads to it [m]
    side: Way

    @property
    def half_breadth(self) -> float:
        """Return how far off the middle line it lies [m]."""
        return abs(self.y)

    @property
    def point(self) -> tuple[float, float, float]:
        """Return it as x, y, z [m]."""
        return self.x, self.y, self.z


@record
class Round:
    """The way round one side of a hull, from the keel to the top, where a plane cuts it."""

    x: float  # [m]
    points: Floats  # to port or starboard, and up, shape (n, 2) [m]
    at: Floats  # girth from the keel to each, rising, shape (n,) [m]

    @property
    def whole(self) -> float:
        """Return the whole girth of this side [m]."""
        return float(self.at[-1])

    def point(self, girth: float) -> tuple[float, float]:
        """Return the place so far from the keel, to port or starboard and up [m]."""
        y, z = (float(np.interp(girth, self.at, line)) for line in self.points.T)
        return y, z

    def girth(self, y: float, z: float) -> float:
        """Return how far from the keel a place on it lies [m]; nan where it lies off it."""
        a, run = self.points[:-1], np.diff(self.points, axis=0)
        square = np.maximum((run**2).sum(axis=1), 1e-300)
        share = np.clip((([y, z] - a) * run).sum(axis=1) / square, 0.0, 1.0)
        off = np.linalg.norm(a + share[:, None] * run - [y, z], axis=1)
        k = int(off.argmin())
        if off[k] > BESIDE:
            return float("nan")
        return float(self.at[k] + share[k] * (self.at[k + 1] - self.at[k]))


def on_side(mesh: Mesh, x: float, z: float, side: Way, hull: Mesh) -> Spot:
    """Return the outmost place of a surface at a height.

    Args:
        mesh: The surface, closed.
        x: Place along [m].
        z: Height [m].
        side: Which side.
        hull: The outside of the whole hull, round which girth is measured.

    Raises:
        GeometryError: There is nothing of the surface at that place and height.
    """
    lines = _half(mesh, x, side)
    low, high = float(lines[..., 1].min()), float(lines[..., 1].max())
    y = _crossed(lines, 1, z)
    if y is None:
        what = f"height {_mm(z)} is off the skin, which goes from {_mm(low)} to {_mm(high)} up "
        raise _off(f"{what}at x {_mm(x)}")
    return spot(hull, x, y, z, side)


def on_deck(mesh: Mesh, x: float, off: float, side: Way, hull: Mesh) -> Spot:
    """Return the topmost place of a surface so far off the middle line.

    Args:
        mesh: The surface, closed.
        x: Place along [m].
        off: From the middle line [m].
        side: Which side.
        hull: The outside of the whole hull, round which girth is measured.

    Raises:
        GeometryError: The surface is not so broad there.
    """
    lines = _half(mesh, x, side)
    z = _crossed(lines, 0, max(off, WITHIN))
    if z is None:
        broad = _mm(float(lines[..., 0].max()))
        raise _off(f"{_mm(off)} off the middle line is off the skin, {broad} there at x {_mm(x)}")
    return spot(hull, x, off, z, side)


def on_girth(hull: Mesh, x: float, girth: float, side: Way) -> Spot:
    """Return the place so far from the keel round the hull.

    Raises:
        GeometryError: The hull is not so far round there.
    """
    way = round_at(hull, x, side)
    if girth > way.whole:
        raise _off(f"girth {_mm(girth)} is more than the {_mm(way.whole)} round her at x {_mm(x)}")
    y, z = way.point(girth)
    return Spot(x=x, y=SIDES[side] * y, z=z, girth=girth, side=side)


def spot(hull: Mesh, x: float, off: float, z: float, side: Way) -> Spot:
    """Return a place on the skin with its girth.

    Args:
        hull: The outside of the whole hull.
        x: Along the boat [m].
        off: From the middle line to its side [m].
        z: Its height [m].
        side: Its side.
    """
    girth = round_at(hull, x, side).girth(off, z)
    return Spot(x=x, y=SIDES[side] * off, z=z, girth=girth, side=side)


def round_at(hull: Mesh, x: float, side: Way) -> Round:
    """Return the way round one side of a hull.

    Raises:
        GeometryError: There is no hull at that place.
    """
    return _round(hull, round(x, 9), side)


@with_mesh(512)
def _round(hull: Mesh, x: float, side: Way) -> Round:
    chain = _chain(_half(hull, x, side))
    off = float(chain[0, 0])  # over a well a tape goes straight
    top = int(np.flatnonzero(chain[:, 1] >= chain[:, 1].max() - SAME)[-1])
    points = chain[: top + 1] if off > BRIDGED else chain
    at = off + np.concatenate([[0.0], np.linalg.norm(np.diff(points, axis=0), axis=1).cumsum()])
    return Round(x=x, points=points, at=at)


def waterline(hull: Mesh, z: float, side: Way) -> Floats:
    """Return the line round one side of a hull at a height, from aft forward, shape (n, 3) [m].

    Raises:
        GeometryError: There is no hull at that height.
    """
    return _waterline(hull, round(z, 9), side)


@with_mesh(32)
def _waterline(hull: Mesh, z: float, side: Way) -> Floats:
    low, high = hull.bounds[:, 2].tolist()
    if not low < z < high:
        raise _off(f"height {_mm(z)} is off the skin, which goes from {_mm(low)} to {_mm(high)} up")
    lines = segments(hull.corners, UP, z)[..., [1, 0]] * [SIDES[side], 1.0]
    chain = _chain(_clipped(lines))
    return np.column_stack([chain[:, 1], SIDES[side] * chain[:, 0], np.full(len(chain), z)])


def stem_and_stern(hull: Mesh, z: float) -> tuple[float, float]:
    """Return where the stern and the stem of a hull lie at a height, on the middle line [m].

    Raises:
        GeometryError: There is no hull at that height.
    """
    lines = segments(hull.corners, np.array([0.0, 1.0, 0.0]), WITHIN)[..., [0, 2]]
    aft, fore = (_crossed(lines * [sign, 1.0], 1, z) for sign in (-1.0, 1.0))
    if aft is None or fore is None:
        low, high = (_mm(float(lines[..., 1].min())), _mm(float(lines[..., 1].max())))
        raise _off(f"height {_mm(z)} is off stem and stern, which go from {low} to {high} up")
    return 0.0 - aft, fore


def developed(points: Floats) -> float:
    """Return the length of a line along the skin [m], through points of shape (n, 3) [m]."""
    return float(np.linalg.norm(np.diff(points, axis=0), axis=1).sum())


def between(points: Floats, aft: float, fore: float) -> Floats:
    """Return the part of a line from aft forward that lies between two places, shape (m, 3) [m]."""
    x = np.maximum.accumulate(points[:, 0])
    ends = [np.array([np.interp(at, x, line) for line in points.T]) for at in (aft, fore)]
    return np.vstack([ends[0], points[(points[:, 0] > aft) & (points[:, 0] < fore)], ends[1]])


def _half(mesh: Mesh, x: float, side: Way) -> Floats:
    """Return the pieces of line in which a plane cuts one side, off the middle and up (k, 2, 2).

    Raises:
        GeometryError: There is nothing at that place.
    """
    low, high = mesh.bounds[:, 0].tolist()
    if not low - WITHIN <= x <= high + WITHIN:
        raise _off(f"x {_mm(x)} is beyond the ends of the skin, {_mm(low)} and {_mm(high)}")
    inner = min(max(x, low + WITHIN), high - WITHIN)
    first, last = _reach(mesh)
    here = mesh.triangles[(first <= inner) & (last >= inner)]
    lines = segments(mesh.vertices[here], AHEAD, inner)[..., 1:] * [SIDES[side], 1.0]
    kept = _clipped(lines)
    if not len(kept):
        raise _off(f"there is no skin to {side} at x {_mm(x)}")
    return kept


@with_mesh(1)
def _reach(mesh: Mesh) -> tuple[Floats, Floats]:
    """Return from where to where each triangle goes along the boat, shape (m,) each [m]."""
    x = mesh.vertices[:, 0][mesh.triangles]
    return x.min(axis=1), x.max(axis=1)


def _clipped(lines: Floats) -> Floats:
    """Return what of pieces of line lies at 0 or above in their first place, (k, 2, 2) [m]."""
    off = lines[..., 0]
    lines = lines[(off > -SAME).any(axis=1) & ~(np.abs(off) <= SAME).all(axis=1)].copy()
    for end in (0, 1):
        here, there = lines[:, end].copy(), lines[:, 1 - end]
        out = here[:, 0] < 0.0
        share = here[out, 0] / (here[out, 0] - np.where(there[out, 0] > 0, there[out, 0], 1.0))
        lines[out, end] += share[:, None] * (there[out] - here[out])
        lines[out, end, 0] = 0.0
    return lines[np.linalg.norm(lines[:, 1] - lines[:, 0], axis=1) > 0.0]


def _crossed(lines: Floats, axis: int, level: float) -> float | None:
    """Return the farthest place along the other axis where lines pass a level; None: nowhere."""
    ends = lines[..., axis]
    over = lines[(ends.min(axis=1) <= level + SAME) & (ends.max(axis=1) >= level - SAME)]
    if not len(over):
        return None
    a, b = over[:, 0], over[:, 1]
    run = b[:, axis] - a[:, axis]
    share = np.clip((level - a[:, axis]) / np.where(run == 0.0, 1.0, run), 0.0, 1.0)
    other = 1 - axis
    at = a[:, other] + share * (b - a)[:, other]
    return float(np.where(run == 0.0, over[..., other].max(axis=1), at).max())


def _chain(lines: Floats) -> Floats:
    """Return the line that pieces make from the lowest place on the middle, shape (n, 2) [m].

    Where none of them reaches the middle, from the lowest place, and outward.
    """
    ends = lines.reshape(-1, 2)
    on_middle = ends[:, 0] <= BRIDGED
    among = ends[on_middle] if on_middle.any() else ends
    lowest = among[among[:, 1] <= among[:, 1].min() + SAME]
    here = lowest[lowest[:, 0].argmax()] if not on_middle.any() else lowest[0]
    nodes = np.rint(lines / BRIDGED).astype(np.int64).tolist()
    ends_at: dict[tuple[int, int], list[tuple[int, int]]] = {}
    for k, pair in enumerate(nodes):
        for end in (0, 1):
            ends_at.setdefault((pair[end][0], pair[end][1]), []).append((k, end))
    free, chain, node = np.ones(len(lines), bool), [here], None
    while free.any():
        options = [one for one in ends_at.get(node, ()) if free[one[0]]] if node else []
        options = options or _beside(lines, free, here)
        if not options:
            break
        k, end = max(options, key=lambda one: lines[one[0], 1 - one[1], 0])
        free[k] = False
        here, node = lines[k, 1 - end], (nodes[k][1 - end][0], nodes[k][1 - end][1])
        chain.append(here)
        if here[0] <= SAME and len(chain) > 2 and on_middle.any():
            break
    found = np.array(chain)
    moved = np.linalg.norm(np.diff(found, axis=0), axis=1) > 0.0
    return found[np.concatenate([[True], moved])]


def _beside(lines: Floats, free: Flags, here: Floats) -> list[tuple[int, int]]:
    """Return free pieces that begin or end at a place, with that end; nearest ones alone."""
    where = np.flatnonzero(free)
    off = np.linalg.norm(lines[where] - here, axis=2)
    if off.min() > BRIDGED:
        return []
    each, end = np.nonzero(off <= max(float(off.min()), SAME))
    return [(int(where[i]), int(k)) for i, k in zip(each, end, strict=True)]


def _mm(length: float) -> str:
    """Return a length [m] in millimetres, for a message."""
    return f"{length * 1e3:.1f}".removesuffix(".0") + " mm"


def _off(what: str) -> GeometryError:
    return GeometryError(what, "skin", "Measure it again, or look at the hull there.")
