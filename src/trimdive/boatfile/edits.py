"""Edits of a boat file's text that leave every other line as it stands, comments and all."""

import tomllib
from collections.abc import Mapping
from typing import Any, cast

from trimdive.boatfile.boat import FORMAT, Boat
from trimdive.boatfile.places import HEAD, Path, dotted, lines, path_of
from trimdive.boatfile.schema import name_first
from trimdive.errors import BoatFileError

Value = str | float | int | bool | list[str]
AGAIN = "See how the field is called in docs/boat-file.md."


def set_value(text: str, place: str, value: Value) -> str:
    """Return the text with one field changed or added.

    Args:
        text: Text of a boat file.
        place: The field, such as "tank[1].x"; pieces are counted from one.
        value: What to write, such as "1520 mm".

    Raises:
        BoatFileError: There is no such place.
    """
    path = _path(place)
    contents = tomllib.loads(text)
    holder = _at(contents, path[:-1], place)
    if holder is not None and path[-1] in holder:
        document = _document(text)
        _at(document, path[:-1], place)[path[-1]] = value
        return _dumped(document)
    line = f"{_key(path[-1])} = {_value(value)}"
    if holder is None:  # a plain table that is not there yet
        head = f"[{dotted(path[:-1])}]"
        return f"{_closed(text)}\n{head}\n{line}\n"
    holder[path[-1]] = value
    return _inserted(text, path[:-1], line, contents)


def append(text: str, table: str, fields: Mapping[str, Value]) -> str:
    """Return the text with one more piece at the end of its list, such as "lead"."""
    body = [f"{_key(key)} = {_value(value)}" for key, value in fields.items()]
    piece = "\n".join([f"[[{table}]]", *body]) + "\n"
    heads = [line for path, line in lines(text).items() if path[0] == table and len(path) == 2]
    if not heads:
        return f"{_closed(text)}\n{piece}"
    rows = text.splitlines(keepends=True)
    end = _end(rows, max(heads))
    before, after = "".join(rows[:end]), "".join(rows[end:])
    return f"{_closed(before)}\n{piece}{after}"


def remove(text: str, place: str) -> str:
    """Return the text without one field, such as "tank[1].wall", or one piece, such as "lead[3]".

    Raises:
        BoatFileError: There is no such place.
    """
    path = _path(place)
    contents = tomllib.loads(text)
    holder = _at(contents, path[:-1], place)
    if holder is None or not _holds(holder, path[-1]):
        raise BoatFileError("there is nothing to take out", place, AGAIN)
    start = lines(text).get(path)
    if isinstance(path[-1], int) and start:
        rows = text.splitlines(keepends=True)
        return "".join(rows[: _first(rows, start)] + rows[_end(rows, start) :])
    document = _document(text)
    del _at(document, path[:-1], place)[path[-1]]
    return _dumped(document)


def text_of(boat: Boat) -> str:
    """Return a boat as the text of a boat file, exact to the last digit."""
    fields = boat.model_dump(
        mode="json",
        by_alias=True,
        exclude_defaults=True,
        exclude_none=True,
        context=boat.units.own,
    )
    tidy = {key: _ordered(entry) for key, entry in fields.items()}
    return _dumped({"format": FORMAT, **tidy})


def _ordered(entry: Any) -> Any:
    """Return a list of pieces with their names first; anything else as it is."""
    if not isinstance(entry, list):
        return entry
    return [name_first(piece) for piece in cast("list[Any]", entry)]


def _path(place: str) -> Path:
    """Return the path that a place means.

    Raises:
        BoatFileError: It means none.
    """
    try:
        return path_of(place)
    except ValueError:
        raise BoatFileError("that is no place in a boat file", repr(place), AGAIN) from None


def _document(text: str) -> Any:
    """Return a text as a document that keeps its comments and order."""
    import tomlkit

    return tomlkit.parse(text)


def _dumped(document: Mapping[str, Any]) -> str:
    """Return a document, or plain contents, as text."""
    import tomlkit

    return tomlkit.dumps(document)


def _value(value: Value) -> str:
    """Return a value as it is written in TOML."""
    import tomlkit

    return tomlkit.item(value).as_string()


def _key(name: str | int) -> str:
    """Return a key as it is written in TOML."""
    import tomlkit

    return tomlkit.key(str(name)).as_string()


def _holds(holder: Any, step: str | int) -> bool:
    """Return whether a table or list holds a step of a path."""
    return step < len(holder) if isinstance(step, int) else step in holder


def _at(contents: Any, path: Path, place: str) -> Any:
    """Return the table at a path, or None where a plain table is not there yet.

    Raises:
        BoatFileError: A piece of a list is not there.
    """
    for step in path:
        if not _holds(contents, step):
            if any(isinstance(part, int) for part in path):
                raise BoatFileError(f"there is no {dotted(path)}", place, "Count them again.")
            return None
        contents = contents[step]
    return contents


def _closed(text: str) -> str:
    """Return the text ending in one line break, or empty."""
    return f"{text.rstrip()}\n" if text.strip() else ""


def _inserted(text: str, table: Path, line: str, wanted: Mapping[str, Any]) -> str:
    """Return the text with a line put after the last field of a table."""
    rows = _closed(text).splitlines(keepends=True)
    own = [
        number
        for path, number in lines(text).items()
        if path[: len(table)] == table and len(path) <= len(table) + 1 and (table or len(path) == 1)
        if not HEAD.match(rows[number - 1]) or path == table
    ]
    for after in range(max(own, default=0), len(rows) + 1):
        edited = "".join([*rows[:after], f"{line}\n", *rows[after:]])
        try:
            if tomllib.loads(edited) == wanted:
                return edited
        except tomllib.TOMLDecodeError:
            continue  # in the middle of a value of several lines
    document = _document(text)
    key, value = next(iter(tomllib.loads(line).items()))
    _at(document, table, dotted(table))[key] = value
    return _dumped(document)


def _first(rows: list[str], head: int) -> int:
    """Return the index of the first line that belongs to a piece: the comments upon its head."""
    index = head - 1
    while index > 0 and rows[index - 1].lstrip().startswith("#"):
        index -= 1
    return index


def _end(rows: list[str], head: int) -> int:
    """Return the index of the line at which the next table begins, its comments and all."""
    heads = sorted(
        line
        for line in lines("".join(rows)).values()
        if line > head and HEAD.match(rows[line - 1].replace("[[", "["))
    )
    return _first(rows, heads[0]) if heads else len(rows)
