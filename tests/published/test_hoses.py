"""Hoses against the fluids library, and the rows that were worked out with it."""

from math import pi

import fluids
import pytest

from trimdive.errors import PlantError
from trimdive.plant.water import ROUGH, Way, friction, hole_flow, hose_loss

WATER, VISCOSITY = 998.2, 1.0016e-3  # at 20 °C


@pytest.mark.parametrize("reynolds", [1.0, 500.0, 1999.0, 4000.0, 7050.0, 1e5, 1e6])
@pytest.mark.parametrize("roughness", [1e-6, 1e-4, 1e-2])
def test_friction(reynolds: float, roughness: float) -> None:
    answer = fluids.friction_factor(Re=reynolds, eD=roughness)
    assert friction(reynolds, roughness) == pytest.approx(answer, rel=1e-6)


def test_friction_where_it_may_be_either() -> None:
    """From 2000 to 4000 nobody knows: within a factor of two of the library."""
    for reynolds in (2100.0, 2644.0, 3500.0):
        answer = fluids.friction_factor(Re=reynolds, eD=3.75e-4)
        assert answer / 2 < friction(reynolds, 3.75e-4) < 2 * answer


@pytest.mark.parametrize(
    ("litres", "bore", "lost", "close"),
    [(0.5, 4, 2501, 1.0), (2, 6, 3962, 5e-3), (2, 4, 27233, 5e-3)],
)
def test_pressure_lost(litres: float, bore: float, lost: float, close: float) -> None:
    """1 m at 20 °C, wall 1.5 µm rough; the first row is of the kind that nobody knows."""
    flow, across = litres / 6e4, bore * 1e-3
    found = hose_loss(flow, across, 1.0, WATER, VISCOSITY, heads=0.0)
    assert found == pytest.approx(lost, rel=close)
    mass = flow * WATER
    answer = fluids.friction.one_phase_dP(mass, WATER, VISCOSITY, across, roughness=ROUGH, L=1.0)
    assert found == pytest.approx(answer, rel=1e-6 if close < 0.1 else 1.0)


def test_in_layers_it_is_hagen_and_poiseuille() -> None:
    flow, bore = 0.1 / 6e4, 4e-3
    answer = 128 * VISCOSITY * 1.0 * flow / (pi * bore**4)
    assert hose_loss(flow, bore, 1.0, WATER, VISCOSITY, heads=0.0) == pytest.approx(
        answer, rel=1e-9
    )


def test_ends_take_a_head_and_a_half() -> None:
    flow, bore = 2 / 6e4, 6e-3
    speed = flow / (pi / 4 * bore**2)
    ends = hose_loss(flow, bore, 1.0, WATER, VISCOSITY) - hose_loss(
        flow, bore, 1.0, WATER, VISCOSITY, heads=0.0
    )
    assert ends == pytest.approx(fluids.core.dP_from_K(K=1.5, rho=WATER, V=speed), rel=1e-9)


def test_a_hose_of_nothing_is_refused() -> None:
    with pytest.raises(PlantError, match="Give bore and length above 0"):
        Way(bore=0.0, length=1.0, valve=1.0, density=1000.0, viscosity=1e-3)


@pytest.mark.parametrize(("vent", "seconds"), [(2e-3, 66.28), (1e-3, 211.1)])
def test_a_small_vent_holds_the_water_up(vent: float, seconds: float) -> None:
    """4 holes of 6 mm, 0.02 m² of water, 0.1 m of head, all sharp edges: worked out apart.

    The level falls evenly in the root of the head, so the whole takes twice what the first flow
    would: t = 2 A h / Q(h).
    """
    holes = 4 * pi / 4 * 6e-3**2
    first = hole_flow(0.1, holes, pi / 4 * vent**2, 998.2)
    assert 2 * 0.02 * 0.1 / first == pytest.approx(seconds, rel=1e-3)
