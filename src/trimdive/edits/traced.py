"""Writes lines traced on a plan into the text of a boat file: one region, and the waterline."""

from collections.abc import Mapping
from typing import Any, cast

from trimdive.boatfile import Boat, Waterline, remove
from trimdive.boatfile.loading import toml
from trimdive.boatfile.ref import Ref
from trimdive.boatfile.whole import piece_at, with_piece
from trimdive.errors import BoatFileError
from trimdive.units import unit_named

# Fields that say where a surface comes from: of another kind than an outline they go.
SHAPES = (
    "surface", "file", "file_unit", "file_scale", "forward", "up", "like", "length", "breadth",
    "height", "stern", "bow", "profile", "breadths", "section", "repairs", "pieces", "traced",
)  # fmt: skip
Fields = Mapping[str, Any]
FINEST = 2  # decimals of a millimetre that are written
FINE = 1e-3  # [m]


def with_lines(text: str, boat: Boat, number: int, new: Fields, figures: Fields) -> str:
    """Return the text with traced lines as an outline.

    Args:
        text: Text of the boat file.
        boat: The boat as it is read from it.
        number: Of the region in whose place they stand, from one; one after the last is new.
        new: Of a new region its name, and of what and how thick its skin is.
        figures: Of the outline, by their names in a boat file, in SI.

    Raises:
        BoatFileError: There is no such region, or another one has that name.
    """
    at = Ref("region", number)
    was = piece_at(toml(text, "text"), at)
    if was is None:
        name = str(new.get("name", ""))
        if not name or name in (one.name for one in boat.regions):
            what = f"a region is called '{name}' already" if name else "the region has no name"
            raise BoatFileError(what, "region", "Enter a name of its own.")
        was = new
    elif was.get("surface") not in ("outline", "lines", "round", "mesh"):
        what = f"{was.get('name')} is no hull that is traced"
        raise BoatFileError(what, str(at), "Choose another region, or a new one.")
    kept = {key: value for key, value in was.items() if key not in SHAPES}
    start, way = _zero(str(was.get("from", "")) or boat.entered_from, boat)
    written = cast("dict[str, object]", _written(figures, boat, start, way, ""))
    return with_piece(text, at, {"name": kept.pop("name"), "surface": "outline", **kept, **written})


def with_waterline(text: str, boat: Boat, line: Waterline) -> str:
    """Return the text with a waterline that was traced.

    Args:
        text: Text of the boat file.
        boat: The boat as it is read from it.
        line: In SI, from the stern.
    """
    figures = line.model_dump(exclude_none=True, exclude_defaults=True)
    start, way = _zero(boat.entered_from, boat)
    if "waterline" in toml(text, "text"):
        text = remove(text, "waterline")
    return with_piece(
        text, Ref("waterline"), cast("dict[str, Any]", _written(figures, boat, start, way, ""))
    )


def _zero(name: str, boat: Boat) -> tuple[float, int]:
    """Return where x are measured from, from the stern [m], and which way they run."""
    if name == "bow":
        return boat.length or 0.0, -1
    marks = {mark.name: mark.x for mark in boat.marks}
    return marks.get(name, 0.0), 1


def _written(value: object, boat: Boat, start: float, way: int, key: str) -> object:
    """Return figures in the boat's own unit of length, places from where they are measured."""
    if isinstance(value, Mapping):
        held = cast("Mapping[str, object]", value)
        return {name: _written(one, boat, start, way, name) for name, one in held.items()}
    if isinstance(value, list | tuple):
        rows = cast("list[object]", value)
        return [_written(one, boat, start, way, key) for one in rows]
    if not isinstance(value, float):
        return value
    place = (value - start) * way if key == "x" else value
    unit = boat.units.length
    if unit is None:
        return f"{round(place / FINE, FINEST):g} mm"
    finest = FINEST + (4 if unit_named(unit, "length").number(FINE) < 0.5 else 0)
    number = round(unit_named(unit, "length").number(place), finest) + 0.0
    return int(number) if number == int(number) else number
