"""Figures of a starter boat as text in the builder's units, rounded as a careful person writes."""

from collections.abc import Mapping
from math import floor, log10

from trimdive.units import number_in, usual_names, write

FIGURES = {"mass": 2, "volume": 3}  # that a guess deserves [-]
FINEST = {"mm": 0.5, "cm": 0.05, "in": 0.01, "m": 0.0005, "ft": 0.001}  # of lengths [own unit]
FINE = {"mm": 2, "cm": 3, "in": 3, "m": 5, "ft": 4}  # decimals of a wall that was measured
SMALL = 40  # steps: shorter lengths are written finer [-]


def number(value: float, kind: str, units: dict[str, str]) -> str:
    """Return a figure with its unit, rounded.

    Args:
        value: The figure [SI].
        kind: What it measures.
        units: The builder's units by kind.

    >>> number(0.15432, "length", {"length": "mm"}), number(0.5, "mass", {"mass": "g"})
    ('154.5 mm', '500 g')
    """
    unit = units.get(kind) or usual_names(kind)[0]
    found = number_in(value, kind, unit)
    if kind == "length" and unit in FINEST:
        step = FINEST[unit] if abs(found) >= SMALL * FINEST[unit] else FINEST[unit] / 5
        return f"{_plain(round(found / step) * step)} {unit}"
    return f"{_plain(_rounded(found, FIGURES.get(kind, 3)))} {unit}"


def fine(value: float, units: Mapping[str, str]) -> str:
    """Return a wall as finely as it was measured.

    Args:
        value: The wall [m].
        units: The builder's units by kind.

    >>> fine(0.00145, {"length": "mm"}), fine(0.002, {"length": "mm"})
    ('1.45 mm', '2 mm')
    """
    unit = units.get("length") or usual_names("length")[0]
    text = write(value, "length", unit, FINE.get(unit, 3)).split()
    return " ".join([text[0].rstrip("0").rstrip("."), *text[1:]])


def exact_mass(value: float, units: dict[str, str]) -> str:
    """Return a mass that keeps the balance: to a gram, or to a hundredth of an ounce.

    Args:
        value: The mass [kg].
        units: The builder's units by kind.
    """
    unit = units.get("mass") or usual_names("mass")[0]
    step = {"g": 1.0, "kg": 0.001, "oz": 0.05, "lb": 0.002}.get(unit, 0.001)
    return f"{_plain(round(number_in(value, 'mass', unit) / step) * step)} {unit}"


def _rounded(value: float, figures: int) -> float:
    if not value:
        return 0.0
    digits = figures - 1 - floor(log10(abs(value)))
    return round(value, digits)


def _plain(value: float) -> str:
    return f"{value:.4f}".rstrip("0").rstrip(".")
