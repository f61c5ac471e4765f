"""Her plant for the whole boat: side by side with other kinds, fed, and failing."""

from trimdive.failsafe.compare import answers, compare
from trimdive.failsafe.failures import FAILURES, STARTS, FailureTable, Square, failures
from trimdive.failsafe.feeding import feeding
from trimdive.failsafe.lifting import charge, depth_meant, lift, meant, planned
from trimdive.failsafe.pressing import Pressed, pressed
from trimdive.rest.named import bound as bound_words
from trimdive.rest.named import deep as deep_words

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
