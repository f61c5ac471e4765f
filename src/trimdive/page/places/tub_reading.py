"""Readings in the tub on the page: in a builder's words, what they tell, the list put right."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.boatfile import remove
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.page.form import Typed, field_of
from trimdive.page.places.tub_blocks import Piece, for_page, says
from trimdive.page.typed_fields import typed_in
from trimdive.text.tub_typed import EXAMPLES

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.page.desk import Desk

FIELD = "tub.reading"
OTHER = ("date", "past", "note", "photos")  # fields that are told apart


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A reading that stands in the boat file."""

    number: int  # in the file, counted from 1
    date: str
    fields: tuple[tuple[str, str, str], ...]  # path, as typed, what it is
    is_past: bool
    note: str


def rows(desk: "Desk") -> list[Row]:
    """Return the readings in the boat file, as typed."""
    return [
        Row(
            number=k,
            date=str(one.get("date", "")),
            fields=tuple(
                (f"reading[{k}].{name}", _typed(value), name.replace("_", " "))
                for name, value in one.items()
                if name not in OTHER
            ),
            is_past=bool(one.get("past", False)),
            note=_note(one),
        )
        for k, one in enumerate(typed_in(desk, "reading"), 1)
    ]


def _note(one: Mapping[str, object]) -> str:
    """Return what is noted of a reading, and from which photographs it follows."""
    photos = one.get("photos", ())
    names = [str(name) for name in photos] if isinstance(photos, list | tuple) else []
    follows = f"by {' and '.join(names)}" if names else ""
    return "; ".join(text for text in (follows, str(one.get("note", ""))) if text)


def _typed(value: object) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)


def read(desk: "Desk", typed: Typed) -> None:
    """Take a reading as typed into the boat file; what is not clear is told beside the field."""
    from trimdive.text.tub_work import with_reading  # slow to load

    text = field_of(typed, FIELD)
    try:
        if not text:
            raise BoatFileError("nothing entered", "--read", f'Enter it as "{EXAMPLES[0]}".')
        new = with_reading(desk.written()[0], desk.path.name, text, desk.own.her)
        desk.edit(f"reading: {text}", new)
    except TrimdiveError as error:
        desk.kept["tub wrong"] = {FIELD: says(error)}
        return
    desk.kept["tub taken"] = FIELD


def take_out(desk: "Desk", typed: Typed) -> None:
    """Take a reading out of the boat file.

    Raises:
        TrimdiveError: There is no such reading.
    """
    number = typed["which"]
    if not number.isdigit() or not 1 <= int(number) <= len(desk.own.her.boat.readings):
        raise BoatFileError("there is no such reading", "Tub", "Choose one of those shown.")
    desk.edit(f"reading {number} removed", remove(desk.written()[0], f"reading[{number}]"))


def correct(desk: "Desk", _: Typed) -> None:
    """Put what was wrong into the list: one step of Undo.

    Raises:
        TrimdiveError: There are no readings, or no list explains them together.
    """
    from trimdive.text.tub_text import note_of
    from trimdive.text.tub_work import sound_story

    story = sound_story(desk.own.her)
    desk.edit("list corrected by the readings", story.written(desk.written()[0], note_of))


def pieces(her: "Assessment") -> tuple[Piece, ...]:
    """Return what the readings tell; without any, how sure she is by her list."""
    from trimdive.text.tub_text import readings_text
    from trimdive.text.tub_uncertainty import uncertainty_text
    from trimdive.trials.correction import Story

    is_read = bool(her.boat.readings_now)
    blocks = readings_text(Story(her=her)) if is_read else uncertainty_text(her)
    return (*_next(her, "Read next" if is_read else "Read first"), *for_page(blocks))


def _next(her: "Assessment", head: str) -> tuple[Piece, ...]:
    """Return what to read next, the most telling first, with the doubt left after it."""
    from trimdive.text import words
    from trimdive.text.said import said
    from trimdive.text.say import Say
    from trimdive.text.tub_uncertainty import read_first

    found = read_first(her) if her.boat.tanks else []
    if not found:
        return ()
    what = [said(Say(her.boat), one.what) for one in found[:2]]
    then = f"; then {what[1]}" if len(what) > 1 else ""
    left = words.share(found[0].left)
    text = f"{head}: {what[0]}. {left} of the uncertainty remains{then}."
    return (Piece(kind="line", text=text),)


def state(her: "Assessment") -> Mapping[str, bool]:
    """Return whether there is something to put into the list, and whether it stands there."""
    written = any(not one.past for one in her.boat.from_tub)
    return {"is_read": bool(her.boat.readings_now), "is_written": written}
