"""Reads the tape readings that a builder typed: a small TOML text, units in, SI out."""

import difflib
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import cast

from trimdive.boatfile.loading import toml
from trimdive.boatfile.near_words import no_field
from trimdive.boatfile.places import line_of, path_of
from trimdive.data import row, table
from trimdive.errors import TapeError, UnitError
from trimdive.estimates.tape.doubts import impossible
from trimdive.estimates.tape.readings import (
    Girth,
    Kind,
    Material,
    Moulding,
    Readings,
    Standing,
    figure,
)
from trimdive.units import read, unit_named, within

TOP = (
    "name", "length", "kind", "material", "density", "measured_from", "girth", "wall", "units",
    "moulding", "standing",
)  # fmt: skip
GIRTH = ("x", "girth", "breadth")
MOULDING = ("mass", "edge")
STANDING = (
    "name", "x", "material", "density", "volume", "mass", "hung", "girth", "height", "wall", "top",
)  # fmt: skip
UNITS = ("length", "mass", "volume", "density")
UNNAMED = "Unnamed"  # what she is called who has no name yet
Table = Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """The text being read, for telling where something stands in it."""

    text: str
    name: str
    units: Mapping[str, str]

    def error(self, path: str, what: str, mend: str) -> TapeError:
        """Return the error that refuses what stands at a path."""
        return TapeError(what, self.where(path), mend)

    def where(self, path: str) -> str:
        """Return file, line and field of a path such as girth[3].x."""
        line = _line(self.text, path)
        return f"{self.name}:{line}: {path}" if line else f"{self.name}: {path}"

    def known(self, entry: Table, path: str, fields: Sequence[str]) -> None:
        """Refuse a field that is not known."""
        for key in entry:
            if key in fields:
                continue
            found = no_field(key, path.partition("[")[0] or "tape", fields, entry[key])
            mend = "Move it up, above the first line in [brackets]."
            mend = mend if path and key in TOP else found.mend
            raise self.error(f"{path}.{key}".lstrip("."), found.what, mend)

    def quantity(self, entry: Table, path: str, key: str, kind: str) -> float:
        """Return a figure that must stand there [SI]."""
        found = self.perhaps(entry, path, key, kind)
        if found is None:
            place = f"{path}.{key}".lstrip(".")
            raise self.error(place, f"'{key}' is missing", f"Add a line: {key} = …")
        return found

    def perhaps(self, entry: Table, path: str, key: str, kind: str) -> float | None:
        """Return a figure, or None where it is left out [SI]."""
        if key not in entry:
            return None
        return self.figure(entry[key], f"{path}.{key}".lstrip("."), kind, signed=key == "hung")

    def figure(self, value: object, path: str, kind: str, *, signed: bool = False) -> float:
        """Return a typed figure [SI]."""
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise self.error(path, f"{value!r} is not a {kind}", 'Write it in quotes, as "240 mm".')
        try:
            found = read(str(value), kind, self.units.get(kind))
        except UnitError as error:
            raise UnitError(error.what, self.where(path), error.mend) from None
        if found < 0 and not signed and not path.endswith("edge"):
            raise self.error(path, f"'{value}' is below zero", "Write zero or more.")
        return within(found, kind, str(value), self.where(path))


def parse(text: str, name: str = "tape.toml") -> Readings:
    """Return the readings in a text.

    Args:
        text: TOML; docs/tape.md describes it.
        name: What to call the file in an error.

    Raises:
        TapeError: Something in it must be mended, or readings contradict each other.
        UnitError: A figure in it cannot be read.
    """
    readings = readings_in(text, name)
    for found in impossible(readings):
        raise Text(text=text, name=name, units={}).error(found.where, found.what, found.mend)
    return readings


def readings_in(text: str, name: str) -> Readings:
    """Return the readings in a text, complete or not, whether they can stand together or not.

    Args:
        text: TOML; docs/tape.md describes it.
        name: What to call the file in an error.

    Raises:
        TapeError: Something in it must be mended.
        UnitError: A figure in it cannot be read.
    """
    contents = cast("dict[str, object]", toml(text, name))
    source = Text(text=text, name=name, units=_units(contents, text, name))
    source.known(contents, "", TOP)
    return _readings(contents, source)


def _units(contents: Table, text: str, name: str) -> dict[str, str]:
    named = contents.get("units", {})
    plain = Text(text=text, name=name, units={})
    if not isinstance(named, dict):
        raise plain.error("units", "it is no table", "Begin it with a line [units].")
    units = cast("dict[str, object]", named)
    plain.known(units, "units", UNITS)
    try:
        return {kind: unit_named(str(unit), kind).name for kind, unit in units.items()}
    except UnitError as error:
        raise UnitError(error.what, plain.where("units"), error.mend) from None


def _readings(contents: Table, source: Text) -> Readings:
    length = source.quantity(contents, "", "length", "length")
    if length <= 0:
        raise source.error("length", "she has no length", "Write her length over all.")
    end = _choice(contents, source, "measured_from", ("stern", "bow"), "stern")
    made = material_of(contents, source, "", None)
    girths = [
        _girth(entry, i, source, length if end == "bow" else None)
        for i, entry in enumerate(_tables(contents, "girth", source), 1)
    ]
    walls = contents.get("wall", [])
    listed = cast("list[object]", walls) if isinstance(walls, list) else [walls]
    return Readings(
        name=str(contents.get("name", UNNAMED)),
        length=length,
        kind=cast("Kind", _choice(contents, source, "kind", ("wet", "dry"), "wet")),
        material=made,
        girths=tuple(sorted(girths, key=lambda one: one.x)),
        walls=tuple(
            source.figure(value, f"wall[{i}]", "length") for i, value in enumerate(listed, 1)
        ),
        moulding=_moulding(contents, source),
        standing=tuple(
            _standing(entry, f"standing[{i}]", source, (made, length, end))
            for i, entry in enumerate(_tables(contents, "standing", source), 1)
        ),
        from_bow=end == "bow",
        units=dict(source.units),
    )


def _choice(contents: Table, source: Text, key: str, choices: tuple[str, ...], usual: str) -> str:
    found = contents.get(key, usual)
    if found not in choices:
        raise source.error(
            key, f"{found!r} is none of the choices", f"Write {' or '.join(choices)}."
        )
    return str(found)


def material_of(entry: Table, source: Text, path: str, usual: Material | None) -> Material:
    """Return the material that a table names, or the usual one.

    Raises:
        TapeError: There is no such material, or none is named and none is usual.
    """
    density = source.perhaps(entry, path, "density", "density")
    name = entry.get("material")
    if name is None and density is None:
        if usual is None:
            raise source.error("material", "'material' is missing", 'Add a line: material = "GRP"')
        return usual
    if name is not None:
        name = known_material(str(name), source.where(f"{path}.material".lstrip(".")))
    if density is not None:
        if density <= 0:
            raise source.error(
                f"{path}.density".lstrip("."), "it weighs nothing", "Write a density."
            )
        given = figure("density-told") * density
        return Material(name=str(name or "as told"), density=density, spread=given)
    return material_named(str(name))


def known_material(name: str, where: str) -> str:
    """Return the name of a material as the table has it.

    Raises:
        TapeError: There is no such material.
    """
    known = {one["key"].casefold(): one["key"] for one in table("materials")}
    if name.casefold() in known:
        return known[name.casefold()]
    near = difflib.get_close_matches(name.casefold(), known, n=1, cutoff=0.4)
    mend = f"Did you mean '{known[near[0]]}'?" if near else f"Known: {', '.join(known.values())}."
    raise TapeError(f"there is no material '{name}'", where, mend)


def material_named(name: str) -> Material:
    """Return a material of the table; its plausible range is taken as 95 cases in 100."""
    entry = row("materials", name)
    low, high = float(entry["density_low"]), float(entry["density_high"])
    return Material(name=name, density=float(entry["density"]), spread=(high - low) / 2)


def _tables(contents: Table, key: str, source: Text) -> list[Table]:
    found = contents.get(key, [])
    if not isinstance(found, list):
        raise source.error(key, "it is no list", f"Write it as in the example: {key} = [ … ].")
    entries = cast("list[object]", found)
    for i, entry in enumerate(entries, 1):
        if not isinstance(entry, dict):
            mend = 'Write each as { x = "200 mm", girth = "180 mm" }.'
            raise source.error(f"{key}[{i}]", f"{entry!r} stands where a reading is wanted", mend)
    return cast("list[Table]", entries)


def _girth(entry: Table, number: int, source: Text, from_bow: float | None) -> Girth:
    path = f"girth[{number}]"
    source.known(entry, path, GIRTH)
    x = source.quantity(entry, path, "x", "length")
    return Girth(
        x=x if from_bow is None else from_bow - x,
        girth=source.quantity(entry, path, "girth", "length"),
        breadth=source.perhaps(entry, path, "breadth", "length"),
        number=number,
    )


def _moulding(contents: Table, source: Text) -> Moulding | None:
    found = contents.get("moulding")
    if found is None:
        return None
    if not isinstance(found, dict):
        raise source.error("moulding", "it is no table", "Begin it with a line [moulding].")
    entry = cast("Table", found)
    source.known(entry, "moulding", MOULDING)
    return Moulding(
        mass=source.quantity(entry, "moulding", "mass", "mass"),
        edge=source.perhaps(entry, "moulding", "edge", "length") or 0.0,
    )


def _standing(entry: Table, path: str, source: Text, hull: tuple[Material, float, str]) -> Standing:
    source.known(entry, path, STANDING)
    made, length, end = hull
    x = source.quantity(entry, path, "x", "length")
    kinds = {"volume": "volume", "mass": "mass", "hung": "mass"}
    given = {
        key: source.perhaps(entry, path, key, kinds.get(key, "length"))
        for key in ("volume", "mass", "hung", "girth", "height", "wall")
    }
    is_shell = all(given[key] is not None for key in ("girth", "height", "wall"))
    if given["volume"] is None and given["mass"] is None and not is_shell:
        mend = "Give mass, or volume, or girth with height and wall."
        raise source.error(path, "nothing tells its volume", mend)
    return Standing(
        name=str(entry.get("name", f"thing {path[9:-1]}")),
        x=x if end == "stern" else length - x,
        material=material_of(entry, source, path, made),
        has_top=bool(entry.get("top", True)),
        **given,
    )


def _line(text: str, path: str) -> int | None:
    """Return the line of a field; of an inline list, that of the entry."""
    found = re.match(r"(\w+)(?:\[(\d+)\])?", path)
    if not found:
        return None
    key, count = found[1], int(found[2] or 0)
    start = re.search(rf"^\s*{key}\s*=\s*\[", text, flags=re.MULTILINE)
    if not start or not count:
        try:
            return line_of(text, path_of(path))
        except ValueError:
            return None
    sign = r"\{" if key == "girth" else r"[\"'\d][^,\]]*"
    entries = [start.end() + one.start() for one in re.finditer(sign, text[start.end() :])]
    at = entries[count - 1] if count <= len(entries) else start.start()
    return text.count("\n", 0, at) + 1
