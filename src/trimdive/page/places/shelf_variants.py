"""Variants of the boat on the page, side by side with her."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from trimdive.assessment import Assessment
from trimdive.boatfile import load
from trimdive.boatfile.loading import stamp_of
from trimdive.errors import TrimdiveError
from trimdive.geometry.solids.beside import read_beside
from trimdive.page.units import in_choice
from trimdive.page.variants import Line, differences, lines_of, shelf_of

if TYPE_CHECKING:
    from trimdive.page.desk import Desk

MOST = 6  # variants shown side by side
SHOWN = 30  # differences told of one
KEPT = 32
_made: dict[str, tuple[Line, ...]] = {}  # figures by what a boat is made of


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One variant."""

    name: str  # "" for the boat as she is
    lines: tuple[Line, ...]  # her figures; empty where she cannot be opened
    differs: tuple[str, ...]  # from the boat as she is
    more: int  # differences not told
    trouble: str  # why she cannot be opened


def known_variants(desk: "Desk") -> tuple[str, ...]:
    """Return the names of the variants that are put by."""
    return shelf_of(desk.path).names()


@dataclass(frozen=True, slots=True, kw_only=True)
class Own:
    """The boat as she is, to be compared with."""

    text: str
    lines: tuple[Line, ...]
    units: str  # chosen


def as_she_is(desk: "Desk") -> Own:
    """Return the boat on the page, to be compared with."""
    text, files = desk.written()
    lines = _lines(text, files, desk.own.her, desk.units)
    return Own(text=text, lines=lines, units=desk.units)


def compared(path: Path, own: Own) -> tuple[Column, ...]:
    """Return the boat as she is and the variants put by beside her file."""
    first = Column(name="", lines=own.lines, differs=(), more=0, trouble="")
    names = shelf_of(path).names()[:MOST]
    return (first, *(_column(path, name, own) for name in names))


def _column(path: Path, name: str, own: Own) -> Column:
    try:
        loaded = load(shelf_of(path).file_of(name))
        files = read_beside(loaded)
        her = Assessment(boat=loaded.boat, files=files)
        found = differences(own.text, loaded.text)
        return Column(
            name=name,
            lines=_lines(loaded.text, files, her, own.units),
            differs=found[:SHOWN],
            more=max(len(found) - SHOWN, 0),
            trouble="",
        )
    except TrimdiveError as error:
        return Column(name=name, lines=(), differs=(), more=0, trouble=str(error))


def _lines(text: str, files: dict[str, bytes], her: Assessment, units: str) -> tuple[Line, ...]:
    key = units + stamp_of(text.encode() + b"".join(files.values()))
    if key not in _made:
        if len(_made) >= KEPT:
            _made.clear()
        _made[key] = lines_of(in_choice(her, units))
    return _made[key]
