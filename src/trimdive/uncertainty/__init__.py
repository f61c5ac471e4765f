"""How sure every figure is: spreads of masses, places and volumes carried through, first order."""

from trimdive.uncertainty.changed import changed, changed_things
from trimdive.uncertainty.figures import Figure, Uncertainty, marks_of, uncertainty
from trimdive.uncertainty.moment import Halves, Moment, halves, moment
from trimdive.uncertainty.spare import Spare, spare
from trimdive.uncertainty.things import WIDE, Source, Thing, sources, things
from trimdive.uncertainty.trials import reading_half, trials
from trimdive.uncertainty.worth import ANY, Gained, Step, Trial, doubts, order, steps

__all__ = [
    "ANY",
    "WIDE",
    "Figure",
    "Gained",
    "Halves",
    "Moment",
    "Source",
    "Spare",
    "Step",
    "Thing",
    "Trial",
    "Uncertainty",
    "changed",
    "changed_things",
    "doubts",
    "halves",
    "marks_of",
    "moment",
    "order",
    "reading_half",
    "sources",
    "spare",
    "steps",
    "things",
    "trials",
    "uncertainty",
]
