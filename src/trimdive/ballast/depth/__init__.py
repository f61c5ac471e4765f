"""Other waters and greater depths: what to add or take out, and how deep she may go."""

from trimdive.ballast.depth.compressibility import (
    Compressibility,
    Depths,
    Soft,
    compressibility,
    depths,
    open_tank_air,
    pressure_at,
    solid_yielding,
    trapped,
    tube_yielding,
)
from trimdive.ballast.depth.waters import Change, as_foam, as_lead, change, changes, pull_for

__all__ = [
    "Change",
    "Compressibility",
    "Depths",
    "Soft",
    "as_foam",
    "as_lead",
    "change",
    "changes",
    "compressibility",
    "depths",
    "open_tank_air",
    "pressure_at",
    "pull_for",
    "solid_yielding",
    "trapped",
    "tube_yielding",
]
