"""Sinking and rising: drag of the plan form, against hand figures."""

from math import sqrt

import pytest

from trimdive.dive.sinking import speed


def test_fifty_grams_on_two_metres_by_a_fifth() -> None:
    """Common practice, no source: 50 g on a 2 m x 0.2 m plan area is about 5 cm/s, C_D 1."""
    assert speed(0.050, 0.4, 999.1, 1.0) == pytest.approx(0.05, rel=0.02)


def test_the_square_root_law() -> None:
    assert speed(0.2, 0.4, 999.1) == pytest.approx(2 * speed(0.05, 0.4, 999.1))
    by_hand = sqrt(2 * 0.1 * 9.80665 / (1000.0 * 0.3))
    assert speed(0.1, 0.3, 1000.0, 1.0) == pytest.approx(by_hand)
