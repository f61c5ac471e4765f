"""What the card says of a water: the dial in the browser says the same, from the same words.

A place in braces is filled with a quantity in the boat's units.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import degrees, isnan
from types import MappingProxyType
from typing import TYPE_CHECKING

from trimdive.hydrostatics.equilibrium.named import SMALL, is_zero, mass
from trimdive.pond.today import Today
from trimdive.units import unit_named

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

WORDS: Mapping[str, str] = MappingProxyType(
    {
        "nothing": "nothing to change",
        "add": "add {} of lead",
        "out": "remove {} of lead",
        "foam": "remove all lead, {}, and add {} of foam",
        "heavy": "is {} heavy with tanks full",
        "light": "is {} light with tanks full and will not dive",
        "as neutral": "is neutral with tanks full",
        "neutral": "is neutral with {} of tank water, {} %",
        "never": "cannot be neutral: the tanks are too small for this water",
        "sinks": "cannot be neutral: she sinks with her tanks blown",
        "as meant": "floats as in her own water",
        "higher": "floats {} higher amidships",
        "lower": "floats {} lower amidships",
        "drowns": "does not float",
        "level": "is level, dived at neutral",
        "bow": "has trim {} bow down, dived at neutral",
        "stern": "has trim {} stern down, dived at neutral",
        "no hang": "",
    }
)
KINDS = ("mass", "volume", "length", "angle", "temperature", "density")


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterWords:
    """What is said of a water."""

    ask: str  # what to add or take out
    full: str  # how heavy she is with full tanks if nothing is done
    neutral: str  # where she is neutral if nothing is done
    rides: str  # how she rides if nothing is done
    hangs: str  # how she hangs dived if nothing is done


def water_words(her: "Assessment", one: Today) -> WaterWords:
    """Return what is said of a water.

    Args:
        her: The boat, for her units and tanks.
        one: What the water asks for.
    """
    return WaterWords(
        ask=_ask(her, one),
        full=_full(her, one),
        neutral=_neutral(her, one),
        rides=_rides(her, one),
        hangs=_hangs(one),
    )


def _ask(her: "Assessment", one: Today) -> str:
    write, lead = her.boat.units.write, mass(her.boat, abs(one.lead))
    if one.foam > 0:
        return WORDS["foam"].replace("{}", lead, 1).replace("{}", write(one.foam, "volume"), 1)
    if is_zero(lead):
        return WORDS["nothing"]
    return WORDS["add" if one.lead > 0 else "out"].replace("{}", lead)


def _full(her: "Assessment", one: Today) -> str:
    short = mass(her.boat, abs(one.short))
    if is_zero(short):
        return WORDS["as neutral"]
    return WORDS["light" if one.short > 0 else "heavy"].replace("{}", short)


def _neutral(her: "Assessment", one: Today) -> str:
    room = float(her.floater.tanks.capacities.sum())
    if one.neutral > float(her.full_water.sum()):
        return WORDS["never"]
    if one.neutral < float(her.blown_water.sum()) or room <= 0:
        return WORDS["sinks"]
    water = her.boat.units.write(one.neutral, "volume")
    share = f"{100 * one.neutral / room:.0f}"
    return WORDS["neutral"].replace("{}", water, 1).replace("{}", share, 1)


def _rides(her: "Assessment", one: Today) -> str:
    if isnan(one.rises):
        return WORDS["drowns"]
    far = her.boat.units.write(abs(one.rises), "length")
    if is_zero(far):
        return WORDS["as meant"]
    return WORDS["higher" if one.rises > 0 else "lower"].replace("{}", far)


def _hangs(one: Today) -> str:
    if isnan(one.trim):
        return WORDS["no hang"]
    angle = f"{abs(degrees(one.trim)):.1f}°"
    if is_zero(angle):
        return WORDS["level"]
    return WORDS["bow" if one.trim > 0 else "stern"].replace("{}", angle)


def units_shown(her: "Assessment") -> dict[str, dict[str, object]]:
    """Return how quantities are written, for the dial: number = SI value · per - offset."""
    found: dict[str, dict[str, object]] = {}
    for kind in KINDS:
        name = her.boat.units.shown(kind) if kind != "density" else "kg/m³"
        unit = unit_named(name, kind)
        found[kind] = {
            "name": unit.name,
            "per": 1.0 / unit.factor,
            "offset": float(unit.offset),
            "decimals": unit.decimals,
            "small": SMALL if kind == "mass" and unit.decimals == 0 else 0.0,
        }
    return found
