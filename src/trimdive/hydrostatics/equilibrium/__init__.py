"""How she floats and how she hangs: attitude, stability, and every other way she could rest."""

from trimdive.hydrostatics.equilibrium.floater import floater, tank_waters
from trimdive.hydrostatics.equilibrium.hydrostatics import State, state
from trimdive.hydrostatics.equilibrium.others import either_side, other_rests
from trimdive.hydrostatics.equilibrium.problem import Floater, Tanks
from trimdive.hydrostatics.equilibrium.solve import Rest, rest

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
