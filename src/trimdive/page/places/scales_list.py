"""A weight list brought in: what was understood, what is still to be said, and taking it over."""

from dataclasses import asdict, dataclass, replace
from typing import TYPE_CHECKING

from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.page import reading
from trimdive.page.form import Typed, field_of
from trimdive.page.places.place import Take, View
from trimdive.page.step import Note
from trimdive.text.list_words import (
    aboard_words,
    ask_sentence,
    column_words,
    doubts_of,
    remarks,
    shown,
    sum_sentence,
    why_of,
)
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.weightlists import (
    Answers,
    ListError,
    ListPreview,
    Plan,
    plan_of,
    taken_over,
    understood,
)
from trimdive.weightlists.parts import aboard
from trimdive.weightlists.places import SAME_PLACE, Move, placed

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

KEPT, MOVED, FRESH = "scales list", "scales list moved", "scales list just read"
UNSAID = Answers()
ASKED = {  # what may have to be said, and how it is asked
    "mass_unit": "Unit of masses without one",
    "length_unit": "Unit of lengths without one",
    "mass_of": "Where a row has several pieces, its mass is that of",
    "measured_from": "Positions are measured from",
    "x": "Position of parts without one",
    "z": "Height of parts without one",
    "material": "Material of parts without one",
    "inside": "Or the cylinder they are in",
    "known": "How masses are known where the list does not say",
    "same": "Are they the same part (yes or no)",
    "sheet": "Sheet of the workbook",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Brought:
    """A list that was brought in and is not yet taken over."""

    name: str
    data: bytes
    answers: Answers
    preview: ListPreview  # what is understood of it with these answers


@dataclass(slots=True, kw_only=True)
class Moved:
    """What a list has elsewhere than a boat file."""

    text: str  # of the boat file
    preview: ListPreview
    moves: tuple[Move, ...] = ()
    error: str = ""  # why one of them cannot stand there


def _present(desk: "Desk") -> dict[str, float]:
    """Return what is aboard and weighed, by its name in small letters [kg]."""
    masses = {piece.name.casefold(): piece.mass for piece in aboard(desk.own.her.boat)}
    return {name: mass for name, mass in masses.items() if mass}


def _plan(desk: "Desk", brought: Brought) -> Plan:
    """Return what would be taken over."""
    return plan_of(brought.preview, desk.own.her.boat)


def read_list(
    name: str, data: bytes, present: dict[str, float], answers: Answers = UNSAID
) -> ListPreview:
    """Return what is understood of a list, in a process of its own.

    Raises:
        ListError: It holds no weight list, or an answer is none.
    """
    return understood(data, _short(name), answers, present)


def _take_list(desk: "Desk", name: str, data: bytes, found: object) -> None:
    """Take a list in hand as it was read; nothing has changed yet."""
    assert isinstance(found, ListPreview)
    brought = Brought(name=_short(name), data=data, answers=UNSAID, preview=found)
    _plan(desk, brought)
    desk.kept[KEPT], desk.kept[FRESH] = brought, True
    desk.note = Note(kind="done", text=f"{brought.name} was read; nothing has changed yet.")


def _short(name: str) -> str:
    return name.rpartition("/")[2] or "list"


TAKE = Take(reads=read_list, takes=_take_list, given=lambda desk, _: (_present(desk),))


def forget(desk: "Desk", _: Typed) -> None:
    """Put the list aside."""
    desk.kept.pop(KEPT, None)
    desk.kept.pop(MOVED, None)


def _brought(desk: "Desk") -> Brought:
    found = desk.kept.get(KEPT)
    if not isinstance(found, Brought):
        raise BoatFileError("there is no list", "the list", "Choose the file again.")
    return found


def take_over(desk: "Desk", typed: Typed) -> None:
    """Take the list over, with what was said of it; one step to undo.

    Where something else is said of it than before, it is first read again, beside the page.

    Raises:
        TrimdiveError: Something is still to be said, or cannot be read.
    """
    brought = _brought(desk)
    typed_in = {key: field_of(typed, f"list_{key}") for key in asdict(brought.answers)}
    answers = replace(brought.answers, **{key: value for key, value in typed_in.items() if value})
    if answers == brought.answers:
        _over(desk, brought, typed)
        return

    def take(desk: "Desk", _: str, __: bytes, found: object) -> None:
        assert isinstance(found, ListPreview)
        _over(desk, replace(brought, answers=answers, preview=found), typed)

    again = Take(reads=read_list, takes=take, given=lambda desk, _: (_present(desk), answers))
    reading.begin(desk, {**typed, "place": "scales"}, again, brought.name, brought.data)


def _over(desk: "Desk", brought: Brought, typed: Typed) -> None:
    """Take a list over as it was read; what is still to be said is asked on the page."""
    plan = _plan(desk, brought)
    desk.kept[KEPT] = brought
    if plan.preview.asks:
        desk.kept[FRESH] = True
        return  # they are asked on the page
    if plan.preview.not_understood and not field_of(typed, "list_leave"):
        first = plan.preview.not_understood[0]
        what = f"row {first.number} is not understood ({why_of(Say(desk.own.her.boat), first)})"
        raise ListError(what, brought.name, "Correct it, or tick “skip these rows”.")
    text, _ = desk.written()
    moves: tuple[Move, ...] = ()
    if field_of(typed, "list_places"):
        there = placed(text, plan, desk.own.her.boat)
        text, moves = there.text, there.moves
    if not plan.new and not plan.changes and not moves:
        raise ListError("she has all of this already", brought.name, "Nothing was changed.")
    new = taken_over(text, plan, desk.own.her.boat, remarks(plan))
    did = f"{len(plan.new)} new, {len(plan.changes)} weighed again"
    did += f", {len(moves)} moved" if moves else ""
    desk.edit(f"{brought.name}: {did}", new)
    desk.kept.pop(KEPT, None)


def list_view(desk: "Desk") -> View | None:
    """Return what the page shows of a list that was brought in; None where there is none."""
    found = desk.kept.get(KEPT)
    if not isinstance(found, Brought):
        return None
    plan, say = _plan(desk, found), Say(desk.own.her.boat)
    items = plan.preview.items
    return {
        "name": found.name,
        "is_fresh": desk.kept.pop(FRESH, False),
        "whole": _mass(sum(item.mass for item in items), plan),
        "count": len(items),
        "how": [said(say, one) for one in plan.preview.how],
        "columns": [
            (column.head or "(no heading)", column_words(say, column))
            for column in plan.preview.columns
            if column.why.kind != "column-empty"
        ],
        "new": [
            (item.row, item.name, _mass(item.mass, plan), doubts_of(say, item)) for item in plan.new
        ],
        "changes": _changes(desk, plan),
        "aboard": aboard_words(plan),
        "moves": _moves(desk, plan),
        "aside": [
            (row.number, row.text, why_of(say, row))
            for row in plan.preview.rows
            if row.use in ("total", "subtotal", "none")
        ],
        "left": [(row.number, row.text, why_of(say, row)) for row in plan.preview.not_understood],
        "sums": [
            (one.agrees, sum_sentence(say, one, plan.preview.mass_unit))
            for one in plan.preview.sums
        ],
        "asks": _asks(say, found, plan),
    }


def _changes(desk: "Desk", plan: Plan) -> list[tuple[int, str, str, str]]:
    """Return what is weighed again: its row, its name, its mass as it is and as it is then."""
    write = desk.her.boat.units.write
    return [
        (
            one.item.row,
            one.piece.name,
            write(one.piece.mass, "mass") if one.piece.mass else "not weighed",
            _mass(one.item.mass, plan),
        )
        for one in plan.changes
    ]


def _moves(desk: "Desk", plan: Plan) -> list[tuple[int, str, str]]:
    """Return what the list has elsewhere: its row, its name, and how far it would move.

    It is worked out once for a list and a boat file, not each time the page is shown.
    """
    text, kept = desk.written()[0], desk.kept.get(MOVED)
    if not (isinstance(kept, Moved) and kept.preview is plan.preview and kept.text == text):
        kept = Moved(text=text, preview=plan.preview)
        try:
            kept.moves = placed(text, plan, desk.own.her.boat).moves
        except TrimdiveError as error:
            kept.error = str(error)
        desk.kept[MOVED] = kept
    if kept.error:
        return [(0, "", kept.error)]
    moves = kept.moves
    return [(move.item.row, move.piece.name or move.piece.path, _way(desk, move)) for move in moves]


def _way(desk: "Desk", move: Move) -> str:
    """Return how far a piece would move, as "25.0 mm forward, 4.0 mm down"."""
    texts: list[str] = []
    ways = (("forward", "aft"), ("to port", "to starboard"), ("up", "down"))
    for before, after, (more, less) in zip(move.before, move.after, ways, strict=True):
        far = after - before
        if abs(far) > SAME_PLACE:
            texts.append(
                f"{desk.her.boat.units.write(abs(far), 'length')} {more if far > 0 else less}"
            )
    return ", ".join(texts)


def _asks(say: Say, found: Brought, plan: Plan) -> list[tuple[str, str, str, str]]:
    """Return what is still to be said: its key, the question, what was said, and why."""
    answers, asks = asdict(found.answers), plan.preview.asks
    why = {ask.field: ask_sentence(say, ask) for ask in reversed(asks)}
    keys = dict.fromkeys(ask.field for ask in asks)
    return [(key, ASKED.get(key, key), answers.get(key, ""), why[key]) for key in keys]


def _mass(mass: float, plan: Plan) -> str:
    return shown(mass, plan.preview.mass_unit)
