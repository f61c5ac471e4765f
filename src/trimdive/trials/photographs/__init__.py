"""A photograph of the boat afloat becomes readings: draught, trim, heel, each with its spread."""

from trimdive.trials.photographs.marked import points_of
from trimdive.trials.photographs.side import Side, side_of
from trimdive.trials.photographs.sighted import Further, Sighted, sighted
from trimdive.trials.photographs.together import Lies, together

__all__ = ["Further", "Lies", "Side", "Sighted", "points_of", "side_of", "sighted", "together"]
