"""How sure every figure is: spreads of masses, places and volumes carried through, first order."""

from trimdive.uncertainty.changed import changed, changed_things
from trimdive.uncertainty.figures import Figure, Sure, marks_of, sure
from trimdive.uncertainty.spare import Spare, spare
from trimdive.uncertainty.things import WIDE, Source, Thing, sources, things
from trimdive.uncertainty.trials import reading_half, trials
from trimdive.uncertainty.worth import ANY, Step, Told, Trial, doubts, order, steps

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
