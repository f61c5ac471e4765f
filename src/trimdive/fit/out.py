"""Whether each large thing comes out, what must come out before it, and what is in its way."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import ceil, floor

import numpy as np

from trimdive.boatfile import Boat, Hatch, KeepClear
from trimdive.fit.free import free_room
from trimdive.fit.hatches import Opened, in_order, opened, shaft
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
EDGES = ("x_aft", "x_fore")  # of a hatch
WHOLE = 0.001  # to which the edges of an opening are told, outwards [m]
SAME = 1e-6  # an edge that moves less stays where it is [m]


@record
class Stands:
    """What a thing must get past."""

    name: str
    path: str  # in the boat file
    kind: str  # of thing, or "keep_clear"
    shape: Shape


@record
class Cut:
    """An opening that is too short, and what it would have to be."""

    name: str  # of the hatch
    path: str  # in the boat file
    opens: float  # its length now, clear of its lip [m]
    needs: float | None  # length at which the thing comes out; None: however long, it does not [m]
    edges: tuple[float | None, float | None]  # of the hatch then, aft and fore; None: as it is [m]
    beside: tuple[str, ...]  # keep-clear spaces that must be gone as well
    over: tuple[str, ...]  # regions, such as a tower, that stand half on what is cut away
    way: Way | None  # the way out then, with what must be out before it gone


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
    cut: Cut | None  # where the opening is too short: how long it must be, and the way then
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
        """Return whether a thing comes out one way: past everything, then once others are out."""
        others = self._others(thing)
        shut = Out(
            name=thing.name, path=thing.path, toward=toward,
            hatches=tuple(hatch.name for hatch in in_order(self.boat.hatches)), way=None, first=(),
            in_way=(), cut=None, is_sure=True,
        )  # fmt: skip
        found = self._way(thing, others, toward)
        if isinstance(found, Way):
            return replace(shut, way=found)
        past = self._way(thing, self.spaces, toward)
        if isinstance(past, Way):
            return replace(shut, way=past, first=self._touched(thing, past, others))
        alone = self._way(thing, (), toward) if self.spaces else past
        in_way = self._touched(thing, alone, self.spaces) if isinstance(alone, Way) else ()
        return self._longer(thing, replace(shut, in_way=in_way, is_sure=past.is_sure))

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

    def _longer(self, thing: Solid, shut: Out) -> Out:
        """Return with what length of opening a thing would come out.

        Spaces that are kept clear stay; where it comes out past them however long the opening is
        made they must be gone as well.
        """
        hatches = [hatch for hatch in self.boat.hatches if hatch.way == shut.toward]
        if shut.toward != "up" or not hatches:
            return shut
        hatch = min(hatches, key=lambda one: _apart(self._shaft(one), thing.shape))
        cut = self._cut(thing, hatch, self.spaces)
        if cut.way is None and shut.in_way:
            return shut
        if cut.way is None and self.spaces:
            cut = self._cut(thing, hatch, ())
            beside = () if cut.way is None else self._touched(thing, cut.way, self.spaces)
            cut = replace(cut, beside=beside)
        if cut.way is None:
            return replace(shut, cut=cut)
        spaces = {one.name for one in self.spaces}
        met = self._touched(thing, cut.way, self._others(thing))
        return replace(shut, cut=cut, first=tuple(name for name in met if name not in spaces))

    def _cut(self, thing: Solid, hatch: Hatch, spaces: Sequence[Stands]) -> Cut:
        """Return the least opening, to NEARER, with which a thing comes out past some spaces."""
        box, ends = self._shaft(hatch), self.hull.envelope.bounds[:, 0]
        number = self.boat.hatches.index(hatch) + 1
        short = Cut(
            name=hatch.name, path=f"hatch[{number}]", opens=box.size[0], needs=None,
            edges=(None, None), beside=(), over=(), way=None,
        )  # fmt: skip
        best = self._way(thing, spaces, "up", [_longer(box, ends, thing, 1.0)])
        if isinstance(best, Shut):
            return short
        low, high = 0.0, 1.0
        long = _longer(box, ends, thing, 1.0).size[0] - box.size[0]
        while (high - low) * long > NEARER:
            middle = (low + high) / 2
            found = self._way(thing, spaces, "up", [_longer(box, ends, thing, middle)])
            if isinstance(found, Way):
                high, best = middle, found
            else:
                low = middle
        edges = _edges(hatch, box, _longer(box, ends, thing, high))
        moved = {key: at for key, at in zip(EDGES, edges, strict=True) if at is not None}
        needed = shaft(hatch.model_copy(update=moved), self.hull)
        over = tuple(_over(self.hull, hatch, needed))
        return replace(short, needs=needed.size[0], edges=edges, over=over, way=best)

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


def _edges(hatch: Hatch, box: Shape, needed: Shape) -> tuple[float | None, float | None]:
    """Return the after and the fore edge of a hatch whose opening is lengthened; None: as it is.

    Args:
        hatch: The hatch.
        box: Its opening, clear of its lip.
        needed: The opening that is needed.
    """
    lip = hatch.lip or 0.0
    (aft, fore), (low, high) = needed.spans[0], box.spans[0]
    return (
        floor((aft - lip) / WHOLE) * WHOLE if aft < low - SAME else None,
        ceil((fore + lip) / WHOLE) * WHOLE if fore > high + SAME else None,
    )


def _over(hull: Hull, hatch: Hatch, opening: Shape) -> Iterator[str]:
    """Yield the regions that stand half on an opening: part within its ends, part beyond them."""
    low, high = opening.spans[0]
    for skin in hull.skins:
        aft, fore = skin.outer.bounds[:, 0].tolist()
        reaches = aft < high - SAME and fore > low + SAME
        covers, within = aft <= low and fore >= high, aft >= low and fore <= high
        if reaches and not covers and not within and skin.name not in hatch.off:
            yield skin.name
