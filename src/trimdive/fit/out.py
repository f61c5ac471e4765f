"""Whether each large thing comes out, what must come out before it, and what is in its way."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from trimdive.boatfile import Boat, Hatch, KeepClear
from trimdive.fit.free import free_room
from trimdive.fit.hatches import Opened, in_order, opened
from trimdive.fit.ways import Shut, Way, between, points_of, surroundings, way_out
from trimdive.geometry.clashes.shapes import Shape
from trimdive.geometry.clashes.solids import Aboard, Solid
from trimdive.geometry.solids.clearance import clearances
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.inside import is_inside
from trimdive.records import record

HEAVY, LONG = 0.1, 0.1  # a thing of so much mass or so long is a large one [kg], [m]
EASY = ("foam", "lead", "part", "tank", "cylinder")  # kinds, those most easily taken out first
NEARER = 0.02  # to which the least opening is found [m]
CLEAR = 0.005  # beyond the last of what stands, and out [m]


@record
class Stands:
    """What a thing must get past."""

    name: str
    path: str  # in the boat file
    kind: str  # of thing, or "keep_clear"
    shape: Shape


@record
class Out:
    """Whether one thing comes out."""

    name: str
    path: str
    toward: str  # "up", "forward" or "aft"
    hatches: tuple[str, ...]  # that are open for it, in the order in which they are opened
    way: Way | None  # the way it comes out, with what must be out before it gone
    first: tuple[str, ...]  # things that must be out before it
    in_way: tuple[str, ...]  # keep-clear spaces that alone shut it in
    opens: float | None  # length of the opening, where it is too short [m]
    needs: float | None  # length at which it comes out [m]
    is_sure: bool  # every place and attitude that can be reached was looked at


def large_things(boat: Boat, hull: Hull, aboard: Aboard) -> list[Solid]:
    """Return what must come out: cylinders, and what lies large in the hull, one of a pair."""
    found: list[Solid] = []
    for solid in aboard.solids:
        if solid.home or not solid.claims or any(one.path == solid.path for one in found):
            continue
        is_large = solid.mass >= HEAVY or max(solid.shape.size) >= LONG
        if solid.kind == "part":
            inside = bool(is_inside(hull.envelope, np.array([solid.shape.place]))[0])
            is_large = is_large and inside and not solid.through
        if solid.kind in ("cylinder", "tank", "part") and is_large:
            found.append(solid)
    return found


def outs(boat: Boat, hull: Hull, aboard: Aboard) -> tuple[Out, ...]:
    """Return of every large thing whether it comes out with all hatches open.

    Args:
        boat: A resolved boat; without hatches nothing is asked.
        hull: Her hull.
        aboard: Everything that takes up room.
    """
    state = opened(boat, hull, aboard, boat.hatches)
    if not (boat.hatches and state.walls):
        return ()
    found: list[Out] = []
    yard = _Yard(boat, hull, aboard, state)
    for thing in large_things(boat, hull, aboard):
        if thing.path in state.off:
            continue
        found.append(yard.out(thing))
    return tuple(found)


class _Yard:
    """The boat with her hatches open, ready to have things taken out."""

    def __init__(self, boat: Boat, hull: Hull, aboard: Aboard, state: Opened) -> None:
        """Work out the free room once."""
        self.boat, self.hull, self.aboard, self.state = boat, hull, aboard, state
        self.free = free_room(state.walls, hull.envelope)
        self.spaces = [
            Stands(name=one.name, path=f"keep_clear[{i}]", kind="keep_clear", shape=_box(one))
            for i, one in enumerate(boat.keep_clear, 1)
        ]

    def out(self, thing: Solid) -> Out:
        """Return whether a thing comes out, each way in turn that a hatch opens."""
        best: Out | None = None
        for toward in dict.fromkeys(hatch.way for hatch in self.boat.hatches):
            found = self._toward(thing, toward)
            if found.way is not None and not found.first:
                return found
            if best is None or (best.way is None and found.way is not None):
                best = found
        assert best is not None
        return best

    def _toward(self, thing: Solid, toward: str) -> Out:
        others = self._others(thing)
        shut = Out(
            name=thing.name, path=thing.path, toward=toward,
            hatches=tuple(hatch.name for hatch in in_order(self.boat.hatches)), way=None, first=(),
            in_way=(), opens=None, needs=None, is_sure=True,
        )  # fmt: skip
        alone = self._way(thing, (), toward)
        if isinstance(alone, Shut):
            return self._longer(thing, toward, replace(shut, is_sure=alone.is_sure))
        past = self._way(thing, self.spaces, toward) if self.spaces else alone
        if isinstance(past, Shut):
            in_way = self._touched(thing, alone, self.spaces)
            return replace(shut, in_way=in_way, is_sure=past.is_sure)
        found = self._way(thing, others, toward)
        if isinstance(found, Way):
            return replace(shut, way=found)
        return replace(shut, way=past, first=self._touched(thing, past, others))

    def _others(self, thing: Solid) -> list[Stands]:
        """Return what stands in the hull around a thing, keep-clear spaces with it."""
        found = [
            Stands(name=one.name, path=one.path, kind=one.kind, shape=_plain(one.shape))
            for one in self.aboard.solids
            if one.claims and not one.home and one.path not in self.state.off
            if one is not thing and one.shape != thing.shape
        ]
        return [*found, *self.spaces]

    def _way(
        self,
        thing: Solid,
        others: Sequence[Stands],
        toward: str,
        shafts: Sequence[Shape] | None = None,
    ) -> Way | Shut:
        """Return the way out of a thing past others."""
        shafts = self.state.shafts if shafts is None else shafts
        around = surroundings(self.free, shafts, [one.shape for one in others], thing.shape)
        limit = self._limit(others, toward)
        is_aside = abs(thing.shape.place[1]) > CLEAR
        return way_out(thing.shape, around, limit, toward, aside=is_aside)

    def _limit(self, others: Sequence[Stands], toward: str) -> float:
        """Return how far out everything is that stands [m]."""
        bounds = [mesh.bounds for mesh in self.state.walls]
        spans = [np.array(one.shape.spans).T for one in others if one.kind != "keep_clear"]
        low = np.min([b[0] for b in (*bounds, *spans)], axis=0)
        high = np.max([b[1] for b in (*bounds, *spans)], axis=0)
        if toward == "up":
            return float(high[2]) + CLEAR
        return float(high[0]) + CLEAR if toward == "forward" else float(low[0]) - CLEAR

    def _touched(self, thing: Solid, way: Way, others: Sequence[Stands]) -> tuple[str, ...]:
        """Return what stands on a way, those most easily taken out first."""
        around = surroundings(
            self.free, self.state.shafts, [one.shape for one in others], thing.shape
        )
        legs = [between(*pair) for pair in zip(way.poses[:-1], way.poses[1:], strict=True)]
        poses = np.concatenate(legs)
        gaps = clearances(points_of(thing.shape), poses, np.array(thing.shape.place), around)
        # boxes stand before round ones among the surroundings
        in_order = [one for one in others if one.shape.form != "round"]
        in_order += [one for one in others if one.shape.form == "round"]
        hit = [one for one, gap in zip(in_order, gaps[:, 1:].min(axis=0), strict=True) if gap < 0]
        hit.sort(key=lambda one: EASY.index(one.kind) if one.kind in EASY else len(EASY))
        return tuple(dict.fromkeys(one.name for one in hit))

    def _longer(self, thing: Solid, toward: str, shut: Out) -> Out:
        """Return with what length of opening a thing would come out, all else out of the way."""
        hatches = [hatch for hatch in self.boat.hatches if hatch.way == toward]
        if toward != "up" or not hatches:
            return shut
        hatch = min(hatches, key=lambda one: _apart(self._shaft(one), thing.shape))
        box = self._shaft(hatch)
        ends = self.hull.envelope.bounds[:, 0]
        low, high = 0.0, 1.0
        if not isinstance(self._way(thing, (), toward, [_longer(box, ends, thing, 1.0)]), Way):
            return replace(shut, opens=box.size[0])
        long = _longer(box, ends, thing, 1.0).size[0] - box.size[0]
        while (high - low) * long > NEARER:
            middle = (low + high) / 2
            shaft = [_longer(box, ends, thing, middle)]
            if isinstance(self._way(thing, (), toward, shaft), Way):
                high = middle
            else:
                low = middle
        needs = _longer(box, ends, thing, high).size[0]
        return replace(shut, opens=box.size[0], needs=needs)

    def _shaft(self, hatch: Hatch) -> Shape:
        return self.state.shafts[self.boat.hatches.index(hatch)]


def _box(space: KeepClear) -> Shape:
    """Return a keep-clear space as a box."""
    low = np.array([space.x_aft, space.y_starboard, space.z_bottom])
    high = np.array([space.x_fore, space.y_port, space.z_top])
    return Shape("box", tuple(((low + high) / 2).tolist()), tuple((high - low).tolist()))


def _plain(shape: Shape) -> Shape:
    """Return a shape as one of plain form: the box around a mesh, a ball as its box."""
    if shape.form in ("box", "round"):
        return shape
    return Shape("box", shape.place, shape.size)


def _apart(box: Shape, own: Shape) -> float:
    """Return how far a thing reaches out of the length of an opening [m]."""
    (low, high), (aft, fore) = box.spans[0], own.spans[0]
    return max(low - aft, 0.0) + max(fore - high, 0.0)


def _longer(box: Shape, ends: np.ndarray, thing: Solid, share: float) -> Shape:
    """Return an opening lengthened toward the ends of a thing and a length beyond, by a share."""
    (low, high), (aft, fore) = box.spans[0], thing.shape.spans[0]
    most = (
        max(min(low, aft - NEARER), float(ends[0])),
        min(max(high, fore + NEARER), float(ends[1])),
    )
    low, high = low + share * (most[0] - low), high + share * (most[1] - high)
    place = ((low + high) / 2, *box.place[1:])
    return Shape("box", place, (high - low, *box.size[1:]))
