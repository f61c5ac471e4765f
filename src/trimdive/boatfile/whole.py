"""Whole pieces written into a boat file's text, or taken out of it; all else stays as it stands."""

from collections.abc import Mapping, Sequence
from difflib import SequenceMatcher
from typing import Any, cast

from trimdive.boatfile.edits import append, remove, set_value
from trimdive.boatfile.form import OWN, tables
from trimdive.boatfile.loading import toml
from trimdive.boatfile.places import STEP, Path, dotted, path_of
from trimdive.boatfile.ref import Ref
from trimdive.boatfile.refers import Use, called, uses

Fields = Mapping[str, Any]
NUMBERED = ("part", "lead", "foam")  # tables of pieces that need no name


def piece_at(contents: Fields, at: Ref) -> Fields | None:
    """Return a piece as typed; None where there is no such piece in a list.

    A table that stands once, and is left out, is empty.
    """
    if at.table == OWN:
        return {key: one for key, one in contents.items() if not isinstance(one, dict | list)}
    held = contents.get(at.table)
    if not at.number:
        return cast("Fields", held) if isinstance(held, dict) else {}
    listed = cast("list[Any]", held) if isinstance(held, list) else []
    return listed[at.order] if at.number <= len(listed) else None


def with_piece(text: str, at: Ref, fields: Fields) -> str:
    """Return the text with a piece as told: only what differs is written anew.

    Args:
        text: Text of a boat file.
        at: The piece; one after the last of its list is added.
        fields: All that it is to hold.

    Raises:
        BoatFileError: There is no such piece.
    """
    was = piece_at(toml(text, "text"), at)
    if was is None:
        return append(text, at.table, fields)
    if not fields and not at.number and at.table != OWN:
        return remove(text, at.table) if was else text
    path = () if at.table == OWN else path_of(str(at))
    return _merged(text, path, was, fields)


def without_piece(text: str, at: Ref) -> tuple[str, tuple[Ref, ...]]:
    """Return the text without a piece, and which others went with it.

    What lies in it, or is only of it, goes too; others no longer name it.

    Raises:
        BoatFileError: There is no such piece.
    """
    gone, contents = [at], toml(text, "text")
    for one in gone:  # which grows
        for use in _uses(contents, one):
            if use.is_own or _is_last(contents, use):
                gone += [use.piece] if use.piece not in gone else []
    for one in gone:
        for use in _uses(contents, one):
            if use.piece not in gone:
                text = _freed(text, use, _name(contents, one))
    text = called_as_now(text, gone)
    for one in sorted(gone, key=lambda ref: ref.number, reverse=True):
        text = remove(text, str(one))
    return text, tuple(gone[1:])


def called_as_now(text: str, gone: Sequence[Ref]) -> str:
    """Return the text with names for what is only called by its number, such as foam 6.

    Those behind a piece that is taken out would be numbered anew, and called otherwise.

    Args:
        text: Text of a boat file.
        gone: The pieces that are taken out of it.
    """
    contents = toml(text, "text")
    listed = [one for held in contents.values() if isinstance(held, list) for one in held]
    taken = {one.get("name") for one in listed if isinstance(one, dict)}
    for table in NUMBERED:
        numbers = [one.number for one in gone if one.table == table]
        for number, piece in enumerate(contents.get(table, []) if numbers else [], 1):
            if number < min(numbers) or number in numbers or piece.get("name"):
                continue
            name = f"{table} {number}"
            while name in taken:
                name += "a"
            text = set_value(text, f"{table}[{number}].name", name)
    return text


def renamed(text: str, table: str, old: str, new: str) -> str:
    """Return the text with every field that names a piece naming it anew."""
    for use in uses(toml(text, "text"), table, old):
        text = _freed(text, use, old, new)
    return text


def _freed(text: str, use: Use, old: str, new: str = "") -> str:
    """Return the text with one field that names a piece naming it otherwise, or no longer."""
    piece = dict(piece_at(toml(text, "text"), use.piece) or {})
    value = called(piece.pop(use.field), old, new)
    return with_piece(text, use.piece, {**piece, use.field: value} if value else piece)


def _name(contents: Fields, at: Ref) -> str:
    return str((piece_at(contents, at) or {}).get("name", ""))


def _uses(contents: Fields, at: Ref) -> list[Use]:
    """Return the fields that name a piece."""
    name = _name(contents, at)
    return [use for use in uses(contents, at.table, name) if use.field != "from"] if name else []


def _is_last(contents: Fields, use: Use) -> bool:
    """Return whether a piece names nothing else in a field that it needs."""
    value = (piece_at(contents, use.piece) or {}).get(use.field)
    is_list = use.piece.table in ("plant", "lane", "fill") and isinstance(value, list | dict)
    return is_list and len(cast("list[Any]", value)) == 1


def _merged(text: str, path: Path, was: Fields, fields: Fields) -> str:
    """Return the text with a table as told, by as few changes as there are."""
    for key in [key for key in was if key not in fields and _is_of(path, key)]:
        text = remove(text, dotted((*path, key)))
    for key, value in fields.items():
        old, inner = was.get(key), (*path, key)
        if key in was and old == value and type(old) is type(value):
            continue
        if _is_table(old) and _is_table(value):
            text = _merged(text, inner, cast("Fields", old), cast("Fields", value))
        elif _is_rows(old) and _is_rows(value):
            text = _rows(text, inner, cast("list[Fields]", old), cast("list[Fields]", value))
        else:
            text = set_value(text, dotted(inner), value)
    return text


def _is_of(path: Path, key: str) -> bool:
    """Return whether a field is of the table, not a table of the file beside the boat's own."""
    return bool(path) or key not in (*tables(), "format")


def _is_table(value: object) -> bool:
    """Return whether a value is a table whose every field can be named in a path."""
    keys = cast("dict[str, object]", value)
    return isinstance(value, dict) and bool(keys) and all(STEP.fullmatch(key) for key in keys)


def _is_rows(value: object) -> bool:
    rows = cast("list[object]", value)
    return isinstance(value, list) and bool(rows) and all(isinstance(one, dict) for one in rows)


def _rows(text: str, path: Path, was: list[Fields], rows: list[Fields]) -> str:
    """Return the text with the rows of a table within a piece as told."""
    if len(was) == len(rows):
        for number, (old, new) in enumerate(zip(was, rows, strict=True)):
            text = _merged(text, (*path, number), old, new)
        return text
    same = SequenceMatcher(None, [repr(one) for one in was], [repr(one) for one in rows])
    if all(kind in ("equal", "delete") for kind, *_ in same.get_opcodes()):
        gone = [n for kind, a, b, *_ in same.get_opcodes() if kind == "delete" for n in range(a, b)]
        for number in reversed(gone):
            text = remove(text, dotted((*path, number)))
        return text
    return set_value(text, dotted(path), rows)
