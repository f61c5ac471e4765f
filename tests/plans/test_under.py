"""The half-breadth plan laid straight: its ink lies where the traced hull has its breadth."""

from dataclasses import replace

import numpy as np
import pytest
from tests.plans.drawing import ink
from tests.plans.marked import SIZE, B, L, found, whole

from trimdive.plans.marks import Marks, Point
from trimdive.plans.under import plan_under

TURN = 0.05  # by which the picture is turned [rad]


def turned(marks: Marks) -> Marks:
    """Return marks in a picture that was turned about its middle."""
    c, s = np.cos(TURN), np.sin(TURN)
    middle = np.array(SIZE) / 2

    def moved(point: Point) -> Point:
        x, y = (np.array(point.at) - middle) @ np.array([[c, s], [-s, c]]) + middle
        return replace(point, at=(float(x), float(y)))

    points = {key: tuple(map(moved, row)) for key, row in marks.points.items()}
    return replace(marks, points=points)


@pytest.mark.parametrize("marks", [whole(), turned(whole())])
def test_its_ink_lies_on_the_breadths(marks: Marks) -> None:
    line = np.array([point.at for point in marks.of("half")])
    under = plan_under(ink(SIZE, [line], 2.0), marks, found(marks))
    assert under is not None
    tall, wide = under.ink.shape
    x = np.linspace(under.x, under.x + under.length, wide)
    y = np.linspace(under.y, under.y - under.breadth, tall)
    corners = np.linspace(0.0, L, 11)  # between which the line was drawn straight
    half = np.interp(x, corners, B / 2 * (1 - (2 * corners / L - 1) ** 2))
    within = (x > 0.05) & (x < L - 0.05)
    middle = (under.ink * y[:, None]).sum(axis=0)[within] / under.ink.sum(axis=0)[within]
    assert middle == pytest.approx(half[within], abs=1e-3)  # a pixel's worth


def test_without_a_plan_there_is_nothing_to_lay() -> None:
    marks = whole().without("half")
    assert plan_under(ink(SIZE, [np.array([(1.0, 1.0), (9.0, 9.0)])]), marks, found(marks)) is None
