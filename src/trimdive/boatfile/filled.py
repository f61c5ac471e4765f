"""A form of a piece filled in: what stands in the file as typed in its fields, and the way back.

Fields go by paths: "bore", "pump.flow", "rings[2].number", "tanks[1]", "levels.aft tank".
"""

import re
from collections.abc import Iterable, Mapping
from typing import Any

from trimdive.boatfile.form import FormField, whole_form

Typed = Mapping[str, str]
YES, NO = "true", "false"
BETWEEN, WITHIN = ";", ","  # pairs of figures, and the two figures of a pair


def text_of(value: object) -> str:
    """Return a figure or word of the file as it is typed in a field.

    >>> text_of(True), text_of(2.5), text_of("48 mm")
    ('true', '2.5', '48 mm')
    """
    if isinstance(value, bool):
        return YES if value else NO
    return repr(value) if isinstance(value, float) else str(value)


def filled(fields: Iterable[FormField], piece: Mapping[str, Any], path: str = "") -> dict[str, str]:
    """Return what the fields of a form hold, of a piece as it stands in the file."""
    found: dict[str, str] = {}
    for one in fields:
        if one.key in piece:
            found |= _filled(one, piece[one.key], f"{path}{one.key}")
    return found


def _filled(one: FormField, value: Any, path: str) -> dict[str, str]:
    if one.kind == "table" and one.model:
        return {path: YES, **filled(whole_form(one.model), value, f"{path}.")}
    if one.kind == "rows" and one.model:
        inner = whole_form(one.model)
        rows = (filled(inner, row, f"{path}[{k}].") for k, row in enumerate(value, 1))
        return {key: text for row in rows for key, text in row.items()}
    if one.kind == "names":
        return {f"{path}[{k}]": str(name) for k, name in enumerate(value, 1)}
    if one.kind == "map":
        return {f"{path}.{name}": text_of(each) for name, each in value.items()}
    return {path: _pairs(value) if one.kind == "pairs" else text_of(value)}


def _pairs(value: Iterable[Any]) -> str:
    """Return pairs of figures, or figures, as they are typed on one line.

    >>> _pairs([["0 mm", "2 mm"], ["8 mm", "3 mm"]]), _pairs([1, 4])
    ('0 mm, 2 mm; 8 mm, 3 mm', '1, 4')
    """
    listed = list(value)
    if listed and all(isinstance(one, list) for one in listed):
        return f"{BETWEEN} ".join(f"{WITHIN} ".join(map(text_of, pair)) for pair in listed)
    return f"{WITHIN} ".join(map(text_of, listed))


def piece_of(
    fields: Iterable[FormField], typed: Typed, was: Mapping[str, Any], path: str = ""
) -> dict[str, Any]:
    """Return a piece as the file is to hold it, of what its form's fields hold.

    Whatever is typed as it stood there stays as it was written.

    Args:
        fields: Of the form.
        typed: What was typed, by path.
        was: The piece as it stood there.
        path: What the paths of the fields begin with.
    """
    found = dict(was)
    for one in fields:
        value = _value(one, typed, was.get(one.key), f"{path}{one.key}")
        if value is None:
            found.pop(one.key, None)
        else:
            found[one.key] = value
    return found


def _value(one: FormField, typed: Typed, was: Any, path: str) -> Any:
    """Return what a field is to hold; None where it is left out."""
    if one.kind == "table" and one.model:
        if typed.get(path) != YES:
            return None
        return piece_of(whole_form(one.model), typed, was or {}, f"{path}.")
    if one.kind == "rows" and one.model:
        return _rows(one, typed, was or [], path)
    if was is not None and {path: typed.get(path, "").strip()} == _filled(one, was, path):
        return was
    if one.kind == "names":
        return [typed[key].strip() for key in rows_in(typed, path) if typed[key].strip()] or None
    if one.kind == "map":
        start = f"{path}."
        held = {
            key.removeprefix(start): typed[key].strip() for key in typed if key.startswith(start)
        }
        same = was or {}
        kept = {key: same.get(key) for key in held if text_of(same.get(key)) == held[key]}
        return {key: kept.get(key, text) for key, text in held.items() if text} or None
    text = typed.get(path, "").strip()
    if one.kind == "yes" and was is None and (text or NO) == (YES if one.is_usual else NO):
        return None
    return None if not text or (was is None and text == one.usual) else _figure(one, text)


def _rows(one: FormField, typed: Typed, was: list[Any], path: str) -> list[Any] | None:
    """Return the rows of a table within a piece; those in which nothing stands are left out."""
    fields = whole_form(one.model) if one.model else ()
    found = [
        piece_of(fields, typed, was[k] if k < len(was) else {}, f"{path}[{k + 1}].")
        for k in range(count_of(typed, path))
    ]
    chosen = {each.key for each in fields if each.kind == "choice" and each.options[0]}
    return [row for row in found if row in was or row.keys() - chosen] or None


def _figure(one: FormField, text: str) -> Any:
    """Return what was typed as the file holds it: a yes, a whole number, or text."""
    if one.kind == "yes" or (one.kind == "choice" and text in (YES, NO)):
        return text == YES
    if one.kind == "pairs":
        return (
            [_number(each, one) for each in text.split(WITHIN)] if _is_flat(one) else _points(text)
        )
    return _number(text, one)


def _is_flat(one: FormField) -> bool:
    return one.figure == "whole"


def _points(text: str) -> list[list[str]]:
    """Return pairs of figures as they were typed on one line."""
    return [
        [figure.strip() for figure in pair.split(WITHIN)]
        for pair in text.split(BETWEEN)
        if pair.strip()
    ]


def _number(text: str, one: FormField) -> str | int | float:
    """Return a number as such where the field holds one and it can be read; else the text."""
    text = text.strip()
    try:
        return int(text) if one.figure == "whole" else float(text) if one.figure else text
    except ValueError:
        return text


def rows_in(typed: Typed, path: str) -> list[str]:
    """Return the paths of a list of words, in their order.

    >>> rows_in({"on[2]": "tower", "on[1]": "hull", "one[1]": "x"}, "on")
    ['on[1]', 'on[2]']
    """
    found = [key for key in typed if re.fullmatch(rf"{re.escape(path)}\[\d{{1,4}}\]", key)]
    return sorted(found, key=lambda key: int(key[len(path) + 1 : -1]))


def count_of(typed: Typed, path: str) -> int:
    """Return how many rows a table within a piece has, empty ones too."""
    pattern = re.compile(rf"{re.escape(path)}\[(\d{{1,4}})\]")
    return max((int(found[1]) for key in typed if (found := pattern.match(key))), default=0)
