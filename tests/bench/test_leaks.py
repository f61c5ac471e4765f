"""Leak tests against the ideal gas law, by hand."""

import datetime

import pytest

from trimdive.bench import leak
from trimdive.boatfile.bench import LeakTest

DAY = datetime.date(2026, 5, 17)
WATER = {"depth": 3.0, "density": 999.1, "viscosity": 1.14e-6}


def reading(**more: float) -> LeakTest:
    """Return a test at 20 kPa of vacuum for half an hour."""
    answer: dict[str, object] = {
        "gauge_start": -20e3, "gauge_end": -20e3, "celsius_start": 20.0, "celsius_end": 20.0,
        "time": 1800.0,
    }  # fmt: skip
    return LeakTest(cylinder="tube", date=DAY, **{**answer, **more})


def test_nothing_lost_is_no_leak() -> None:
    found = leak(reading(), 4e-3, **WATER)
    assert found.lost == pytest.approx(0)
    assert found.water_in == 0
    assert found.passes


def test_warmth_alone_is_no_leak() -> None:
    """Gay-Lussac: air at 81.325 kPa warmed from 20 to 25 °C is at 82.712 kPa."""
    warm = 81325 * (25 + 273.15) / (20 + 273.15) - 101325
    found = leak(reading(gauge_end=warm, celsius_end=25.0), 4e-3, **WATER)
    assert found.lost == pytest.approx(0, abs=1e-9)


def test_weather_alone_is_no_leak() -> None:
    """A gauge reads against the air: 1 kPa less of it and the gauge falls by as much."""
    found = leak(
        reading(barometer_start=101e3, barometer_end=100e3, gauge_end=-19e3), 4e-3, **WATER
    )
    assert found.lost == pytest.approx(0, abs=1e-9)


def test_air_that_came_in_by_hand() -> None:
    """From -20 to -18 kPa: 2000/81325 of the air came in, 98.4 cm³ of 4 L at that pressure.

    Through a narrow way volume goes with the pressure across over the viscosity: at 3 m
    29.39 kPa drive it, 19 kPa did on average, and water is 1.14e-6 x 999.1 / 1.82e-5 as thick.
    """
    found = leak(reading(gauge_end=-18e3), 4e-3, **WATER)
    assert found.lost == pytest.approx(2000 / 81325)
    litres = 4e-3 * 2000 / 101325 / 1800
    driven = 9.80665 * 999.1 * 3 / 19e3
    thick = 1.82e-5 / (1.14e-6 * 999.1)
    assert found.water_in == pytest.approx(litres * driven * thick, rel=1e-6)
    assert found.passes, "3.9 ml an hour"
    assert not leak(reading(gauge_end=-10e3), 4e-3, **WATER).passes


def test_a_pressure_test_counts_the_other_way() -> None:
    found = leak(reading(gauge_start=20e3, gauge_end=18e3), 4e-3, **WATER)
    assert found.lost == pytest.approx(2000 / 121325)
