"""What shares room that cannot: each two things, how much, where, and what it means."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations
from math import hypot
from typing import Literal

import numpy as np

from trimdive.geometry.clashes.shapes import (
    Shape,
    Triple,
    common,
    corners,
    in_mesh,
    meets,
    of_mesh,
    shared,
    shared_mesh,
)
from trimdive.geometry.clashes.solids import Aboard, Bore, Solid
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.inside import depth_outside, is_inside

Sort = Literal["tanks", "home", "bore", "inside", "wet", "skin", "moving"]
SLACK = 0.001  # things told to a millimetre may reach so far into each other [m]
NOTHING = 1e-9  # less shared room is none [m³]
MET = 5e-8  # less of its way within another is within how both are drawn [m³]
LOOSE = frozenset({"lead", "foam"})
STAVES = 32  # on which a round piece is looked at against the skin [-]
EDGE_STEP = 0.005  # between points on which a piece is looked at against the hull [m]
FINE_STEP = 0.001  # the same, so that no skin of a millimetre slips between two of them [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """Two things in one room, or one out of the room in which it is told to lie."""

    sort: Sort
    one: Solid
    other: Solid | None  # None where it is a bore, a cap or the skin
    name: str  # of the other: a thing, a cylinder, or a region
    path: str  # of the other in the boat file
    volume: float  # that they share, or that lies out of the bore, both of a pair [m³]
    place: Triple  # middle of it [m]
    reach: float  # how far into the other, or out of the bore [m]

    @property
    def about(self) -> tuple[str, str]:
        """Return which two it is about, by their paths."""
        return self.one.path, self.path


def touches(one: Shape, other: Shape, slack: float = SLACK) -> bool:
    """Return whether two shapes lie beside each other or apart, as nearly as they are told."""
    if "mesh" in (one.form, other.form):
        if shared(one, other) <= NOTHING:
            return True
        low, high = shared_mesh(one.surface, other.surface).bounds
        return bool((high - low).min() <= slack)
    return shared(one.grown(-slack / 2), other.grown(-slack / 2)) <= NOTHING


def share_room(one: Solid, other: Solid) -> bool:
    """Return whether two things may be held against each other: neither is meant to hold it."""
    if not (one.claims and other.claims) or one.home != other.home:
        return False
    if one.path == other.path and one.kind == "cylinder":
        return one.shape != other.shape
    if one.through and other.through:
        return False  # fittings outside are told by outlines that cross
    return not (_through_cap(one, other) or _through_cap(other, one))


def _through_cap(fitting: Solid, vessel: Solid) -> bool:
    """Return whether what passes through the hull passes through a cap of a cylinder, as a shaft.

    What lies wholly between the caps passes through the tube itself: there it cannot be.
    """
    if not fitting.through or vessel.kind != "cylinder":
        return False
    low, high = fitting.shape.spans[0]
    aft, fore = vessel.shape.spans[0]
    return low < aft or high > fore


def between(solids: Sequence[Solid], slack: float = SLACK) -> Iterator[Clash]:
    """Yield every two things that share room."""
    for one, other in combinations(solids, 2):
        if not meets(one.shape, other.shape) or not share_room(one, other):
            continue
        if touches(one.shape, other.shape, slack):
            continue
        yield _clash(one, other)


def in_cylinders(
    things: Sequence[Solid], solids: Sequence[Solid], slack: float = SLACK
) -> Iterator[Clash]:
    """Yield lead of no shape told, of which the middle lies in a cylinder that is not its own.

    Args:
        things: What is looked at.
        solids: Everything aboard.
        slack: How far it may lie within [m].
    """
    tubes = [solid for solid in solids if solid.kind == "cylinder"]
    for one in things:
        if not one.is_point or one.kind != "lead" or one.home:
            continue
        for other in tubes:
            if _holds(other.shape, one.shape.place, slack):
                yield Clash(
                    sort="wet", one=one, other=other, name=other.name, path=other.path,
                    volume=one.shape.volume, place=one.shape.place, reach=one.shape.size[0],
                )  # fmt: skip


def _holds(shape: Shape, at: Triple, slack: float) -> bool:
    """Return whether a round shape along the boat holds a place deeper than a slack."""
    x, y, z = (abs(a - b) for a, b in zip(at, shape.place, strict=True))
    is_round = shape.form == "round" and shape.axis == 0
    return is_round and x < shape.size[0] / 2 - slack and hypot(y, z) < shape.size[1] / 2 - slack


def _clash(one: Solid, other: Solid) -> Clash:
    """Return the clash of two things; the one that is moved more easily comes first."""
    if _weight(other) < _weight(one):
        one, other = other, one
    sort: Sort = "wet"
    if one.kind == other.kind == "tank":
        sort = "tanks"
    elif one.home:
        sort = "inside"
    place, size = common(one.shape, other.shape)
    return Clash(
        sort=sort, one=one, other=other, name=other.name, path=other.path,
        volume=shared(one.shape, other.shape), place=place, reach=min(size),
    )  # fmt: skip


def _weight(solid: Solid) -> tuple[int, float]:
    """Return how hard a thing is to move: foam, lead, parts, tanks, cylinders."""
    return ("foam", "lead", "part", "tank", "cylinder").index(solid.kind), solid.mass


def homeless(solid: Solid, bore: Bore, slack: float = SLACK) -> Clash | None:
    """Return what of a thing lies out of the cylinder in which it is told to lie."""
    best: Clash | None = None
    for room in bore.shapes:
        found = _out_of(solid, bore, room, slack)
        if found is None:
            return None
        if best is None or found.volume < best.volume:
            best = found
    return best


def _out_of(solid: Solid, bore: Bore, room: Shape, slack: float) -> Clash | None:
    far, at = beyond(solid.shape, room, middle=solid.is_point or solid.is_outline)
    if far <= slack:
        return None
    inside = shared(solid.shape, room)
    out = solid.shape.volume - inside
    is_lost = solid.is_point or solid.is_outline or inside <= NOTHING or far_middle(solid, room)
    return Clash(
        sort="home" if is_lost and solid.kind != "tank" else "bore",
        one=solid, other=None, name=bore.name, path=bore.path,
        volume=0.0 if solid.is_point else max(out, 0.0), place=at, reach=far,
    )  # fmt: skip


def far_middle(solid: Solid, room: Shape) -> bool:
    """Return whether a thing's middle lies out of a room."""
    return beyond(solid.shape, room, middle=True)[0] > 0.0


def beyond(shape: Shape, room: Shape, *, middle: bool) -> tuple[float, Triple]:
    """Return how far a shape, or its middle, stands out of the room of a bore, and where [m]."""
    if room.form == "mesh":
        return _beyond_mesh(shape, room, middle=middle)
    low, high = room.spans[0]
    x, y, z = shape.place
    half = 0.0 if middle else shape.size[0] / 2
    ends = ((low - (x - half), x - half), (x + half - high, x + half))
    out, at = max(ends)
    across = hypot(y - room.place[1], z - room.place[2]) if middle else _across(shape, room)
    over = across - room.size[1] / 2
    if over > out:
        return over, (x, y, z)
    return out, (at, y, z)


def _across(shape: Shape, room: Shape) -> float:
    """Return how far a shape reaches from the axis of a bore along x [m]."""
    y, z = abs(shape.place[1] - room.place[1]), abs(shape.place[2] - room.place[2])
    _, broad, high = shape.size
    if shape.form == "mesh":
        aside = corners(shape)[:, 1:] - np.array(room.place[1:])
        return float(np.hypot(aside[:, 0], aside[:, 1]).max())
    if shape.form == "box" or (shape.form == "round" and shape.axis != 0):
        return hypot(y + broad / 2, z + high / 2)
    return hypot(y, z) + broad / 2


def _beyond_mesh(shape: Shape, room: Shape, *, middle: bool) -> tuple[float, Triple]:
    """Return how far a shape stands out of the room of a cylinder that slopes or has round ends."""
    points = np.array([shape.place]) if middle else corners(shape)
    out = points[~is_inside(room.surface, points)]
    if not len(out):
        return 0.0, shape.place
    far = depth_outside(room.surface, out)
    x, y, z = out[int(far.argmax())]
    return float(far.max()), (float(x), float(y), float(z))


def contained(all_of: Aboard, slack: float = SLACK) -> Iterator[Clash]:
    """Yield what lies out of the cylinder in which it is told to lie."""
    for solid in all_of.solids:
        bore = all_of.bore_of(solid.home) if solid.home else None
        found = homeless(solid, bore, slack) if bore else None
        if found:
            yield found


def in_skin(shape: Shape, skin: Mesh, slack: float = SLACK) -> tuple[float, Triple]:
    """Return how much of a shape lies in a skin [m³], and where [m]; 0 where it only touches it."""
    return _in_skin(skin, shape, slack)


@with_mesh(2048)
def _in_skin(skin: Mesh, shape: Shape, slack: float) -> tuple[float, Triple]:
    low, high = skin.bounds
    spans = zip(shape.spans, low, high, strict=True)
    if not all(a < c and b < d for (a, d), b, c in ((s, lo, hi) for s, lo, hi in spans)):
        return 0.0, shape.place
    points = edge_points(shape.grown(-slack), FINE_STEP)
    points = points[is_inside(skin, points)]
    if not len(points):
        return 0.0, shape.place
    x, y, z = points[np.argsort(points[:, 0])[len(points) // 2]]  # one of them, never in between
    return in_mesh(shape, skin), (float(x), float(y), float(z))


def stands_in_skin(shape: Shape, skin: Mesh) -> bool:
    """Return whether a shape shares room with a skin.

    Where an edge of it lies deeper than the usual slack there is no doubt, and the room that they
    share need not be worked out.
    """
    is_plain = shape.form != "mesh" and min(shape.size) > 2 * SLACK
    if is_plain and is_inside(skin, edge_points(shape.grown(-SLACK))).any():
        return True
    return in_skin(shape, skin, 0.0)[0] > NOTHING


def depth_in_skin(shape: Shape, skin: Mesh, slack: float) -> float:
    """Return how deep the edges of a shape lie in a skin, and the slack that they may [m].

    Args:
        shape: What reaches into the skin.
        skin: The body of a region's skin.
        slack: How far it may reach in [m].
    """
    points = edge_points(shape.grown(-slack))
    points = points[is_inside(skin, points)]
    return slack + float(depth_outside(skin, points).max(initial=0.0))


def edge_points(shape: Shape, step: float = EDGE_STEP) -> Floats:
    """Return points along a shape's edges, its corners with them, shape (n, 3) [m].

    Args:
        shape: The shape.
        step: They lie no farther apart than this [m].
    """
    if shape.form not in ("box", "round"):
        return shape.surface.vertices
    axis = shape.axis if shape.form == "round" else None
    return _edges(shape.size, axis, step) + np.array(shape.place)


@lru_cache(maxsize=256)
def _edges(size: Triple, axis: int | None, step: float) -> Floats:
    """Return points along the edges of a round shape along an axis, else of a box, about 0."""
    if axis is not None:
        return _barrel(size, axis, step)
    return np.vstack([_frame(size, k, step) for k in range(3)])


def places_along(long: float, step: float) -> Floats:
    """Return places along an edge about its middle, no farther apart than a step [m]."""
    return np.linspace(-long / 2, long / 2, max(int(np.ceil(long / step)), 1) + 1)


def _frame(size: Triple, k: int, step: float) -> Floats:
    """Return points on the four edges of a box that run along one axis, about its middle."""
    axes = [np.array([-long / 2, long / 2]) for long in size]
    axes[k] = places_along(size[k], step)
    return np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 3)


def _barrel(size: Triple, k: int, step: float) -> Floats:
    """Return points on the staves of a round shape, about its middle."""
    turn = np.linspace(0, 2 * np.pi, STAVES, endpoint=False)
    long, around = np.meshgrid(places_along(size[k], step), turn, indexing="ij")
    radius = size[(k + 1) % 3] / 2
    row = np.stack([long, radius * np.cos(around), radius * np.sin(around)], axis=-1)
    return np.roll(row.reshape(-1, 3), k, axis=1)


def in_skins(
    solids: Sequence[Solid], skins: Sequence[tuple[str, str, Mesh]], slack: float = SLACK
) -> Iterator[Clash]:
    """Yield lead, foam, cylinders, tanks and parts that reach into a skin.

    Args:
        solids: What is in the hull.
        skins: Name, path and body of each region's skin.
        slack: How far one may reach in [m].
    """
    for solid in solids:
        if not solid.claims or solid.through or solid.home:
            continue
        for name, path, mesh in skins:
            volume, place = in_skin(solid.shape, mesh, slack)
            if volume > NOTHING:
                yield Clash(
                    sort="skin", one=solid, other=None, name=name, path=path, volume=volume,
                    place=place, reach=slack,
                )  # fmt: skip


def in_its_way(
    all_of: Aboard, skins: Sequence[tuple[str, str, Mesh]], slack: float = SLACK
) -> Iterator[Clash]:
    """Yield what a moving part meets on its way; what it touches as it lies it may go on touching.

    Args:
        all_of: Everything aboard.
        skins: Name, path and body of each region's skin.
        slack: How far it may reach into another [m].
    """
    for solid, space in all_of.moving:
        beside = [other for other in all_of.solids if may_meet(solid, other)]
        near = [(other.name, other.path, other.shape, other) for other in beside]
        near += [(name, path, of_mesh(mesh), None) for name, path, mesh in skins]
        for name, path, shape, other in near:
            if not meets(space, shape):
                continue
            volume = shared(space, shape) - shared(solid.shape, shape)
            if volume <= MET or (other is not None and touches(space, shape, slack)):
                continue
            place, size = common(space, shape)
            yield Clash(
                sort="moving", one=solid, other=other, name=name, path=path, volume=volume,
                place=place, reach=min(size),
            )  # fmt: skip


def may_meet(solid: Solid, other: Solid) -> bool:
    """Return whether a moving part may meet another thing: not what it goes into or lies in."""
    if other.path == solid.path or not other.claims or solid.home != other.home:
        return False
    return not (_through_cap(solid, other) or _through_cap(other, solid))


def gathered(found: Sequence[Clash]) -> tuple[Clash, ...]:
    """Return clashes with those of both pieces of a pair as one: volumes summed."""
    groups: dict[tuple[str, str, str], list[Clash]] = defaultdict(list)
    for one in found:
        groups[one.sort, *one.about].append(one)
    return tuple(
        replace(max(some, key=lambda c: c.volume), volume=sum(c.volume for c in some))
        for some in groups.values()
    )


def clashes(
    all_of: Aboard, skins: Sequence[tuple[str, str, Mesh]] = (), slack: float = SLACK
) -> tuple[Clash, ...]:
    """Return everything that shares room, or lies out of its cylinder.

    Args:
        all_of: Everything aboard.
        skins: Name, path and body of each region's skin.
        slack: How far things may reach into each other [m].
    """
    found = [*contained(all_of, slack)]
    found += between(all_of.solids, slack)
    found += in_cylinders(all_of.solids, all_of.solids, slack)
    found += in_skins(all_of.solids, skins, slack)
    found += in_its_way(all_of, skins, slack)
    return gathered(found)
