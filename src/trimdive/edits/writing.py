"""Writes changes into the text of a boat file: only the fields that change, the rest as it stands.

Every place is written the way its piece is given: from the end from which it is measured, to the
middle, to an end, to an underside; in the boat's own units.
"""

from collections.abc import Mapping, Sequence
from pathlib import PurePath
from typing import Any, cast

from trimdive.boatfile import Boat, append, extents, parse, remove, set_value
from trimdive.boatfile.loading import toml
from trimdive.boatfile.pieces import Cylinder, Part, Tank
from trimdive.boatfile.ref import ref
from trimdive.boatfile.whole import called_as_now
from trimdive.errors import BoatFileError
from trimdive.findings import Edit, apply
from trimdive.units import number_in, unit_named

PLACES = ("x", "x_aft", "x_fore", "water_end")
HEIGHTS = ("z", "z_bottom", "z_top")
KINDS = {  # of fields; all others are lengths
    "mass": "mass",
    "volume": "volume",
    "hung": "mass",
    "density": "density",
    "low": "voltage",
}
FINEST = {  # written no finer than this [SI]
    "length": 1e-4,
    "mass": 1e-4,
    "volume": 1e-7,
    "density": 1.0,
    "voltage": 0.1,
}
LISTS = {"cylinder": "cylinders", "tank": "tanks", "part": "parts", "lead": "lead", "foam": "foam"}

Piece = Cylinder | Tank | Part


def quantity(value: float, kind: str, unit: str) -> str:
    """Return a value as a builder writes it: in a unit, no finer than can be cut or laid.

    >>> quantity(0.10518610, "length", "mm"), quantity(0.365, "mass", "g")
    ('105.2 mm', '365 g')
    """
    found = unit_named(unit, kind)
    digits = 0
    while digits < 6 and abs(number_in(FINEST[kind], kind, unit)) < 0.5 * 10**-digits:
        digits += 1
    shown = f"{round(found.number(value), digits):.{digits}f}"
    if "." in shown:
        shown = shown.rstrip("0").rstrip(".")
    return f"{shown} {found.name}"


def rewritten(text: str, edits: Sequence[Edit], files: Mapping[str, bytes]) -> str:
    """Return the text of a boat file with changes made.

    Changes of other files are not made here; see ``beside``.

    Args:
        text: Text of the boat file.
        edits: Changes; numbers in paths count from 1, as the file is before any of them.
        files: What lies beside it.

    Raises:
        BoatFileError: The text holds a mistake, or a path names nothing in it.
    """
    boat = parse(text)
    after, _ = apply(boat, dict(files), [e for e in edits if e.action in ("set", "add")])
    for edit in edits:
        if edit.action == "set":
            text = _set(text, edit, boat, after)
    removed = sorted(
        (e.path for e in edits if e.action == "remove"),
        key=lambda path: ref(path).number,
        reverse=True,
    )
    text = called_as_now(text, [ref(path) for path in removed])
    for path in removed:
        text = remove(text, path)
    for edit in edits:
        if edit.action == "add":
            text = append(text, edit.path, _new(boat, dict(edit.fields)))
    return text


def beside(edits: Sequence[Edit]) -> dict[str, bytes]:
    """Return the contents of the other files that changes write anew, by name."""
    return {
        PurePath(edit.path).name: str(dict(edit.fields)["text"]).encode()
        for edit in edits
        if edit.action == "file"
    }


def _raw(text: str, path: str) -> dict[str, Any]:
    """Return a piece as it stands in the file."""
    name = ref(path).table
    listed = toml(text, "text").get(name, [])
    if isinstance(listed, dict):
        return cast("dict[str, Any]", listed)
    return cast("dict[str, Any]", listed[ref(path).order]) if listed else {}


def _set(text: str, edit: Edit, before: Boat, boat: Boat) -> str:
    """Return the text with the fields of one piece changed."""
    raw, path = _raw(text, edit.path), edit.path
    name = ref(path).table
    fields = dict(edit.fields)
    values: dict[str, Any] = {}
    if name in LISTS:
        piece = cast("Piece", getattr(boat, LISTS[name])[ref(path).order])
        if {"x", "water_end", "length"} & set(fields):
            values |= _along(before, raw, piece, fields)
        if "z" in fields:
            values |= _upward(boat, raw, piece)
    if name == "hatch":
        values |= _edges(before, raw, fields)
    for field, value in fields.items():
        if field in (*PLACES, "z"):
            continue
        values[field] = _text(boat, field, value)
    for field, value in values.items():
        if value is None:
            text = remove(text, f"{path}.{field}") if field in _raw(text, path) else text
        else:
            text = set_value(text, f"{path}.{field}", value)
    return text


def _text(boat: Boat, field: str, value: object) -> Any:
    """Return a field's value as it is written."""
    if isinstance(value, bool) or value is None or isinstance(value, str):
        return value
    if isinstance(value, tuple | list):
        return [str(one) for one in cast("Sequence[object]", value)]
    if isinstance(value, int | float):
        kind = KINDS.get(field, "length")
        return quantity(float(value), kind, boat.units.shown(kind))
    raise BoatFileError(f"'{field}' cannot be written", "edit", "Change it in the file.")


def _along(
    boat: Boat, raw: Mapping[str, Any], piece: Piece, fields: Mapping[str, object]
) -> dict[str, Any]:
    """Return the place along the boat as the piece has it in the file."""
    start, way = _zero(raw.get("from") or boat.entered_from, boat)
    length = _length(piece)
    wanted = {
        "x": piece.x,
        "x_aft": piece.x - length / 2,
        "x_fore": piece.x + length / 2,
        "water_end": getattr(piece, "water_end", None) or 0.0,
    }
    given = [field for field in PLACES if field in raw] or ["x"]
    if given == ["x"] and not {"x", "water_end"} & set(fields):
        return {}
    unit = boat.units.shown("length")
    return {f: quantity(way * (wanted[f] - start), "length", unit) for f in given}


def _edges(boat: Boat, raw: Mapping[str, Any], fields: Mapping[str, object]) -> dict[str, str]:
    """Return the edges of an opening as they are measured in the file."""
    start, way = _zero(raw.get("from") or boat.entered_from, boat)
    unit = boat.units.shown("length")
    return {
        field: quantity(way * (float(cast("float", at)) - start), "length", unit)
        for field, at in fields.items()
        if field in PLACES
    }


def _length(piece: Piece) -> float:
    if isinstance(piece, Part):
        return extents(piece)[0] or 0.0
    return piece.length or 0.0


def _zero(name: str, boat: Boat) -> tuple[float, int]:
    """Return where an end or a mark lies from the stern [m], and which way x run from it."""
    if name == "stern":
        return 0.0, 1
    if name == "bow":
        return boat.length or 0.0, -1
    return next(mark.x for mark in boat.marks if mark.name == name), 1


def _upward(boat: Boat, raw: Mapping[str, Any], piece: Piece) -> dict[str, Any]:
    """Return the height as the piece has it in the file."""
    high = (extents(piece)[2] or 0.0) if isinstance(piece, Part) else 0.0
    wanted = {"z": piece.z, "z_bottom": piece.z - high / 2, "z_top": piece.z + high / 2}
    given = next((field for field in HEIGHTS if field in raw), "z")
    return {given: quantity(wanted[given], "length", boat.units.shown("length"))}


def _new(boat: Boat, fields: Mapping[str, object]) -> dict[str, Any]:
    """Return the fields of a new piece as they are written."""
    start, way = _zero(boat.entered_from, boat)
    found: dict[str, Any] = {}
    for field, value in fields.items():
        place = way * (float(cast("float", value)) - start) if field in PLACES else value
        if field == "y" and abs(float(cast("float", value))) < FINEST["length"] / 2:
            continue
        found[field] = _text(boat, field, place)
    return found
