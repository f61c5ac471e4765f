"""The inclining formula, GM = w d / (M tan angle), on worked examples, and in the full solver.

Sources: D. R. Derrett, Ship Stability for Masters and Mates, ch. 44 (from memory); E. C. Tupper,
Introduction to Naval Architecture, p. 54, the same formula.
"""

import datetime
from dataclasses import replace
from math import atan, degrees, radians
from pathlib import Path

import numpy as np
import pytest

from trimdive.assessment import assess
from trimdive.boatfile.tub import Reading
from trimdive.trials.readings import Off, inclined, listed, predicted

GREBE = Path(__file__).parents[2] / "boats" / "grebe" / "boat.toml"
DAY = datetime.date(2026, 11, 25)


def test_one_shift_of_a_ship() -> None:
    """25 t moved 15 m on 8000 t, the plumb line goes 20 cm in 4 m: GM 0.94 m, KG 6.06 m of KM 7."""
    gm = inclined(25e3, 15.0, atan(0.20 / 4.0), 8000e3)
    assert gm == pytest.approx(0.94, abs=0.005)
    assert 7.0 - gm == pytest.approx(6.06, abs=0.005)


def test_a_model_under_water() -> None:
    """20 kg with BG 12 mm: 0.1 kg moved 60 mm turns her by 1.4321°, atan(0.006/0.24) by hand."""
    assert inclined(0.1, 0.06, radians(1.4321), 20.0) == pytest.approx(0.012, rel=1e-4)
    assert degrees(atan(0.1 * 0.06 / (20.0 * 0.012))) == pytest.approx(1.4321, abs=5e-5)


@pytest.mark.parametrize("dived", [False, True])
def test_the_solver_turns_her_as_the_formula_has_it(dived: bool) -> None:
    """A small weight moved across in the full solver gives back her GM, and dived her BG."""
    her = assess(GREBE)
    one = Reading(date=DAY, moved=0.02, by=0.01, angle=0.01, dived=dived, wet=False)
    ready = Off(her=listed(her.boat, her.files), off=np.zeros(len(her.uncertainty.sources)))
    angle = predicted(ready, one)[0]
    at = ready.lies(one)
    stiff = at.gm_t if not dived else at.bg
    assert inclined(0.02, 0.01, angle, at.displacement_mass) == pytest.approx(stiff, rel=2e-3)


def test_lead_under_water_counts_ninety_one_hundredths() -> None:
    """Lead of 11 340 kg/m³ in water of 999.1 pulls 1 - 999.1/11340 = 0.9119 of itself, by hand."""
    her = assess(GREBE)
    ready = Off(her=listed(her.boat, her.files), off=np.zeros(len(her.uncertainty.sources)))
    dry = Reading(date=DAY, moved=0.02, by=0.005, angle=0.01, dived=True, wet=False)
    wet = dry.model_copy(update={"wet": None})
    ratio = np.tan(predicted(ready, wet)[0]) / np.tan(predicted(ready, dry)[0])
    assert ratio == pytest.approx(0.9119, abs=2e-4)


def test_two_scales_share_her_weight_by_levers() -> None:
    """Both together read weight less buoyancy, and its moment about each hook, worked apart."""
    her = assess(GREBE)
    one = Reading(date=DAY, pull_aft=0.0, pull_fore=0.0, x_aft=0.1, x_fore=1.2)
    ready = Off(her=listed(her.boat, her.files), off=np.zeros(len(her.uncertainty.sources)))
    aft, fore = predicted(ready, one)
    assert aft + fore == pytest.approx(her.full.rest.excess, abs=1e-9)
    lift = her.floater.density * sum(body.volume for body in her.bodies)
    water = her.floater.density * float(her.full_water[0])
    tank = her.floater.tanks.centroids[0, 0] + her.floater.tree.centre[0]
    turn = float(her.masses.moment[0]) + water * tank
    turn -= lift * float(her.floater.buoyancy[0] + her.floater.tree.centre[0])
    assert 0.1 * aft + 1.2 * fore == pytest.approx(turn, abs=1e-3)
    assert replace(ready, off=ready.off).floater.mass == pytest.approx(her.masses.mass)
