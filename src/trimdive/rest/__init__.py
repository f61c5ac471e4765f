"""How she floats and how she hangs: attitude, stability, and every other way she could rest."""

from trimdive.rest.floater import floater, tank_waters
from trimdive.rest.hydrostatics import State, state
from trimdive.rest.others import either_side, other_rests
from trimdive.rest.problem import Floater, Tanks
from trimdive.rest.solve import Rest, rest

__all__ = [
    "Floater",
    "Rest",
    "State",
    "Tanks",
    "either_side",
    "floater",
    "other_rests",
    "rest",
    "state",
    "tank_waters",
]
