"""Water against published tables and general libraries; the source stands over each table."""

import gsw
import numpy as np
import pytest

from trimdive.water import density, dynamic_viscosity, viscosity

STANDARD_SEA = 35.16504  # reference salinity of standard sea water, TEOS-10 manual [g/kg]


# "Recommended table for the density of water between 0 °C and 40 °C", Metrologia 38, 2001; the
# rows 10, 15 to 20, 25 and 30 °C also stand in an independent table of water densities.
# Half the last printed digit.
@pytest.mark.parametrize(
    ("celsius", "published"),
    [
        (0.01, 999.8435),
        (4.0, 999.9749),
        (5.0, 999.9668),
        (10.0, 999.7027),
        (15.0, 999.1026),
        (16.0, 998.9459),
        (17.0, 998.7778),
        (18.0, 998.5984),
        (19.0, 998.4079),
        (20.0, 998.2067),
        (25.0, 997.0470),
        (30.0, 995.6488),
        (35.0, 994.0326),
    ],
)
def test_fresh_water_table(celsius: float, published: float) -> None:
    assert density("fresh", celsius) == pytest.approx(published, abs=5.1e-5, rel=0)


# IAPWS-95 for the same temperatures, by two general libraries of fluid properties that agree to
# the last digit printed. The two formulations differ by at most 0.0012 kg/m³.
@pytest.mark.parametrize(
    ("celsius", "other"),
    [
        (0.01, 999.8438),
        (4.0, 999.9749),
        (5.0, 999.9666),
        (10.0, 999.7025),
        (15.0, 999.1026),
        (20.0, 998.2072),
        (25.0, 997.0476),
        (30.0, 995.6495),
        (35.0, 994.0333),
    ],
)
def test_fresh_water_against_iapws_95(celsius: float, other: float) -> None:
    assert density("fresh", celsius) == pytest.approx(other, abs=0.0012, rel=0)


# "Determination of the absolute density of water at 16 °C and 0.101325 MPa", abstract:
# 998.9468 ± 0.0006, and at most 999.9756 ± 0.0008 kg/m³ at any temperature. Widened by the
# 0.0005 by which the isotopes of its water and of the table's water differ.
def test_fresh_water_measured_at_16_degrees() -> None:
    assert density("fresh", 16.0) == pytest.approx(998.9468, abs=0.0011, rel=0)
    greatest = max(density("fresh", celsius) for celsius in np.linspace(3.0, 5.0, 201))
    assert greatest == pytest.approx(999.9756, abs=0.0013, rel=0)


# Conservative temperatures and pressures of the worked example of the TEOS-10 function gsw_rho,
# teos-10 documentation: it vouches for the library that we ask, at depth too.
@pytest.mark.parametrize(
    ("salt", "conservative", "decibar", "published"),
    [
        (34.7118, 28.8099, 10.0, 1021.839935738108),
        (34.8915, 28.4392, 50.0, 1022.262457966867),
        (35.0256, 22.7862, 125.0, 1024.427195413316),
        (34.8472, 10.2262, 250.0, 1027.790152759127),
        (34.7366, 6.8272, 600.0, 1029.837779000189),
        (34.7324, 4.3236, 1000.0, 1032.002453224572),
    ],
)
def test_worked_example_of_teos_10(
    salt: float, conservative: float, decibar: float, published: float
) -> None:
    assert gsw.rho(salt, conservative, decibar) == pytest.approx(published, abs=1e-8, rel=0)
    # Brought to the surface, the same water by our function. The example uses the 75-term fit,
    # which stays within 0.005 kg/m³ of the exact function.
    celsius = float(gsw.t_from_CT(salt, conservative, 0.0))
    surface = float(gsw.rho(salt, conservative, 0.0))
    assert density("sea", celsius, salt) == pytest.approx(surface, abs=0.005, rel=0)


# Surface density by TEOS-10 (gsw.rho_t_exact), tabulated once with version 3.6.23.
SURFACE = {
    0.0: (999.9666, 999.7025, 999.1026, 998.2071, 997.0476, 995.6495),
    1.0: (1000.7645, 1000.4855, 999.8738, 998.9685, 997.8009, 996.3962),
    3.0: (1002.3498, 1002.0421, 1001.4070, 1000.4825, 999.2989, 997.8812),
    5.0: (1003.9292, 1003.5934, 1002.9354, 1001.9919, 1000.7925, 999.3618),
    10.0: (1007.8667, 1007.4625, 1006.7484, 1005.7584, 1004.5200, 1003.0573),
    STANDARD_SEA: (1027.6756, 1026.9541, 1025.9760, 1024.7660, 1023.3436, 1021.7261),
}


@pytest.mark.parametrize("salt", list(SURFACE))
def test_sea_water_table(salt: float) -> None:
    got = [density("sea", celsius, salt) for celsius in (5.0, 10.0, 15.0, 20.0, 25.0, 30.0)]
    assert got == pytest.approx(SURFACE[salt], abs=5.1e-5, rel=0)


# UNESCO Technical Papers in Marine Science 44, 1983: check values of the one-atmosphere equation
# of state, practical salinity and IPTS-68. Practical salinity 35 is 35.16504 g/kg; ITS-90 reads
# 0.99976 of IPTS-68. TEOS-10 differs from that equation by up to 0.0052 kg/m³.
@pytest.mark.parametrize(
    ("practical", "celsius_68", "published"),
    [(0.0, 5.0, 999.96675), (35.0, 5.0, 1027.67547), (35.0, 25.0, 1023.34306)],
)
def test_unesco_check_values(practical: float, celsius_68: float, published: float) -> None:
    got = density("sea", 0.99976 * celsius_68, practical * STANDARD_SEA / 35.0)
    assert got == pytest.approx(published, abs=0.0052, rel=0)


def eos_80(celsius: float, practical: float) -> float:
    """Return the one-atmosphere density of the same paper, from its polynomial [kg/m³]."""
    t, s = celsius, practical
    pure = np.polyval(
        [6.536332e-9, -1.120083e-6, 1.001685e-4, -9.095290e-3, 6.793952e-2, 999.842594], t
    )
    first = np.polyval([5.3875e-9, -8.2467e-7, 7.6438e-5, -4.0899e-3, 0.824493], t)
    second = np.polyval([-1.6546e-6, 1.0227e-4, -5.72466e-3], t)
    return float(pure + first * s + second * s**1.5 + 4.8314e-4 * s**2)


# To 34 °C within the 0.0052 named above; at 40 °C in brackish water they are 0.0083 apart, ours
# being the later formulation.
@pytest.mark.parametrize("celsius", [0.0, 7.0, 14.0, 21.0, 28.0, 34.0])
@pytest.mark.parametrize("practical", [0.0, 8.0, 20.0, 35.0, 40.0])
def test_unesco_polynomial(celsius: float, practical: float) -> None:
    got = density("sea", celsius, practical * STANDARD_SEA / 35.0)
    assert got == pytest.approx(eos_80(celsius / 0.99976, practical), abs=0.0053, rel=0)


# ITTC 7.5-02-01-03, 2011, sea water: its table is at one extra atmosphere (10.1325 dbar), so our
# surface value must lie 0.045 kg/m³ lower; the difference changes by 0.001 with temperature.
@pytest.mark.parametrize(
    ("celsius", "published"),
    [(10.0, 1027.0000), (15.0, 1026.0210), (20.0, 1024.8103), (25.0, 1023.3873)],
)
def test_ittc_sea_water_is_an_atmosphere_deeper(celsius: float, published: float) -> None:
    deeper = published - density("sea", celsius, STANDARD_SEA)
    assert deeper == pytest.approx(0.045, abs=0.0015, rel=0)
    assert gsw.rho_t_exact(STANDARD_SEA, celsius, 10.1325) == pytest.approx(
        published, abs=1e-4, rel=0
    )


# Common salt in water by "Model for calculating the density of aqueous electrolyte solutions",
# 2004, as a general library has it. One slope stands for the whole table: to 5 g/kg within
# 0.07, at 10 g/kg within 0.15 kg/m³ (3 g on a 20 kg boat).
@pytest.mark.parametrize(
    ("salt", "published", "tolerance"),
    [
        (0.0, (999.100, 998.204, 997.045, 995.647), 0.003),
        (3.2, (1001.368, 1000.449, 999.268, 997.851), 0.07),
        (5.0, (1002.647, 1001.714, 1000.521, 999.093), 0.07),
        (10.0, (1006.207, 1005.236, 1004.009, 1002.551), 0.15),
    ],
)
def test_pool_water(salt: float, published: tuple[float, ...], tolerance: float) -> None:
    got = [density("pool", celsius, salt) for celsius in (15.0, 20.0, 25.0, 30.0)]
    assert got == pytest.approx(published, abs=tolerance, rel=0)


# What water does to a boat of 20 L, from the same models (worked out in grams).
def test_what_water_does_to_twenty_litres() -> None:
    litres = 20.0  # grams a kg/m³, for 20 L: 20
    pool = density("pool", 25.0, 3.2) - density("fresh", 25.0)
    sea = density("sea", 15.0, STANDARD_SEA) - density("fresh", 15.0)
    warm = density("fresh", 25.0) - density("fresh", 10.0)
    assert litres * pool == pytest.approx(44.0, abs=1.0)
    assert litres * sea == pytest.approx(537.0, abs=1.0)
    assert litres * warm == pytest.approx(-53.1, abs=0.1)


# IAPWS 2008 viscosity release, simple form at 0.1 MPa, checked to 0.003 % against the full
# formulation; half the last printed digit.
@pytest.mark.parametrize(
    ("celsius", "dynamic", "kinematic"),
    [
        (5.0, 1.51817, 1.51822),
        (10.0, 1.30590, 1.30629),
        (15.0, 1.13757, 1.13859),
        (20.0, 1.00160, 1.00340),
        (25.0, 0.89002, 0.89266),
    ],
)
def test_fresh_viscosity(celsius: float, dynamic: float, kinematic: float) -> None:
    assert dynamic_viscosity("fresh", celsius) * 1e3 == pytest.approx(dynamic, rel=4e-5)
    assert viscosity("fresh", celsius) * 1e6 == pytest.approx(kinematic, rel=4e-5)


# "Thermophysical properties of seawater", 2010, at 35.165 g/kg; half the last printed digit.
@pytest.mark.parametrize(
    ("celsius", "kinematic"),
    [(5.0, 1.5762), (10.0, 1.3606), (15.0, 1.1894), (20.0, 1.0510), (25.0, 0.9373)],
)
def test_sea_viscosity(celsius: float, kinematic: float) -> None:
    # The table's fresh water is that paper's own, ours the IAPWS form: 0.02 % apart.
    got = viscosity("sea", celsius, STANDARD_SEA) * 1e6
    assert got == pytest.approx(kinematic, rel=3e-4)


# ITTC 7.5-02-01-03, 2011, at 15 °C: kinematic viscosity of fresh and of sea water. The older
# pair of 1978 (1.13902 and 1.18831) lies within 0.1 % as well.
@pytest.mark.parametrize(
    ("kind", "salt", "published"),
    [
        ("fresh", 0.0, 1.13858),
        ("sea", STANDARD_SEA, 1.1892),
        ("fresh", 0.0, 1.13902),
        ("sea", STANDARD_SEA, 1.18831),
    ],
)
def test_ittc_viscosity(kind: str, salt: float, published: float) -> None:
    assert viscosity(kind, 15.0, salt) * 1e6 == pytest.approx(published, rel=1e-3)


# Another fit to other measurements, "The Sea" vol. 5, 1974, as a general library of
# oceanography has it: 1.383779 mPa·s at practical salinity 30 and 10 °C. Measurements of that
# age scatter by 0.2 %.
def test_sea_viscosity_by_another_fit() -> None:
    got = dynamic_viscosity("sea", 10.0, 30.0 * STANDARD_SEA / 35.0)
    assert got * 1e3 == pytest.approx(1.383779, rel=2e-3)
