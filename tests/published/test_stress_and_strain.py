"""Roark's Formulas for Stress and Strain: table 35 case 19a, and circular plates, table 11.2."""

import pytest

from trimdive.vessels.strength import cap, collapse, long_tube, plain_stress, sag, tube
from trimdive.vessels.strength.caps import stresses


def test_table_35_case_19a() -> None:
    """Radius 6.75 in, t 0.375 in, E 29e6 psi, ν 0.29, long: printed 1.357e3 psi."""
    shape = tube(2 * 6.75 + 0.375, 0.375, 1e5)
    assert long_tube(shape, 29e6, 0.29) == pytest.approx(1357, abs=0.5)
    found = collapse(shape, 29e6, 0.29)
    assert found.pressure == pytest.approx(1357, abs=0.5)
    assert found.lobes == 2


def test_case_19a_reaches_as_far_as_printed() -> None:
    """From L = 4.90 R √(R/t) on the ends help little."""
    shape = tube(2 * 6.75 + 0.375, 0.375, 4.90 * 6.75 * (6.75 / 0.375) ** 0.5)
    share = collapse(shape, 29e6, 0.29).pressure / long_tube(shape, 29e6, 0.29)
    assert 1.0 < share < 1.05


# Worked out apart from the program; one sag was put down there as 0.7030 and is 0.70295:
# 5.37/1.37 times 0.0980665 · 75⁴ / (64 · 270 348).
PLATES = [  # p, a, t, E, ν; clamped stress and sag, supported stress and sag; all printed digits
    (1.0, 100, 10, 200_000, 0.3, "75.000", "0.08531", "123.75", "0.34781"),
    (0.0980665, 50, 8, 2800, 0.37, "2.873", "0.0692", "4.841", "0.2712"),
    (0.0980665, 75, 10, 2800, 0.37, "4.137", "0.1793", "6.971", "0.7029"),
    (0.0980665, 52, 6, 2800, 0.37, "5.524", "0.1919", "9.309", "0.7520"),
    (0.0980665, 50, 6, 68_900, 0.33, "5.108", "0.00688", "8.504", "0.02758"),
]


@pytest.mark.parametrize(
    ("pressure", "radius", "thickness", "modulus", "poisson", "s_c", "w_c", "s_s", "w_s"), PLATES
)
def test_plates(
    pressure: float, radius: float, thickness: float, modulus: float, poisson: float,
    s_c: str, w_c: str, s_s: str, w_s: str,
) -> None:  # fmt: skip
    for edge, stress, sags in (("clamped", s_c, w_c), ("supported", s_s, w_s)):
        shape = cap("cap", 2 * radius, thickness, edge)
        for found, printed in (
            (plain_stress(shape, poisson, pressure), stress),
            (sag(shape, modulus, poisson, pressure), sags),
        ):
            half = 0.5 * 10.0 ** -len(printed.split(".")[1])
            assert found == pytest.approx(float(printed), abs=1.01 * half, rel=0)


def test_supported_plates_are_most_stressed_in_the_middle() -> None:
    """Some say at the edge; there the stress along the radius is none."""
    shape = cap("cap", 200, 10)
    middle, edge = stresses(shape, 0.3, 0.0, 1.0), stresses(shape, 0.3, 100.0, 1.0)
    assert middle == pytest.approx((123.75, 123.75))
    assert edge[0] == pytest.approx(0.0, abs=1e-12)
    assert 0 < edge[1] < middle[1]
