"""Fields of the boat file for the page: labels, choices, and what stands there as typed."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, cast

from trimdive.boatfile.form import FormField, Kind, form_fields
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.boatfile.piece import Piece
    from trimdive.page.desk import Desk

Contents = dict[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedField:
    """One field of a piece."""

    path: str  # in the boat file
    key: str
    label: str  # what it is, in a few words
    says: str  # the same, with what else is to be known
    value: str  # as typed; "" where it is left out
    kind: Kind
    options: tuple[str, ...]  # of a choice; an empty one first where it may be left out
    is_checked: bool  # of a yes, as it counts


@lru_cache(maxsize=8)
def contents(text: str) -> Contents:
    """Return what a boat file holds, as typed."""
    return tomllib.loads(text)


def typed_in(desk: "Desk", key: str) -> list[Contents]:
    """Return the pieces of a list of the boat file as typed."""
    found = contents(desk.written()[0]).get(key, [])
    return cast("list[Contents]", found) if isinstance(found, list) else []


def table_in(desk: "Desk", key: str) -> Contents:
    """Return a table of the boat file as typed; empty where it is not there."""
    found = contents(desk.written()[0]).get(key, {})
    return cast("Contents", found) if isinstance(found, dict) else {}


def fields_of(
    model: "type[Piece]", typed: Mapping[str, object], path: str, first: tuple[str, ...] = ()
) -> tuple[list[TypedField], list[TypedField]]:
    """Return the fields to show of a piece, and those that are left out and may be added.

    Args:
        model: Of the piece.
        typed: What stands in the file.
        path: Of the piece in the file, such as "part[3]".
        first: Fields shown even where they are left out, in their order.
    """
    every = [_typed_field(one, typed, path) for one in form_fields(model)]
    found = {one.key: one for one in every if not isinstance(typed.get(one.key), list | dict)}
    shown = [found[key] for key in first if key in found]
    shown += [given for key, given in found.items() if given.value and key not in first]
    keys = {given.key for given in shown}
    return shown, [given for key, given in found.items() if key not in keys]


def _typed_field(one: FormField, typed: Mapping[str, object], path: str) -> TypedField:
    return TypedField(
        path=f"{path}.{one.key}",
        key=one.key,
        label=label_of(one.says, one.key, one.options),
        says=one.says,
        value=_text(typed.get(one.key, "")),
        kind=one.kind,
        options=one.options,
        is_checked=bool(typed.get(one.key, one.is_usual)),
    )


def label_of(says: str, key: str = "", options: tuple[str, ...] = ()) -> str:
    """Return the first words of what a field is, for beside it.

    >>> label_of("Thickness of the skin; left out, fitted."), label_of("true: no water gets in.")
    ('Thickness of the skin', 'No water gets in')
    >>> label_of("open: the water lies level.", "kind", ("open", "piston"))
    'Kind'
    >>> label_of("Friction of thread and nut, such as 0.2 or 20 %.")
    'Friction of thread and nut'
    >>> label_of("false: still to come.", "aboard")
    'Aboard'
    """
    if says.startswith(("false: ", *(f"{one}: " for one in options if one))):
        return key.replace("_", " ").capitalize()
    plain = re.sub("^(Needed|true): ", "", says)
    first = re.split(r"[;:]|\.(?!\d)|,? such as ", plain)[0]  # the point of a figure ends nothing
    return capital(first)


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"{value:g}" if isinstance(value, float) else str(value)
