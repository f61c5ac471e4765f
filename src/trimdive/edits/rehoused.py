"""What is typed into a field, and what goes along: a tank into another cylinder, what is inside."""

from collections.abc import Mapping
from math import cos

from trimdive.boatfile import Cylinder, Tank, parse, set_value
from trimdive.boatfile.edits import replaced
from trimdive.boatfile.loading import toml
from trimdive.boatfile.ref import Ref, ref
from trimdive.boatfile.resolve import loosened
from trimdive.boatfile.whole import piece_at
from trimdive.edits.carried import carrying
from trimdive.edits.several import place_fields
from trimdive.edits.writing import rewritten
from trimdive.findings.finding import Edit

LEDGER = ("region", "coat", "cylinder", "tank", "part", "lead", "foam")  # tables of what weighs
WEIGHED = "weighed"


def put_in(text: str, place: str, typed: str, *, alone: bool = False) -> str:
    """Return the text of a boat file with what was typed in one field, and what goes along moved.

    Args:
        text: Text of a boat file that is in order.
        place: The field, such as "part[3].mass"; a whole place goes into the one along the boat.
        typed: What was typed.
        alone: What goes with a cylinder or tank stays where it is.

    Raises:
        BoatFileError: The text holds a mistake, or there is no such place.
    """
    at, typed = ref(place), typed.strip()
    if (at.table, at.field) == ("tank", "inside") and typed:
        return rehoused(text, place, typed)
    values = place_fields(text, place, typed)
    if not alone:
        text = carrying(text, values)
    for field, one in values.items():
        text = replaced(own_mass(text, field, one), field, one)
    return text


def own_mass(text: str, place: str, typed: str) -> str:
    """Return the text of a boat file with a piece marked as weighed whose guessed mass is retyped.

    Args:
        text: Text of a boat file that is in order.
        place: The field into which it is typed, such as "part[3].mass".
        typed: What is typed.
    """
    at = ref(place)
    if at.field != "mass" or not replaces_guess(at.table, _typed_piece(text, at), typed):
        return text
    return replaced(text, f"{at.piece}.known", WEIGHED)


def _typed_piece(text: str, at: Ref) -> Mapping[str, object]:
    """Return a piece as typed; nothing of one that is not there."""
    return piece_at(toml(text, "text"), at.piece) or {}


def replaces_guess(table: str, was: Mapping[str, object], mass: object) -> bool:
    """Return whether a mass replaces a guess: it is then the builder's own.

    Args:
        table: Of the piece.
        was: The piece as it stood in the file.
        mass: As it is typed now.

    >>> replaces_guess("part", {"mass": "52 g", "known": "guess"}, "260 g")
    True
    >>> replaces_guess("part", {"mass": "52 g", "known": "catalogue"}, "260 g")
    False
    """
    typed = str(mass or "").strip()
    is_new = bool(typed) and typed != str(was.get("mass", "")).strip()
    return is_new and table in LEDGER and was.get("known", "guess") == "guess"


def rehoused(text: str, place: str, name: str) -> str:
    """Return the text of a boat file with a tank in another cylinder.

    Its middle lies as far from that of the new cylinder as it lay from that of the old one, or
    as near to it as its ends let it; a height or breadth of its own goes along likewise. Where
    either cylinder is not known, or the tank is longer than the new one, only the name changes.

    Args:
        text: Text of a boat file that is in order.
        place: Field that names the cylinder, such as "tank[1].inside".
        name: The other cylinder.

    Raises:
        BoatFileError: The text holds a mistake, or there is no such place.
    """
    at, boat = ref(place), parse(text)
    homes = {one.name: one for one in boat.cylinders}
    tank = boat.tanks[at.order] if 0 < at.number <= len(boat.tanks) else None
    new = homes.get(name)
    if tank is None or new is None or tank.length > new.length or tank.inside == name:
        return set_value(text, place, name)
    fields = _moved(tank, homes.get(tank.inside or ""), new)
    moved = (
        rewritten(text, [Edit(action="set", path=str(at.piece), fields=fields)], {})
        if fields
        else text
    )
    return set_value(moved, place, name)


def _moved(tank: Tank, old: Cylinder | None, new: Cylinder) -> tuple[tuple[str, float], ...]:
    """Return the places of a tank that change as it goes into another cylinder [m]."""
    free = (new.length * cos(new.slope) - tank.length) / 2
    off = tank.x - (old or new).x
    by = new.x + min(max(off, -free), free) - tank.x
    found = [("x", tank.x + by)] if by else []
    if tank.kind == "piston" and by:
        found.append(("water_end", tank.water_end + by))
    if old is not None:
        own = loosened(tank, old)  # what follows of itself is not told there
        higher, farther = new.z - old.z, new.y - old.y
        found += [("z", tank.z + higher)] if own.z == tank.z and higher else []
        found += [("y", tank.y + farther)] if own.y == tank.y and farther else []
    return tuple(found)
