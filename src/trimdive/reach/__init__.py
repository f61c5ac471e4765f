"""Reach: what water alone can cover, and the states that are to be covered."""

from trimdive.reach.polygon import Reach, Wanted, apart, reach
from trimdive.reach.states import wanted

__all__ = ["Reach", "Wanted", "apart", "reach", "wanted"]
