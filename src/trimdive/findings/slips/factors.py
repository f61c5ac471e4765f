"""The plain ways in which one figure slips: a decimal point, another unit, full size for model.

Each is a factor by which what is written must be multiplied to be what was meant.

Source: common practice, no source (what is found wrong in lists of weights).
"""

from dataclasses import dataclass
from math import isclose

from trimdive.fact import Fact, fact
from trimdive.units import unit_named

INCH = float(unit_named("in", "length").scale / unit_named("mm", "length").scale)  # [mm]
OUNCE = 28.349523125  # grams
TENS = (10.0, 0.1, 1000.0, 0.001, 100.0, 0.01)
HALVED = ("breadth", "diameter", "outside", "bore")  # figures of which half may be taken


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """One plain slip."""

    times: float  # what was meant over what is written [-]
    why: Fact
    rare: float  # how much rarer than a slipped decimal point, as a logarithm [-]
    is_converted: bool = False  # made larger by another unit or the scale, not by tens


def factors(kind: str, field: str, scale: float | None) -> tuple[Factor, ...]:
    """Return the plain slips of one figure.

    Args:
        kind: "length", "mass", "volume", "density" or "percent".
        field: Name of the figure, as in the boat file.
        scale: How many times larger the full-size boat is [-].

    >>> [one.times for one in factors("density", "density", 24.0)]
    [10.0, 0.1, 1000.0, 0.001]
    """
    found = [Factor(times=ten, why=_ten(kind, ten), rare=_rare(ten)) for ten in _tens(kind)]
    if kind == "length":
        found.append(
            Factor(
                times=INCH, why=fact("slip-unit", meant="millimetres", written="inches"), rare=0.5
            )
        )
        found.append(
            Factor(
                times=1 / INCH,
                why=fact("slip-unit", meant="inches", written="millimetres"),
                rare=0.5,
                is_converted=True,
            )
        )
        if field in HALVED:
            found.append(Factor(times=2.0, why=fact("slip-half"), rare=0.7))
            found.append(Factor(times=0.5, why=fact("slip-twice"), rare=0.7))
    if kind == "mass":
        found.append(
            Factor(times=OUNCE, why=fact("slip-unit", meant="grams", written="ounces"), rare=0.5)
        )
        found.append(
            Factor(
                times=1 / OUNCE,
                why=fact("slip-unit", meant="ounces", written="grams"),
                rare=0.5,
                is_converted=True,
            )
        )
    if scale and scale > 1.0 and kind in ("length", "mass", "volume"):
        power = 1 if kind == "length" else 3
        full, twice = fact("slip-full-size"), fact("slip-scaled-twice")
        for times, why in ((scale**-power, full), (scale**power, twice)):
            if not any(isclose(times, one.times, rel_tol=0.05) for one in found):
                found.append(Factor(times=times, why=why, rare=0.7, is_converted=times < 1))
    return tuple(found)


def _tens(kind: str) -> tuple[float, ...]:
    if kind == "percent":
        return TENS[:2]
    return TENS[:4] if kind == "density" else TENS


def _rare(ten: float) -> float:
    return 0.3 if ten in (100.0, 0.01) else 0.0


def _ten(kind: str, ten: float) -> Fact:
    """Return how a power of ten slips.

    >>> _ten("mass", 0.001), _ten("length", 10.0)
    (slip-unit(meant='kg', written='g'), slip-unit-or-point(meant='mm', written='cm'))
    """
    if kind == "length" and ten in (10.0, 0.1):
        meant, written = ("mm", "cm") if ten > 1 else ("cm", "mm")
        return fact("slip-unit-or-point", meant=meant, written=written)
    if kind == "length" and ten in (1000.0, 0.001):
        meant, written = ("mm", "m") if ten > 1 else ("m", "mm")
        return fact("slip-unit", meant=meant, written=written)
    if ten in (1000.0, 0.001):
        units = {"mass": ("g", "kg"), "volume": ("cm³", "L"), "density": ("kg/m³", "g/cm³")}
        if kind in units:
            small, large = units[kind]
            meant, written = (large, small) if ten < 1 else (small, large)
            return fact("slip-unit", meant=meant, written=written)
    return fact("slip-point")
