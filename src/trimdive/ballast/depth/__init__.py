"""Other waters and greater depths: what to add or take out, and how deep she may go."""

from trimdive.ballast.depth.softness import (
    Depths,
    Soft,
    Softness,
    depths,
    open_tank_air,
    pressure_at,
    softness,
    solid_yielding,
    trapped,
    tube_yielding,
)
from trimdive.ballast.depth.waters import Change, as_foam, as_lead, change, changes, pull_for

__all__ = [
    "Change",
    "Depths",
    "Soft",
    "Softness",
    "as_foam",
    "as_lead",
    "change",
    "changes",
    "depths",
    "open_tank_air",
    "pressure_at",
    "pull_for",
    "softness",
    "solid_yielding",
    "trapped",
    "tube_yielding",
]
