"""Text out: what is written is read back, and carries no more digits than a builder reads."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimdive.units import Spread, exact, number_in, read, read_spread, write, write_spread
from trimdive.units.table import Unit, units

NUMBERS = st.floats(-1e6, 1e6, allow_nan=False)


@given(number=NUMBERS, unit=st.sampled_from(units()))
def test_what_is_written_is_read_back_to_its_digits(number: float, unit: Unit) -> None:
    value = number * unit.factor
    shown = write(value, unit.kind, unit.name)
    is_large = abs(unit.number(value)) >= 99 and unit.decimals
    half_a_digit = 0.5 * 10.0**-unit.decimals * (10 if is_large else 1)
    if unit.name.endswith("salt"):
        shown = shown.replace(" salt", "")
    back = number_in(read(shown, unit.kind), unit.kind, unit.name)
    assert abs(back - unit.number(value)) <= half_a_digit * 1.001 + abs(number) * 1e-12


@given(value=NUMBERS, unit=st.sampled_from(units()))
def test_exact_text_gives_back_the_very_number(value: float, unit: Unit) -> None:
    assert read(exact(value, unit.kind, unit.name), unit.kind) == value


@given(scale=st.floats(1e-3, 1e4))
def test_exact_scales(scale: float) -> None:
    assert read(exact(scale, "ratio"), "ratio") == scale


@given(size=st.floats(0, 1e3), is_share=st.booleans())
def test_exact_spreads(size: float, is_share: bool) -> None:
    spread = Spread(size, is_share=is_share)
    assert read_spread(write_spread(spread, "oz")) == spread


@pytest.mark.parametrize(
    ("value", "kind", "unit", "text"),
    [
        (0.154, "length", "mm", "154 mm"),
        (0.0123, "length", "mm", "12.3 mm"),
        (2.3, "length", "mm", "2300 mm"),
        (-0.0000001, "length", "mm", "0.0 mm"),
        (0.3048, "length", "in", "12.00 in"),
        (0.0853, "mass", "g", "85 g"),
        (23.925, "mass", "g", "23925 g"),
        (23.925, "mass", "kg", "23.925 kg"),
        (0.002423, "volume", "L", "2.423 L"),
        (math.radians(12.34), "angle", "°", "12.3°"),
        (0.89, "percent", "%", "89.0 %"),
        (13.9, "temperature", "°F", "57.0 °F"),
        (24.0, "ratio", "", "1:24"),
    ],
)
def test_sensible_digits(value: float, kind: str, unit: str, text: str) -> None:
    assert write(value, kind, unit) == text  # style: what a builder reads off a rule or a scale


def test_digits_may_be_asked_for() -> None:
    assert write(0.123456, "length", "mm", 3) == "123.456 mm"
