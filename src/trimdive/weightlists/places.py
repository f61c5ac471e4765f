"""Places from a weight list, for pieces that the boat file holds already: shown first, then set.

A piece is put where the list has it by the same fields (x or one of its ends, y, z or one of its
sides). How far it moves is what the boat file says before and after.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from trimdive.boatfile import Boat, parse
from trimdive.boatfile.edits import with_values
from trimdive.boatfile.ref import ref
from trimdive.errors import ListError, TrimdiveError
from trimdive.weightlists.parts import Aboard, Plan, aboard, quantity, same_piece
from trimdive.weightlists.records import Item

PLACED = {"cylinder": "cylinders", "tank": "tanks", "part": "parts", "lead": "lead", "foam": "foam"}
ALONG = ("x", "x_aft", "x_fore")
UPWARD = ("z", "z_bottom", "z_top")
SAME_PLACE = 5e-5  # places that differ by less are one place [m]
Place = tuple[float, float, float]
Found = tuple[Aboard, Item]


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
    found: list[Found] = []
    pieces = list(aboard(boat))
    for item in plan.preview.items:
        piece = same_piece(item, pieces)
        if piece is None:
            continue
        pieces.remove(piece)
        if piece.kind in PLACED and _stands_elsewhere(boat, piece, item):
            found.append((piece, item))
    whole = _with_places(text, found, plan, boat)
    try:
        there = parse(whole)
    except TrimdiveError as error:
        raise _culprit(text, found, plan, boat) or error from None
    moves = _moves(found, boat, there)
    moved = [(move.piece, move.item) for move in moves]
    kept = whole if moved == found else _with_places(text, moved, plan, boat)
    return Placed(text=kept, moves=tuple(moves))


def _with_places(text: str, found: Sequence[Found], plan: Plan, boat: Boat) -> str:
    """Return the text with pieces where the list has them, as one edit.

    Raises:
        ListError: One was weighed by its ends, which say where it stands.
    """
    values: dict[str, str | None] = {}
    for piece, item in found:
        values |= _place_values(piece, item, plan, boat)
    return with_values(text, values) if values else text


def _stands_elsewhere(boat: Boat, piece: Aboard, item: Item) -> bool:
    """Return whether a list may have a piece elsewhere; what it tells of an end may be."""
    axes = item.figures.keys() & {*ALONG, *UPWARD, "y"}
    if axes - {"x", "y", "z"} or (item.words.get("from") or boat.entered_from) != "stern":
        return bool(axes)
    here = dict(zip("xyz", _place(boat, piece), strict=True))
    return any(abs(item.figures[axis] - here[axis]) > SAME_PLACE for axis in axes)


def _moves(found: Sequence[Found], boat: Boat, there: Boat) -> list[Move]:
    """Return what stands elsewhere in another boat."""
    moves: list[Move] = []
    for piece, item in found:
        before, after = _place(boat, piece), _place(there, piece)
        if any(abs(a - b) > SAME_PLACE for a, b in zip(before, after, strict=True)):
            moves.append(Move(piece=piece, item=item, before=before, after=after))
    return moves


def _place(boat: Boat, piece: Aboard) -> Place:
    """Return where a piece of a resolved boat stands."""
    number = ref(piece.path).number
    found = getattr(boat, PLACED[piece.kind])[number - 1]
    x, y, z = (getattr(found, key) or 0.0 for key in ("x", "y", "z"))
    return (x, y, z)


def _place_values(piece: Aboard, item: Item, plan: Plan, boat: Boat) -> dict[str, str | None]:
    """Return the fields of a piece that put it where the list has it; None for one left out.

    Raises:
        ListError: It was weighed by its ends, which say where it stands.
    """
    if piece.is_by_ends:
        what = f"row {item.row}: '{piece.name}' was weighed by its two ends, which say where it is"
        mend = "Mend the two readings in the boat file, or take its place out of the list."
        raise ListError(what, plan.preview.name, mend)
    unit = plan.preview.length_unit
    found: dict[str, str | None] = {}
    for fields in (ALONG, ("y",), UPWARD):
        chosen = next((key for key in fields if key in item.figures), None)
        if chosen is None or (chosen == "y" and piece.is_pair and not item.figures["y"]):
            continue  # of a pair the list tells the middle of both
        found |= {f"{piece.path}.{other}": None for other in fields if other != chosen}
        found[f"{piece.path}.{chosen}"] = quantity(item.figures[chosen], "length", unit)
        if fields == ALONG:
            end = item.words.get("from", "")
            found[f"{piece.path}.from"] = end if end and end != boat.entered_from else None
    return found


def _culprit(text: str, found: Sequence[Found], plan: Plan, boat: Boat) -> ListError | None:
    """Return the error for the first piece that cannot stand where the list has it.

    It is looked for by halves: all before it can stand there, and with it they cannot.
    """

    def wrong(count: int) -> TrimdiveError | None:
        try:
            parse(_with_places(text, found[:count], plan, boat))
        except TrimdiveError as error:
            return error
        return None

    count = bisect_left(range(len(found)), True, key=lambda k: wrong(k + 1) is not None) + 1
    error = wrong(count) if count <= len(found) else None
    if error is None:
        return None
    piece, item = found[count - 1]
    what = f"row {item.row}: '{piece.name}' cannot stand there: {error.what}"
    return ListError(what, plan.preview.name, error.mend)
