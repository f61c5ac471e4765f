"""Placing lead, foam and what may slide, so that both states come out right at once."""

from trimdive.placing.solve.apart import shared
from trimdive.placing.solve.free import room
from trimdive.placing.solve.lanes import Slide, contained, passes, slides
from trimdive.placing.solve.programme import Programme, Task, programme
from trimdive.placing.solve.rows import Row, Wishes, conditions
from trimdive.placing.solve.slots import (
    Slot,
    foam_slots,
    keel_slots,
    of_piece,
    of_pocket,
    pieces_of,
)
from trimdive.placing.solve.solve import Answer, Reached, Shortfall, answer, is_solvable, shortfalls
from trimdive.placing.solve.sums import Her, Sums, sums

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
