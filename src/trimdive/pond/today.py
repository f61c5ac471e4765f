"""What the water of the day asks for: what to add or take out, and what happens if nothing is done.

Everything depends on the water by its density alone. With the change made she floats, fills and
dives as in the water that she is trimmed for: all weights grow or shrink together.

Source: Archimedes.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from trimdive.ballast.depth import as_foam, as_lead, pull_for
from trimdive.hydrostatics.equilibrium import Rest, State, rest, state

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import Floater

LEVEL_PULL = 5e-4  # a change smaller than this is none [kg]


@dataclass(frozen=True, slots=True, kw_only=True)
class Today:
    """What a water of some density asks for, and how she is in it if nothing is done."""

    density: float  # of the water [kg/m³]
    lead: float  # to add in the wet; below 0 to take out [kg]
    foam: float  # to add as well, where less lead is aboard than must come out [m³]
    neutral: float  # tank water at which she is neutral if nothing is done [m³]
    rises: float  # how much higher she rides if nothing is done; nan where she sinks [m]
    trim: float  # as she hangs dived if nothing is done, by the bow [rad]; nan where she cannot
    short: float  # lift left with full tanks if nothing is done; below 0 she sinks [kg]


def today(her: "Assessment", density: float) -> Today:
    """Return what a water asks for.

    Args:
        her: The boat, trimmed for her own water.
        density: Of the other water [kg/m³].
    """
    boat = her.floater
    there = boat._replace(density=density)
    pull = pull_for(boat.mass, boat.density, density)
    wanted, aboard = as_lead(pull, density), her.masses.of_kind("lead")
    lead = max(wanted, -aboard)
    missing = pull * (1.0 - lead / wanted) if wanted else 0.0
    neutral = boat.volume - boat.mass / density
    full = float(her.full_water.sum())
    return Today(
        density=density,
        lead=lead,
        foam=as_foam(-missing, density) if missing < 0 else 0.0,
        neutral=neutral,
        rises=_rises(her, there),
        trim=_hangs(her, there, neutral),
        short=density * (boat.volume - full) - boat.mass,
    )


def _rises(her: "Assessment", there: "Floater") -> float:
    """Return how much higher she rides amidships in another water [m]; nan where she sinks."""
    at: Rest = her.surfaced.rest
    if at.under:
        return float("nan")
    found: State = state(there, rest(there, her.blown_water, start=at))
    if found.rest.under:
        return float("nan")
    return her.surfaced.draught(her.midships) - found.draught(her.midships)


def _hangs(her: "Assessment", there: "Floater", neutral: float) -> float:
    """Return how she hangs at the filling at which she is neutral [rad]; nan where there is none.

    Args:
        her: The boat.
        there: The boat in the other water.
        neutral: Tank water at which she is neutral [m³].
    """
    low, high = float(her.blown_water.sum()), float(her.full_water.sum())
    if not low <= neutral <= high or high <= low:
        return float("nan")
    waters = her.path.at((neutral - low) / (high - low))
    found = rest(there, np.asarray(waters), start=her.dived.rest, hanging=True)
    return state(there, found).trim_angle
