"""Figures of the real ship at the model's size; a ship of 60 m at 1:48 is 1.25 m long."""

import numpy as np
import pytest

from trimdive.boatfile import Mark, Opening, Waterline
from trimdive.errors import PlanError, UnitError
from trimdive.plans.fullsize import at_scale, waterline_of
from trimdive.plans.views import Traced

X = np.array([0.0, 0.6, 1.25])
HULL = Traced(
    keel=np.stack([X, [0.05, 0.0, 0.02]], 1),
    deck=np.stack([X, [0.12, 0.11, 0.14]], 1),
    half=np.zeros((0, 2)),
    sections=(),
    worth=2e-4,
)


def test_openings_and_marks_keep_their_names() -> None:
    figures = {"x_aft": 12.0, "x_fore": 13.2, "breadth": 0.6, "y": -0.48, "z_top": 2.4}
    small = at_scale(Opening, 1 / 48, {"name": "well", **figures})
    assert small.name == "well"
    placed = (small.x_aft, small.x_fore, small.breadth, small.y, small.z_top)
    assert placed == pytest.approx((0.25, 0.275, 0.0125, -0.01, 0.05))
    assert small.z_bottom is None
    assert at_scale(Mark, 1 / 48, {"name": "bow", "x": 57.6}).x == pytest.approx(1.2)


def test_a_waterline_that_is_not_level_is_scaled_at_both_ends() -> None:
    ends = {"aft": {"x": 0.0, "height": 4.8}, "fore": {"x": 60.0, "height": 4.32}}
    small = at_scale(Waterline, 1 / 48, ends)
    assert small.height_at(0.0) == pytest.approx(0.1)
    assert small.height_at(1.25) == pytest.approx(0.09)
    assert small.slope == pytest.approx(-0.48 / 60.0)


@pytest.mark.parametrize("scale", [0.0, -0.1, 48.0, float("nan")])
def test_what_is_no_scale(scale: float) -> None:
    with pytest.raises(PlanError, match=r"scale: a scale of .* makes no model\. Enter how long"):
        at_scale(Mark, scale, {"name": "bow", "x": 57.6})


def test_a_waterline_marked_on_the_profile() -> None:
    level = waterline_of(np.array([(0.1, 0.0801), (1.1, 0.0800)]), HULL)
    assert level.height == pytest.approx(0.08005)
    down = waterline_of(np.array([(0.25, 0.08), (1.0, 0.0875)]), HULL)
    assert down.height is None
    assert down.slope == pytest.approx(0.01)
    assert down.height_at(0.0) == pytest.approx(0.0775)


@pytest.mark.parametrize(
    ("points", "said"),
    [
        ([(0.1, -0.03), (1.1, -0.03)], "the waterline: it lies under the keel all along"),
        ([(0.1, 0.2), (1.1, 0.2)], "the waterline: it lies over the deck all along"),
        ([(0.5, 0.08)], "its marks lie upon each other"),
        ([(0.5, 0.08), (0.5, 0.09)], "its marks lie upon each other"),
        ([(0.5, float("nan")), (0.9, 0.09)], "its marks lie upon each other"),
    ],
)
def test_a_waterline_at_which_she_cannot_float(
    points: list[tuple[float, float]], said: str
) -> None:
    with pytest.raises(PlanError, match=said):
        waterline_of(np.array(points), HULL)


def test_a_piece_that_cannot_be_is_refused() -> None:
    with pytest.raises(UnitError, match="Write at most 30 m"):
        at_scale(Mark, 1.0, {"name": "bow", "x": 57.6})
