"""From the tub back to the list: what was wrong, what it means, and the boat corrected."""

from trimdive.trials.correction.diagnosis import Meaning, meanings
from trimdive.trials.correction.story import Carrier, Found, Net, Story

__all__ = ["Carrier", "Found", "Meaning", "Net", "Story", "meanings"]
