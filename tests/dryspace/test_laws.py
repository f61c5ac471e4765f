"""Shut-in air: Boyle's and Gay-Lussac's laws, worked out by hand."""

import pytest

from trimdive.errors import BoatError
from trimdive.vessels.dryspace import FAST, pressure, warmed, water_at
from trimdive.vessels.strength import end_load

AIR = 101325.0


def test_half_a_litre_of_four() -> None:
    """Boyle: 101.325 (4/3.5 - 1) = 14.475 kPa; p A on 104 mm: 123.0 N."""
    over = pressure(4e-3, 0.5e-3) - AIR
    assert over == pytest.approx(14_475, abs=0.6)
    assert end_load(over, 0.104) == pytest.approx(123.0, abs=0.06)


def test_closed_with_the_tank_full() -> None:
    """Boyle: 3.5 L of air at rest, then 4 L: a vacuum of 101.325 / 8 kPa."""
    assert pressure(4e-3, 0.0, 0.5e-3) - AIR == pytest.approx(-101_325 / 8)


def test_warmed_from_15_to_50() -> None:
    """Gay-Lussac: 101.325 · 35 / 288.15 = 12.307 kPa; p A on 104 mm: 104.5 N."""
    over = AIR * (warmed(15.0, 50.0) - 1)
    assert over == pytest.approx(12_307, abs=5)
    assert end_load(over, 0.104) == pytest.approx(104.5, abs=0.06)
    assert warmed(20.0, 20.0) == 1.0


def test_squeezed_at_once() -> None:
    """Poisson with 1.4: half the room, 2^1.4 = 2.639 times the pressure."""
    assert pressure(1e-3, 0.5e-3, exponent=FAST) / AIR == pytest.approx(2.639, abs=5e-4)


@pytest.mark.parametrize("water", [0.0, 0.2e-3, 0.9e-3])
def test_the_water_at_a_pressure_is_the_other_way_round(water: float) -> None:
    assert water_at(1e-3, 0.1e-3, pressure(1e-3, water, 0.1e-3)) == pytest.approx(water)


def test_what_cannot_be() -> None:
    with pytest.raises(BoatError, match=r"4\.00 L of water leave no air of 4\.00 L"):
        pressure(4e-3, 4e-3)
    with pytest.raises(BoatError, match="-300 °C cannot be"):
        warmed(20.0, -300.0)
