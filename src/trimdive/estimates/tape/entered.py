"""Readings as they are entered one by one: each looked at at once, beside those already there.

What was entered is kept by key, such as ``girth.3.x`` or ``standing.1.mass``, as typed; it makes
the file of tape readings, and an unfinished file gives it back.
"""

import re
from collections.abc import Mapping
from typing import cast

from trimdive.boatfile.loading import toml
from trimdive.errors import TapeError
from trimdive.estimates.tape.doubts import impossible
from trimdive.estimates.tape.typed import readings_in

Entered = dict[str, str]
TOP = ("name", "length", "kind", "material", "measured_from")
FILLER = {"length": "1 m", "material": "GRP", "girth": "0 mm", "volume": "1 ml"}  # not yet entered
IN_INCHES = ("in", "inch", "inches", '"', "ft", "foot", "feet")  # units of length
INCHES = {"mass": "oz", "volume": "in3"}  # the others that go with them
OWN = ("x", "girth", "breadth", "name", "mass", "hung", "material", "height", "wall", "volume")


def quoted(text: str) -> str:
    r"""Return a text as TOML writes it.

    >>> print(quoted('7 1/4"'))
    "7 1/4\""
    """
    plain = "".join(c for c in text if c.isprintable())
    return '"' + plain.replace("\\", "\\\\").replace('"', '\\"') + '"'


def text_of(entered: Mapping[str, str], head: str = "") -> str:
    """Return the file of tape readings.

    Args:
        entered: Entries as typed, by key; empty ones are left out.
        head: Its first line, a comment; "" for none.
    """
    kept = {key: text for key, text in entered.items() if text}
    lines = [
        *([head] if head else []),
        *(f"{key} = {quoted(kept[key])}" for key in TOP if key in kept),
    ]
    rows = [f"  {{ {_inline(one)} }}," for one in _numbered(kept, "girth") if "girth" in one]
    lines += ["girth = [", *rows, "]"] if rows else []
    if walls := [one[""] for one in _numbered(kept, "wall")]:
        lines.append(f"wall = [{', '.join(quoted(wall) for wall in walls)}]")
    if "unit" in kept:
        lines += ["", "[units]", f"length = {quoted(kept['unit'])}"]
        is_inches = kept["unit"].casefold() in IN_INCHES
        lines += [f'{kind} = "{unit}"' for kind, unit in INCHES.items() if is_inches]
    if "moulding.mass" in kept:
        lines += ["", "[moulding]"]
        lines += [f"{k} = {quoted(kept[f'moulding.{k}'])}" for k in ("mass", "edge")
                  if f"moulding.{k}" in kept]  # fmt: skip
    for thing in _numbered(kept, "standing"):
        lines += ["", "[[standing]]", *(f"{key} = {quoted(text)}" for key, text in thing.items())]
    return "\n".join(lines) + "\n"


def _inline(entry: Mapping[str, str]) -> str:
    return ", ".join(f"{key} = {quoted(text)}" for key, text in entry.items())


def _numbered(kept: Mapping[str, str], subject: str) -> list[Entered]:
    """Return the entries of a subject that stands several times, each by its fields."""
    found: dict[int, Entered] = {}
    for key, text in kept.items():
        at = re.fullmatch(rf"{subject}\.(\d+)\.?(\w*)", key)
        if at:
            found.setdefault(int(at[1]), {})[at[2]] = text
    return [found[number] for number in sorted(found)]


def entered_of(text: str, name: str) -> Entered:
    """Return what stands in a file of tape readings, complete or not.

    Raises:
        TapeError: It is no such file.
    """
    contents = cast("dict[str, object]", toml(text, name))
    units = contents.get("units")
    found: Entered = {}
    if isinstance(units, dict) and "length" in units:
        found["unit"] = str(cast("dict[str, object]", units)["length"])
    found |= {key: str(contents[key]) for key in TOP if key in contents}
    for subject in ("girth", "standing", "moulding", "wall"):
        found |= _flat(subject, contents.get(subject, []))
    if not found:
        raise TapeError("it holds no tape readings", name, "Name a file that tape kept.")
    return found


def _flat(subject: str, value: object) -> Entered:
    """Return a list or table of a file as entries."""
    if isinstance(value, dict):
        table = cast("dict[str, object]", value)
        return {f"{subject}.{key}": str(one) for key, one in table.items()}
    listed = cast("list[object]", value) if isinstance(value, list) else [value]
    found: Entered = {}
    for number, one in enumerate(listed, 1):
        if isinstance(one, dict):
            table = cast("dict[str, object]", one)
            found |= {f"{subject}.{number}.{key}": str(v) for key, v in table.items() if key in OWN}
        else:
            found[f"{subject}.{number}"] = str(one)
    return found


def look(entered: Mapping[str, str], key: str, text: str) -> None:
    """Refuse an entry that cannot be read, or cannot stand beside those already there.

    Args:
        entered: What is there already, by key.
        key: Of the entry.
        text: As typed; "" where it is left out, or where a list ends.

    Raises:
        TrimdiveError: It cannot be.
    """
    readings = readings_in(text_of(_filled({**entered, key: text}, key)), "the answers")
    for found in impossible(readings):
        if found.where in _paths(key, text):
            raise found


def _paths(key: str, text: str) -> tuple[str, ...]:
    """Return the places at which a mistake is this entry's own."""
    subject, number, field = (*key.split("."), "", "")[:3]
    if subject == "girth" and field == "x" and not text:  # the list ends
        return ("girth",)
    if key == "moulding.mass":
        return ("moulding", "wall")
    if not number.isdigit():
        return (key,)
    item = f"{subject}[{number}]"
    if field == "breadth":
        return (item, f"{item}.girth", f"{item}.breadth")
    return (f"{item}.{field}",) if field else (item,)


def _filled(entered: Mapping[str, str], key: str) -> Entered:
    """Return the entries with stand-ins for what follows later, so that they can be read."""
    found = {key: FILLER[key] for key in ("length", "material")}
    found |= {name: text for name, text in entered.items() if text}
    at = re.fullmatch(r"(girth|standing)\.(\d+)\.\w+", key)
    if at and at[1] == "girth" and found.get(key):
        found.setdefault(f"girth.{at[2]}.girth", FILLER["girth"])
    if at and at[1] == "standing":
        head = f"standing.{at[2]}"
        found.setdefault(f"{head}.x", "0 mm")
        tells = [f"{head}.mass", *(f"{head}.{one}" for one in ("girth", "height", "wall"))]
        if not found.get(tells[0]) and not all(found.get(one) for one in tells[1:]):
            found[f"{head}.volume"] = FILLER["volume"]
    return found
