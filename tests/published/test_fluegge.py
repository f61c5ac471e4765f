"""Stresses in Shells, chapter on buckling: Flügge's equations of a tube under pressure all round.

Simply supported ends, pressure that follows the wall, u, v, w as sines and cosines: three equations
for each number of lobes, solved here as they stand. From memory; without ends they give the ring,
q = k (n² - 1), as they must. von Mises' formula is held against them.
"""

from math import pi

import numpy as np
import pytest
from scipy.linalg import eigvals

from trimdive.vessels.strength import collapse, material, stock, tube

CASES = [  # E, ν, outside, wall, length; worked out apart from the program, lobes
    (2800, 0.37, 110, 3, 400, 0.24589, 2),
    (2800, 0.37, 100, 3, 300, 0.41970, 2),
    (2800, 0.37, 150, 5, 500, 0.44366, 2),
    (2800, 0.37, 200, 5, 700, 0.21637, 2),
    (2350, 0.37, 100, 2, 300, 0.13880, 3),
    (3000, 0.38, 110, 3.2, 400, 0.30768, 2),
    (68900, 0.33, 100, 2, 400, 2.5738, 2),
    (30e6, 0.3, 16, 0.05, 8, 90.125, 9),
]


def in_lobes(slender: float, along: float, poisson: float, n: int) -> float:
    """Return q = p R (1-ν²) / E t of n lobes; slender is R/t and along λ = π R/L."""
    k, h, m = 1 / (12 * slender**2), (1 - poisson) / 2, along
    stiff = np.array(
        [
            [m**2 + h * n**2 * (1 + k), -(1 + poisson) / 2 * m * n,
             -poisson * m - k * (m**3 - h * m * n**2)],
            [0.0, n**2 + h * m**2 * (1 + 3 * k), n + (3 - poisson) / 2 * k * n * m**2],
            [0.0, 0.0, 1 + k * (m**4 + 2 * m**2 * n**2 + n**4 - 2 * n**2 + 1)],
        ]
    )  # fmt: skip
    both = n**2 + m**2 / 2
    pressed = np.array([[both, 0.0, m], [0.0, both, n], [0.0, 0.0, both]])
    stiff, pressed = (half + np.triu(half, 1).T for half in (stiff, pressed))
    found = eigvals(stiff, pressed)
    real = found[np.abs(found.imag) < 1e-9].real
    return float(real[real > 1e-12].min())


def fluegge(
    modulus: float, poisson: float, outside: float, wall: float, between: float
) -> tuple[float, int]:
    """Return collapse pressure and lobes by the shell equations."""
    radius = (outside - wall) / 2
    scale = modulus * wall / ((1 - poisson**2) * radius)
    along = pi * radius / between
    return min((scale * in_lobes(radius / wall, along, poisson, n), n) for n in range(2, 15))


@pytest.mark.parametrize(
    ("modulus", "poisson", "outside", "wall", "between", "pressure", "lobes"), CASES
)
def test_worked_cases(
    modulus: float, poisson: float, outside: float, wall: float, between: float,
    pressure: float, lobes: int,
) -> None:  # fmt: skip
    shell, waves = fluegge(modulus, poisson, outside, wall, between)
    assert shell == pytest.approx(pressure, rel=4e-5)  # five figures
    assert waves == lobes
    ours = collapse(tube(outside, wall, between), modulus, poisson)
    assert ours.pressure == pytest.approx(shell, rel=5e-3)
    assert ours.lobes == waves


@pytest.mark.parametrize("n", [2, 3, 7])
def test_without_ends_it_is_the_ring(n: int) -> None:
    assert in_lobes(20.0, 1e-4, 0.37, n) == pytest.approx((n**2 - 1) / (12 * 20.0**2), rel=1e-4)


def test_stock_tubes_of_every_length() -> None:
    """Every tube of the table with R/t from 8 up, from two to twelve diameters long."""
    ratios: dict[tuple[str, int], float] = {}
    for one in stock():
        made_of = material(one.material, 22.0)
        shape = tube(one.outside, one.wall, 1.0)
        if shape.radius / shape.wall < 8:
            continue
        for diameters in (2, 3, 5, 8, 12):
            between = diameters * one.outside
            shell, _ = fluegge(made_of.modulus, made_of.poisson, one.outside, one.wall, between)
            ours = collapse(tube(one.outside, one.wall, between), made_of.modulus, made_of.poisson)
            ratios[one.name, diameters] = ours.pressure / shell
    assert len(ratios) > 500
    assert min(ratios.values()) > 0.995
    assert max(ratios.values()) < 1.01
