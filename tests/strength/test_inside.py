"""Pressure inside: Boyle, Gay-Lussac and the force on a cap, worked out by hand."""

import pytest

from trimdive.errors import BoatFileError, GeometryError
from trimdive.strength import end_load, push_off, rod_pull, squeezed, warmed


def test_warmed_from_15_to_50() -> None:
    """101.325 · 35 / 288.15 = 12.31 kPa, 104.5 N on 104 mm."""
    assert warmed(15.0, 50.0) == pytest.approx(12_307, abs=5)
    assert end_load(warmed(15.0, 50.0), 0.104) == pytest.approx(104.5, abs=0.06)
    assert warmed(20.0, 20.0) == 0.0


def test_half_a_litre_of_four() -> None:
    """101.325 (4/3.5 - 1) = 14.475 kPa, 123.0 N on 104 mm."""
    assert squeezed(4e-3, 0.5e-3) == pytest.approx(14_475, abs=0.6)
    assert end_load(squeezed(4e-3, 0.5e-3), 0.104) == pytest.approx(123.0, abs=0.06)


def test_closed_with_the_tank_full() -> None:
    """3.5 L of air at rest, then 4 L: a vacuum of 101.325 / 8 kPa."""
    assert squeezed(3.5e-3, -0.5e-3) == pytest.approx(-101_325 / 8)


@pytest.mark.parametrize(("across", "force"), [(0.094, 680.6), (0.104, 833.1), (0.144, 1597.1)])
def test_ten_metres_on_a_cap(across: float, force: float) -> None:
    assert end_load(98_066.5, across) == pytest.approx(force, abs=0.06)


def test_a_cap_is_pushed_off_or_stays() -> None:
    load = end_load(14_475, 0.104)
    loose, held = push_off(14_475, 0.104, 0.0), push_off(14_475, 0.104, 2.01 * load)
    assert not loose.stays
    assert loose.load == pytest.approx(load)
    assert held.stays
    assert held.bears == pytest.approx(2.01)
    assert not push_off(14_475, 0.104, 1.5 * load).stays
    assert push_off(14_475, 0.104, 1.5 * load, wanted=1.4).stays


def test_a_vacuum_pulls_caps_on() -> None:
    sucked = push_off(-10_000, 0.104, 0.0)
    assert sucked.load == 0.0
    assert sucked.stays
    assert sucked.bears == float("inf")


def test_rods_share() -> None:
    assert rod_pull(3, 1069.0, 123.0) == pytest.approx(1192.0 / 3)
    with pytest.raises(GeometryError, match="0 tie rods hold nothing"):
        rod_pull(0, 1.0, 1.0)


def test_what_cannot_be() -> None:
    with pytest.raises(BoatFileError, match="takes 4 L of 4 L of air"):
        squeezed(4e-3, 4e-3)
    with pytest.raises(BoatFileError, match="-300 °C cannot be"):
        warmed(20.0, -300.0)
    with pytest.raises(GeometryError, match="diameter above 0"):
        push_off(1e4, 0.0, 0.0)
