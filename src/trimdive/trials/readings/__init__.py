"""From readings in the tub to the boat that they are of."""

from trimdive.trials.readings.fit import Fit, chance_of, fit, update
from trimdive.trials.readings.foretold import Off, Row, foretold, inclined, rows_of, slopes
from trimdive.trials.readings.lumps import Lump, Wrong, pieces, rooms, split, wrong
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
    "foretold",
    "half_of",
    "inclined",
    "listed",
    "pieces",
    "rooms",
    "rows_of",
    "slopes",
    "split",
    "today",
    "update",
    "wrong",
]
