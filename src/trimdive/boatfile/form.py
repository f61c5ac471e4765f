"""The fields of a piece as a form asks for them, from its model: what each is, how it is typed."""

from dataclasses import dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Literal, Union, get_args, get_origin

from trimdive.boatfile.piece import Piece
from trimdive.boatfile.quantities import Yes

Kind = Literal["text", "yes", "choice"]


@dataclass(frozen=True, slots=True, kw_only=True)
class FormField:
    """One field of a piece that holds one figure, word or yes."""

    key: str  # in the file
    says: str  # what it is
    kind: Kind
    options: tuple[str, ...]  # of a choice; an empty one first where it may be left out
    is_usual: bool  # of a yes: what it is where it is left out


@cache
def form_fields(model: type[Piece]) -> tuple[FormField, ...]:
    """Return the fields of a kind of piece, in their order; lists and tables are left out."""
    found: list[FormField] = []
    for name, info in model.model_fields.items():
        kind, options = kind_of(info.annotation)
        if kind is None:
            continue
        if kind == "choice" and not info.is_required():
            options = ("", *options)
        key = info.alias or name
        found.append(
            FormField(
                key=key,
                says=info.description or key,
                kind=kind,
                options=options,
                is_usual=info.default is True,
            )
        )
    return tuple(found)


def kind_of(annotation: object) -> tuple[Kind | None, tuple[str, ...]]:
    """Return how a field is typed, and its choices; None where it holds more than one figure.

    >>> kind_of(float | None), kind_of(Literal["wet", "dry"]), kind_of(tuple[str, ...])
    (('text', ()), ('choice', ('wet', 'dry')), (None, ()))
    """
    origin = get_origin(annotation)
    if annotation is bool or annotation == Yes:
        return "yes", ()
    if origin is Annotated:
        return kind_of(get_args(annotation)[0])
    if origin in (Union, UnionType):
        plain = [one for one in get_args(annotation) if one is not NoneType]
        return kind_of(plain[0]) if len(plain) == 1 else (None, ())
    if origin is Literal:
        found = get_args(annotation)
        return ("choice", tuple(map(str, found))) if len(found) > 1 else (None, ())
    is_plain = annotation is str or annotation is float or annotation is int
    return ("text", ()) if is_plain else (None, ())
