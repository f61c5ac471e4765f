"""What may ail a boat in no file, in words: its name, how it shows, and what is no cure for it.

{low} and {high} stand for the end that hangs low dived and the other one, {way} for the way to the
low one.

Source: builders' practice at the tub [practice].
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trimdive.estimates.wethands import Cause, Known


@dataclass(frozen=True, slots=True)
class Ail:
    """The words of a cause."""

    name: str
    seen: str  # how it shows
    not_a_cure: str = ""  # what would not help


def ail_of(cause: "Cause", known: "Known") -> Ail:
    """Return the words of a cause for this boat.

    Args:
        cause: What may ail her.
        known: What is known of her.
    """
    words, low = AILS[cause.key], known.low_end
    ends = {
        "way": {"bow": "forward", "stern": "aft"}.get(low, "towards one end"),
        "low": low or "one end",
        "high": {"bow": "stern", "stern": "bow"}.get(low, "other end"),
    }
    return Ail(*(one.format(**ends) for one in (words.name, words.seen, words.not_a_cure)))


AILS: Mapping[str, Ail] = {
    "in order": Ail("nothing to fix", "level and at her waterline afloat and dived"),
    "weight": Ail(
        "weight too far {way}",
        "{low} heavy afloat and dived alike",
        "foam above the waterline",
    ),
    "tank": Ail("tank too far {way}", "level afloat and {low} heavy dived", "moving lead"),
    "foam": Ail(
        "foam or closed air above the waterline at the {high}",
        "level afloat and {low} heavy dived: it lifts the {high} only when she is under",
        "moving lead",
    ),
    "air": Ail("trapped air", "light or out of trim until she is rocked", "more lead"),
    "slack": Ail(
        "long tank part full",
        "trims with the tank part full and is level with it full",
        "lead or foam at the ends",
    ),
    "tank small": Ail(
        "tank too small for the volume above the waterline",
        "right afloat and will not go under",
        "more lead: she then floats low",
    ),
    "tank large": Ail(
        "tank too large for the volume above the waterline",
        "right afloat and heavy with the tank full",
        "less lead: she then floats high",
    ),
    "side weight": Ail("lead or battery to one side", "heels afloat and dived"),
    "side foam": Ail(
        "foam or air to one side above the waterline",
        "upright afloat and heels dived",
        "lead",
    ),
    "low": Ail(
        "floats low: foam above the waterline that belongs below",
        "low afloat and neutral dived",
        "less lead: she is then light dived",
    ),
    "high": Ail(
        "floats high: foam below the waterline that belongs above",
        "high afloat and neutral dived",
        "more lead: she then sinks dived",
    ),
    "under way": Ail(
        "thrust, planes or drag",
        "good afloat and trims only under way",
        "ballast",
    ),
}
