"""Groves, Huang, Chang, Geometric characteristics of DARPA SUBOFF models, DTRC, 1989.

Keel and deck of the bare hull read at 5, 7 and 11 places, against volume, area and centre of its
formulas (0.699211 m³, 5.988264 m², 2.00861 m from the nose, by quadrature; 0.699 m³ and 5.988 m²
in the literature).
"""

import numpy as np
import pytest
from tests.lines.outlines import closer_to_ends, holds, round_hull
from tests.lines.tables import area, assert_closed, volume_and_centre

from trimdive.geometry.lines.forms import SUBOFF_END, suboff_radius
from trimdive.geometry.lines.outline import Outline, outlined
from trimdive.geometry.lines.outline_figures import Waterline
from trimdive.geometry.lines.outline_spread import outline_spread

FOOT = 0.3048
LENGTH = SUBOFF_END * FOOT
VOLUME, AREA, LCB = 0.699211, 5.988264, 2.00861
AXIS = 0.254  # the hull stands on its keel line [m]
MIDDLE = Waterline(height=AXIS)


def _radius(x: float) -> float:
    return FOOT * float(suboff_radius(np.array([SUBOFF_END - x / FOOT]))[0])


def _measured(count: int, *, even: bool) -> Outline:
    x = np.linspace(0.0, LENGTH, count) if even else closer_to_ends(LENGTH, count)
    return round_hull(_radius, x, AXIS, bow="round")


@pytest.mark.parametrize("even", [True, False])
@pytest.mark.parametrize("count", [5, 7, 11])
def test_the_stated_spread_holds(count: int, even: bool) -> None:
    spread = outline_spread(_measured(count, even=even), MIDDLE)
    places = np.linspace(0.0, LENGTH, 4001)
    r = np.array([_radius(float(x)) for x in places])
    assert holds(spread.envelope, VOLUME)
    assert holds(spread.nabla, VOLUME / 2.0)  # half of it lies below the axis
    assert holds(spread.waterplane, 2.0 * np.trapezoid(r, places))
    assert holds(spread.bm_t, 2.0 / 3.0 * np.trapezoid(r**3, places) / (VOLUME / 2.0))


@pytest.mark.parametrize(
    ("count", "close", "centre_within"),
    [(5, 0.06, 0.03), (7, 0.015, 0.03), (11, 0.003, 0.003)],  # what so few places can tell
)
def test_volume_area_and_centre(count: int, close: float, centre_within: float) -> None:
    mesh = outlined(_measured(count, even=False))
    assert_closed(mesh)
    volume, centre = volume_and_centre(mesh)
    assert volume == pytest.approx(VOLUME, rel=close)
    assert area(mesh) == pytest.approx(AREA, rel=close)
    assert LENGTH - centre[0] == pytest.approx(LCB, abs=centre_within)


def test_more_places_narrow_the_spread() -> None:
    spreads = [
        outline_spread(_measured(count, even=False), MIDDLE).nabla.share for count in (5, 7, 11)
    ]
    assert spreads[0] > spreads[1] > spreads[2]
    assert spreads[2] < 0.02
