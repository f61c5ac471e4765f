"""Reach: what water alone can cover, and the states that are to be covered."""

from trimdive.ballast.reach.covered import covered
from trimdive.ballast.reach.polygon import Reach, Wanted, apart, reach
from trimdive.ballast.reach.remedy import Weight, remedy
from trimdive.ballast.reach.states import otherwise, spreads, wanted

__all__ = [
    "Reach",
    "Wanted",
    "Weight",
    "apart",
    "covered",
    "otherwise",
    "reach",
    "remedy",
    "spreads",
    "wanted",
]
