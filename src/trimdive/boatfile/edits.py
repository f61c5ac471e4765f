"""Edits of a boat file's text that leave every other line as it stands, comments and all."""

import re
import tomllib
from collections.abc import Mapping
from typing import Any, cast

from trimdive.boatfile.boat import FORMAT, Boat
from trimdive.boatfile.loading import toml
from trimdive.boatfile.places import HEAD, Path, dotted, lines, path_of
from trimdive.boatfile.schema import name_first
from trimdive.errors import BoatFileError

ONE_VALUE = re.compile(r"""(\s*[\w-]+\s*=\s*)("(?:[^"\\]|\\.)*"|'[^']*'|[\w.+-]+)""")
Value = str | float | int | bool | list[Any] | Mapping[str, Any]


def set_value(text: str, place: str, value: Value) -> str:
    """Return the text with one field changed or added.

    A field that holds text, a number or a yes is changed within its own line, so that nothing
    else is touched and it is done at once.

    Args:
        text: Text of a boat file.
        place: The field, such as "tank[1].x"; pieces are counted from one.
        value: What to write, such as "1520 mm".

    Raises:
        BoatFileError: There is no such place.
    """
    path, plain = _path(place), _plain(text)
    contents = toml(text, "text")
    holder = _at(contents, path[:-1], place)
    if _holds(holder, path[-1]):
        if isinstance(holder[path[-1]], str | int | float) and isinstance(value, str | int | float):
            holder[path[-1]] = value
            if found := _within_line(text, path, value, contents):
                return found
        document = _document(plain)
        _at(document, path[:-1], place)[path[-1]] = _item(value)
        return _ended(_dumped(document), text)
    line = f"{_key(path[-1])} = {_value(value)}"
    if holder is None:  # a plain table that is not there yet
        head = f"[{dotted(path[:-1])}]"
        return _ended(f"{_closed(plain)}\n{head}\n{line}\n", text)
    if not isinstance(holder, dict) or isinstance(path[-1], int):
        raise _no_place("that is no field", place)
    holder[path[-1]] = value
    return _ended(_inserted(plain, path[:-1], line, contents), text)


def replaced(text: str, place: str, typed: str) -> str:
    """Return the text with what was typed in one field; with nothing typed, without the field.

    What stands there already is left as it stands.

    Args:
        text: Text of a boat file.
        place: The field, such as "tank[1].x"; pieces are counted from one.
        typed: What to write, such as "1520 mm"; "true" and "false" where the field is a yes.

    Raises:
        BoatFileError: There is no such place.
    """
    path, typed = _path(place), typed.strip()
    contents = toml(_plain(text), "text")
    holder = _at(contents, path[:-1], place)
    there = _holds(holder, path[-1])
    if not typed:
        return remove(text, place) if there else text
    value: Value = typed == "true" if typed in ("true", "false") else typed
    if there and holder[path[-1]] == value and type(holder[path[-1]]) is type(value):
        return text
    return set_value(text, place, value)


def with_values(text: str, values: Mapping[str, Value | None]) -> str:
    """Return the text with several fields changed, added, or, by None, left out, as one edit.

    Args:
        text: Text of a boat file.
        values: What to write, by field, such as "tank[1].x".

    Raises:
        BoatFileError: There is no such place.
    """
    toml(text, "text")  # it is refused in plain words where it is none
    document, new = _document(_plain(text)), dict[str, Value]()
    for place, value in values.items():
        path = _path(place)
        holder = _at(document, path[:-1], place)
        is_there = _holds(holder, path[-1])
        if value is None and is_there:
            del holder[path[-1]]
        elif value is not None and is_there:
            holder[path[-1]] = value
        elif value is not None:
            new[place] = value
    edited = _ended(_dumped(document), text)
    for place, value in new.items():
        edited = set_value(edited, place, value)
    return edited


def _within_line(text: str, path: Path, value: Value, wanted: Mapping[str, Any]) -> str | None:
    """Return the text with one value replaced in its line, or None where that is not enough."""
    plain = _plain(text)
    number = lines(plain).get(path)
    if number is None:
        return None
    rows = plain.splitlines(keepends=True)
    row = rows[number - 1]
    if not (found := ONE_VALUE.match(row)):
        return None
    rows[number - 1] = f"{found[1]}{_value(value)}{row[found.end() :]}"
    edited = "".join(rows)
    try:
        return _ended(edited, text) if toml(edited, "text") == wanted else None
    except BoatFileError:
        return None


def append(text: str, table: str, fields: Mapping[str, Value]) -> str:
    """Return the text with one more piece at the end of its list, such as "lead"."""
    body = [f"{_key(key)} = {_value(value)}" for key, value in fields.items()]
    piece = "\n".join([f"[[{table}]]", *body]) + "\n"
    plain = _plain(text)
    heads = [line for path, line in lines(plain).items() if path[0] == table and len(path) == 2]
    rows = plain.splitlines(keepends=True)
    end = _end(rows, max(heads)) if heads else len(rows)
    before, after = "".join(rows[:end]), "".join(rows[end:])
    gap = "\n" if after else ""
    edited = f"{_closed(before)}\n{piece}{gap}{after}"
    if heads and not _is_one_more(plain, edited, table, fields):  # it has tables of its own below
        edited = f"{_closed(plain)}\n{piece}"
    return _ended(edited, text)


def _is_one_more(text: str, edited: str, table: str, fields: Mapping[str, Value]) -> bool:
    """Return whether a text differs by one more piece at the end of a list, and by nothing else."""
    contents = toml(text, "text")
    contents[table] = [*contents[table], dict(fields)]
    try:
        return toml(edited, "text") == contents
    except BoatFileError:
        return False


def remove(text: str, place: str) -> str:
    """Return the text without one field, such as "tank[1].wall", or one piece, such as "lead[3]".

    Raises:
        BoatFileError: There is no such place.
    """
    path, plain = _path(place), _plain(text)
    holder = _at(toml(text, "text"), path[:-1], place)
    if not _holds(holder, path[-1]):
        raise _no_place("there is nothing to take out", place)
    start = lines(plain).get(path)
    document = _document(plain)
    del _at(document, path[:-1], place)[path[-1]]
    whole = _dumped(document)
    if isinstance(path[-1], int) and start:
        rows = plain.splitlines(keepends=True)
        edited = "".join(rows[: _first(rows, start)] + rows[_end(rows, start) :])
        if _holds_the_same(edited, whole):
            return _ended(edited, text)
    return _ended(whole, text)


def _holds_the_same(text: str, whole: str) -> bool:
    """Return whether two texts hold the same, but for a list that is empty in one of them."""
    try:
        one, other = toml(text, "text"), toml(whole, "text")
    except BoatFileError:
        return False
    return one == {key: value for key, value in other.items() if value != []}


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
        raise _no_place("that is no place in a boat file", repr(place)) from None


def _no_place(what: str, place: str) -> BoatFileError:
    """Return the error for a place that a boat file has not."""
    return BoatFileError(what, place, "See how the field is called in docs/boat-file.md.")


def _document(text: str) -> Any:
    """Return a text as a document that keeps its comments and order."""
    import tomlkit

    return tomlkit.parse(text)


def _dumped(document: Mapping[str, Any]) -> str:
    """Return a document, or plain contents, as text."""
    import tomlkit

    return tomlkit.dumps(document)


def _value(value: Value) -> str:
    """Return a value as it is written in TOML, on one line."""
    import tomlkit

    if isinstance(value, Mapping):
        pairs = [f"{_key(key)} = {_value(one)}" for key, one in value.items()]
        return f"{{ {', '.join(pairs)} }}" if pairs else "{}"
    if isinstance(value, list):
        return f"[{', '.join(map(_value, value))}]"
    return tomlkit.item(value).as_string()


def _item(value: Value) -> Any:
    """Return a value to be put into a document: tables within it on one line."""
    return _document(f"value = {_value(value)}")["value"]


def _key(name: str | int) -> str:
    """Return a key as it is written in TOML."""
    import tomlkit

    return tomlkit.key(str(name)).as_string()


def _holds(holder: Any, step: str | int) -> bool:
    """Return whether a table or list holds a step of a path."""
    if isinstance(step, int):
        return isinstance(holder, list) and step < len(cast("list[Any]", holder))
    return isinstance(holder, dict) and step in holder


def _at(contents: Any, path: Path, place: str) -> Any:
    """Return the table at a path, or None where a plain table is not there yet.

    Raises:
        BoatFileError: A piece of a list is not there, or a field stands where a table should.
    """
    for step in path:
        if not _holds(contents, step):
            is_piece = any(isinstance(part, int) for part in path)
            if is_piece or not isinstance(contents, dict):
                raise BoatFileError(f"there is no {dotted(path)}", place, "Count them again.")
            return None
        contents = contents[step]
    return contents


def _plain(text: str) -> str:
    """Return the text with plain line breaks."""
    return text.replace("\r\n", "\n")


def _ended(edited: str, like: str) -> str:
    """Return an edited text with the line breaks of the text that it came from."""
    return _plain(edited).replace("\n", "\r\n") if "\r\n" in like else edited


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
    _at(document, table, dotted(table))[key] = _item(value)
    return _dumped(document)


def _first(rows: list[str], head: int) -> int:
    """Return the index of the first line that belongs to a piece: the comments upon its head."""
    index = head - 1
    while index > 0 and rows[index - 1].lstrip().startswith("#"):
        index -= 1
    return index


def _end(rows: list[str], head: int) -> int:
    """Return the index of the line at which a piece ends: its fields, and comments upon them.

    What stands after a blank line, such as the heading of a section, is not its own.
    """
    heads = sorted(
        line
        for line in lines("".join(rows)).values()
        if line > head and HEAD.match(rows[line - 1].replace("[[", "["))
    )
    end = _first(rows, heads[0]) if heads else len(rows)
    own = end
    while own > head and (not rows[own - 1].strip() or rows[own - 1].lstrip().startswith("#")):
        own -= 1
    while own < end and rows[own].strip():
        own += 1  # comments right under its last field
    while own < end and not rows[own].strip():
        own += 1
    return own
