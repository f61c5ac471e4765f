"""How thick water is: it sets drag, the flow through holes and the bite of a propeller.

Sources: fresh [water-viscosity-2008]; salt [sea-viscosity-2010].
"""

from trimdive.data import row
from trimdive.water.densities import checked_kind, density


def viscosity(kind: str, celsius: float, salt: float = 0.0) -> float:
    """Return the kinematic viscosity ν = µ/ρ [m²/s].

    Args:
        kind: ``fresh``, ``sea`` or ``pool``.
        celsius: Temperature [°C].
        salt: Dissolved salt [g/kg].

    Raises:
        WaterError: The kind is unknown, or the source does not reach so far.

    >>> round(viscosity("fresh", 15.0) * 1e6, 3)
    1.139
    """
    return dynamic_viscosity(kind, celsius, salt) / density(kind, celsius, salt)


def dynamic_viscosity(kind: str, celsius: float, salt: float = 0.0) -> float:
    """Return the dynamic viscosity µ at the surface [Pa·s].

    Args:
        kind: ``fresh``, ``sea`` or ``pool``.
        celsius: Temperature [°C].
        salt: Dissolved salt [g/kg]; a pool's common salt is taken as sea salt.

    Raises:
        WaterError: The kind is unknown, or the source does not reach so far.

    Source:
        [water-viscosity-2008] simple form at 0.1 MPa; [sea-viscosity-2010] equation 22.
    """
    checked_kind(kind, celsius, salt)
    return fresh_dynamic_viscosity(celsius) * thickening(celsius, salt)


def fresh_dynamic_viscosity(celsius: float) -> float:
    """Return the dynamic viscosity of fresh water [Pa·s].

    Args:
        celsius: Temperature [°C], 0 to 40.

    Source:
        [water-viscosity-2008], simple form at 0.1 MPa.
    """
    t = (celsius + float(row("constants", "zero-celsius")["value"])) / 300.0
    return 1e-6 * (280.68 * t**-1.9 + 511.45 * t**-7.7 + 61.131 * t**-19.6 + 0.45903 * t**-40.0)


def thickening(celsius: float, salt: float) -> float:
    """Return how many times as thick as fresh water the salt makes it [-].

    Args:
        celsius: Temperature [°C], 0 to 40.
        salt: Dissolved sea salt [g/kg], 0 to 42.

    Source:
        [sea-viscosity-2010] equation 22.
    """
    share = salt / 1000.0
    first = 1.541 + 1.998e-2 * celsius - 9.52e-5 * celsius**2
    second = 7.974 - 7.561e-2 * celsius + 4.724e-4 * celsius**2
    return 1.0 + first * share + second * share**2
