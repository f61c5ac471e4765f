"""A form that is open: of which piece, over which place, what is typed in it, what is wrong."""

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, cast

from trimdive.boatfile.filled import filled, piece_of
from trimdive.boatfile.form import (
    FormField,
    Table,
    limit_fields,
    model_of,
    surface_of,
    tables,
    whole_form,
)
from trimdive.boatfile.kinds import DECIDING, READ, others, read_kind
from trimdive.boatfile.ref import Ref, ref
from trimdive.boatfile.whole import piece_at
from trimdive.errors import BoatFileError
from trimdive.page.form import Typed
from trimdive.page.typed_fields import contents

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

FIELD = "entry:"  # begins the name of every field of a form in what the page sends
OF, AT, WAS = "entry_of", "entry_at", "entry_was"
KEPT = "entries"  # where a desk keeps forms, by the piece
CLOSED = "entries closed"  # and what stood in those that were saved or left
MOST = 40  # forms that are kept half filled [-]
SURFACE = "surface"


@dataclass(slots=True, kw_only=True)
class Draft:
    """A form of a piece, as it stands."""

    of: Ref  # the piece; of a list the number after the last, or 0, for a new one
    at: str  # key of the place over which it stands
    was: dict[str, Any]  # the piece as it stood in the file when the form was opened
    typed: dict[str, str]  # in its fields, by their paths
    wrong: dict[str, str] = field(default_factory=dict)  # beside which field which sentence
    top: list[str] = field(default_factory=list)  # what is wrong elsewhere
    both: list[tuple[str, str, str]] = field(default_factory=list)  # field, there now, here
    unfolds: str = ""  # table within it that was asked for, and is begun

    @property
    def table(self) -> Table:
        """Return the table in which the piece stands."""
        return tables()[self.of.table]

    @property
    def is_new(self) -> bool:
        """Return whether it is a piece of a list that is not there yet."""
        return self.table.is_list and not self.of.number

    @property
    def key(self) -> str:
        """Return under what it is kept."""
        return str(self.of) if not self.is_new else f"{self.of.table} {self.at}"

    @property
    def fields(self) -> tuple[FormField, ...]:
        """Return the fields of its kind."""
        return fields_of(self.table, self.typed.get(SURFACE, ""))

    @property
    def aside(self) -> frozenset[str]:
        """Return the fields that go with other kinds than its own, and hold nothing of it yet."""
        found = others(self.of.table, self.typed)
        usual = filled(self.fields, self.was) | ({READ: read_kind(self.was)} if self.was else {})
        decided = (self.typed.get(key, "") == usual.get(key, "") for key in self.deciding)
        return found - self.was.keys() if all(decided) else found

    @property
    def deciding(self) -> tuple[str, ...]:
        """Return the fields that say which kind it is, but for its surface."""
        return tuple(key for key in DECIDING.get(self.of.table, ()) if key != SURFACE)

    @property
    def piece(self) -> dict[str, Any]:
        """Return the piece as the file is to hold it."""
        surface, fields = self.typed.get(SURFACE, ""), self.fields
        own = {one.key for one in fields} | {SURFACE, "format"}
        was = {key: value for key, value in self.was.items() if key in own}
        found = piece_of(fields, self.typed, was)
        found = {key: value for key, value in found.items() if key not in self.aside}
        return {"name": found.get("name", ""), **found, SURFACE: surface} if surface else found


def fields_of(table: Table, surface: str) -> tuple[FormField, ...]:
    """Return the fields of a piece of a table, by its surface; limits are one for each name."""
    if table.models:
        return whole_form(model_of(table, surface))
    return limit_fields()


def asked(written: str) -> Ref:
    """Return the piece that the page asks for.

    Raises:
        BoatFileError: There is no such table.
    """
    found = ref(written)
    if found.table not in tables() or found.field:
        raise BoatFileError(f"there is no form for '{written}'", "the form", "Choose one.")
    return found


def begun(desk: "Desk", of: Ref, at: str, given: Mapping[str, str]) -> Draft:
    """Return a form as it is opened: a piece as it stands in the file, or a new one.

    Args:
        desk: The boat.
        of: The piece; its number is 0 for a new one.
        at: Key of the place over which it stands.
        given: What a new one begins with.

    Raises:
        BoatFileError: There is no such piece.
    """
    table = tables()[of.table]
    if table.is_list and not of.number:
        first = surface_of(table.models[0]) if len(table.models) > 1 else ""
        typed = {SURFACE: first} if first else {}
        return Draft(of=of, at=at, was={}, typed={**typed, **given})
    piece = piece_at(contents(desk.written()[0]), of)
    if piece is None:
        raise BoatFileError(f"there is no {of}", "the form", "It was removed; look again.")
    was = dict(piece)
    typed = filled(fields_of(table, str(was.get(SURFACE, ""))), was)
    typed |= {SURFACE: str(was[SURFACE])} if SURFACE in was else {}
    typed |= {READ: read_kind(was)} if of.table == "reading" else {}
    return Draft(of=of, at=at, was=was, typed=typed)


def read(desk: "Desk", typed: Typed) -> Draft | None:
    """Return the form that the page sent along, without keeping it; None where none is open."""
    if not typed.get(OF):
        return None
    try:
        was = json.loads(typed.get(WAS) or "{}")
        of = asked(typed[OF])
    except (ValueError, RecursionError, BoatFileError):
        return None
    held = {key.removeprefix(FIELD): text for key, text in typed.items() if key.startswith(FIELD)}
    draft = Draft(of=of, at=typed.get(AT, ""), was=was if isinstance(was, dict) else {}, typed=held)
    before = kept(desk).get(draft.key)
    if before is not None:
        draft.wrong, draft.top, draft.both = before.wrong, before.top, before.both
    return draft


def sent(desk: "Desk", typed: Typed) -> Draft | None:
    """Return the form that the page sent along, kept as it is now; None where none is open."""
    draft = read(desk, typed)
    if draft is not None:
        keep(desk, draft)
    return draft


def still_open(desk: "Desk", typed: Typed) -> Draft | None:
    """Return the form that the page sent along beside something else, kept as it is now.

    None where none is open, or where it was closed meanwhile as it stands: what the page sent
    before it was answered does not open it again.
    """
    draft = read(desk, typed)
    if draft is None or closed(desk).get(draft.key) == draft.typed:
        return None
    keep(desk, draft)
    return draft


def closed(desk: "Desk") -> dict[str, dict[str, str]]:
    """Return the forms that were closed last, by their pieces: what stood in their fields."""
    return cast("dict[str, dict[str, str]]", desk.kept.setdefault(CLOSED, {}))


def kept(desk: "Desk") -> dict[str, Draft]:
    """Return the forms that are kept, by their pieces, the one touched last at the end."""
    return cast("dict[str, Draft]", desk.kept.setdefault(KEPT, {}))


def keep(desk: "Desk", draft: Draft) -> None:
    """Keep a form as it is now."""
    found = kept(desk)
    found.pop(draft.key, None)
    closed(desk).pop(draft.key, None)
    found[draft.key] = draft
    while len(found) > MOST:
        del found[next(iter(found))]


def last_at(desk: "Desk", place: str) -> Draft | None:
    """Return the form that was left open over a place last."""
    return next((one for one in reversed([*kept(desk).values()]) if one.at == place), None)
