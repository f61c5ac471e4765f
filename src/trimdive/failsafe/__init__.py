"""Her plant for the whole boat: side by side with other kinds, fed, and failing."""

from trimdive.failsafe.compare import answers, compare
from trimdive.failsafe.failures import FAILURES, STARTS, FailureTable, Square, failures
from trimdive.failsafe.feeding import feeding
from trimdive.failsafe.lifting import (
    bound_words,
    charge,
    deep_words,
    depth_meant,
    lift,
    meant_words,
    planned,
)
from trimdive.failsafe.pressing import Pressed, pressed

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
    "meant_words",
    "planned",
    "pressed",
]
