"""Collapse by Instability of Thin Cylindrical Shells Under External Pressure, 1934; from memory.

Figures worked out apart from the program; the formula is shown for comparison only.
"""

import pytest

from trimdive.vessels.strength import collapse, single_formula, tube

CASES = [  # E, ν, outside, wall, length, collapse by the formula
    (2800, 0.37, 110, 3, 400, 0.27192),
    (2800, 0.37, 100, 3, 300, 0.42239),
    (2800, 0.37, 150, 5, 500, 0.49657),
    (2800, 0.37, 200, 5, 700, 0.22647),
    (2350, 0.37, 100, 2, 300, 0.12609),
    (3000, 0.38, 110, 3.2, 400, 0.34580),
    (68900, 0.33, 100, 2, 400, 2.6925),
    (30e6, 0.3, 16, 0.05, 8, 89.998),
]


@pytest.mark.parametrize(("modulus", "poisson", "outside", "wall", "between", "pressure"), CASES)
def test_formula(
    modulus: float, poisson: float, outside: float, wall: float, between: float, pressure: float
) -> None:
    found = single_formula(tube(outside, wall, between), modulus, poisson)
    assert found == pytest.approx(pressure, rel=4e-5)  # five figures


def test_constant_for_metals() -> None:
    """The paper's own constant, 2.60 E at ν = 0.3."""
    shape = tube(101.0, 1.0, 200.0)
    found = single_formula(shape, 1.0, 0.3)
    assert found == pytest.approx(2.60 * 0.01**2.5 / (2.0 - 0.45 * 0.1), rel=2e-3)


def test_it_promises_too_much_for_thick_plastic_tubes() -> None:
    """Up to 12 % above the shell theory: pipe of 110 × 3.2 × 400, Flügge 0.30768."""
    shape = tube(110, 3.2, 400)
    found = single_formula(shape, 3000, 0.38)
    assert found is not None
    assert found / 0.30768 == pytest.approx(1.124, abs=2e-3)
    assert collapse(shape, 3000, 0.38).pressure / 0.30768 < 1.005


def test_it_ends_for_very_short_tubes() -> None:
    assert single_formula(tube(100, 10, 5), 2800, 0.37) is None
