"""How sure every figure is: spreads of masses, places and volumes carried through, first order."""

from trimdive.sure.changed import changed, changed_things
from trimdive.sure.figures import Figure, Sure, marks_of, sure
from trimdive.sure.spare import Spare, spare
from trimdive.sure.things import WIDE, Source, Thing, sources, things
from trimdive.sure.trials import reading_half, trials
from trimdive.sure.worth import ANY, Step, Told, Trial, doubts, order, steps

__all__ = [
    "ANY",
    "WIDE",
    "Figure",
    "Source",
    "Spare",
    "Step",
    "Sure",
    "Thing",
    "Told",
    "Trial",
    "changed",
    "changed_things",
    "doubts",
    "marks_of",
    "order",
    "reading_half",
    "sources",
    "spare",
    "steps",
    "sure",
    "things",
    "trials",
]
