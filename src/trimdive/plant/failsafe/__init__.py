"""Her plant for the whole boat: side by side with other kinds, fed, and failing."""

from trimdive.hydrostatics.equilibrium.named import bound as bound_words
from trimdive.hydrostatics.equilibrium.named import deep as deep_words
from trimdive.plant.failsafe.compare import answers, compare
from trimdive.plant.failsafe.failures import FAILURES, STARTS, FailureTable, Square, failures
from trimdive.plant.failsafe.feeding import feeding
from trimdive.plant.failsafe.lifting import charge, depth_meant, lift, meant, planned
from trimdive.plant.failsafe.pressing import Pressed, pressed

__all__ = [
    "FAILURES",
    "STARTS",
    "FailureTable",
    "Pressed",
    "Square",
    "answers",
    "bound_words",
    "charge",
    "compare",
    "deep_words",
    "depth_meant",
    "failures",
    "feeding",
    "lift",
    "meant",
    "planned",
    "pressed",
]
