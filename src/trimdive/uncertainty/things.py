"""What may be off of each thing aboard: its mass, its volume, its place, a tank's litres.

Every source is independent of the others and taken as a 95 % band. Where a volume follows from a
mass, or a mass from a volume, one source moves both; what lies in a cylinder goes where that goes.
"""

from collections.abc import Iterator
from math import sqrt
from typing import Literal

import numpy as np

from trimdive.boatfile import Boat, Coat, Cylinder, Part, Skin, Tank, usual_spread
from trimdive.boatfile.piece import HUNG_DENSITY, Weighed
from trimdive.data import row
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.build import Body, numbered, tank_room
from trimdive.geometry.solids.hull import density_of
from trimdive.geometry.solids.surfaces import Files
from trimdive.hydrostatics.weights import Entry, Ledger
from trimdive.records import record
from trimdive.units import read

WIDE = 1.959963984540054  # standard deviations to either side that hold 95 cases in 100 [-]
What = Literal["mass", "volume", "along", "across", "height", "litres"]
PLACES: tuple[What, ...] = ("along", "across", "height")
WEIGHED = "weighed"  # row of how a mass is known once it was on the scale


@record
class Thing:
    """Something aboard, as it weighs, displaces and holds water."""

    name: str
    path: str  # its place in the boat file
    kind: str  # region, coat, cylinder, tank, part, lead, foam or tub
    mass: float  # [kg]
    place: Floats  # its centre of mass, shape (3,) [m]
    bodies: tuple[Body, ...]  # that displace
    tank: int  # its number among the tanks; -1: it is none
    room: Mesh | None  # of that tank
    moves: bool  # its bodies go where its mass goes
    inside: str  # vessel in which it lies, or ""

    @property
    def volume(self) -> float:
        """Return what it displaces when under [m³]."""
        return sum(body.volume for body in self.bodies)


@record
class Source:
    """One thing that may be off, and what it changes where it is off by one standard deviation."""

    thing: int  # its place in the list of things
    moves: tuple[int, ...]  # the things that its shift takes along: this one, and what lies in it
    what: What
    half: float  # how far it may be off, 95 % [kg, m³ or m]
    better: float  # how far once it is weighed or measured again, 95 % [kg, m³ or m]
    mass: float  # the thing weighs so much more [kg]
    share: float  # its bodies displace so much more, of their volume [-]
    shift: Floats  # it lies so far off, shape (3,) [m]
    room: float  # its tank holds so much more, of its room [-]


def things(boat: Boat, files: Files, bodies: tuple[Body, ...], masses: Ledger) -> tuple[Thing, ...]:
    """Return everything aboard, in the order of the ledger, then tanks that weigh nothing.

    Args:
        boat: A resolved boat.
        files: What lies beside the boat file.
        bodies: Everything that displaces.
        masses: Everything that weighs.
    """
    rooms = [tank_room(tank, boat, files) for tank in boat.tanks]
    of: dict[str, list[Body]] = {}
    for body in bodies:
        of.setdefault(body.path, []).append(body)
    tanks = {f"tank[{i}]": i - 1 for i in range(1, len(boat.tanks) + 1)}
    found = [
        Thing(
            name=entry.name,
            path=entry.path,
            kind=entry.kind,
            mass=entry.mass,
            place=entry.place,
            bodies=tuple(of.pop(entry.path, ())),
            tank=(k := tanks.pop(entry.path, -1)),
            room=rooms[k] if k >= 0 else None,
            moves=entry.kind not in ("region", "coat"),
            inside=entry.inside,
        )
        for entry in masses.entries
    ]
    for path, k in tanks.items():
        tank = boat.tanks[k]
        found.append(
            Thing(
                name=tank.name,
                path=path,
                kind="tank",
                mass=0.0,
                place=np.array([tank.x, tank.y, tank.z]),
                bodies=tuple(of.pop(path, ())),
                tank=k,
                room=rooms[k],
                moves=True,
                inside=tank.inside or "",
            )
        )
    for path, parts in of.items():
        found.append(_weightless(path, parts))
    return tuple(found)


def _weightless(path: str, parts: list[Body]) -> Thing:
    """Return something that displaces and weighs nothing, as what the tub says displaces."""
    return Thing(
        name=parts[0].name,
        path=path,
        kind=parts[0].kind,
        mass=0.0,
        place=parts[0].mesh.bounds.mean(axis=0),
        bodies=tuple(parts),
        tank=-1,
        room=None,
        moves=False,
        inside="",
    )


def usual(boat: Boat, key: str) -> float:
    """Return how far something may be off: the boat's own figure, else the table's [m or -]."""
    own = getattr(boat.spreads, key, None)
    if own is not None:
        return float(own)
    entry = row("spreads", key)
    kind = "length" if entry["unit"] == "mm" else "percent"
    return read(f"{entry['value']} {entry['unit']}", kind, None)


def _range(piece: Weighed, boat: Boat) -> float:
    """Return how far a density may be off: by the table's range of its material, else usual [-]."""
    if piece.density is not None or not piece.material:
        return usual(boat, "density")
    entry = row("materials", piece.material)
    low, high = float(entry["density_low"]), float(entry["density_high"])
    return (high - low) / 2 / float(entry["density"])


def _pieces(boat: Boat) -> dict[str, Weighed]:
    """Return every piece that weighs, by its place in the boat file."""
    listed: tuple[tuple[str, tuple[Weighed, ...]], ...] = (
        ("region", boat.regions),
        ("coat", boat.coats),
        ("cylinder", boat.cylinders),
        ("tank", boat.tanks),
    )
    found: dict[str, Weighed] = {
        f"{key}[{i}]": one for key, ones in listed for i, one in enumerate(ones, 1)
    }
    return found | dict(numbered(boat))


def _volume_of(piece: Weighed, boat: Boat) -> tuple[float, float]:
    """Return how far a volume may be off [-], and the volume that follows a mass [m³/kg]."""
    density = density_of(piece.material, piece.density)
    by_mass = 0.0 if density is None or piece.mass is None else 1.0 / density
    if isinstance(piece, Cylinder):
        return usual(boat, "cylinder"), 0.0
    if isinstance(piece, Tank):
        return usual(boat, "shape"), 0.0
    if isinstance(piece, Coat):
        return _range(piece, boat), by_mass
    if isinstance(piece, Part) and piece.volume is not None:
        return usual(boat, "told"), 0.0
    if piece.hung is not None and piece.mass is not None:
        return usual(boat, "hung"), 1.0 / HUNG_DENSITY
    if isinstance(piece, Skin) and piece.sealed:
        return usual(boat, "shape"), 0.0
    if by_mass:
        return _range(piece, boat), by_mass
    return usual(boat, "skin" if isinstance(piece, Skin) else "shape"), 0.0


def _mass_and_volume(
    k: int, thing: Thing, entry: Entry | None, piece: Weighed, boat: Boat
) -> Iterator[Source]:
    """Yield how far mass and volume of a thing may be off."""
    volume = thing.volume
    off, follows = _volume_of(piece, boat) if volume else (0.0, 0.0)
    is_computed = piece.mass is None and entry is not None and volume > 0
    spread = entry.spread if entry else 0.0
    by_volume = off * thing.mass if is_computed else 0.0
    alone = sqrt(max(spread**2 - by_volume**2, 0.0))
    if alone:
        better = usual_spread(WEIGHED, thing.mass).of(thing.mass)
        share = alone * follows / volume if volume else 0.0
        yield _source(k, "mass", alone, min(better, alone), mass=alone, share=share)
    if off and volume:
        half, better = off * volume, usual(boat, "hung") * volume
        yield _source(k, "volume", half, min(half, better), mass=by_volume, share=off)


def _source(
    k: int,
    what: What,
    half: float,
    better: float,
    *,
    mass: float = 0.0,
    share: float = 0.0,
    shift: tuple[float, float, float] = (0.0, 0.0, 0.0),
    room: float = 0.0,
    moves: tuple[int, ...] = (),
) -> Source:
    """Return a source from what it changes where it is off by its whole band."""
    return Source(
        thing=k,
        moves=moves or (k,),
        what=what,
        half=half,
        better=better,
        mass=mass / WIDE,
        share=share / WIDE,
        shift=np.array(shift) / WIDE,
        room=room / WIDE,
    )


def _placed(k: int, found: tuple[Thing, ...], piece: Weighed, boat: Boat) -> Iterator[Source]:
    """Yield how far the place of a thing may be off, with all that lies in it.

    A pair lies off the middle alike.
    """
    thing = found[k]
    if thing.kind == "coat":
        return
    is_vessel = thing.kind in ("cylinder", "tank")
    within = [i for i, one in enumerate(found) if is_vessel and one.inside == thing.name]
    checked = usual(boat, "checked")
    for axis, what in enumerate(PLACES):
        if what == "across" and getattr(piece, "pair", None):
            continue
        half = usual(boat, what)
        if half:
            shift = [0.0, 0.0, 0.0]
            shift[axis] = half
            better = min(half, checked)
            yield _source(
                k, what, half, better, shift=(shift[0], shift[1], shift[2]), moves=(k, *within)
            )


def sources(
    boat: Boat, masses: Ledger, found: tuple[Thing, ...], rooms: Floats
) -> tuple[Source, ...]:
    """Return everything that may be off.

    Args:
        boat: A resolved boat.
        masses: Everything that weighs.
        found: What is aboard.
        rooms: What each tank holds when full, shape (t,) [m³].
    """
    entries = {entry.path: entry for entry in masses.entries}
    known = _pieces(boat)
    listed: list[Source] = []
    for k, thing in enumerate(found):
        if thing.kind == "tub":
            continue
        piece = known[thing.path]
        listed += _mass_and_volume(k, thing, entries.get(thing.path), piece, boat)
        listed += _placed(k, found, piece, boat)
        off = usual(boat, "tank") if thing.tank >= 0 else 0.0
        if off:
            half = off * float(rooms[thing.tank])
            better = min(off, usual(boat, "hung")) * float(rooms[thing.tank])
            listed.append(_source(k, "litres", half, better, room=off))
    return tuple(listed)
