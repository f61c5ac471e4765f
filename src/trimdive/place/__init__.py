"""Placing lead, foam and what may slide, so that both states come out right at once."""

from trimdive.place.apart import shared
from trimdive.place.free import room
from trimdive.place.lanes import Slide, contained, passes, slides
from trimdive.place.programme import Programme, Task, programme
from trimdive.place.rows import Row, Wishes, conditions
from trimdive.place.slots import Slot, foam_slots, keel_slots, of_piece, of_pocket, pieces_of
from trimdive.place.solve import Answer, Reached, Shortfall, answer, is_solvable, shortfalls
from trimdive.place.sums import Her, Sums, sums

__all__ = [
    "Answer",
    "Her",
    "Programme",
    "Reached",
    "Row",
    "Shortfall",
    "Slide",
    "Slot",
    "Sums",
    "Task",
    "Wishes",
    "answer",
    "conditions",
    "contained",
    "foam_slots",
    "is_solvable",
    "keel_slots",
    "of_piece",
    "of_pocket",
    "passes",
    "pieces_of",
    "programme",
    "room",
    "shared",
    "shortfalls",
    "slides",
    "sums",
]
