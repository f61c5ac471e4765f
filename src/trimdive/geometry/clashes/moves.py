"""The least move, or cut, after which a thing shares no room: tried, not reckoned alone."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import inf, sqrt

import numpy as np

from trimdive.geometry.clashes.scene import Scene, placed_at, with_shape
from trimdive.geometry.clashes.shapes import Shape, Triple
from trimdive.geometry.clashes.solids import Bore, Solid

GAP = 0.001  # left between things [m]
STEP = 0.001  # by which a move across or up is tried [m]
ASIDE = 0.04  # a thing is moved so far across or up at least, and so much of her length [m, -]
ALONG = 0.3  # farthest that a thing is moved along, of her length [-]
LEAST = 0.5  # a piece is cut to no less than this share [-]
WORSE = 8.0  # moves so many times as unwelcome as the least are not weighed [-]
OFF_CENTRE = 5.0  # a move off the middle line counts so many times as far: it makes her lean [-]
PLACES = 0.002  # steps along a bore at which a free place is looked for [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """One way for a thing to be clear."""

    path: str
    shift: Triple  # how far [m]
    size: Triple | None = None  # cut to this along, across, up [m]; None: whole

    @property
    def far(self) -> float:
        """Return how far it is moved [m]."""
        return sqrt(sum(step**2 for step in self.shift))


def clear_moves(
    scene: Scene,
    path: str,
    *,
    length: float,
    top: float,
    along_only: bool = False,
    worse: float = WORSE,
) -> tuple[Move, ...]:
    """Return the least move each way, forward, aft, across, up or down, that clears a thing.

    Args:
        scene: The boat's solids.
        path: Of the thing.
        length: Of the boat [m].
        top: No part of it may come higher than this by a move [m].
        along_only: Move it along her only, as a tank in its bore.
        worse: A move so many times as unwelcome as the least before it is not looked at [-].
    """
    solids = scene.by_path[path]
    along = [*_along(scene, solids, ALONG * length)]
    ways: list[Iterable[Triple]] = []
    if not along_only:
        most = ASIDE * max(length, 1.0)
        ways += [_aside(axis, sign, most) for axis in (1, 2) for sign in (1.0, -1.0)]
    ways += [[one for one in along if one[0] * way > 0] for way in (1.0, -1.0)]
    found: list[Move] = []
    least = inf
    for way in ways:
        if (move := _first_clear(scene, solids, way, (top, worse * least))) is not None:
            found.append(move)
            least = min(least, _cost(solids, move.shift))
    return tuple(found)


def _first_clear(
    scene: Scene, solids: tuple[Solid, ...], way: Iterable[Triple], most: tuple[float, float]
) -> Move | None:
    """Return the first of some moves that clears a thing; None where none does.

    Args:
        scene: The boat's solids.
        solids: The thing, both of a pair.
        way: Moves, least first [m].
        most: How high it may come [m], and how unwelcome its move may be [m].
    """
    for shift in way:
        there = placed_at(solids, shift)
        if shift[2] > 0 and max(one.shape.spans[2][1] for one in there) > most[0]:
            return None
        if _cost(solids, shift) > most[1]:
            return None
        if scene.is_clear(there):
            return Move(path=solids[0].path, shift=shift)
    return None


def _cost(solids: tuple[Solid, ...], shift: Triple) -> float:
    """Return how unwelcome a move is [m]: its length, more where it makes her lean."""
    weight = OFF_CENTRE if shift[1] and len(solids) == 1 else 1.0
    return weight * sqrt(sum(step**2 for step in shift))


def _aside(axis: int, sign: float, most: float) -> Iterator[Triple]:
    """Yield moves across or up, least first [m]."""
    for k in range(1, int(most / STEP) + 1):
        step = sign * k * STEP
        yield (0.0, step, 0.0) if axis == 1 else (0.0, 0.0, step)


def _along(scene: Scene, solids: tuple[Solid, ...], most: float) -> Iterator[Triple]:
    """Yield moves along that bring a thing beside another one, least first [m]."""
    aft, fore = solids[0].shape.spans[0]
    ends: set[float] = set()
    for other in scene.aboard.solids:
        if other.path == solids[0].path or other.home != solids[0].home:
            continue
        low, high = other.shape.spans[0]
        ends |= {low - fore - GAP, high - aft + GAP}
    for bore in scene.aboard.bores:
        low, high = bore.shapes[0].spans[0]
        if bore.name == solids[0].home:
            ends |= {low - aft, high - fore}
    ends |= {k * 0.005 for k in range(-20, 21) if k}
    for step in sorted((end for end in ends if abs(end) <= most), key=abs):
        if step:
            yield (round(step, 4), 0.0, 0.0)


def least_cut(scene: Scene, path: str) -> Move | None:
    """Return the least cut from one face of a box that clears it; None where none does."""
    solids = scene.by_path[path]
    size = solids[0].shape.size
    best: tuple[float, Move] | None = None
    if solids[0].shape.form != "box":
        return None
    for axis in range(3):
        for sign in (1.0, -1.0):
            for k in range(1, int((1 - LEAST) * size[axis] / STEP) + 1):
                lost = k * STEP / size[axis]
                if best and lost >= best[0]:
                    break
                move = _cut(path, size, axis, sign * k * STEP)
                if scene.is_clear([_cut_to(solid, move, n) for n, solid in enumerate(solids)]):
                    best = lost, move
                    break
    return best[1] if best else None


def _cut(path: str, size: Triple, axis: int, by: float) -> Move:
    """Return the cut of so much [m] from one end; from the upper, outer, fore end if negative."""
    left = list(size)
    left[axis] -= abs(by)
    shift = [0.0, 0.0, 0.0]
    shift[axis] = by / 2
    return Move(path=path, shift=(shift[0], shift[1], shift[2]), size=(left[0], left[1], left[2]))


def _cut_to(solid: Solid, move: Move, number: int) -> Solid:
    x, y, z = solid.shape.place
    dx, dy, dz = move.shift
    place = (x + dx, y + dy * (1, -1)[number], z + dz)
    return with_shape(solid, Shape(form="box", place=place, size=move.size or solid.shape.size))


def into_bore(
    scene: Scene, path: str, home: str | None = None, at: float | None = None
) -> Move | None:
    """Return the nearest place within a cylinder where a thing lies clear; None: there is none.

    Only what is told with a size can be in its way; two of a pair are not looked at.

    Args:
        scene: The boat's solids.
        path: Of the thing.
        home: Name of the cylinder; None: that in which it is told to lie.
        at: As near to this place along her as can be; None: to where it is [m].
    """
    solid, *others = scene.by_path[path]
    solid = solid if home is None else replace(solid, home=home)
    bore = scene.aboard.bore_of(solid.home)
    return None if bore is None or others else _nearest(scene, solid, bore, at)


def _nearest(scene: Scene, solid: Solid, bore: Bore, at: float | None) -> Move | None:
    shape, room = solid.shape, bore.shapes[0]
    low, high = room.spans[0]
    half = min(shape.size[0] / 2, (high - low) / 2) if solid.claims else 0.0
    first, last = low + half, high - half
    x = min(max(shape.place[0] if at is None else at, first), last)
    places = sorted(np.arange(first, last + 1e-9, PLACES).tolist(), key=lambda one: abs(one - x))
    heights = _heights(shape, room)
    for there in [x, *places]:
        for y, z in heights:
            to = (there - shape.place[0], y - shape.place[1], z - shape.place[2])
            if scene.is_clear([with_shape(solid, shape.shifted(*to))]):
                return Move(path=solid.path, shift=to)
    return None


def _heights(shape: Shape, room: Shape) -> list[tuple[float, float]]:
    """Return y and z in a bore at which a thing is tried: as it is, as low, in the middle."""
    _, y, z = shape.place
    _, middle, axis = room.place
    radius, (_, broad, high) = room.size[1] / 2, shape.size
    free = radius**2 - (broad / 2) ** 2
    lowest = axis - sqrt(free) + high / 2 if free > 0 else axis
    return [(y, z), (middle, z), (middle, lowest), (middle, axis)]
