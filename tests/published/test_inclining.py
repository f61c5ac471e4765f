"""Inclining: the angle that a shifted weight makes tells GM on the surface and BG dived.

Intact Stability Code, resolution MSC.267(85), 8.4.1: eight shifts, moment against tangent on a
straight line. Introduction to Naval Architecture, page 54: tan φ = deflection / length of the
pendulum. Ship Stability for Masters and Mates, chapter 44: one shift (from memory).
"""

from math import degrees, pi, tan

import numpy as np
import pytest
from tests.rest.floaters import NO_WATER, boat_of, box_at, round_at

from trimdive.hydrostatics.equilibrium import rest, state


def test_one_shift_of_chapter_44() -> None:
    """25 t × 15 m, 8000 t, 20 cm in 4 m, KM 7: GM 0.94 (0.9375), KG 6.06 (6.0625).

    A round section of radius 7 keeps KM; with the KG found, the same shift must give that angle.
    """
    gm = 25 * 15 / 8000 / (0.20 / 4)
    assert gm == pytest.approx(0.94, abs=5e-3)
    assert 7 - gm == pytest.approx(6.06, abs=5e-3)
    length = 8e6 / 1025 / (0.5 * pi * 7**2)
    hull = round_at(14.0, length, sides=1440)
    boat = boat_of([hull], 8e6, (0, -25 * 15 / 8000, 7 - gm), density=1025.0)
    assert tan(state(boat, rest(boat, NO_WATER)).heel) == pytest.approx(0.05, rel=1e-4)


def test_eight_shifts_of_a_box_lie_on_a_line_whose_slope_is_displacement_times_gm() -> None:
    """Heels of 1° to 3° each way: the slope is M GM within the wall-sided BM tan²φ / 2."""
    mass, kg = 30.0, 0.06
    gm = 0.05 + 0.2**2 / 1.2 - kg
    moments = np.array([-0.036, -0.027, -0.018, -0.009, 0.009, 0.018, 0.027, 0.036])
    tangents = []
    for moment in moments:
        boat = boat_of([box_at((1.5, 0.2, 0.2))], mass, (0, -moment / mass, kg))
        tangents.append(tan(state(boat, rest(boat, NO_WATER)).heel))
    slope = np.linalg.lstsq(np.array(tangents)[:, None], moments, rcond=None)[0][0]
    assert 2.5 < degrees(np.arctan(tangents[-1])) < 4.0
    assert slope == pytest.approx(mass * gm, rel=2.5e-3)
    assert slope > mass * gm  # the box stiffens as it leans


def test_dived_model() -> None:
    """20 kg, BG 12 mm, 0.1 kg moved 60 mm: W BG tan φ = w d, 1.4321°."""
    body = round_at(0.16, 0.02 / (pi * 0.08**2))
    boat = boat_of([body], 20.0, (0, -0.1 * 0.06 / 20, 0.08 - 0.012))
    found = state(boat, rest(boat, NO_WATER))
    assert found.rest.under
    assert degrees(found.heel) == pytest.approx(1.4321, abs=5e-5)


def test_what_comes_out_is_the_stiffness_with_the_free_surface() -> None:
    """A slack tank aboard lowers what the shift shows: w d / (M tan φ) = GM less i / V."""
    room = box_at((0.30, 0.08, 0.10), keel=0.01)
    shift = 1e-5
    boat = boat_of([box_at((1.0, 0.2, 0.2))], 18.8, (0, -shift, 0.05), rooms=[room])
    found = state(boat, rest(boat, np.array([1.2e-3])))
    kg = (18.8 * 0.05 + 1.2 * 0.035) / 20
    gm = 0.05 + 0.2**2 / 1.2 - kg - 0.3 * 0.08**3 / 12 / 0.02
    assert 18.8 * shift / (20 * tan(found.heel)) == pytest.approx(gm, rel=1e-5)
