"""Variants of the boat on the page, side by side with her."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.assess import Assessment, read_beside
from trimdive.boatfile import load
from trimdive.boatfile.loading import stamp_of
from trimdive.errors import TrimdiveError
from trimdive.page.units import rewritten
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


def compared(desk: "Desk") -> tuple[Column, ...]:
    """Return the boat as she is and her variants."""
    text, files = desk.written()
    own = Column(
        name="", lines=_lines(text, files, desk.own.her, desk.units), differs=(), more=0, trouble=""
    )
    return (own, *(_column(desk, name, text) for name in known_variants(desk)[:MOST]))


def _column(desk: "Desk", name: str, text: str) -> Column:
    try:
        loaded = load(shelf_of(desk.path).file_of(name))
        files = read_beside(loaded)
        her = Assessment(boat=loaded.boat, files=files)
        found = differences(text, loaded.text)
        return Column(
            name=name,
            lines=_lines(loaded.text, files, her, desk.units),
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
        _made[key] = lines_of(rewritten(her, units))
    return _made[key]
