"""Turns what the models refuse into one sentence with file, line, field and mend."""

import re
import tomllib
from collections.abc import Iterable
from dataclasses import dataclass, replace
from types import UnionType
from typing import Any, Union, cast, get_args, get_origin

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from trimdive.boatfile.boat import Boat, Units
from trimdive.boatfile.near_words import TOP, no_field
from trimdive.boatfile.places import Path, dotted, lines, nearest
from trimdive.errors import BoatError, BoatFileError, TrimdiveError, UnitError
from trimdive.units.table import usual_names

Names = dict[Path, str]
SHOWN = 5  # mistakes that are told at once
LONGEST_NAME = 80  # letters


@dataclass(frozen=True, slots=True)
class Mistake:
    """Something to mend in a boat file."""

    path: Path
    what: str
    mend: str
    is_unit: bool = False
    lacks: str = ""  # kind of quantity whose unit is missing, where that is all
    fields: tuple[str, ...] = ()  # of the piece at the path, of which one would mend it
    beside: str = ""  # the whole sentence beside the field in a form; "" for ``what`` and ``mend``

    @property
    def place(self) -> str:
        """Return the field that it is about, as it is typed."""
        return dotted((*self.path, *self.fields[:1]))


def of_error(path: Path, error: TrimdiveError) -> Mistake:
    """Return the mistake of an error that names no place."""
    is_unit = isinstance(error, UnitError)
    lacks = error.lacks if isinstance(error, UnitError) else ""
    beside = error.beside
    return Mistake(path, error.what, error.mend, is_unit=is_unit, lacks=lacks, beside=beside)


def refusal(mistakes: Iterable[Mistake], text: str, file: str) -> TrimdiveError:
    """Return the error for the first of some mistakes, with some of those that follow it.

    Args:
        mistakes: At least one.
        text: Text of the boat file.
        file: What to call the file.
    """
    found = lines(text, rows=True)
    listed = sorted(_units_once(mistakes), key=lambda one: nearest(found, one.path) or 0)
    names = _names(text)
    errors = [_error(one, nearest(found, one.path), names, file) for one in listed[:SHOWN]]
    first = errors[0]
    first.others, first.left = tuple(errors[1:]), len(listed) - len(errors)
    return first


def refusal_of(boat: Boat, mistakes: Iterable[Mistake]) -> TrimdiveError:
    """Return the error for mistakes in a boat made in Python: each names its piece and field."""
    listed = _units_once(mistakes)
    errors = [_unwritten(one, _piece_at(boat, one.path)) for one in listed[:SHOWN]]
    first = errors[0]
    first.others, first.left = tuple(errors[1:]), len(listed) - len(errors)
    return first


def refusal_made(model: type[BaseModel], fields: dict[str, Any], cause: Any) -> TrimdiveError:
    """Return the error for a piece made in Python that its model refuses.

    Args:
        model: Of the piece.
        fields: What was given.
        cause: What the model raised, a ``ValidationError``.
    """
    name = fields.get("name")
    piece = f"{_kind(model)} '{name}'" if isinstance(name, str) and name else _kind(model)
    listed = refused(cause, model)
    errors = [_unwritten(one, (piece, one.path)) for one in listed[:SHOWN]]
    first = errors[0]
    first.others, first.left = tuple(errors[1:]), len(listed) - len(errors)
    return first


def _kind(model: type[BaseModel]) -> str:
    """Return what a piece is called, as in the file.

    >>> _kind(Boat)
    'boat'
    """
    words = re.sub(r"(?<=[a-z])(?=[A-Z])", " ", model.__name__).lower()
    return "region" if words.endswith(" region") else words


def _head(model: type[BaseModel]) -> str:
    """Return the name of a piece's table, for near words."""
    return TOP if model is Boat else _kind(model).replace(" ", "_")


def _piece_at(boat: Boat, path: Path) -> tuple[str, Path]:
    """Return the piece in which a path ends, and the rest of the path."""
    fields = dict(zip(named_fields(Boat), Boat.model_fields, strict=True))
    if len(path) > 1 and isinstance(path[1], int) and path[0] in fields:
        pieces: tuple[BaseModel, ...] = getattr(boat, fields[str(path[0])])
        name = None if path[-1] == "name" else getattr(pieces[path[1]], "name", None)
        return (f"{path[0]} '{name}'" if name else dotted(path[:2])), path[2:]
    return f"boat '{boat.name}'", path


def _unwritten(mistake: Mistake, piece: tuple[str, Path]) -> TrimdiveError:
    """Return the error for one mistake in what stands in no file."""
    where = ": ".join(filter(None, [piece[0], dotted(piece[1])]))
    kind = UnitError if mistake.is_unit else BoatError
    return kind(mistake.what, where, mistake.mend.replace("Add a line:", "Give"))


def _error(mistake: Mistake, line: int | None, names: Names, file: str) -> TrimdiveError:
    """Return the error for one mistake."""
    path = mistake.path
    where = ": ".join(filter(None, [f"{file}:{line}" if line else file, dotted(path)]))
    heads = [] if path[-1:] == ("name",) else [path[:end] for end in range(len(path), 0, -1)]
    name = next((names[head] for head in heads if head in names), "")
    error = (UnitError if mistake.is_unit else BoatFileError)(
        mistake.what, where, mistake.mend, name=name
    )
    error.place, error.beside = mistake.place, mistake.beside
    return error


def _units_once(mistakes: Iterable[Mistake]) -> list[Mistake]:
    """Return the mistakes; of figures that lack a unit of one kind only the first, with all told.

    A kind whose unit may be named under [units] is told so.
    """
    kept: list[Mistake] = []
    kinds: dict[str, list[int]] = {}
    for mistake in mistakes:
        if mistake.lacks not in Units.model_fields:
            kept.append(mistake)
        elif mistake.lacks in kinds:
            kinds[mistake.lacks][1] += 1
        else:
            kinds[mistake.lacks] = [len(kept), 1]
            kept.append(mistake)
    for kind, (at, count) in kinds.items():
        kept[at] = _named_once(kept[at], kind, count)
    return kept


def _named_once(mistake: Mistake, kind: str, count: int) -> Mistake:
    """Return the mistake of so many figures without a unit, with how to name it for all."""
    every = f" for all {count} such figures" if count > 1 else ""
    once = f'Or name it once{every}, under [units]: {kind} = "{usual_names(kind)[0]}".'
    alone = f"{mistake.what[:1].upper()}{mistake.what[1:]}. {mistake.mend}"
    return replace(mistake, mend=f"{mistake.mend} {once}", beside=alone)


def _names(text: str) -> Names:
    """Return what the builder calls each piece of a boat file."""
    try:
        contents: dict[str, Any] = tomllib.loads(text)
    except ValueError:  # so it has no names yet
        return {}
    named: Names = {}
    heads: list[tuple[Path, Any]] = [((key,), value) for key, value in contents.items()]
    while heads:
        path, value = heads.pop()
        if isinstance(value, list):
            heads += [((*path, k), one) for k, one in enumerate(cast("list[Any]", value))]
        elif isinstance(value, dict):
            table = cast("dict[str, Any]", value)
            name = table.get("name")
            if isinstance(name, str) and name.strip() and len(name) <= LONGEST_NAME:
                named[path] = name.strip()
            heads += [((*path, key), one) for key, one in table.items()]
    return named


def refused(error: ValidationError, model: type[BaseModel] = Boat) -> list[Mistake]:
    """Return what a model refused; what is missing only where nothing else is wrong."""
    details = error.errors()
    present = [entry for entry in details if entry["type"] != "missing"]
    return [_mistake(entry, model) for entry in present or details]


def _mistake(entry: ErrorDetails, top: type[BaseModel]) -> Mistake:
    """Return one refusal in a builder's words."""
    path, fields = fields_at(entry["loc"], top)
    kind, given = entry["type"], entry.get("ctx", {})
    cause = given.get("error")
    if isinstance(cause, TrimdiveError):
        return of_error(path, cause)
    if kind == "extra_forbidden":
        return _unknown(path, fields, entry["input"], top)
    if kind == "missing":
        what, mend = f"'{path[-1]}' is missing", f"Add a line: {path[-1]} = …"
        return Mistake(path[:-1], what, mend, fields=(str(path[-1]),), beside="It is missing.")
    if kind in ("model_type", "model_attributes_type", "tuple_type", "dict_type"):
        head = dotted(tuple(step for step in path if isinstance(step, str)))
        wanted = f"[[{head}]]" if kind == "tuple_type" or isinstance(path[-1], int) else f"[{head}]"
        what = f"{_found(entry['input'])} stands where a table is wanted"
        return Mistake(path, what, f"Begin it with a line {wanted}.")
    return _plain(path, kind, entry)


def _plain(path: Path, kind: str, entry: ErrorDetails) -> Mistake:
    """Return one refusal of a figure or a text, by what pydantic calls it."""
    plain = {
        "string_type": ("{found} is not text", "Put it in quotes."),
        "bool_type": ("{found} is neither true nor false", "Write true or false, without quotes."),
        "string_too_short": ("it is empty", "Write a name, or leave the line out."),
        "string_too_long": ("it is too long", "Write at most {max_length} letters."),
        "greater_than": ("{found} is not more than {gt:g}", "Write a figure above {gt:g}."),
        "greater_than_equal": ("{found} is less than {ge:g}", "Write {ge:g} or more."),
        "less_than_equal": ("{found} is too much", "Write at most {limit}."),
        "less_than": ("{found} is too much", "Write less than {lt:g}."),
        "int_type": ("{found} is not a whole number", "Write a whole number such as 2."),
        "int_parsing": ("{found} is not a whole number", "Write a whole number such as 2."),
        "int_from_float": ("{found} is not a whole number", "Write a whole number such as 2."),
        "float_type": ("{found} is not a number", "Write a number such as 2.2."),
        "float_parsing": ("{found} is not a number", "Write a number such as 2.2."),
        "finite_number": ("{found} is not a number to build by", "Write a real figure."),
        "literal_error": ("{found} is none of the choices", "Write one of: {choices}."),
        "union_tag_invalid": ("there is no surface {tag!r}", "Write one of: {tags}."),
        "union_tag_not_found": ("it names no surface", 'Add a line such as: surface = "lines".'),
    }
    what, mend = plain.get(kind, (f"{{found}} does not fit ({entry['msg']})", "Write another."))
    figures = _figures(entry)
    beside = "Enter it." if kind == "string_too_short" else ""
    return Mistake(path, what.format(**figures), mend.format(**figures), beside=beside)


def _figures(entry: ErrorDetails) -> dict[str, Any]:
    """Return what was found where a refusal stands, and what is allowed there."""
    given = entry.get("ctx", {})
    limit = given.get("le")
    return {
        **given,
        "found": _found(entry["input"]),
        "choices": str(given.get("expected", "")).replace("'", '"'),
        "tags": str(given.get("expected_tags", "")).replace("'", '"'),
        "limit": "100 %" if limit == 1 else limit,
    }


def _found(value: object) -> str:
    """Return a short form of what was typed."""
    text = "a table" if isinstance(value, dict) else "a list"
    text = repr(value) if isinstance(value, str | int | float) else text
    return text if len(text) <= 60 else f"{text[:57]}…"


def _unknown(path: Path, fields: list[str], value: object, top: type[BaseModel]) -> Mistake:
    """Return the mistake of a field that is not known."""
    heads = [step for step in path[:-1] if isinstance(step, str)]
    return of_error(
        path, no_field(str(path[-1]), heads[-1] if heads else _head(top), fields, value)
    )


def fields_at(loc: Iterable[str | int], top: type[BaseModel] = Boat) -> tuple[Path, list[str]]:
    """Return the path as it stands in the file, and the fields of the table that holds its end."""
    model: type[BaseModel] | None = top
    choices: tuple[type[BaseModel], ...] = ()
    path: list[str | int] = []
    fields = named_fields(top)
    for step in loc:
        tagged = [choice for choice in choices if _surface(choice) == step]
        if tagged and path and isinstance(path[-1], int):
            model, choices = tagged[0], ()
            fields = named_fields(model)
            continue
        path.append(step)
        if isinstance(step, int):
            continue
        fields = named_fields(model) if model else []
        choices = _models(_annotation(model, step)) if model else ()
        model = choices[0] if len(choices) == 1 else None
    return tuple(path), fields


def named_fields(model: type[BaseModel]) -> list[str]:
    """Return the names of a model's fields as they stand in the file."""
    return [field.alias or name for name, field in model.model_fields.items()]


def _annotation(model: type[BaseModel], name: str) -> object:
    """Return the type of the field that the file calls so."""
    for key, field in model.model_fields.items():
        if name in (key, field.alias):
            return field.annotation
    return None


def _models(annotation: object) -> tuple[type[BaseModel], ...]:
    """Return the models that a type may hold."""
    if isinstance(annotation, type) and get_origin(annotation) is None:
        return (annotation,) if issubclass(annotation, BaseModel) else ()
    is_holder = get_origin(annotation) in (tuple, Union, UnionType) or get_args(annotation)
    inner = get_args(annotation) if is_holder else ()
    return tuple(model for argument in inner for model in _models(argument))


def _surface(model: type[BaseModel]) -> str | None:
    """Return which surface a region's model is for."""
    field = model.model_fields.get("surface")
    return get_args(field.annotation)[0] if field else None
