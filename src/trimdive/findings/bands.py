"""The band in which each figure should lie: what tells how much a spread matters."""

from trimdive.boatfile import Boat
from trimdive.findings.finding import limit_of


def bands(boat: Boat, mass: float, need: float, length: float) -> dict[str, float]:
    """Return the band of each figure, to either side, by its short name [m, kg, m³, rad].

    Args:
        boat: For limits of her own.
        mass: What she weighs, tanks blown [kg].
        need: Volume above the waterline [m³].
        length: Over all [m].
    """
    return {
        "draught": limit_of("waterline-band", boat).value,
        "trim surfaced": limit_of("trim-surfaced", boat).value,
        "heel surfaced": limit_of("heel", boat).value,
        "gm": limit_of("gm-least", boat).value,
        "trim dived": limit_of("trim-dived", boat).value,
        "heel dived": limit_of("heel", boat).value,
        "bg": limit_of("bg-least", boat).value * length,
        "lift left": limit_of("neutral-band", boat).value * mass,
        "need": limit_of("tank-margin", boat).value * need,
    }
