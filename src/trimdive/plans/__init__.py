"""From the picture of a builder's plan to the model's outline, with what its views disagree by."""

from trimdive.plans.picture import PlanPicture, picture_of

__all__ = [
    "PlanPicture",
    "picture_of",
]
