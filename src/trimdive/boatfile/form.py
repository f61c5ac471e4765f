"""The fields of a piece as a form asks for them, from its model: what each is, how it is typed."""

import re
from dataclasses import dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from trimdive.boatfile.boat import Boat
from trimdive.boatfile.piece import Measured, Piece, Placed, Weighed
from trimdive.boatfile.quantities import Yes
from trimdive.data import table

Kind = Literal["text", "yes", "choice", "names", "pairs", "map", "table", "rows"]
Figure = Literal["", "whole", "plain"]  # how it stands in the file: as text, or as a number
PLAIN: tuple[Kind, ...] = ("text", "yes", "choice")
NEEDED = "Needed: "  # begins what is said of a field that is needed unless another piece has it
OWN = "boat"  # stands for the fields that the boat has herself
NEVER = ("format",)  # fields that the program alone writes


@dataclass(frozen=True, slots=True, kw_only=True)
class FormField:
    """One field of a piece: a figure, word or yes; a list of words; or a table, or several."""

    key: str  # in the file
    says: str  # what it is
    kind: Kind
    options: tuple[str, ...]  # of a choice; an empty one first where it may be left out
    is_usual: bool  # of a yes: what it is where it is left out
    usual: str = ""  # of a choice: what it is where it is left out; "" for nothing
    is_needed: bool  # whether it may be left out
    figure: Figure  # how a number is written
    group: Literal["place", "mass", "size", "further"]  # with which others it belongs
    quantity: str = ""  # what a figure is: "length", "voltage"; "" for a number or a word
    model: type[Piece] | None = None  # of a table, or of rows of them


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table of the boat file."""

    key: str  # in the file; ``OWN`` for what stands in none
    says: str  # what it holds
    models: tuple[type[Piece], ...]  # of its pieces: one, or one for each surface
    is_list: bool  # whether there may be several


@cache
def form_fields(model: type[Piece]) -> tuple[FormField, ...]:
    """Return the fields of a kind of piece, in their order; lists and tables are left out."""
    return tuple(one for one in whole_form(model) if one.kind in PLAIN)


@cache
def whole_form(model: type[Piece]) -> tuple[FormField, ...]:
    """Return every field of a kind of piece, in their order; of the boat only her own."""
    found = (_field(model, name, info) for name, info in model.model_fields.items())
    is_own = model is Boat
    return tuple(
        one
        for one in found
        if one is not None and not (is_own and (one.kind not in PLAIN or one.key in NEVER))
    )


@cache
def limit_fields() -> tuple[FormField, ...]:
    """Return a field for each limit that a boat may have of her own."""
    return tuple(
        FormField(
            key=row["key"],
            says=row["note"],
            kind="text",
            options=(),
            is_usual=False,
            is_needed=False,
            figure="",
            group="further",
        )
        for row in table("limits")
    )


def _field(model: type[Piece], name: str, info: FieldInfo) -> FormField | None:
    """Return one field; None where there is nothing to choose."""
    inner, kind, options = info.annotation, *kind_of(info.annotation)
    held = None
    if kind is None:
        kind, held = _held(inner)
    if kind is None:
        return None
    if kind == "names":
        options = _choices(inner)
    is_needed = info.is_required() or (info.description or "").startswith(NEEDED)
    if kind == "choice" and not info.is_required():
        options = ("", *options)
    key = info.alias or name
    return FormField(
        key=key,
        says=(info.description or key).removeprefix(NEEDED),
        kind=kind,
        options=options,
        is_usual=info.default is True,
        usual=str(info.default or "") if kind == "choice" and not info.is_required() else "",
        is_needed=is_needed,
        figure=_figure(info),
        quantity=_quantity(info),
        group=_group(name, info),
        model=held,
    )


@cache
def tables() -> dict[str, Table]:
    """Return every table of the boat file, what the boat has herself first."""
    found = {OWN: Table(key=OWN, says="The boat herself.", models=(Boat,), is_list=False)}
    for name, info in Boat.model_fields.items():
        key, models = info.alias or name, _models(info.annotation)
        if models:
            is_list = get_origin(info.annotation) is tuple
            found[key] = Table(
                key=key, says=info.description or key, models=models, is_list=is_list
            )
        elif get_origin(info.annotation) is dict:  # limits: a table of names of its own
            found[key] = Table(key=key, says=info.description or key, models=(), is_list=False)
    return found


def surface_of(model: type[Piece]) -> str:
    """Return which surface a region's model is for; "" for any other piece."""
    info = model.model_fields.get("surface")
    return str(get_args(info.annotation)[0]) if info else ""


def model_of(table: Table, surface: str) -> type[Piece]:
    """Return the model of a piece of a table, by its surface where there are several."""
    return next((one for one in table.models if surface_of(one) == surface), table.models[0])


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
        kind, options = kind_of(plain[0]) if len(plain) == 1 else (None, ())
        return ("choice", ("true", "false")) if kind == "yes" else (kind, options)
    if origin is Literal:
        found = get_args(annotation)
        return ("choice", tuple(map(str, found))) if len(found) > 1 else (None, ())
    is_one = isinstance(annotation, type) and not get_args(annotation)
    return ("text", ()) if is_one and not _models(annotation) else (None, ())


def _held(annotation: Any) -> tuple[Kind | None, type[Piece] | None]:
    """Return how a field is typed that holds more than one figure, and of which model."""
    models, origin = _models(annotation), get_origin(annotation)
    if models:
        return ("rows" if origin is tuple else "table"), models[0]
    if origin is dict:
        return "map", None
    if origin is not tuple:
        return None, None
    inner = get_args(annotation)[0]
    return ("pairs" if get_origin(inner) is tuple or inner is int else "names"), None


def _choices(annotation: Any) -> tuple[str, ...]:
    """Return the words of which a list is made; none where they are free."""
    return tuple(map(str, get_args(get_args(annotation)[0])[:])) if _is_choice(annotation) else ()


def _is_choice(annotation: Any) -> bool:
    return get_origin(get_args(annotation)[0]) is Literal


def _models(annotation: Any) -> tuple[type[Piece], ...]:
    """Return the models that a type may hold."""
    if isinstance(annotation, type) and get_origin(annotation) is None:
        return (annotation,) if issubclass(annotation, Piece) else ()
    return tuple(model for inner in get_args(annotation) for model in _models(inner))


def _figure(info: FieldInfo) -> Figure:
    """Return how a field's number is written: a quantity is text, with its unit."""
    inner = [one for one in get_args(info.annotation) if one is not NoneType] or [info.annotation]
    if info.annotation is int or inner[0] is int or isinstance(inner[0], int):
        return "whole"
    is_quantity = any("Validator" in type(one).__name__ for one in info.metadata)
    return "plain" if inner[0] is float and not is_quantity else ""


def _quantity(info: FieldInfo) -> str:
    """Return what a field's figure is, by which its unit goes; "" for a number or a word."""
    found = re.search("kind='([a-z ]+)'", repr((info.annotation, info.metadata)))
    return found[1] if found else ""


def _group(name: str, info: FieldInfo) -> Any:
    """Return with which others a field belongs."""
    if name in {*Placed.model_fields, *Measured.model_fields} or name[:2] in ("x_", "y_", "z_"):
        return "place"
    if name in Weighed.model_fields:
        return "mass"
    is_length = "'length'" in repr((info.annotation, info.metadata))
    return "size" if is_length else "further"
