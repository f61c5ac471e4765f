"""Every unit of the table against a general units library (pint), and the kinds against SI."""

import math
from fractions import Fraction

import pint
import pytest

from trimdive.errors import UnitError
from trimdive.units import kinds, most, within
from trimdive.units.table import Unit, by_name, units

REGISTRY = pint.UnitRegistry()
SI = {
    "length": "m", "mass": "kg", "volume": "m^3", "area": "m^2", "angle": "rad",
    "temperature": "degC", "pressure": "Pa", "current": "A", "voltage": "V", "charge": "C",
    "time": "s", "speed": "m/s", "density": "kg/m^3", "percent": "", "force": "N",
    "energy": "J", "power": "W", "torque": "N m", "flow": "m^3/s", "salt": "g/kg",
    "areal mass": "kg/m^2", "speed of turning": "1/s", "conductivity": "S/m", "resistance": "ohm",
}  # fmt: skip
SPELT = {  # where the library spells a unit otherwise
    "ton (UK)": "long_ton", "ton (US)": "short_ton", "gal (US)": "gallon",
    "gal (UK)": "imperial_gallon", "fl oz (US)": "fluid_ounce",
    "fl oz (UK)": "imperial_fluid_ounce", "pt (US)": "pint", "pt (UK)": "imperial_pint",
    "qt (US)": "quart", "qt (UK)": "imperial_quart", "st": "stone", "thou": "thou",
    "°": "degree", "arcmin": "arcminute", "arcsec": "arcsecond", "°C": "degC", "°F": "degF",
    "kn": "knot", "%": "percent", "‰": "permille", "kgf": "kilogram_force", "gf": "gram_force",
    "lbf": "pound_force", "ozf": "ounce_force", "PS": "metric_horsepower",
    "kgf cm": "kilogram_force * cm", "ozf in": "ounce_force * inch", "% salt": "percent",
    "‰ salt": "permille", "rpm": "1/min", "rev/s": "1/s", "Ω": "ohm", "mΩ": "milliohm",
    "d": "day", "h": "hour", "L": "liter", "C": "coulomb", "in": "inch",
}  # fmt: skip


def spelt(unit: Unit) -> str:
    plain = SPELT.get(unit.name, unit.name)
    return plain.replace("²", "^2").replace("³", "^3")


@pytest.mark.parametrize("unit", units(), ids=lambda unit: f"{unit.kind}: {unit.name}")
@pytest.mark.parametrize("number", [1.0, -40.0])
def test_unit_agrees_with_a_general_library(unit: Unit, number: float) -> None:
    theirs = REGISTRY.Quantity(number, spelt(unit)).m_as(SI[unit.kind])
    assert unit.si(Fraction(number)) == pytest.approx(theirs, rel=1e-12, abs=1e-12)
    assert unit.number(theirs) == pytest.approx(number, rel=1e-12)


def test_defined_factors() -> None:
    # NIST Special Publication 811, appendix B.8: exact by definition.
    exact = {
        "in": 0.0254,
        "lb": 0.45359237,
        "gal (US)": 3.785411784e-3,
        "gal (UK)": 4.54609e-3,
        "psi": 0.45359237 * 9.80665 / 0.0254**2,
        "kn": 1852 / 3600,
        "atm": 101325.0,
        "°": math.pi / 180,
    }
    found = {unit.name: unit.factor for unit in units()}
    for name, factor in exact.items():
        assert found[name] == pytest.approx(factor, rel=1e-15), name


def test_only_these_names_are_ambiguous() -> None:
    # Common practice, no source: measures that differ between the two sides of the Atlantic.
    doubtful = {name for (_, name), found in by_name().items() if len(found) > 1}
    assert doubtful == {
        "gal", "gallon", "gallons", "pt", "pint", "pints", "qt", "quart", "quarts", "fl oz",
        "ton", "tons",
    }  # fmt: skip


def test_every_kind_of_quantity_is_bounded() -> None:
    assert [kind for kind in (*kinds(), "ratio") if not most(kind) > 0.0] == []
    assert most("length") == 30.0
    assert most("full-size mass") == 1e10
    for kind in (*kinds(), "ratio"):
        edge = most(kind)
        assert within(edge, kind, "") == edge
        with pytest.raises(UnitError, match="more than a model boat can have"):
            within(-1.001 * edge, kind, "so much")
