"""A thing moved by hand: what goes with it, how far it can go, and what it would hit.

Things are taken as the boxes round them; one that lies in a cylinder stays within its bore, one
that lies within the hull stays within its outside. What has no shape, or fills little of its box,
stops nothing. What already overlaps does not stop either.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from math import inf
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from trimdive.assessment import Assessment
from trimdive.boatfile.ref import ref
from trimdive.edits.carried import carried_by, shifted
from trimdive.errors import BoatFileError
from trimdive.findings import Edit
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.build import numbered
from trimdive.geometry.solids.inside import is_inside
from trimdive.pictures.drawings.things import Thing, things, vessel_meshes

ALONG, UP = 0, 2  # axes that a thing is moved along in the side view
TOUCH = 1e-4  # what overlaps by less than this does not [m]
STEP = 5e-3  # the skin is looked for at such steps [m]
TOGETHER = 8  # steps looked at at once [-]
FINE = 1e-4  # and then as finely as this [m]
CORNERS = 32  # points of a shape that are held against the skin [-]
FAR = 0.6  # of her length: farther than this nothing is moved at once [-]
SKIN = "the outside of the hull"


class Gap(NamedTuple):
    """How far a thing can go one way."""

    shift: float  # at which it stops [m]
    what: str  # at what; "" at nothing
    way: int  # which way that is: -1 or 1
    is_wall: bool = False  # it stops at the wall of its own cylinder


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Where a thing moved one way comes to a stop."""

    gap: float  # how far it can go [m]
    what: str  # what it would hit there; "" where nothing
    is_wall: bool  # it is the wall of its own cylinder


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """How far a thing can go along one axis."""

    back: Stop  # aft, or down
    on: Stop  # forward, or up


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A thing in hand, with all that goes where it goes."""

    path: str
    name: str
    place: Floats  # its middle, shape (3,) [m]
    low: Floats  # corner of the box round it, shape (3,) [m]
    high: Floats  # the opposite corner, shape (3,) [m]
    along: tuple[str, ...]  # paths of what goes with it, its own first


def held(her: Assessment, path: str, *, alone: bool = False) -> Held:
    """Return a thing in hand, with what goes along unless it is moved alone.

    Raises:
        BoatFileError: There is no such thing aboard, or it cannot be moved.
    """
    thing = _named(things(her), path)
    box = _boxes(thing)[0]
    return Held(
        path=path, name=thing.name, place=thing.place, low=box[0], high=box[1],
        along=(path,) if alone else carried_by(her.boat, path),
    )  # fmt: skip


def _named(aboard: Sequence[Thing], path: str) -> Thing:
    found = next((thing for thing in aboard if thing.path == path), None)
    if found is None:
        what = f"there is no '{path}' that can be moved"
        raise BoatFileError(what, "the drawing", "Pick it again.")
    return found


def _boxes(thing: Thing) -> list[Floats]:
    """Return the box round each shape of a thing, shape (2, 3) each; a spot's is its place [m]."""
    if not thing.meshes:
        return [np.stack([thing.place, thing.place])]
    return [np.asarray(mesh.bounds, dtype=np.float64) for mesh in thing.meshes]


def ways(her: Assessment, thing: Held, far: float = inf) -> tuple[Way, Way]:
    """Return how far a thing can go along the boat, and up and down, looked for so far [m]."""
    return _way(her, thing, ALONG, far), _way(her, thing, UP, far)


def _way(her: Assessment, thing: Held, axis: int, far: float) -> Way:
    far = min(far, FAR * her.floater.length)
    gaps = [Gap(-far, "", -1), Gap(far, "", 1)]
    gaps += _walls(her, thing, axis)
    gaps += _neighbours(her, thing, axis)
    back = max(one for one in gaps if one.way < 0)
    on = min(one for one in gaps if one.way > 0)
    if _home(her, thing) is None and (shape := _hull_points(her, thing)) is not None:
        back = max(back, _skin(her, shape, axis, back))
        on = min(on, _skin(her, shape, axis, on))
    return Way(
        back=Stop(gap=-back.shift, what=back.what, is_wall=back.is_wall),
        on=Stop(gap=on.shift, what=on.what, is_wall=on.is_wall),
    )


def _home(her: Assessment, thing: Held) -> str | None:
    """Return the cylinder that a thing is inside of."""
    if ref(thing.path).table == "cylinder":
        return None
    if ref(thing.path).table == "tank":
        return her.boat.tanks[ref(thing.path).order].inside
    return next((part.inside for path, part in numbered(her.boat) if path == thing.path), None)


def _walls(her: Assessment, thing: Held, axis: int) -> Iterator[Gap]:
    """Yield how far it can go within the bore of its cylinder."""
    home = next((c for c in her.boat.cylinders if c.name == _home(her, thing)), None)
    if home is None:
        return
    bore = np.asarray(vessel_meshes(home, bore=True)[0].bounds)
    if axis == ALONG:
        after, fore = f"the after end of {home.name}", f"the fore end of {home.name}"
        yield Gap(min(float(bore[0][0] - thing.low[0]), 0.0), after, -1)
        yield Gap(max(float(bore[1][0] - thing.high[0]), 0.0), fore, 1)
        return
    radius, middle = float(bore[1][1] - bore[0][1]) / 2, (bore[0] + bore[1]) / 2
    side = max(abs(thing.low[1] - middle[1]), abs(thing.high[1] - middle[1]))
    tall = float(np.sqrt(max(radius**2 - float(side) ** 2, 0.0)))
    wall = f"the wall of {home.name}"
    yield Gap(min(float(middle[2] - tall - thing.low[2]), 0.0), wall, -1, is_wall=True)
    yield Gap(max(float(middle[2] + tall - thing.high[2]), 0.0), wall, 1, is_wall=True)


def _neighbours(her: Assessment, thing: Held, axis: int) -> Iterator[Gap]:
    """Yield how far it can go before it touches each thing that lies in its way."""
    own = _home(her, thing)
    for other, box in _solid(her, own):
        if other.path in thing.along or other.name == own:
            continue
        across = [a for a in range(3) if a != axis]
        if any(
            thing.high[a] - TOUCH <= box[0][a] or box[1][a] <= thing.low[a] + TOUCH for a in across
        ):
            continue
        if box[1][axis] <= thing.low[axis] + TOUCH:
            yield Gap(min(float(box[1][axis] - thing.low[axis]), 0.0), other.name, -1)
        elif box[0][axis] >= thing.high[axis] - TOUCH:
            yield Gap(max(float(box[0][axis] - thing.high[axis]), 0.0), other.name, 1)


def _solid(her: Assessment, home: str | None) -> Iterator[tuple[Thing, Floats]]:
    """Yield what can be hit from within a cylinder, or from outside all of them, with its boxes."""
    inside = {f"tank[{k}]": tank.inside for k, tank in enumerate(her.boat.tanks, 1)}
    inside |= {path: part.inside for path, part in numbered(her.boat)}
    for thing in things(her):
        if thing.look in ("sparse", "point") or inside.get(thing.path) != home:
            continue
        for box in _boxes(thing):
            yield thing, box


def _hull_points(her: Assessment, thing: Held) -> Floats | None:
    """Return points of a thing to hold against the skin, shape (n, 3) [m].

    None where there is no hull, or it lies out of it now.
    """
    if not her.hull.skins:
        return None
    shape = _named(things(her), thing.path)
    points = shape.place[None]
    if shape.meshes:
        points = np.asarray(shape.meshes[0].vertices, dtype=np.float64)
        middle = points.mean(axis=0)
        outmost = np.argsort(-np.abs(points - middle).sum(axis=1))[:CORNERS]
        points = points[outmost]
    points = points + (thing.place - shape.place)
    return points if is_inside(her.hull.envelope, points).all() else None


def _skin(her: Assessment, points: Floats, axis: int, most: Gap) -> Gap:
    """Return how far points can go one way within the hull's outside, or as far as they may."""
    edge = her.hull.envelope.bounds[0 if most.way < 0 else 1][axis]
    room = float(np.abs(edge - points[:, axis]).min())
    gap = _within(her.hull.envelope, points, axis, most.way, min(abs(most.shift), room))
    return most if gap >= abs(most.shift) else Gap(most.way * gap, SKIN, most.way)


def _within(envelope: Mesh, points: Floats, axis: int, way: int, most: float) -> float:
    """Return how far points can go along an axis and stay within a mesh, at most [m]."""
    steps = np.arange(1.0, int(most / STEP) + 2.0, dtype=np.float64) * STEP
    last = 0.0
    for k in range(0, len(steps), TOGETHER):
        some = steps[k : k + TOGETHER]
        good = _all_inside(envelope, points, axis, way * some)
        if not good.all():
            last = float(some[int(np.argmin(good)) - 1]) if good[0] else last
            break
        last = float(some[-1])
    else:
        return last
    bad = last + STEP
    while bad - last > FINE:
        middle = np.array([(last + bad) / 2])
        if _all_inside(envelope, points, axis, way * middle)[0]:
            last = float(middle[0])
        else:
            bad = float(middle[0])
    return last


def _all_inside(envelope: Mesh, points: Floats, axis: int, shifts: Floats) -> NDArray[np.bool_]:
    """Return for each shift whether all points are inside then, shape (n,)."""
    moved = np.repeat(points[None], len(shifts), axis=0)
    moved[:, :, axis] += shifts[:, None]
    flat = is_inside(envelope, moved.reshape(-1, 3)).reshape(len(shifts), -1)
    return np.asarray(flat.all(axis=1))


def edits(her: Assessment, thing: Held, shift: Floats) -> tuple[Edit, ...]:
    """Return the move of a thing and of all that goes with it, by a shift along x and z [m]."""
    return shifted(her.boat, thing.along, np.array([shift[0], 0.0, shift[1]]))


def gone(her: Assessment, thing: Held, wanted: Floats) -> tuple[Floats, str]:
    """Return how far a thing goes of a wanted shift along x and z [m], and what stops it.

    It goes along the boat first, then up or down.
    """
    x, stopped = 0.0, ""
    if (far := abs(float(wanted[0]))) > 0:
        x, stopped = _clamped(float(wanted[0]), _way(her, thing, ALONG, far + STEP))
    along = np.array([x, 0.0, 0.0])
    shifted = replace(
        thing, place=thing.place + along, low=thing.low + along, high=thing.high + along
    )
    far = abs(float(wanted[1]))
    second = _way(her, shifted, UP, far + STEP) if far > FINE / 2 else None
    z, above = _clamped(float(wanted[1]), second) if second else (0.0, "")
    return np.array([x, z]), stopped or above


def _clamped(wanted: float, way: Way) -> tuple[float, str]:
    if wanted < -way.back.gap:
        return -way.back.gap, way.back.what
    if wanted > way.on.gap:
        return way.on.gap, way.on.what
    return wanted, ""
