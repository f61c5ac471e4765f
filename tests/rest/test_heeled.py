"""Righting levers leaned over by hand, against the wall-sided formula and BG sin φ."""

from math import degrees, radians

import numpy as np
import pytest
from tests.rest.floaters import NO_WATER, boat_of, box_at, round_at

from trimdive.hydrostatics.equilibrium import rest, state
from trimdive.hydrostatics.equilibrium.heeled import gz_curve

HEELS = np.radians(np.arange(0.0, 41.0, 5.0))


def test_wall_sided_levers() -> None:
    """GZ = (GM + BM tan²φ / 2) sin φ, GM 0.0233 and BM 0.0333 m: a box, no edge under to 40°."""
    boat = boat_of([box_at((1.5, 0.2, 0.2))], 30.0, (0, 0, 0.06))
    curve = gz_curve(boat, rest(boat, NO_WATER), HEELS)
    gm, bm = 0.05 + 1 / 30 - 0.06, 1 / 30
    formula = (gm + 0.5 * bm * np.tan(HEELS) ** 2) * np.sin(HEELS)
    assert curve.gz == pytest.approx(formula, abs=1e-8)
    assert curve.trim == pytest.approx(np.zeros(len(HEELS)), abs=1e-7)
    assert curve.loll == 0.0


def test_box_of_the_textbook_at_25_degrees() -> None:
    """Ship Stability for Masters and Mates, page 130: 65 × 12 × 8 m, T 4, KG 4: 0.56046 m."""
    boat = boat_of([box_at((65.0, 12.0, 8.0))], 3198e3, (0, 0, 4.0), density=1025.0)
    curve = gz_curve(boat, rest(boat, NO_WATER), np.radians([0.0, 25.0]))
    assert curve.gz[1] == pytest.approx(0.56046, abs=1e-5)


def test_loll_is_where_the_lever_comes_back_to_nothing() -> None:
    """GM -0.2 and BM 3: 20.060°; between 20.0° and 20.1° the curve is as good as straight."""
    boat = boat_of([box_at((65.0, 12.0, 8.0))], 65 * 12 * 4 * 1e3, (0, 0, 5.2))
    heels = np.radians(np.linspace(0.0, 30.0, 301))
    curve = gz_curve(boat, rest(boat, NO_WATER, escape=False), heels)
    assert degrees(curve.loll) == pytest.approx(20.060, abs=1e-3)
    assert curve.gz[50] < 0 < curve.gz[250]


def test_dived_the_lever_is_bg_sine() -> None:
    boat = boat_of([round_at(0.16, 1.0)], 25.0, (0.0, 0.0, 0.068))
    heels = np.radians(np.arange(0.0, 171.0, 10.0))
    curve = gz_curve(boat, rest(boat, NO_WATER), heels)
    assert curve.gz == pytest.approx(0.012 * np.sin(heels), abs=1e-8)
    assert curve.greatest == pytest.approx((0.012, radians(90)), abs=1e-7)


def test_a_round_section_rights_herself_from_any_heel() -> None:
    """KM is the radius at every heel: GZ = (R - KG) sin φ, and she rights until upside down."""
    boat = boat_of([round_at(0.16, 1.0)], 12.0, (0.0, 0.0, 0.06))
    heels = np.radians(np.arange(0.0, 181.0, 10.0))
    curve = gz_curve(boat, rest(boat, NO_WATER), heels)
    assert curve.gz == pytest.approx(0.020 * np.sin(heels), abs=1e-6)
    assert degrees(curve.range) == pytest.approx(180.0, abs=0.1)


def test_range_ends_where_a_plank_turns_over() -> None:
    """A plank floating in half with G in its middle has its lever change sign at 90°."""
    plank = boat_of([box_at((1.0, 0.3, 0.1))], 15.0, (0.0, 0.0, 0.05))
    heels = np.radians(np.arange(0.0, 121.0, 2.0))
    curve = gz_curve(plank, rest(plank, NO_WATER), heels)
    assert degrees(curve.range) == pytest.approx(90.0, abs=0.01)


def test_slope_at_rest_is_gm() -> None:
    boat = boat_of(
        [box_at((1.0, 0.2, 0.2))], 18.8, (0, 0, 0.05), rooms=[box_at((0.3, 0.08, 0.1), keel=0.01)]
    )
    at = rest(boat, np.array([1.2e-3]))
    curve = gz_curve(boat, at, np.radians([0.0, 0.1]))
    assert curve.gz[1] / np.sin(radians(0.1)) == pytest.approx(state(boat, at).gm_t, rel=1e-4)
