"""The dive: every moment from surfaced to dived and back, at rest."""

from trimdive.dive.bays import Bays, bays
from trimdive.dive.path import Path, planned
from trimdive.dive.table import Dive, Event, Happens, Jump, Moment, dive

__all__ = ["Bays", "Dive", "Event", "Happens", "Jump", "Moment", "Path", "bays", "dive", "planned"]
