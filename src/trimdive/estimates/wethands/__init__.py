"""Wet hands: what ails a boat that is in no file, found at the tub, and the piece that mends it."""

from trimdive.errors import DisagreementError
from trimdive.estimates.wethands.cures import Piece
from trimdive.estimates.wethands.engine import Cause, Open
from trimdive.estimates.wethands.figure import Figure
from trimdive.estimates.wethands.known import Known, Reply, begun
from trimdive.estimates.wethands.moments import Moment
from trimdive.estimates.wethands.questions import BY_KEY, Question
from trimdive.estimates.wethands.session import Remedy, Step, step

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
