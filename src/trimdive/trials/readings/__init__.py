"""From readings in the tub to the boat that they are of."""

from trimdive.trials.readings.fit import Fit, chance_of, fit, update
from trimdive.trials.readings.lumps import Lump, Wrong, pieces, rooms, split, wrong
from trimdive.trials.readings.predicted import Off, Row, inclined, predicted, rows_of, slopes
from trimdive.trials.readings.repeats import Averaged, averaged, half_of
from trimdive.trials.readings.today import Listed, listed, today

__all__ = [
    "Averaged",
    "Fit",
    "Listed",
    "Lump",
    "Off",
    "Row",
    "Wrong",
    "averaged",
    "chance_of",
    "fit",
    "half_of",
    "inclined",
    "listed",
    "pieces",
    "predicted",
    "rooms",
    "rows_of",
    "slopes",
    "split",
    "today",
    "update",
    "wrong",
]
