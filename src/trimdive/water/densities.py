"""How much a cubic metre of water weighs, by kind, temperature and dissolved salt.

Sources: fresh [water-density-2001]; sea [teos-10]; pool [electrolyte-density-2004]. All of them
at the surface: 10 m of depth add 0.05 kg/m³, less than the thermometer leaves open.
"""

from typing import Literal, get_args

from trimdive.data import row
from trimdive.errors import WaterError

Kind = Literal["fresh", "sea", "pool"]
KINDS: tuple[Kind, ...] = get_args(Kind)

COLDEST, WARMEST = 0.0, 40.0  # where the sources hold [°C]
SALTIEST: dict[Kind, float] = {"fresh": 0.0, "sea": 42.0, "pool": 10.0}  # likewise [g/kg]


def density(kind: str, celsius: float, salt: float = 0.0) -> float:
    """Return the density of water at the surface [kg/m³].

    Args:
        kind: ``fresh``, ``sea`` or ``pool``.
        celsius: Temperature [°C].
        salt: Sea salt (absolute salinity), or common salt in a pool [g/kg].

    Raises:
        WaterError: The kind is unknown, or the source does not reach so far.

    Limits:
        0 to 40 °C; no salt in fresh water, to 42 g/kg in the sea, to 10 g/kg in a pool.

    Source:
        [water-density-2001]; [teos-10]; [electrolyte-density-2004].

    >>> round(density("fresh", 15.0), 1)
    999.1
    """
    match checked_kind(kind, celsius, salt):
        case "fresh":
            return fresh_density(celsius)
        case "sea":
            return sea_density(celsius, salt)
        case "pool":
            return pool_density(celsius, salt)


def checked_kind(kind: str, celsius: float, salt: float) -> Kind:
    """Return the kind if water of this kind, temperature [°C] and salt [g/kg] is known here.

    Raises:
        WaterError: It is not.
    """
    if kind not in KINDS:
        what = f"'{kind}' is no kind of water"
        raise WaterError(what, "water.kind", f"Write one of: {', '.join(KINDS)}.")
    if not COLDEST <= celsius <= WARMEST:
        what = f"{celsius:g} °C is outside {COLDEST:g} to {WARMEST:g} °C"
        raise WaterError(what, "water.temperature", "Write the temperature of liquid water.")
    if not 0.0 <= salt <= SALTIEST[kind]:
        raise _too_salt(kind, salt)
    return kind


def _too_salt(kind: Kind, salt: float) -> WaterError:
    """Return the error for salt [g/kg] that such water does not hold."""
    if kind == "fresh" and salt > 0.0:
        what = f"fresh water with {salt:g} g/kg of salt"
        mend = 'Leave the salt out, or write kind = "pool" or "sea".'
        return WaterError(what, "water.salt", mend)
    what = f"{salt:g} g/kg of salt is outside 0 to {SALTIEST[kind]:g} g/kg"
    mend = "A salt pool holds about 3, the sea 35 grams in a kilogram."
    return WaterError(what, "water.salt", mend)


def fresh_density(celsius: float) -> float:
    """Return the density of air-free fresh water [kg/m³].

    Args:
        celsius: Temperature [°C], 0 to 40.

    Source:
        [water-density-2001] equation 1; water that holds air is up to 0.004 kg/m³ lighter.

    >>> round(fresh_density(4.0), 3)
    999.975
    """
    rise = (celsius - 3.983035) ** 2 * (celsius + 301.797)
    return 999.974950 * (1.0 - rise / (522528.9 * (celsius + 69.34881)))


def sea_density(celsius: float, salt: float) -> float:
    """Return the density of sea water or brackish water at the surface [kg/m³].

    Args:
        celsius: Temperature as measured [°C], 0 to 40.
        salt: Absolute salinity [g/kg], 0 to 42.

    Source:
        [teos-10], the exact function of the temperature as measured.
    """
    from gsw import rho_t_exact  # loaded here: fresh water needs none of it

    return float(rho_t_exact(salt, celsius, 0.0))


def pool_density(celsius: float, salt: float) -> float:
    """Return the density of pool water [kg/m³].

    Args:
        celsius: Temperature [°C], 0 to 40.
        salt: Common salt [g/kg], 0 to 10.

    Limits:
        Within 0.15 kg/m³ of the full model from 15 to 30 °C.

    Source:
        [electrolyte-density-2004], its mean slope.
    """
    return fresh_density(celsius) + salt * float(row("constants", "pool-salt-slope")["value"])
