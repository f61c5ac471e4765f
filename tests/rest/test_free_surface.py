"""Slack tanks: what their surfaces take off GM, and the two rests of a long one.

GG' = (i / V) (ρ_tank / ρ) / n² for n equal divisions along her, i = l b³ / 12: Ship Stability for
Masters and Mates, and any other text.
"""

from math import degrees

import numpy as np
import pytest
from tests.rest.floaters import NO_WATER, UP, boat_of, box_at

from trimdive.hydrostatics.equilibrium import other_rests, rest, state
from trimdive.hydrostatics.equilibrium.hydrostatics import upright_bg

MASS, HEIGHT = 18.8, 0.05  # dry; the tank's own water is 1.2 kg when half full
TANK = (0.30, 0.08, 0.10)


def tanked(divisions: int, mass: float = MASS):
    """Return a box boat with a tank of 0.30 × 0.08 m low in her, in ``divisions`` along her."""
    breadth = TANK[1] / divisions
    sides = [(k + 0.5) * breadth - TANK[1] / 2 for k in range(divisions)]
    rooms = [box_at((TANK[0], breadth, TANK[2]), y=y, keel=0.01) for y in sides]
    return boat_of([box_at((1.0, 0.2, 0.2))], mass, (0, 0, HEIGHT), rooms=rooms)


@pytest.mark.parametrize(("divisions", "loss"), [(1, 0.64e-3), (2, 0.16e-3), (4, 0.04e-3)])
def test_small_tank_in_a_boat_of_20_kg(divisions: int, loss: float) -> None:
    """A surface of 0.30 × 0.08 m in 20 kg: 0.64 mm of GM; a centre bulkhead leaves 0.16 mm."""
    boat = tanked(divisions)
    waters = np.full(divisions, 1.2e-3 / divisions)
    found = state(boat, rest(boat, waters))
    i = TANK[0] * TANK[1] ** 3 / 12
    assert i == pytest.approx(1.28e-5)
    assert found.free_surface_t == pytest.approx(loss, rel=1e-6)
    assert found.free_surface_t == pytest.approx(i / 0.02 / divisions**2, rel=1e-9)
    assert found.free_surface_l == pytest.approx(TANK[0] ** 3 * TANK[1] / 12 / 0.02, rel=1e-9)
    kg = (MASS * HEIGHT + 1.2 * (0.01 + 0.025)) / 20
    assert found.kg == pytest.approx(kg, rel=1e-9)
    assert found.gm_t == pytest.approx(0.05 + 0.2**2 / 1.2 - kg - loss, abs=1e-9)
    assert found.gm_l == pytest.approx(found.kb + found.bm_l - kg - found.free_surface_l, abs=1e-9)


@pytest.mark.parametrize("full", [0.0, 2.4e-3])
def test_an_empty_or_full_tank_has_no_surface(full: float) -> None:
    boat = tanked(1)
    found = state(boat, rest(boat, np.array([full])))
    assert found.free_surface_t == 0.0
    assert found.gm_t == pytest.approx(found.kb + found.bm_t - found.kg, abs=1e-9)


def test_a_small_heel_against_gm_with_the_tank_slack() -> None:
    """What the free surface takes off shows in how far she leans: tan φ = w d / (M GM)."""
    boat = boat_of(
        [box_at((1.0, 0.2, 0.2))],
        MASS,
        (0, -1e-5, HEIGHT),
        rooms=[box_at(TANK, keel=0.01)],
    )
    found = state(boat, rest(boat, np.array([1.2e-3])))
    assert np.tan(found.heel) == pytest.approx(MASS * 1e-5 / (20 * found.gm_t), rel=1e-4)


def test_the_share_lost_to_fittings_lowers_water_and_surface_alike() -> None:
    """With 4 % of the room lost the surface counts 0.96: so much of it is water."""
    full = boat_of([box_at((1.0, 0.2, 0.2))], MASS, (0, 0, HEIGHT), rooms=[box_at(TANK, keel=0.01)])
    lost = full._replace(tanks=full.tanks._replace(shares=np.array([0.96])))
    a = state(full, rest(full, np.array([1.2e-3])))
    b = state(lost, rest(lost, np.array([0.96 * 1.2e-3])))
    assert b.free_surface_t * b.displacement_mass == pytest.approx(
        0.96 * a.free_surface_t * a.displacement_mass, rel=1e-9
    )


def long_tank():
    """Return a dived boat of 30 L with a half-full tank of 0.8 m and 12 mm of BG when level."""
    boat = boat_of(
        [box_at((1.0, 0.2, 0.15))],
        29.0,
        (0.0, 0.0, 0.06),
        rooms=[box_at((0.8, 0.05, 0.05), keel=0.05)],
    )
    return boat, np.array([1.0e-3])


def test_a_long_slack_tank_hung_dived_has_two_rests() -> None:
    """Level would need BG above i_L / V = 0.8³ × 0.05 / 12 / 0.03 = 71 mm; she hangs either way."""
    boat, waters = long_tank()
    assert upright_bg(boat, waters) < 0.8**3 * 0.05 / 12 / 0.03
    level = rest(boat, waters, hanging=True, escape=False)
    assert not level.stable
    assert state(boat, level).gm_l == pytest.approx(
        upright_bg(boat, waters) - 0.8**3 * 0.05 / 12 / 0.03, abs=1e-9
    )
    bow = state(boat, rest(boat, waters, hanging=True, n=np.array([-0.2, 0, 0.98]) / 1.0002))
    stern = state(boat, rest(boat, waters, hanging=True, n=np.array([0.2, 0, 0.98]) / 1.0002))
    assert degrees(bow.trim_angle) > 10
    assert stern.trim_angle == pytest.approx(-bow.trim_angle, abs=1e-7)
    assert bow.gm_l > 0
    assert bow.rest.stable
    assert stern.rest.stable


def test_both_ways_are_among_the_others() -> None:
    boat, waters = long_tank()
    at = rest(boat, waters, hanging=True)
    others = [state(boat, one) for one in other_rests(boat, at)]
    assert any(
        one.trim_angle == pytest.approx(-state(boat, at).trim_angle, abs=1e-6) for one in others
    )


def test_a_boat_hung_dived_with_the_same_water_in_four_short_tanks_stays_level() -> None:
    """Four divisions take i_L to a sixteenth, 4.4 mm, less than her BG."""
    rooms = [box_at((0.2, 0.05, 0.05), x=x, keel=0.05) for x in (-0.3, -0.1, 0.1, 0.3)]
    boat = boat_of([box_at((1.0, 0.2, 0.15))], 29.0, (0.0, 0.0, 0.06), rooms=rooms)
    at = rest(boat, np.full(4, 0.25e-3), hanging=True)
    found = state(boat, at)
    assert at.stable
    assert found.trim_angle == pytest.approx(0.0, abs=1e-9)
    loss = 0.8**3 * 0.05 / 12 / 0.03 / 16
    assert found.gm_l == pytest.approx(found.bg - loss, abs=1e-9)


def test_no_tanks_take_nothing() -> None:
    boat = boat_of([box_at((1.0, 0.2, 0.2))], 20.0, (0, 0, 0.05))
    found = state(boat, rest(boat, NO_WATER))
    assert found.free_surface_t == 0.0
    assert found.rest.n == pytest.approx(UP)
