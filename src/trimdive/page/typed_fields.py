"""Fields of the boat file for the page, from its models: labels, choices, and what stands there."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from types import NoneType, UnionType
from typing import TYPE_CHECKING, Annotated, Literal, Union, cast, get_args, get_origin

from pydantic import BaseModel

from trimdive.boatfile.quantities import Yes

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

Kind = Literal["text", "yes", "choice"]
Contents = dict[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One field of a piece."""

    path: str  # in the boat file
    key: str
    label: str  # what it is, in a few words
    says: str  # the same, with what else is to be known
    value: str  # as typed; "" where it is left out
    kind: Kind
    options: tuple[str, ...]  # of a choice; an empty one first where it may be left out


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
    model: type[BaseModel], typed: Mapping[str, object], path: str, first: tuple[str, ...] = ()
) -> tuple[list[Told], list[Told]]:
    """Return the fields to show of a piece, and those that are left out and may be added.

    Args:
        model: Of the piece.
        typed: What stands in the file.
        path: Of the piece in the file, such as "part[3]".
        first: Fields shown even where they are left out, in their order.
    """
    found = {told.key: told for told in _all(model, typed, path)}
    shown = [found[key] for key in first if key in found]
    shown += [told for key, told in found.items() if told.value and key not in first]
    keys = {told.key for told in shown}
    return shown, [told for key, told in found.items() if key not in keys]


def _all(model: type[BaseModel], typed: Mapping[str, object], path: str) -> list[Told]:
    told: list[Told] = []
    for name, info in model.model_fields.items():
        key = info.alias or name
        kind, options = kind_of(info.annotation, info.metadata)
        value = typed.get(key, "")
        if kind is None or isinstance(value, list | dict):
            continue
        if kind == "choice" and not info.is_required():
            options = ("", *options)
        told.append(
            Told(
                path=f"{path}.{key}" if path else key,
                key=key,
                label=re.split("[;.:]", info.description or key)[0],
                says=info.description or key,
                value=_text(value),
                kind=kind,
                options=options,
            )
        )
    return told


def _text(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return f"{value:g}" if isinstance(value, float) else str(value)


def kind_of(annotation: object, metadata: list[object]) -> tuple[Kind | None, tuple[str, ...]]:
    """Return how a field is typed; None where it holds more than one figure or word."""
    origin = get_origin(annotation)
    if origin is Annotated:
        inner, *more = get_args(annotation)
        return kind_of(inner, more)
    if origin in (Union, UnionType):
        plain = [one for one in get_args(annotation) if one is not NoneType]
        return kind_of(plain[0], metadata) if len(plain) == 1 else (None, ())
    if origin is Literal:
        found = get_args(annotation)
        return ("choice", tuple(map(str, found))) if len(found) > 1 else (None, ())
    if annotation is bool or annotation == Yes:
        return "yes", ()
    is_plain = annotation is str or annotation is float or annotation is int
    return ("text", ()) if is_plain else (None, ())
