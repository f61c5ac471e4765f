"""Quantities as people type and read them: SI inside, units only here.

``read`` takes "14 in", "9 3/4 in", "3 lb 4 oz", "2,4 mm" or "57 °F"; ``write`` gives text back.
"""

from trimdive.units.bounds import most, within
from trimdive.units.reading import read, read_spread, unit_named
from trimdive.units.spread import Spread
from trimdive.units.table import Unit, factor_of, kinds, name_of, usual_names
from trimdive.units.writing import exact, number_in, write, write_fine, write_spread

__all__ = [
    "Spread",
    "Unit",
    "exact",
    "factor_of",
    "kinds",
    "most",
    "name_of",
    "number_in",
    "read",
    "read_spread",
    "unit_named",
    "usual_names",
    "within",
    "write",
    "write_fine",
    "write_spread",
]
