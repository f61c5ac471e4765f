"""What can be asked: each figure by its key, and what tells of it."""

import re
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from typing import TYPE_CHECKING

from trimdive.errors import AskError
from trimdive.why.afloat import (
    bg,
    bg_upright,
    draught,
    gm_empty,
    gm_least,
    kb_dived,
    kg_dived,
    marks,
    trim_angle,
)
from trimdive.why.ballast import (
    light_by,
    litres_centre,
    litres_needed,
    neutral,
    off_plumb_line,
    rule_of_thumb,
    tank_centre,
    tank_volume,
    tank_water_centre,
    volume_above,
)
from trimdive.why.found import figure_behind, found_keys, of_finding
from trimdive.why.moving import (
    full_excess,
    lead_for_density,
    lead_for_water,
    lift_blown,
    rises,
    sinks,
)
from trimdive.why.weights import dry_mass, x_of_g, z_of_g

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.why.why import Why

    AsSheLies = Callable[[Assessment, State], Why]
    OfOne = Callable[[Assessment, str], Why]  # of the mark, tank or water of a name

PLAIN: "Mapping[str, AsSheLies]" = {
    "trim": trim_angle,
    "light-or-heavy": light_by,
    "bg": bg,
    "bg-upright": bg_upright,
    "litres-needed": litres_needed,
    "litres-centre": litres_centre,
    "tank-water-centre": tank_water_centre,
    "tank-water-offset": off_plumb_line,
    "neutral-filling": neutral,
    "gm-empty": gm_empty,
    "gm-least": gm_least,
    "dry-mass": dry_mass,
    "x-of-g": x_of_g,
    "z-of-g": z_of_g,
    "kb-dived": kb_dived,
    "kg-dived": kg_dived,
    "volume-above": volume_above,
    "rule-of-thumb": rule_of_thumb,
    "sinks": sinks,
    "rises": rises,
}
OF_ONE: "Mapping[str, OfOne]" = {
    "draught": draught,
    "tank-volume": tank_volume,
    "tank-centre": tank_centre,
    "lead-for-water": lead_for_water,
}
DENSITY = re.compile(r"(9[5-9]|10[0-4])\d(\.\d{1,4})?")  # of any water [kg/m³], not listed
NEED_TANKS = {"tank-water-centre", "tank-water-offset", "neutral-filling"}
NEED_WATERLINE = {"litres-needed", "litres-centre", "volume-above", "rule-of-thumb"}


def keys(her: "Assessment") -> tuple[str, ...]:
    """Return every key that can be asked of a boat, the plain ones first."""
    has_line = her.boat.waterline is not None and her.need.volume > 0
    out = set[str]() if has_line else NEED_WATERLINE | {"tank-water-centre", "tank-water-offset"}
    if not her.boat.tanks:
        out |= NEED_TANKS
    if her.surfaced.rest.under:
        out |= {"gm-empty"}
    out |= {
        key for key, pull in (("sinks", full_excess(her)), ("rises", lift_blown(her))) if pull <= 0
    }
    return (*(key for key in PLAIN if key not in out), *_of_one(her))


def _of_one(her: "Assessment") -> tuple[str, ...]:
    places = [name for name, _ in marks(her)] if her.surfaced.has_draughts else []
    moving = zip(her.boat.tanks, her.full_water - her.blown_water, strict=True)
    tanks = [tank.name for tank, room in moving if room > 0]
    return (
        *(f"draught/{name}" for name in places),
        *(f"tank-volume/{name}" for name in tanks),
        *(f"tank-centre/{name}" for name in tanks),
        *(f"lead-for-water/{one.name}" for one in her.changes),
        *found_keys(her),
    )


def why(her: "Assessment", key: str, state: "State | None" = None) -> "Why":
    """Return why a figure is what it is.

    Args:
        her: The boat.
        key: Of the figure; what it is of follows a stroke, as in "tank-volume/forward tank".
        state: How she lies, for a figure that depends on it; left out, dived or as low as she goes.

    Raises:
        AskError: There is no such figure of her.
    """
    first, _, rest = key.partition("/")
    known = keys(her)
    if first == "lead-for-density" and DENSITY.fullmatch(rest):
        return lead_for_density(her, rest)
    if key not in known:
        near = get_close_matches(key, known, n=1, cutoff=0.5)
        mend = f"Did you mean '{near[0]}'?" if near else f"Ask one of: {', '.join(known[:20])}."
        raise AskError(f"there is no figure '{key}' of {her.boat.name}", "why", mend)
    if first in PLAIN:
        return PLAIN[first](her, state or her.lowest)
    if first == "finding":
        return _finding(her, rest, known)
    return OF_ONE[first](her, rest)


def _finding(her: "Assessment", name: str, known: tuple[str, ...]) -> "Why":
    key = figure_behind(her, name)
    state = her.full if key == "light-or-heavy" else her.lowest
    return of_finding(her, name, PLAIN[key](her, state) if key in known else None)
