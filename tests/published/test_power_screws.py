"""Mechanical Engineering Design, chapter on power screws: example 8-1, and rows by its formulas."""

import pytest

from trimdive.errors import PlantError
from trimdive.plant.driving import (
    TRAPEZOID,
    Thread,
    lowering_torque,
    raising_torque,
    screw_efficiency,
    screw_torque,
)

EXAMPLE = Thread(lead=8e-3, diameter=30e-3, friction=0.08, collar=40e-3, flank=0.0)
LOAD = 6400.0  # N
FINE = Thread(lead=1.5e-3, diameter=7.25e-3, friction=0.15, collar=0.0, flank=0.0)


def test_example_8_1() -> None:
    """Raising 26.18 N m (15.94 of the thread and 10.24 of the collar), lowering 9.77, e 0.311."""
    bare = Thread(lead=8e-3, diameter=30e-3, friction=0.08, collar=0.0, flank=0.0)
    assert raising_torque(EXAMPLE, LOAD) == pytest.approx(26.18, abs=5e-3)
    assert raising_torque(bare, LOAD) == pytest.approx(15.94, abs=5e-3)
    assert raising_torque(EXAMPLE, LOAD) - raising_torque(bare, LOAD) == pytest.approx(
        10.24, abs=5e-3
    )
    assert lowering_torque(EXAMPLE, LOAD) == pytest.approx(9.77, abs=5e-3)
    assert screw_efficiency(EXAMPLE, LOAD) == pytest.approx(0.311, abs=5e-4)


@pytest.mark.parametrize(
    ("force", "torque"),
    [(178.39, 0.1410), (316.78, 0.2503), (532.05, 0.4205)],
)
def test_pistons_by_the_same_formula(force: float, torque: float) -> None:
    """Tr 8 × 1.5 with a square thread's formula, 40 N of seal; worked out apart, four digits."""
    assert raising_torque(FINE, force) == pytest.approx(torque, abs=5e-5)
    assert screw_efficiency(FINE, force) == pytest.approx(0.302, abs=5e-4)


def test_a_trapezoid_grips_harder() -> None:
    """Its flanks stand at 15°: the friction counts 1/cos 15° = 1.0353 times."""
    trapezoid = Thread(lead=1.5e-3, diameter=7.25e-3, friction=0.15, collar=0.0, flank=TRAPEZOID)
    assert trapezoid.grip == pytest.approx(0.15 * 1.03528, rel=1e-5)
    assert raising_torque(trapezoid, 100.0) > raising_torque(FINE, 100.0)


def test_a_fine_thread_holds_and_a_steep_one_does_not() -> None:
    steep = Thread(lead=20e-3, diameter=7.25e-3, friction=0.1, collar=0.0, flank=0.0)
    assert FINE.holds
    assert not steep.holds
    assert lowering_torque(steep, 100.0) < 0
    assert screw_torque(steep, -100.0) == 0.0  # braked by the motor that stands


def test_a_screw_that_jams_is_said() -> None:
    jam = Thread(lead=60e-3, diameter=7.25e-3, friction=0.5, collar=0.0, flank=0.0)
    with pytest.raises(PlantError, match=r"a lead of 60 mm on 7\.25 mm jams\. Give a finer"):
        raising_torque(jam, 1.0)
