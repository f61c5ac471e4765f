"""Linkages: plane geometry, virtual work, and a published slope of lift."""

from math import asin, cos, radians, sin, tan

import numpy as np
import pytest

from trimdive.assessment import Assessment
from trimdive.boatfile.plant import Linkage
from trimdive.errors import LinkageError
from trimdive.fact import fact
from trimdive.plant.linkages import (
    clearance,
    horn_angle,
    leverage,
    lift_slope,
    link,
    links,
    plane_force,
    rod_angle,
    servo_angle,
    stock_moment,
)
from trimdive.text.link_figures import figures_of


def test_equal_arm_and_horn_turn_alike() -> None:
    """A parallelogram."""
    for turn in (-0.6, -0.2, 0.0, 0.3, 0.6):
        assert horn_angle(12e-3, 12e-3, 0.3, turn) == pytest.approx(turn, abs=1e-9)
        assert leverage(12e-3, 12e-3, 0.3, turn) == pytest.approx(1.0, abs=1e-6)


def test_a_long_rod_carries_the_sine_over() -> None:
    """With an endless rod a sin α = h sin β."""
    found = horn_angle(10e-3, 15e-3, 1e4, radians(40))
    assert found == pytest.approx(asin(10 / 15 * sin(radians(40))), abs=1e-6)


def test_the_rod_keeps_its_length() -> None:
    arm, horn, rod, turn = 14e-3, 18e-3, 0.2, 0.5
    beta = horn_angle(arm, horn, rod, turn)
    tips = np.array([arm * sin(turn), arm * cos(turn)])
    far = np.array([rod + horn * sin(beta), arm - horn + horn * cos(beta)])
    assert np.linalg.norm(far - tips) == pytest.approx(rod, abs=1e-12)


def test_a_chain_that_locks_is_said() -> None:
    with pytest.raises(LinkageError, match=r"pulls the horn straight.*Take a longer horn"):
        horn_angle(30e-3, 10e-3, 0.2, radians(60))
    assert servo_angle(10e-3, 20e-3, 0.2, radians(60), radians(40)) is None


def test_the_servo_turns_as_far_as_is_wanted() -> None:
    found = servo_angle(14e-3, 18e-3, 0.4, radians(25), radians(45))
    assert found is not None
    assert horn_angle(14e-3, 18e-3, 0.4, found) == pytest.approx(radians(25), abs=1e-9)


@pytest.mark.parametrize(("aspect", "slope"), [(1.0, 1.401), (2.0, 2.443), (3.0, 3.138)])
def test_slope_of_lift_of_short_planes(aspect: float, slope: float) -> None:
    """1.8 π A / (1.8 + √(A² + 4)) by hand; very short ones go to π A / 2 of slender wings (5 %)."""
    assert lift_slope(aspect) == pytest.approx(slope, abs=1e-3)
    assert lift_slope(0.01) / 0.01 == pytest.approx(np.pi / 2, rel=0.06)


def test_a_square_decimetre_at_half_a_metre_a_second() -> None:
    """0.01 m² at 0.5 m/s with C_L 0.5 bears 64 g: common practice, by hand."""
    angle = 0.5 / lift_slope(1.0)
    force = plane_force(1000.0, 0.5, 0.01, 0.1, angle)
    assert force / 9.80665 * 1e3 == pytest.approx(64, abs=0.5)
    assert plane_force(1000.0, 0.5, 0.01, 0.1, 2.0) == pytest.approx(0.5 * 1000 * 0.25 * 0.01 * 1.1)
    assert stock_moment(4.0, 0.04, 0.30) == pytest.approx(4.0 * 0.04 * 0.10)


def test_distance_of_a_rod_from_a_shaft() -> None:
    """Side by side; crossing over; and ending before it comes near."""
    shaft, along = np.zeros(3), np.array([1.0, 0.0, 0.0])
    beside = np.array([[0.0, 3.0, 4.0], [1.0, 3.0, 4.0]])
    over = np.array([[0.0, -1.0, 2.0], [1.0, 1.0, 2.0]])
    short = np.array([[0.0, 5.0, 0.0], [0.0, 3.0, 0.0]])
    assert [clearance(rod, shaft, along) for rod in (beside, over, short)] == pytest.approx(
        [5.0, 2.0, 3.0]
    )


def made(**changes: object) -> Linkage:
    fields = {"name": "planes", "arm": 14e-3, "horn": 18e-3, "travel": radians(40),
              "throw": radians(25), "torque": 0.3, "rubs": 2.0, "area": 60e-4, "span": 0.17,
              "stock": 0.3, "speed": 1.1, "gland": 0.06}  # fmt: skip
    return Linkage.model_validate(fields | changes)


def test_the_servo_holds_what_the_plane_and_the_seal_ask() -> None:
    """By the work: T dα = M dβ + rub dx, a hand sum with a long rod."""
    one = link(made(), 1000.0)
    beta = radians(25)
    alpha = asin(18 / 14 * sin(beta))
    by_hand = one.moment * 14 * cos(alpha) / (18 * cos(beta)) + 2.0 * 14e-3 * cos(alpha)
    assert one.torque == pytest.approx(by_hand, rel=0.02)
    assert one.spare == pytest.approx(0.3 / one.torque)
    assert one.rod_force == pytest.approx(one.moment / (18e-3 * cos(beta)) + 2.0, rel=1e-6)


def test_side_pull_at_the_gland() -> None:
    """The arm's hole leaves the line by a (1 - cos α); 60 mm on, the rod leans by as much."""
    one = link(made(), 1000.0)
    lean = rod_angle(14e-3, 0.06, one.servo)
    assert tan(lean) == pytest.approx(
        14e-3 * (1 - cos(one.servo)) / (0.06 - 14e-3 * sin(one.servo)), rel=1e-9
    )
    assert one.side_pull == pytest.approx(one.rod_force * tan(lean))


def test_a_short_arm_does_not_reach() -> None:
    one = link(made(arm=8e-3), 1000.0)
    assert not one.reaches
    assert one.servo == pytest.approx(radians(40))


def test_what_is_not_told_is_said() -> None:
    one = link(made(rubs=None, speed=None, stock=None), 1000.0)
    assert len(one.assumed) == 3
    assert fact("usual-taken", key="plane-speed") in one.assumed


def test_every_figure_of_the_demo_boats_is_explained(
    bittern: Assessment, grebe: Assessment, plover: Assessment
) -> None:
    for her in (bittern, grebe, plover):
        for one in links(her.boat, her.floater.density):
            assert one.reaches
            assert one.spare > 2
            assert one.clear > 0.002
            assert all(figure.text and figure.why for figure in figures_of(one))
