"""The dive: every moment from surfaced to dived and back, at rest."""

from trimdive.ballast.dive.bays import Bays, bays
from trimdive.ballast.dive.path import Path, planned
from trimdive.ballast.dive.table import Dive, Event, Happens, Jump, Moment, dive

__all__ = ["Bays", "Dive", "Event", "Happens", "Jump", "Moment", "Path", "bays", "dive", "planned"]
