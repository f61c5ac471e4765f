"""Variants of a boat side by side: their figures, and what differs in the boat file."""

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, cast

from trimdive.page.shelf import Shelf
from trimdive.pictures.drawings.words import figures

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

FOLDER = "variants"  # beside the boat file; each variant is a boat in a folder of its own


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One figure of a variant."""

    name: str
    value: str
    says: str  # a few words of explanation
    why: str = ""  # what to ask of it, of the boat on the page; "" for nothing


def shelf_of(boat_file: Path) -> Shelf:
    """Return the folder in which the variants of a boat lie."""
    return Shelf(boat_file.parent / FOLDER)


def lines_of(her: "Assessment") -> tuple[Line, ...]:
    """Return the figures by which variants are compared, in their order."""
    write = her.boat.units.write
    whys = ("", "light-or-heavy", "bg")
    found = [
        Line(name=name, value=value, says=says, why=why)
        for (name, value, says), why in zip(_three(her), whys, strict=True)
    ]
    mass = write(her.masses.mass, "mass")
    count = sum(one.weight == "put right" for one in her.first_findings)
    needed, tanks = write(her.need.volume, "volume"), write(her.need.fitted, "volume")
    found += [
        Line(name="litres needed", value=needed, says=f"tanks give {tanks}", why="litres-needed"),
        Line(name="lifted out", value=mass, says="tanks empty", why="dry-mass"),
        Line(name="to put right", value=str(count) if count else "nothing", says=""),
    ]
    return tuple(found)


def _three(her: "Assessment") -> list[tuple[str, str, str]]:
    """Return the three large figures, her lift under one name whichever way it lies."""
    (trim, *turned), _, (bg, *stood) = figures(her, her.lowest)
    _, weight, says = figures(her, her.full)[1]
    state = her.lowest_name
    return [
        (f"{trim}, {state}", *turned), ("tanks full", weight, says),
        (f"{bg}, {state}", *stood),
    ]  # type: ignore[list-item]  # fmt: skip


def differences(one: str, other: str) -> tuple[str, ...]:
    r"""Return what differs between the texts of two boat files, a line a field.

    >>> differences('[[tank]]\nname = "fore"\nx = "3 mm"', '[[tank]]\nname = "fore"\nx = "5 mm"')
    ('fore: x 3 mm → 5 mm',)
    >>> differences('', '[[lead]]\nmass = "5 g"')
    ('lead 1 added',)
    """
    return tuple(_between(tomllib.loads(one), tomllib.loads(other), ""))


def _between(one: dict[str, object], other: dict[str, object], where: str) -> Iterator[str]:
    for key in dict.fromkeys((*one, *other)):
        was, now = one.get(key), other.get(key)
        if was == now:
            continue
        if _is_list_of_tables(was) or _is_list_of_tables(now):
            yield from _pieces(key, _tables(was), _tables(now))
        elif isinstance(was, dict) and isinstance(now, dict):
            pair = cast("dict[str, object]", was), cast("dict[str, object]", now)
            yield from _between(*pair, f"{where}{key}: ")
        else:
            yield f"{where}{key} {_shown(was)} → {_shown(now)}"


def _is_list_of_tables(value: object) -> bool:
    return isinstance(value, list) and bool(value) and isinstance(value[0], dict)


def _tables(value: object) -> list[dict[str, object]]:
    return cast("list[dict[str, object]]", value) if _is_list_of_tables(value) else []


def _pieces(kind: str, was: list[dict[str, object]], now: list[dict[str, object]]) -> Iterator[str]:
    """Yield what differs in a list of pieces; a piece is known by its name, else by its number."""
    before, after = _named(kind, was), _named(kind, now)
    for name in dict.fromkeys((*before, *after)):
        if name not in after:
            yield f"{name} removed"
        elif name not in before:
            yield f"{name} added"
        else:
            yield from _between(before[name], after[name], f"{name}: ")


def _named(kind: str, pieces: list[dict[str, object]]) -> dict[str, dict[str, object]]:
    found: dict[str, dict[str, object]] = {}
    for number, piece in enumerate(pieces, 1):
        name = str(piece.get("name") or f"{kind} {number}")
        found[name if name not in found else f"{name} ({kind} {number})"] = piece
    return found


def _shown(value: object) -> str:
    if value is None:
        return "left out"
    return (
        ", ".join(map(str, cast("list[object]", value))) if isinstance(value, list) else f"{value}"
    )
