"""Litres with a tape in ten minutes: from girths over the deck and the wall, before any hull."""

from trimdive.estimates.tape.answer import Cause, TapeResult, tape_litres
from trimdive.estimates.tape.doubts import Doubt
from trimdive.estimates.tape.readings import Girth, Moulding, Readings, Standing
from trimdive.estimates.tape.size import Size, size_of
from trimdive.estimates.tape.typed import parse

__all__ = [
    "Cause",
    "Doubt",
    "Girth",
    "Moulding",
    "Readings",
    "Size",
    "Standing",
    "TapeResult",
    "parse",
    "size_of",
    "tape_litres",
]
