"""Units that are too rare for the table: asked of a general units library, loaded only then."""

import re
from functools import cache

from pint import UnitRegistry
from pint.errors import PintError

SI = {
    "length": "m",
    "mass": "kg",
    "volume": "m^3",
    "area": "m^2",
    "angle": "rad",
    "pressure": "Pa",
    "current": "A",
    "voltage": "V",
    "charge": "C",
    "time": "s",
    "speed": "m/s",
    "density": "kg/m^3",
    "force": "N",
    "power": "W",
    "energy": "J",
    "flow": "m^3/s",
    "areal mass": "kg/m^2",
    "conductivity": "S/m",
    "resistance": "ohm",
}
PLAIN = re.compile(r"[A-Za-zµ]+(?:[ /][A-Za-zµ]+)*(?:\^?[23²³])?")  # no arithmetic
SHORTEST = 3  # letters; shorter names are slips more often than rare units


@cache
def _registry() -> UnitRegistry[float]:
    """Return the library's table of units, read once."""
    return UnitRegistry()


def factor_of(name: str, kind: str) -> float | None:
    """Return how many SI units of that kind one of these makes, or None."""
    if len(name) < SHORTEST or kind not in SI or not PLAIN.fullmatch(name):
        return None
    try:
        return float(
            _registry().Quantity(1.0, name.replace("²", "^2").replace("³", "^3")).m_as(SI[kind])
        )
    except (PintError, ValueError, TypeError, AttributeError, SyntaxError, AssertionError):
        return None


def kind_of(name: str) -> str | None:
    """Return the kind of quantity that a rare unit measures, or None."""
    return next((kind for kind in SI if factor_of(name, kind) is not None), None)
