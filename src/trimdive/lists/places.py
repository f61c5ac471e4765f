"""Places from a weight list, for pieces that the boat file holds already: shown first, then set.

A piece is put where the list has it by the same fields (x or one of its ends, y, z or one of its
sides). How far it moves is what the boat file says before and after.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from trimdive.boatfile import Boat, parse, set_value
from trimdive.boatfile.edits import replaced
from trimdive.errors import TrimdiveError
from trimdive.lists.parts import Aboard, Plan, aboard, quantity, same_piece
from trimdive.lists.records import Item
from trimdive.lists.sheet import ListError

PLACED = {"cylinder": "cylinders", "tank": "tanks", "part": "parts", "lead": "lead", "foam": "foam"}
ALONG = ("x", "x_aft", "x_fore")
UPWARD = ("z", "z_bottom", "z_top")
SAME_PLACE = 5e-5  # places that differ by less are one place [m]
Place = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A piece aboard that the list has elsewhere."""

    piece: Aboard
    item: Item
    before: Place  # middle: forward of the stern, to port, above the keel line [m]
    after: Place  # likewise [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A boat file with the places of a list."""

    text: str
    moves: tuple[Move, ...]


def placed(text: str, plan: Plan, boat: Boat) -> Placed:
    """Return a boat file with the places that a list has for pieces aboard.

    Args:
        text: Text of the boat file.
        plan: What taking over the list does.
        boat: The boat in that text, resolved.

    Raises:
        ListError: A piece cannot stand where the list has it.
    """
    found: list[tuple[Aboard, Item]] = []
    pieces = list(aboard(boat))
    for item in plan.preview.items:
        piece = same_piece(item, pieces)
        if piece is None:
            continue
        pieces.remove(piece)
        if piece.kind in PLACED and _stands_elsewhere(boat, piece, item):
            found.append((piece, item))
    whole = text
    for piece, item in found:
        whole = _with_place(whole, piece, item, plan, boat)
    try:
        there = parse(whole)
    except TrimdiveError as error:
        raise _culprit(text, found, plan, boat) or error from None
    moves = _moves(found, boat, there)
    kept = text
    for move in moves:
        kept = _with_place(kept, move.piece, move.item, plan, boat)
    return Placed(text=kept, moves=tuple(moves))


def _stands_elsewhere(boat: Boat, piece: Aboard, item: Item) -> bool:
    """Return whether a list may have a piece elsewhere; what it tells of an end may be."""
    told = item.figures.keys() & {*ALONG, *UPWARD, "y"}
    if told - {"x", "y", "z"} or (item.words.get("from") or boat.told_from) != "stern":
        return bool(told)
    here = dict(zip("xyz", _place(boat, piece), strict=True))
    return any(abs(item.figures[axis] - here[axis]) > SAME_PLACE for axis in told)


def _moves(found: Sequence[tuple[Aboard, Item]], boat: Boat, there: Boat) -> list[Move]:
    """Return what stands elsewhere in another boat."""
    moves: list[Move] = []
    for piece, item in found:
        before, after = _place(boat, piece), _place(there, piece)
        if any(abs(a - b) > SAME_PLACE for a, b in zip(before, after, strict=True)):
            moves.append(Move(piece=piece, item=item, before=before, after=after))
    return moves


def _place(boat: Boat, piece: Aboard) -> Place:
    """Return where a piece of a resolved boat stands."""
    number = int(piece.path.partition("[")[2].rstrip("]"))
    found = getattr(boat, PLACED[piece.kind])[number - 1]
    x, y, z = (getattr(found, key) or 0.0 for key in ("x", "y", "z"))
    return (x, y, z)


def _with_place(text: str, piece: Aboard, item: Item, plan: Plan, boat: Boat) -> str:
    """Return the text with one piece where the list has it.

    Raises:
        ListError: It was weighed by its ends, which say where it stands.
    """
    if piece.is_by_ends:
        what = f"row {item.row}: '{piece.name}' was weighed by its two ends, which say where it is"
        mend = "Mend the two readings in the boat file, or take its place out of the list."
        raise ListError(what, plan.preview.name, mend)
    unit = plan.preview.length_unit
    for fields in (ALONG, ("y",), UPWARD):
        chosen = next((key for key in fields if key in item.figures), None)
        if chosen is None or (chosen == "y" and piece.is_pair and not item.figures["y"]):
            continue  # of a pair the list tells the middle of both
        for other in fields:
            if other != chosen:
                text = replaced(text, f"{piece.path}.{other}", "")
        value = quantity(item.figures[chosen], "length", unit)
        text = set_value(text, f"{piece.path}.{chosen}", value)
        if fields == ALONG:
            end = item.words.get("from", "")
            own = "" if end == boat.told_from else end
            text = replaced(text, f"{piece.path}.from", own)
    return text


def _culprit(
    text: str, found: Sequence[tuple[Aboard, Item]], plan: Plan, boat: Boat
) -> ListError | None:
    """Return the error for the first piece that cannot stand where the list has it."""
    for piece, item in found:
        try:
            parse(_with_place(text, piece, item, plan, boat))
        except ListError:
            raise
        except TrimdiveError as error:
            what = f"row {item.row}: '{piece.name}' cannot stand there: {error.what}"
            return ListError(what, plan.preview.name, error.mend)
    return None
