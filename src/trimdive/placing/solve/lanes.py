"""What may slide: how it counts, how far it may go, and that nothing passes through anything."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

import numpy as np

from trimdive.boatfile import Boat, Cylinder
from trimdive.boatfile.placing import Lane
from trimdive.boatfile.ref import ref
from trimdive.errors import BoatError
from trimdive.geometry.clashes.solids import bore_of
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import cylinder_body, numbered, part_body, reach
from trimdive.placing.solve.sums import (
    ABOVE,
    BLOWN,
    DIVED,
    MASS,
    SIZE,
    VOLUME,
    Her,
    body_sums,
    neutral_water,
    waters_at,
)

AXES = "xyz"
LIMITS = (("x_aft", "x_fore"), ("y_starboard", "y_port"), ("z_bottom", "z_top"))
TOUCH = 0.001  # boxes that reach so far into each other count as lying beside each other [m]
STILL = 1e-6  # a range narrower than this is none [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slide:
    """Things that slide together along one axis."""

    name: str
    lane: int  # its number in the boat file, from 0
    axis: int
    paths: tuple[str, ...]  # of all that moves
    low: float  # how far it may move [m]
    high: float  # [m]
    each: Floats  # what a metre adds to the sums, shape (20,) [kg, kg m, m³, m⁴]
    mass: float  # of what moves [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """Two things of which one must stay on one side of the other, along any of the axes."""

    first: int  # lane of the one, or -1 for a thing that stays
    second: int
    gaps: Floats  # from the one to the other along each axis, and turned, shape (3, 2) [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """Something that takes up room."""

    name: str
    path: str
    inside: str
    box: Floats  # shape (2, 3) [m]
    known: bool  # whether its size is told


def things(boat: Boat) -> list[Thing]:
    """Return everything aboard that takes up room, with its box."""
    found: list[Thing] = []
    for i, vessel in enumerate(boat.cylinders, 1):
        path = f"cylinder[{i}]"
        bounds = cylinder_body(vessel, path).mesh.bounds  # pyright: ignore[reportArgumentType] - frozen
        found.append(
            Thing(name=vessel.name, path=path, inside=vessel.inside or "", box=bounds, known=True)
        )
    for i, tank in enumerate(boat.tanks, 1):
        middle = np.array([tank.x, tank.y, tank.z])
        across = tank.breadth or tank.bore or 0.0
        half = np.array([tank.length or 0.0, across, tank.height or across]) / 2
        box = np.stack([middle - half, middle + half])
        known = tank.shape != "mesh"
        found.append(
            Thing(name=tank.name, path=f"tank[{i}]", inside=tank.inside or "", box=box, known=known)
        )
    for path, part in numbered(boat):
        middle = np.array([part.x, part.y, part.z])
        half = reach(part)
        known = half is not None and part.shape != "mesh"
        size = half if half is not None else np.zeros(3)
        box = np.stack([middle - size, middle + size])
        if part.shape == "mesh" and not part.inside and (body := part_body(part, path, {})):
            box, known = body.pieces[0].bounds, True
        found.append(
            Thing(name=part.name, path=path, inside=part.inside or "", box=box, known=known)
        )
    return found


def _named(lane: Lane, number: int, all_of: list[Thing]) -> list[Thing]:
    """Return what a lane moves: what it names, and all inside a cylinder that it names.

    Raises:
        BoatError: It names nothing that is aboard.
    """
    by_name = {thing.name: thing for thing in reversed(all_of)}
    for name in lane.things:
        if name not in by_name:
            what = f"there is no '{name}' to slide"
            raise BoatError(what, f"lane[{number + 1}].things", "Write the name of a part.")
    chosen = [thing for thing in all_of if thing.name in lane.things]
    homes = {thing.name for thing in chosen if ref(thing.path).table == "cylinder"}
    held = [t for t in all_of if t.inside in homes and t not in chosen]
    return chosen + held


def _range(lane: Lane, axis: int, named: list[Thing]) -> tuple[float, float]:
    """Return how far a lane lets its things move along one axis [m]."""
    least, most = (getattr(lane, field) for field in LIMITS[axis])
    low = float(min(thing.box[0, axis] for thing in named))
    high = float(max(thing.box[1, axis] for thing in named))
    if least is None and most is None:
        return 0.0, 0.0
    down = -np.inf if least is None else least - low
    up = np.inf if most is None else most - high
    return float(down), float(up)


def _slid(her: Her, paths: frozenset[str], axis: int) -> tuple[Floats, float]:
    """Return what a metre along an axis adds to the sums, and the mass that moves [kg]."""
    n, d = her.waterline
    each = np.zeros(SIZE)
    mass = sum(entry.mass for entry in her.masses.entries if entry.path in paths)
    each[MASS][1 + axis] = mass
    for body in her.bodies:
        if body.path in paths:
            row = body_sums(body, n, d)
            each[VOLUME][1 + axis] += row[VOLUME][0]
            each[ABOVE][1 + axis] += row[ABOVE][0]
    low = her.way(0.0)
    neutral = waters_at(her.way, neutral_water(her))
    for k in range(len(her.boat.tanks)):
        if f"tank[{k + 1}]" in paths:
            each[BLOWN][1 + axis] += low[k]
            each[DIVED][1 + axis] += neutral[k]
    return each, mass


def slides(her: Her) -> list[Slide]:
    """Return every way in which something may slide.

    Raises:
        BoatError: A lane names nothing, or its things lie outside it already.
    """
    found: list[Slide] = []
    all_of = things(her.boat)
    for number, lane in enumerate(her.boat.lanes):
        named = _named(lane, number, all_of)
        paths = frozenset(thing.path for thing in named)
        for axis in range(3):
            low, high = _range(lane, axis, [t for t in named if t.name in lane.things])
            if not np.isfinite(low) or not np.isfinite(high):
                low, high = max(low, -her.floater.length), min(high, her.floater.length)
            if high - low < STILL:
                continue
            each, mass = _slid(her, paths, axis)
            found.append(
                Slide(
                    name=" and ".join(lane.things), lane=number, axis=axis,
                    paths=tuple(sorted(paths)), low=low, high=high, each=each, mass=mass,
                )
            )  # fmt: skip
    return found


def _gaps(one: Floats, other: Floats) -> Floats:
    """Return how far apart two boxes lie along each axis, either way round, shape (3, 2) [m]."""
    return np.stack([other[0] - one[1], one[0] - other[1]], axis=1)


def passes(her: Her) -> list[Pass]:
    """Return every two things that must not pass through each other.

    Things whose boxes reach into each other as they lie are left alone: their sizes are not known
    well enough to judge by.
    """
    all_of = things(her.boat)
    lane_of: dict[str, int] = {}
    for number, lane in enumerate(her.boat.lanes):
        for thing in _named(lane, number, all_of):
            lane_of.setdefault(thing.path, number)
    return list(_passes(all_of, lane_of))


def _passes(all_of: list[Thing], lane_of: dict[str, int]) -> Iterator[Pass]:
    known = [thing for thing in all_of if thing.known]
    for i, one in enumerate(known):
        for other in known[i + 1 :]:
            first, second = lane_of.get(one.path, -1), lane_of.get(other.path, -1)
            if first == second or one.inside != other.inside:
                continue
            gaps = _gaps(one.box, other.box)
            if gaps.max() < -TOUCH:
                continue
            yield Pass(first=first, second=second, gaps=gaps)


def contained(her: Her) -> list[tuple[int, int, float, float]]:
    """Return lane, axis and how far things in a cylinder may move to its caps and its wall [m]."""
    all_of = things(her.boat)
    homes = {vessel.name: _bore_box(vessel, k) for k, vessel in enumerate(her.boat.cylinders, 1)}
    found: list[tuple[int, int, float, float]] = []
    for number, lane in enumerate(her.boat.lanes):
        named = _named(lane, number, all_of)
        moving = {thing.name for thing in named}
        for thing in named:
            home = homes.get(thing.inside)
            if home is None or thing.inside in moving:
                continue
            for axis in range(3):
                low, high = _inside_of(home, thing.box, axis)
                found.append((number, axis, min(low, 0.0), max(high, 0.0)))
    return found


def _bore_box(vessel: Cylinder, number: int) -> Floats:
    """Return the box about the room inside a cylinder: its bore, between its caps [m]."""
    bore = bore_of(vessel, f"cylinder[{number}]")  # pyright: ignore[reportArgumentType] - frozen: hashable
    return np.array(bore.shapes[0].spans).T


def _inside_of(home: Floats, box: Floats, axis: int) -> tuple[float, float]:
    """Return how far a box may move along an axis within the bore of a cylinder along x [m]."""
    if axis == 0:
        return float(home[0, 0] - box[0, 0]), float(home[1, 0] - box[1, 0])
    radius = float(home[1, 2] - home[0, 2]) / 2
    middle = home.mean(axis=0)
    other = 3 - axis
    aside = float(np.abs(box[:, other] - middle[other]).max())
    half = sqrt(max(radius**2 - aside**2, 0.0))
    return float(middle[axis] - half - box[0, axis]), float(middle[axis] + half - box[1, axis])
