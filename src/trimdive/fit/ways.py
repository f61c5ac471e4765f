"""A way out for a thing: slide, lift, tilt and turn, until it is clear of the boat.

Places and attitudes lie on a lattice. From where the thing stands the search goes on to every
neighbour in which it is clear, first where fewest steps are left, so that the way found is one of
few steps. What touches the thing where it stands may go on touching as much.
"""

from collections.abc import Sequence
from heapq import heappop, heappush
from math import ceil, pi

import numpy as np
from scipy.spatial import ConvexHull

from trimdive.fit.free import Free
from trimdive.geometry.clashes.found import places_along
from trimdive.geometry.clashes.shapes import Shape
from trimdive.geometry.lines.mesh import Floats, Ints
from trimdive.geometry.solids.clearance import Around, clearances
from trimdive.records import record

Pose = tuple[int, ...]  # steps along, across, up, pitch, roll

STANDS: Pose = (0, 0, 0, 0, 0)
STEPS = np.array([0.006, 0.006, 0.003, pi / 90, pi / 12])  # along, across, up, pitch, roll [m, rad]
TILT = 24  # steps of pitch either way, at most [-]
ROLL = 6  # steps of roll either way, at most [-]
TOWARDS = {"up": (2, 1), "forward": (0, 1), "aft": (0, -1)}  # by way out: which axis, which sense
POINTS = 0.012  # between points of a thing's surface [m]
FINER = 0.5  # of that between points along a round thing, and on the rims of its ends [-]
ALLOWED = 2e-4  # so much nearer than where it stands may it come, for the field is not exact [m]
EAGER = 3  # times that a step yet to go counts as one done [-]
TOGETHER = 64  # poses whose neighbours are looked at in one go [-]
MOST = 400_000  # places and attitudes looked at, at most [-]


@record
class Way:
    """A way out: poses from where it stands to clear of the boat."""

    poses: Floats  # shift along, across, up, pitch (bow up), roll, shape (n, 5) [m, rad]
    tried: int  # places and attitudes looked at [-]


@record
class Shut:
    """There is no way out, or none was found."""

    tried: int  # places and attitudes looked at [-]
    is_sure: bool  # every place and attitude that can be reached was looked at
    stopped_by: Floats  # how often each of what stands around stopped it, shape (m,) [-]


def surroundings(
    free: Free, shafts: Sequence[Shape], others: Sequence[Shape], own: Shape
) -> Around:
    """Return what a thing must be clear of, as near as it stands to it now.

    Args:
        free: The free room between walls.
        shafts: Boxes in which no wall counts, such as a hatch and what is above it.
        others: What else stands there, of plain form.
        own: The thing where it stands.
    """
    boxes = [_row(one) for one in others if one.form != "round"]
    rounds = [_row(one) for one in others if one.form == "round"]
    around = Around(
        field=free.field,
        least=free.least,
        far=free.far,
        low=free.low,
        step=free.step,
        shafts=_rows([_row(one) for one in shafts]),
        boxes=_rows(boxes),
        rounds=_rows(rounds),
        allowed=np.zeros(1 + len(boxes) + len(rounds)),
    )
    now = clearances(points_of(own), np.zeros((1, 5)), np.array(own.place), around)[0]
    return around._replace(allowed=np.minimum(now, 0.0) - ALLOWED)


def _rows(rows: Sequence[Sequence[float]]) -> Floats:
    return np.array(rows, dtype=np.float64).reshape(-1, 6)


def _row(shape: Shape) -> Sequence[float]:
    """Return a shape as a row of a box, or of a round one."""
    if shape.form == "round":
        k = shape.axis
        return (*shape.place, shape.size[k] / 2, shape.size[(k + 1) % 3] / 2, float(k))
    return (*shape.place, *(long / 2 for long in shape.size))


def points_of(shape: Shape, step: float = POINTS) -> Floats:
    """Return points all over a shape's surface from its middle, shape (n, 3) [m]."""
    if shape.form == "round":
        k = shape.axis
        long, radius = shape.size[k], shape.size[(k + 1) % 3] / 2
        return np.roll(_barrel(long, radius, step), k, axis=1)
    if shape.form == "box":
        faces = [_face(shape.size, k, step) for k in range(3)]
        return np.unique(np.concatenate(faces), axis=0)
    return shape.surface.vertices - np.array(shape.place)


def _face(size: Sequence[float], k: int, step: float) -> Floats:
    """Return points on the two faces of a box across one axis."""
    axes = [places_along(long, step) for long in size]
    axes[k] = np.array([-size[k] / 2, size[k] / 2])
    return np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)


def _barrel(long: float, radius: float, step: float) -> Floats:
    """Return points on the sides and both ends of a round shape along x."""
    rings = [(radius, x, step) for x in places_along(long, FINER * step)]
    rings += [(radius, end * long / 2, FINER * step) for end in (-1, 1)]
    inner = np.linspace(0.0, radius, max(int(np.ceil(radius / step)), 1), endpoint=False)
    rings += [(float(r), end * long / 2, step) for r in inner for end in (-1, 1)]
    found: list[Floats] = []
    for r, x, apart in rings:
        count = max(int(np.ceil(2 * pi * r / apart)), 1)
        turn = 2 * pi * np.arange(count) / count
        found.append(np.stack([np.full(count, x), r * np.cos(turn), r * np.sin(turn)], axis=1))
    return np.concatenate(found)


def way_out(
    own: Shape,
    around: Around,
    limit: float,
    way: str = "up",
    *,
    aside: bool = False,
) -> Way | Shut:
    """Return a way on which a thing comes out, if there is one.

    Args:
        own: The thing where it stands.
        around: What it must be clear of.
        limit: Height, or place along, beyond which all of it is clear of the boat [m].
        way: "up", "forward" or "aft".
        aside: Whether it may move across and turn about its length too.
    """
    search = _Search(own, around, (limit, way), aside=aside)
    while search.waiting:
        gained = search.onward()
        if gained is not None:
            poses = search.straightened(search.back(gained))
            return Way(poses=poses, tried=len(search.before))
        if len(search.before) > MOST:
            break
    is_sure = not search.waiting
    return Shut(tried=len(search.before), is_sure=is_sure, stopped_by=search.stopped)


def between(one: Floats, other: Floats) -> Floats:
    """Return poses from one to another, each no more than a step of the lattice on, (n, 5)."""
    count = max(int(np.ceil((np.abs(other - one) / STEPS).max())), 1)
    return one + np.linspace(0.0, 1.0, count + 1)[:, None] * (other - one)


class _Search:
    """Places and attitudes that were reached, those nearest to the way out looked at first.

    How far it is yet, is taken to be a few times the steps by which the thing must still go the
    way out: what goes straight out is found at once, and a way of about fewest steps otherwise.
    """

    def __init__(self, own: Shape, around: Around, out: tuple[float, str], *, aside: bool) -> None:
        """Begin where the thing stands."""
        self.points, self.pivot = points_of(own), np.array(own.place)
        self.rim = self.points[ConvexHull(self.points).vertices]  # the last of it is one of these
        self.axis, self.sense = TOWARDS[out[1]]
        self.around, self.limit, self.aside = around, self.sense * out[0], aside
        self.moves = _moves(aside=aside)
        self.before: dict[Pose, Pose | None] = {STANDS: None}  # each pose, and from where
        self.steps: dict[Pose, int] = {STANDS: 0}
        self.waiting: list[tuple[int, int, int, Pose]] = [(0, 0, 0, STANDS)]
        self.stopped = np.zeros(len(around.allowed))

    def onward(self) -> Pose | None:
        """Look at the neighbours of the poses next in order; return one that is out."""
        first = self.waiting[0][0]
        here: list[Pose] = []
        while self.waiting and len(here) < TOGETHER and self.waiting[0][0] == first:
            here.append(heappop(self.waiting)[3])
        fresh = self._neighbours(here)
        if not fresh:
            return None
        poses = np.array(fresh) * STEPS
        gaps = clearances(self.points, poses, self.pivot, self.around, early=True)
        is_clear = (gaps >= 0.0).all(axis=1)
        self.stopped += (gaps[~is_clear] < 0.0).sum(axis=0)
        lasts = self._last(poses[is_clear]).tolist()
        for k, last in zip(np.flatnonzero(is_clear).tolist(), lasts, strict=True):
            pose = fresh[k]
            if last > self.limit:
                return pose
            self.steps[pose] = done = self.steps[self.before[pose] or STANDS] + 1
            yet = ceil((self.limit - last) / STEPS[self.axis])
            heappush(self.waiting, (done + EAGER * yet, yet, sum(map(abs, pose)), pose))
        return None

    def _neighbours(self, here: Sequence[Pose]) -> list[Pose]:
        """Return neighbours that were not looked at yet, and note from where each is reached."""
        after = np.array(here)[:, None] + self.moves
        most = np.array([TILT, ROLL if self.aside else 0])
        is_held = (np.abs(after[..., 3:]) <= most).all(axis=2)
        found: list[Pose] = []
        for i, j in np.argwhere(is_held).tolist():
            pose = tuple(after[i, j].tolist())
            if pose not in self.before:
                self.before[pose] = here[i]
                found.append(pose)
        return found

    def _last(self, poses: Floats) -> Floats:
        """Return how far out the last point of the thing is in each pose, shape (n,) [m]."""
        x, y, z = self.rim.T
        (pitch, roll), at = poses[:, 3:].T[..., None], poses[:, self.axis]
        up = y * np.sin(roll) + z * np.cos(roll)
        if self.axis == 2:
            out = x * np.sin(pitch) + up * np.cos(pitch)
        else:
            out = x * np.cos(pitch) - up * np.sin(pitch)
        return (self.sense * out).min(axis=1) + self.sense * (self.pivot[self.axis] + at)

    def straightened(self, poses: Floats) -> Floats:
        """Return a way with as few turns as it is clear with, shape (n, 5) [m, rad]."""
        kept, here = [poses[0]], 0
        while here < len(poses) - 1:
            last = len(poses) - 1
            while last > here + 1 and not self._is_straight(poses[here], poses[last]):
                last = here + max((last - here) // 2, 1)
            if len(kept) > 1 and self._is_straight(kept[-2], poses[last]):
                kept.pop()
            kept.append(poses[last])
            here = last
        return np.array(kept)

    def _is_straight(self, one: Floats, other: Floats) -> bool:
        """Return whether the straight way between two poses is clear."""
        gaps = clearances(self.points, between(one, other), self.pivot, self.around)
        return bool((gaps >= 0.0).all())

    def back(self, out: Pose) -> Floats:
        """Return the poses from where the thing stands to one reached, shape (n, 5) [m, rad]."""
        way: list[Pose] = []
        last: Pose | None = out
        while last is not None:
            way.append(last)
            last = self.before[last]
        return np.array(way[::-1]) * STEPS


def _moves(*, aside: bool) -> Ints:
    """Return the steps to neighbours on the lattice, shape (k, 5) [-]."""
    free = (1, 1, 1, 1, 1) if aside else (1, 0, 1, 1, 0)
    spans = [np.arange(-n, n + 1) for n in free]
    moves = np.stack(np.meshgrid(*spans, indexing="ij"), axis=-1).reshape(-1, 5)
    few = np.abs(moves).sum(axis=1)
    return moves[(few > 0) & (few <= 2)].astype(np.int64)
