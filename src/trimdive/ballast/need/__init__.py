"""How many litres of ballast water she needs, and where their centre must be."""

from trimdive.ballast.need.cures import Foam, Pairing, foam_instead, pair_for_bg, ranges, split
from trimdive.ballast.need.need import Need, Share, need

__all__ = [
    "Foam",
    "Need",
    "Pairing",
    "Share",
    "foam_instead",
    "need",
    "pair_for_bg",
    "ranges",
    "split",
]
