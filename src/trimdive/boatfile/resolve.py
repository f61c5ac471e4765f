"""Undoes how things were measured: every x forward from the stern and to the middle.

After it every placed piece has ``x``, ``y``, ``z`` and, where it is long, ``length``; every mass
says how it is known and how far it may be off; every piece has a name.
"""

import math
from typing import Any, TypeVar

from trimdive.boatfile.boat import Boat, WaterOf
from trimdive.boatfile.outline import ENDS
from trimdive.boatfile.piece import BOW, STERN, Measured, Piece, Placed, Weighed
from trimdive.boatfile.pieces import Coat, Cylinder, KeepClear, Part, Tank, Waterline
from trimdive.boatfile.placing import Pocket
from trimdive.boatfile.quantities import is_given
from trimdive.boatfile.regions import MeshRegion, OutlineRegion, Skin
from trimdive.data import row
from trimdive.units import Spread

P = TypeVar("P", bound=Piece)
M = TypeVar("M", bound=Measured)
W = TypeVar("W", bound=Weighed)
L = TypeVar("L", bound=Placed)
T = TypeVar("T", bound=Part)
S = TypeVar("S", bound=Skin)
K = TypeVar("K", KeepClear, Pocket)
SPOTS = ("walls", "board", "halves")  # figures measured at places along a shell
ALONG = ("x", "x_aft", "x_fore", "water_end", "forward_of", "aft_of")  # measured along the boat
SEA_SALT = 35.0  # ordinary sea water [g/kg]
FINEST = 12  # decimals of a metre; what sums leave behind beyond them is no measure


def resolved(boat: Boat) -> Boat:
    """Return the boat with every place from the stern and to the middle; again changes nothing."""
    cylinders = tuple(_middled(_weighed(_turned(c, boat)), c.length) for c in boat.cylinders)
    by_name = {cylinder.name: cylinder for cylinder in cylinders}
    turned = boat.model_copy(
        update={
            "measured_from": "stern",
            "water": _water(boat.water),
            "waterline": _waterline(boat),
            "marks": tuple(_turned(mark, boat) for mark in boat.marks),
            "regions": tuple(_skin(skin, boat) for skin in boat.regions),
            "openings": tuple(_turned(hole, boat) for hole in boat.openings),
            "hatches": tuple(_turned(hatch, boat) for hatch in boat.hatches),
            "holes": tuple(_turned(hole, boat) for hole in boat.holes),
            "plate_lines": tuple(_turned(line, boat) for line in boat.plate_lines),
            "draught_marks": tuple(_turned(one, boat) for one in boat.draught_marks),
            "coats": tuple(_weighed(coat) for coat in boat.coats),
            "cylinders": cylinders,
            "tanks": tuple(_tank(_weighed(_turned(t, boat)), by_name) for t in boat.tanks),
            "parts": _parts(boat.parts, boat),
            "lead": _parts(boat.lead, boat),
            "foam": _parts(boat.foam, boat),
            "keep_clear": tuple(_space(_turned(space, boat)) for space in boat.keep_clear),
            "readings": tuple(_turned(reading, boat) for reading in boat.readings),
            "from_tub": tuple(_turned(piece, boat) for piece in boat.from_tub),
            "pockets": tuple(_space(_turned(pocket, boat)) for pocket in boat.pockets),
            "lanes": tuple(_turned(lane, boat) for lane in boat.lanes),
            "linkages": tuple(_turned(linkage, boat) for linkage in boat.linkages),
        }
    )
    turned._entered_from = boat.entered_from  # pyright: ignore[reportPrivateUsage] - set here only
    return turned


def _with(piece: P, **changes: Any) -> P:
    """Return the piece with some of its fields changed."""
    return piece.model_copy(update=changes)


def _turned(piece: M, boat: Boat) -> M:
    """Return a piece with its places along the boat forward from the stern."""
    inner: dict[str, Any] = {
        name: tuple(_turned(spot, boat) for spot in spots)
        for name in SPOTS
        if (spots := getattr(piece, name, ()))
    }
    if ends := getattr(piece, "by_ends", None):
        inner["by_ends"] = _turned(ends, boat)
    start, way = _zero(piece.measured_from or boat.measured_from, boat)
    if (start, way) == (0.0, 1):
        return _with(piece, measured_from=None, **inner)
    places = {name: getattr(piece, name, None) for name in ALONG}
    turned = {
        name: round(start + way * place, FINEST)
        for name, place in places.items()
        if place is not None
    }
    return _with(piece, measured_from=None, **turned, **inner)


def _zero(name: str, boat: Boat) -> tuple[float, int]:
    """Return where an end or a mark lies from the stern [m], and which way x run from it."""
    if name == STERN:
        return 0.0, 1
    if name == BOW:
        return boat.length or 0.0, -1
    mark = next(mark for mark in boat.marks if mark.name == name)
    start, way = _zero(mark.measured_from or boat.measured_from, boat)
    return start + way * mark.x, 1


def _skin(skin: S, boat: Boat) -> S:
    """Return a region with its places, mass, thickness and outline."""
    return _outlined(_walled(_weighed(_pieced(_turned(skin, boat), boat))), boat)


def _pieced(skin: S, boat: Boat) -> S:
    """Return a region with the places of its further meshes from the stern."""
    if not isinstance(skin, MeshRegion):
        return skin
    return _with(skin, pieces=tuple(_turned(piece, boat) for piece in skin.pieces))


def _outlined(skin: S, boat: Boat) -> S:
    """Return a region whose outline is its own, with its places forward from the stern."""
    if not isinstance(skin, OutlineRegion):
        return skin
    given = {other.name: other for other in boat.regions if isinstance(other, OutlineRegion)}
    source = given.get(skin.like or skin.name, skin)
    start, way = _zero(source.measured_from or boat.measured_from, boat)
    rows = {
        name: tuple(_with(row, x=round(start + way * row.x, FINEST)) for row in listed)
        for name, listed in source.rows.items()
    }
    sizes = {name: getattr(source, name) for name in ("length", "breadth", "height", *ENDS)}
    return _with(skin, like=None, **sizes, **rows)


def _weighed(piece: W) -> W:
    """Return a piece that says how its mass is known and how far it may be off."""
    mass, known = piece.mass, piece.known
    own: dict[str, Any] = {}
    if piece.by_ends is not None:
        mass, known = piece.by_ends.mass, known or "weighed"
        own = {"by_ends": None}
        if all(getattr(piece, name, None) is None for name in ALONG[:3]) or isinstance(piece, Skin):
            own["x"] = piece.by_ends.x
    if isinstance(piece, Coat) and piece.before is not None and piece.after is not None:
        mass, known = piece.after - piece.before, known or "weighed"
        own = {"before": None, "after": None}
    if piece.offcut is not None:
        own |= {"density": piece.density or piece.offcut.density, "offcut": None}
    known = known or ("worked out" if mass is None else "guess")
    return _with(
        piece, mass=mass, known=known, spread=piece.spread or usual_spread(known, mass), **own
    )


def usual_spread(known: str, mass: float | None) -> Spread:
    """Return how far a mass [kg] may be off that is known so: a scale is no finer than it reads."""
    told = row("known", known)
    share, least = float(told["spread"]), float(told["least"])
    if mass is not None and share * mass < least:
        return Spread(least, is_share=False)
    return Spread(share, is_share=True)


def _walled(skin: S) -> S:
    """Return a skin with its thickness: of several spots their mean, of one where none is told."""
    if not skin.walls or (skin.thickness is not None and not skin.spots):
        return skin
    return _with(skin, thickness=sum(spot.thickness for spot in skin.walls) / len(skin.walls))


def _middled(piece: L, along: float) -> L:
    """Return a placed piece with its middle, from its length along the boat [m]."""
    along *= math.cos(piece.slope) if isinstance(piece, Cylinder) else 1.0
    x = piece.x
    if piece.x_aft is not None:
        x = round(piece.x_aft + along / 2, FINEST)
    elif piece.x_fore is not None:
        x = round(piece.x_fore - along / 2, FINEST)
    y = piece.y if is_given(piece.y) else 0.0
    return _with(piece, x=x, y=y, x_aft=None, x_fore=None)


def _tank(tank: Tank, cylinders: dict[str, Cylinder]) -> Tank:
    """Return a tank with its middle, its bore and its axis, from its cylinder where left out."""
    if tank.kind == "piston":
        tank = _with(tank, length=tank.stroke, x=tank.middle_of_stroke)
    home = cylinders.get(tank.inside or "")
    if home is None:
        return _middled(tank, tank.length or 0.0)
    tank = _middled(_with(tank, y=tank.y if is_given(tank.y) else home.y), tank.length or 0.0)
    if not is_given(tank.z):
        tank = _with(tank, z=home.z + (tank.x - home.x) * math.tan(home.slope))
    if tank.shape == "round" and not is_given(tank.bore):
        tank = _with(tank, bore=home.bore)
    return tank


def loosened(tank: Tank, home: Cylinder) -> Tank:
    """Return a tank without what it has from its cylinder, so that it follows when that changes.

    Args:
        tank: As resolved.
        home: The cylinder in which it lies, as it was then.
    """
    if tank.inside != home.name:
        return tank
    follows = _tank(_with(tank, y=None, z=None, bore=None), {home.name: home})
    same = [name for name in ("y", "z", "bore") if getattr(tank, name) == getattr(follows, name)]
    return _with(tank, **dict.fromkeys(same))


def followed(tank: Tank, was: Cylinder, now: Cylinder) -> Tank:
    """Return a tank as it follows its cylinder when that changes.

    Args:
        tank: As resolved.
        was: The cylinder in which it lies, resolved.
        now: The same, changed.
    """
    return _tank(loosened(tank, was), {now.name: now})


def extents(part: Part) -> tuple[float | None, float | None, float | None]:
    """Return how long, broad and high a part is in the boat [m], as far as its shape says."""
    if part.shape == "sphere":
        return part.diameter, part.diameter, part.diameter
    if part.shape in ("cylinder", "tube"):
        sizes = dict.fromkeys("xyz", part.diameter) | {part.axis: part.length}
        return sizes["x"], sizes["y"], sizes["z"]
    return part.length, part.breadth, part.height


def _parts(parts: tuple[T, ...], boat: Boat) -> tuple[T, ...]:
    """Return parts with their middles and names."""
    taken = {part.name for part in boat.pieces if part.name}
    return tuple(
        _part(_weighed(_turned(part, boat)), _name(part, number, taken))
        for number, part in enumerate(parts, 1)
    )


def _name(part: Part, number: int, taken: set[str]) -> str:
    """Return the name of a part, or one made of its kind and number that is not taken."""
    name = part.name or f"{part.kind} {number}"
    while name in taken and not part.name:
        name += "a"
    return name


def _part(part: T, name: str) -> T:
    """Return a part with its middle, its height and its name."""
    long, _, high = extents(part)
    z = part.z
    if part.z_bottom is not None:
        z = round(part.z_bottom + (high or 0.0) / 2, FINEST)
    elif part.z_top is not None:
        z = round(part.z_top - (high or 0.0) / 2, FINEST)
    return _with(_middled(part, long or 0.0), name=name, z=z, z_bottom=None, z_top=None)


def _space(space: K) -> K:
    """Return a space with both its sides."""
    if space.breadth is None:
        return space
    half = space.breadth / 2
    return _with(space, breadth=None, y_starboard=-half, y_port=half)


def _water(water: WaterOf) -> WaterOf:
    """Return the water with its salt."""
    if is_given(water.salt):
        return water
    return _with(water, salt=SEA_SALT if water.kind == "sea" else 0.0)


def _waterline(boat: Boat) -> Waterline | None:
    """Return the waterline with its places from the stern."""
    line = boat.waterline
    if line is None or line.aft is None or line.fore is None:
        return line
    return _with(line, aft=_turned(line.aft, boat), fore=_turned(line.fore, boat))
