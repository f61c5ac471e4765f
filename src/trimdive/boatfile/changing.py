"""Pieces of a boat in memory, changed, taken out and added by name: for scripts and sweeps."""

import difflib
from typing import Any

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.checks import pieces
from trimdive.boatfile.loading import checked
from trimdive.boatfile.messages import named_fields
from trimdive.boatfile.piece import Piece
from trimdive.boatfile.pieces import Coat, Cylinder, Part, Tank
from trimdive.boatfile.places import Path, dotted
from trimdive.boatfile.regions import Skin
from trimdive.boatfile.resolve import loosened
from trimdive.errors import AskError

NAMED = (
    Skin,
    Coat,
    Cylinder,
    Tank,
    Part,
)  # what can be changed by its name; lead and foam are parts
PLACES = (("x", "x_aft", "x_fore"), ("z", "z_bottom", "z_top"))  # each says the same
NEAR = 0.5  # likeness of letters from which a name counts as misspelt [-]


def changed(boat: Boat, name: str, fields: dict[str, Any]) -> Boat:
    """Return a boat with one piece changed.

    Args:
        boat: As resolved.
        name: What the piece is called, or its place in the file, as "tank[2]".
        fields: Its new fields by name, SI or text with a unit; None: left out.

    Raises:
        BoatError: There is no such piece or field, or she cannot be so.
    """
    path, old = _piece(boat, name)
    values = {key: getattr(old, key) for key in type(old).model_fields}
    for group in PLACES:
        if fields.keys() & set(group):
            values |= dict.fromkeys(group)
    if isinstance(old, Tank) and old.kind == "piston":
        values["x"] = None  # it follows from its water end
    new = type(old)(**{key: one for key, one in (values | fields).items() if one is not None})
    lists = _replaced(boat, path, (new,))
    if isinstance(old, Cylinder):
        lists["tanks"] = tuple(loosened(tank, old) for tank in boat.tanks)
    return checked(boat.model_copy(update=lists))


def without(boat: Boat, name: str) -> Boat:
    """Return a boat without one piece.

    Args:
        boat: As resolved.
        name: What the piece is called, or its place in the file.

    Raises:
        BoatError: There is no such piece, or others need it.
    """
    path, _ = _piece(boat, name)
    return checked(boat.model_copy(update=_replaced(boat, path, ())))


def added(boat: Boat, new: tuple[Piece, ...]) -> Boat:
    """Return a boat with more pieces, each behind those of its kind.

    Raises:
        BoatError: One of them is no piece that a boat has, or she cannot be so.
    """
    lists: dict[str, Any] = {}
    for one in new:
        field = _list_of(one)
        lists[field] = (*lists.get(field, getattr(boat, field)), one)
    return checked(boat.model_copy(update=lists))


def _list_of(one: object) -> str:
    """Return the field of a boat whose list holds pieces of this kind."""
    if not isinstance(one, NAMED):
        mend = "Add Part, Lead, Foam, Tank, Cylinder, Coat or a region."
        raise AskError(f"{one!r} is no piece that a boat has", "added", mend)
    if isinstance(one, Part):
        return {"part": "parts"}.get(one.kind, one.kind)
    return "regions" if isinstance(one, Skin) else f"{type(one).__name__.lower()}s"


def _replaced(boat: Boat, path: Path, new: tuple[object, ...]) -> dict[str, Any]:
    """Return the list in which a piece stands, with others in its place."""
    field = dict(zip(named_fields(Boat), Boat.model_fields, strict=True))[str(path[0])]
    listed, number = getattr(boat, field), int(path[1])
    return {field: (*listed[:number], *new, *listed[number + 1 :])}


def _piece(boat: Boat, name: str) -> tuple[Path, Piece]:
    """Return the piece of that name, and where it stands.

    Raises:
        AskError: There is none, or more than one.
    """
    known = [(path, one) for path, one in pieces(boat) if len(path) == 2]
    ours = [(path, one) for path, one in known if isinstance(one, NAMED)]
    found = [(path, one) for path, one in ours if name in (getattr(one, "name", ""), dotted(path))]
    if len(found) > 1:
        places = " and ".join(dotted(path) for path, _ in found)
        raise AskError(f"{places} are both called '{name}'", boat.name, "Name one by its place.")
    if found:
        return found[0]
    names = [str(getattr(one, "name", "")) for _, one in ours]
    near = difflib.get_close_matches(name, names, n=3, cutoff=NEAR)
    mend = f"Did you mean {' or '.join(map(repr, near))}?" if near else f"She has {_few(names)}."
    raise AskError(f"there is no piece '{name}'", boat.name, mend)


def _few(names: list[str], most: int = 12) -> str:
    """Return names in a sentence, of many the first."""
    more = f" and {len(names) - most} more" if len(names) > most else ""
    return ", ".join(map(repr, names[:most])) + more
