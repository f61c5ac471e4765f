"""From the picture of a builder's plan to the model's outline, with what its views disagree by."""

from trimdive.plans.level import Levelled, level
from trimdive.plans.photo import Photographed, photographed
from trimdive.plans.picture import PlanPicture, picture_of
from trimdive.plans.sheet import Checked, Known, Lens, Sheet, check_length
from trimdive.plans.snap import Snap, crossing, snapped

__all__ = [
    "Checked",
    "Known",
    "Lens",
    "Levelled",
    "Photographed",
    "PlanPicture",
    "Sheet",
    "Snap",
    "check_length",
    "crossing",
    "level",
    "photographed",
    "picture_of",
    "snapped",
]
