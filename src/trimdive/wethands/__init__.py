"""Wet hands: what ails a boat that is in no file, found at the tub, and the piece that mends it."""

from trimdive.errors import DisagreementError
from trimdive.wethands.cures import Piece
from trimdive.wethands.engine import Cause, Open
from trimdive.wethands.figure import Figure
from trimdive.wethands.known import Known, Reply, begun
from trimdive.wethands.moments import Moment
from trimdive.wethands.questions import BY_KEY, Question
from trimdive.wethands.session import Remedy, Step, step

__all__ = [
    "BY_KEY",
    "Cause",
    "DisagreementError",
    "Figure",
    "Known",
    "Moment",
    "Open",
    "Piece",
    "Question",
    "Remedy",
    "Reply",
    "Step",
    "begun",
    "step",
]
