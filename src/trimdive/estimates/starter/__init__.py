"""A first boat file from length, kind of hull and material: guesses that float and dive at once."""

from trimdive.estimates.starter.build import Starter, starter
from trimdive.estimates.starter.meshed import DrawnHull, HowDrawn, drawn_hull
from trimdive.estimates.starter.taped import GirthKept, TapeEntry, wish_by_tape
from trimdive.estimates.starter.wish import Section, Wish, wish_by_mesh

__all__ = [
    "DrawnHull",
    "GirthKept",
    "HowDrawn",
    "Section",
    "Starter",
    "TapeEntry",
    "Wish",
    "drawn_hull",
    "starter",
    "wish_by_mesh",
    "wish_by_tape",
]
