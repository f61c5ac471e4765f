"""A water with its figures, and the waters that have a name."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from trimdive.data import table
from trimdive.water.densities import Kind, checked_kind, density
from trimdive.water.viscosities import viscosity


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """Water of one kind, temperature and salt, with what follows from them."""

    kind: Kind  # fresh, sea or pool
    celsius: float  # temperature [°C]
    salt: float  # dissolved salt [g/kg]
    density: float  # at the surface [kg/m³]
    viscosity: float  # kinematic [m²/s]


def water(kind: str, celsius: float, salt: float = 0.0) -> Water:
    """Return the water of this kind, temperature and salt.

    Args:
        kind: ``fresh``, ``sea`` or ``pool``.
        celsius: Temperature [°C].
        salt: Dissolved salt [g/kg].

    Raises:
        WaterError: The kind is unknown, or its source does not reach so far.
    """
    return Water(
        kind=checked_kind(kind, celsius, salt),
        celsius=celsius,
        salt=salt,
        density=density(kind, celsius, salt),
        viscosity=viscosity(kind, celsius, salt),
    )


@cache
def waters() -> Mapping[str, Water]:
    """Return the waters of ``waters.csv`` by name, in its order: from a cold pond to the sea."""
    return MappingProxyType(
        {
            entry["key"]: water(entry["kind"], float(entry["celsius"]), float(entry["salt"]))
            for entry in table("waters")
        }
    )
