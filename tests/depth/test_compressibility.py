"""How tubes, foam and gas shrink with depth: membrane theory, Hooke, Boyle; figures by hand."""

import pytest

from trimdive.assessment import Assessment
from trimdive.ballast.depth import (
    compressibility,
    pressure_at,
    solid_yielding,
    trapped,
    tube_yielding,
)
from trimdive.errors import AskError, BalanceError

TEN_METRES = 98_066.5  # Pa: 10 m of water as a round design case


@pytest.mark.parametrize(
    ("outside", "wall", "modulus", "poisson", "share"),
    [
        (0.110, 0.003, 2.8e9, 0.37, 1.0993e-3),  # acrylic
        (0.200, 0.005, 2.8e9, 0.37, 1.2020e-3),
        (0.100, 0.002, 2.35e9, 0.37, 1.7994e-3),  # polycarbonate
        (0.110, 0.0032, 3.0e9, 0.38, 9.4916e-4),  # PVC-U
        (0.100, 0.002, 68.9e9, 0.33, 6.416e-5),  # aluminium
    ],
)
def test_closed_tubes_over_ten_metres(
    outside: float, wall: float, modulus: float, poisson: float, share: float
) -> None:
    """ΔV/V = p R / (E t) (2.5 - 2 ν), worked out apart from the program; five figures."""
    found = tube_yielding(outside, wall, modulus, poisson) * TEN_METRES
    assert found == pytest.approx(share, rel=1e-4)


@pytest.mark.parametrize(
    ("modulus", "poisson", "share"), [(15e6, 0.1, 0.0157), (72e6, 0.3, 0.00163), (5e6, 0.1, 0.047)]
)
def test_foam_over_ten_metres(modulus: float, poisson: float, share: float) -> None:
    """P / K with K = E / 3 (1 - 2 ν): extruded, structural and bead foam."""
    assert solid_yielding(modulus, poisson) * TEN_METRES == pytest.approx(share, rel=5e-3)


def test_trapped_air_at_two_metres() -> None:
    """Boyle: 0.2 L at the surface lose 32.4 mL under 2 m of fresh water."""
    lost = trapped("bubble", 0.2e-3).lost(pressure_at(2.0, 999.1))
    assert lost == pytest.approx(32.4e-6, abs=0.05e-6)


def test_pressure_in_fresh_water() -> None:
    assert pressure_at(10.0, 999.1) == pytest.approx(97_978, abs=0.6)


def test_depths_above_the_surface_and_no_air_at_all() -> None:
    with pytest.raises(BalanceError, match="not under water"):
        pressure_at(-1.0, 999.1)
    with pytest.raises(AskError, match="cannot be"):
        trapped("bubble", float("nan"))


def test_she_grows_heavier_and_has_a_depth_of_no_return(bittern: Assessment) -> None:
    soft = compressibility(bittern)
    assert soft.heavier(0.0) == pytest.approx(0.0, abs=1e-12)
    assert 0 < soft.heavier(1.0) < soft.heavier(5.0)
    lift = soft.heavier(3.0)
    assert soft.no_return(lift) == pytest.approx(3.0, abs=0.02)
    assert soft.no_return(0.0) == 0.0


def test_a_boat_that_sinks_with_full_tanks_hovers_nowhere(bittern: Assessment) -> None:
    found = bittern.depths
    assert found.trimmed < 0
    assert found.hovers == 0.0
    assert found.blown > 2.0


def test_trapped_air_makes_her_softer(bittern: Assessment) -> None:
    bubble = trapped("under the casing", 20e-6)
    more = compressibility(bittern, [bubble]).heavier(2.0) - compressibility(bittern).heavier(2.0)
    assert more == pytest.approx(bittern.floater.density * 3.24e-6, rel=2e-3)


def test_each_metre_of_a_tube_costs_the_same_and_of_air_less_and_less(bittern: Assessment) -> None:
    """Membrane theory is linear; Boyle's slope is V p0 ρ g / (p0 + ρ g h)²."""
    bubble = [trapped("bubble", 0.2e-3)]
    plain, soft = compressibility(bittern), compressibility(bittern, bubble)
    assert plain.per_metre(0.0) == pytest.approx(plain.per_metre(20.0), rel=1e-6)
    rho, air, g = bittern.water.density, 101_325.0, 9.80665
    for depth in (0.5, 5.0, 20.0):
        slope = 0.2e-3 * air * rho * g / (air + rho * g * depth) ** 2
        more = soft.per_metre(depth) - plain.per_metre(depth)
        assert more == pytest.approx(rho * slope, rel=1e-4)


def test_no_return_is_where_the_lift_is_spent(bittern: Assessment) -> None:
    soft = compressibility(bittern, [trapped("bubble", 0.2e-3)])
    for lift in (0.003, 0.05, 0.2):
        depth = soft.no_return(lift)
        assert depth is not None
        assert soft.heavier(depth) == pytest.approx(lift, rel=1e-3)
    assert soft.no_return(50.0) is None
    assert soft.no_return(-0.1) == 0.0
