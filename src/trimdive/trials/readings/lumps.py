"""What the readings say was wrong, as the fewest pieces that make the list agree with the tub.

Three lumps are told apart: mass; volume under the waterline meant; volume above it, less the water
in the tanks. What a tank takes is told by itself. Each lump has a size and a first moment, and
becomes one piece where that gives a place within her, else two pieces that give both. What lies
under the waterline counts by its pull alone, so that its volume stands in the middle of her and
its moment goes with the mass.

Source: statics; a force and a couple.
"""

import datetime
from dataclasses import dataclass

import numpy as np

from trimdive.boatfile import Boat
from trimdive.boatfile.tub import FromTub
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.tree import Tree
from trimdive.hydrostatics.equilibrium import Floater
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.trials.readings.fit import Fit
from trimdive.trials.readings.predicted import UP, Off

LEAST = 5e-5  # a piece lighter, or of less water, than this is left out [kg]
LEAST_ROOM = 5e-8  # m³; a tank off by less is left as listed
CLEAR = 0.006  # so far from the waterline pieces stay, so that they do not cross it [m]
INSET = 0.05  # of her length: so near to her ends no piece lies [-]
FINE = (6, 9, 4)  # decimals of pieces: masses [kg], volumes [m³], places [m]
ROOM = "tank-room"  # what a piece stands for: keys, for which text has the words
NOTES = ("weight", "volume-below", "volume-above")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lump:
    """Something that the list lacks; below zero, that it has too much."""

    size: float  # [kg or m³]
    moment: Floats  # about the origin, shape (3,) [kg m or m⁴]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wrong:
    """What the readings say was wrong in the list."""

    mass: Lump
    below: Lump  # volume under the waterline meant
    above: Lump  # volume above it, less the water that the tanks hold
    upper: Lump  # the same, but for what they hold by having more room or less
    rooms: Floats  # water that each tank takes more, shape (t,) [m³]
    surfaced: Lump  # weight less buoyancy as she floats at that waterline
    dived: Lump  # weight less buoyancy with her tanks full


def _parted(tree: Tree, n: Floats, d: float) -> tuple[Lump, Lump]:
    """Return the volume under a plane, and above it.

    Args:
        tree: The bodies.
        n: Unit vector up, shape (3,) [-].
        d: Height of the plane along it [m].
    """
    top = 10.0 + abs(d)
    whole, lower = cut(tree, n, top), cut(tree, n, d)
    return (
        Lump(size=lower.volume, moment=lower.moment),
        Lump(size=whole.volume - lower.volume, moment=whole.moment - lower.moment),
    )


def _held(boat: Floater, waters: Floats) -> Lump:
    """Return the water in her tanks, she being level.

    Args:
        boat: The boat.
        waters: In each tank, shape (t,) [m³].
    """
    found = tank_water(boat, waters, UP, levels_at(boat, waters, UP))
    return Lump(size=found.volume, moment=found.moment)


def _less(one: Lump, other: Lump, share: float = 1.0) -> Lump:
    """Return one lump less a share of another [-]."""
    return Lump(size=one.size - share * other.size, moment=one.moment - share * other.moment)


def wrong(found: Fit, waterline: tuple[Floats, float], full: Floats) -> Wrong:
    """Return what the readings say was wrong.

    Args:
        found: The boat that readings are of.
        waterline: The plane meant: n [-], and d [m].
        full: Water in each tank by the list when full, shape (t,) [m³].
    """
    was, now = found.her.floater, Off(her=found.her, off=found.off).floater
    masses = [
        Lump(size=boat.mass, moment=boat.mass * (boat.gravity + boat.tree.centre))
        for boat in (was, now)
    ]
    (below_was, above_was), (below, above) = (_parted(boat.tree, *waterline) for boat in (was, now))
    more = now.tanks.capacities / was.tanks.capacities if len(full) else full
    alike = now._replace(tanks=now.tanks._replace(shares=was.tanks.shares))  # but where they lie
    moved = _less(_held(alike, full), _held(was, full))
    fuller = _less(_held(now, more * full), _held(alike, full))
    mass, below = _less(masses[1], masses[0]), _less(below, below_was)
    upper = _less(_less(above, above_was), moved)
    above = _less(upper, fuller)
    surfaced = _less(mass, below, was.density)
    return Wrong(
        mass=mass,
        below=below,
        above=above,
        upper=upper,
        rooms=now.tanks.capacities - was.tanks.capacities,
        surfaced=surfaced,
        dived=_less(surfaced, above, was.density),
    )


def pieces(
    what: Wrong, boat: Floater, waterline: tuple[Floats, float], date: datetime.date, count: int
) -> tuple[FromTub, ...]:
    """Return the pieces that make the list agree with the tub.

    Args:
        what: What was wrong.
        boat: The boat by her list.
        waterline: The plane meant: n [-], and d [m].
        date: Of the last reading.
        count: How many readings there are.
    """
    low = boat.tree.centre + (boat.tree.boxes[:, :3] - boat.tree.boxes[:, 3:]).min(axis=0)
    high = boat.tree.centre + (boat.tree.boxes[:, :3] + boat.tree.boxes[:, 3:]).max(axis=0)
    inset = INSET * (high[0] - low[0])
    low[0], high[0] = low[0] + inset, high[0] - inset
    n, d = waterline
    level = float(d / n[2])
    slack = abs(float(n[0] / n[2])) * float(high[0] - low[0])
    under, over = high.copy(), low.copy()
    under[2] = max(level - slack - CLEAR, low[2] + CLEAR)
    over[2] = min(level + slack + CLEAR, high[2] - CLEAR)
    middle = np.array([(low[0] + high[0]) / 2, 0.0, (low[2] + under[2]) / 2])
    below = Lump(size=what.below.size, moment=what.below.size * middle)
    weight = Lump(
        size=what.mass.size,
        moment=what.surfaced.moment + boat.density * below.moment,
    )
    boxes = ((low, high), (low, under), (over, high))
    lumps = (weight, below, _flat(what.upper, over, high))
    made: list[FromTub] = []
    for k, (lump, box) in enumerate(zip(lumps, boxes, strict=True)):
        is_mass = k == 0
        least = LEAST if is_mass else LEAST / boat.density
        made += [
            FromTub(
                mass=size if is_mass else 0.0, volume=0.0 if is_mass else size,
                x=p[0], y=p[1], z=p[2], date=date, readings=count, note=NOTES[k],
            )
            for size, p in split(lump, *box, least, FINE[0 if is_mass else 1])
        ]  # fmt: skip
    return tuple(made)


def rooms(what: Wrong, boat: Boat, date: datetime.date, count: int) -> tuple[FromTub, ...]:
    """Return the pieces that make tanks take what they were found to take.

    Args:
        what: What was wrong.
        boat: For her tanks.
        date: Of the last reading.
        count: How many readings there are.
    """
    return tuple(
        FromTub(
            tank=tank.name, room=round(room, FINE[1]), x=round(tank.x, FINE[2]),
            z=round(tank.z, FINE[2]), date=date, readings=count, note=ROOM,
        )
        for tank, room in zip(boat.tanks, what.rooms.tolist(), strict=True)
        if abs(room) > LEAST_ROOM
    )  # fmt: skip


def _flat(lump: Lump, low: Floats, high: Floats) -> Lump:
    """Return a lump whose height and side are the middle of a box where its own lie beyond.

    Only its size and its moment lengthways are told well by readings.

    Args:
        lump: What is to lie in the box.
        low: Lowest corner, shape (3,) [m].
        high: Highest corner, shape (3,) [m].
    """
    if abs(lump.size) > 0:
        place = lump.moment / lump.size
        if (place >= low).all() and (place <= high).all():
            return lump
    middle = (low + high) / 2
    return Lump(
        size=lump.size,
        moment=np.array([lump.moment[0], lump.size * middle[1], lump.size * middle[2]]),
    )


def split(
    lump: Lump, low: Floats, high: Floats, least: float, digits: int
) -> list[tuple[float, tuple[float, float, float]]]:
    """Return the one or two pieces within a box that have the size and the moment of a lump.

    Args:
        lump: What they are to be.
        low: Lowest corner of the box, shape (3,) [m].
        high: Highest corner, shape (3,) [m].
        least: What is smaller than this is left out [kg or m³].
        digits: To which sizes are rounded [-].
    """
    if abs(lump.size) > least:
        place = lump.moment / lump.size
        if (place >= low).all() and (place <= high).all():
            return [(round(lump.size, digits), _place(place))]
    middle = (low + high) / 2
    couple = lump.moment - lump.size * middle
    size = float(np.linalg.norm(couple))
    way = couple / size if size > 0 else np.array([1.0, 0.0, 0.0])
    half = (high - low) / 2
    arm = float(min(half[k] / abs(way[k]) for k in range(3) if abs(way[k]) > 1e-9))
    ends = [
        (lump.size / 2 + sign * size / (2 * arm), middle + sign * arm * way) for sign in (1, -1)
    ]
    return [(round(s, digits), _place(p)) for s, p in ends if abs(s) > least]


def _place(place: Floats) -> tuple[float, float, float]:
    x, y, z = (round(float(value), FINE[2]) for value in place)
    return x, y, z
