"""The air in each dry space: how much there is, what takes room in it, and its pressure."""

from trimdive.vessels.dryspace.laws import FAST, pressure, warmed, water_at
from trimdive.vessels.dryspace.space import DrySpace, Taker, dry_spaces
from trimdive.vessels.dryspace.states import Inside, insides

__all__ = [
    "FAST",
    "DrySpace",
    "Inside",
    "Taker",
    "dry_spaces",
    "insides",
    "pressure",
    "warmed",
    "water_at",
]
