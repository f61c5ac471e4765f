"""The Wigley hull y = (B/2)·(1 − (2x/L)²)·(1 − (z/T)²) measured at 5, 7 and 11 places.

Closed forms by integration: volume 4LBT/9, waterplane 2LB/3, BM 3B²/(35T), KB 5T/8; wetted area
0.1487906 L² for B = L/10, T = L/16, by quadrature.
"""

import numpy as np
import pytest
from tests.lines.outlines import NO_FLAT, holds, pins
from tests.lines.tables import area, assert_closed, volume_and_centre, wigley_half_breadth

from trimdive.geometry.lines.outline import Finish, Outline, outlined
from trimdive.geometry.lines.outline_figures import Waterline
from trimdive.geometry.lines.outline_sections import Section
from trimdive.geometry.lines.outline_spread import outline_spread

LENGTH, BREADTH, DRAUGHT = 1.0, 0.1, 0.0625
VOLUME, WATERPLANE = 4.0 * LENGTH * BREADTH * DRAUGHT / 9.0, 2.0 * LENGTH * BREADTH / 3.0
BM = 3.0 * BREADTH**2 / (35.0 * DRAUGHT)
BRIM = Waterline(height=DRAUGHT * (1.0 - 1e-9))


def _section(x: float) -> Section:
    """Return the section with calipers at six heights; the keel is a sharp edge."""
    heights = np.linspace(0.0, DRAUGHT, 6)
    points = tuple((wigley_half_breadth(x, float(z)), float(z)) for z in heights)
    return Section(x=x, shape="points", points=points, knuckles=(1,))


def _measured(count: int, finish: Finish = "not entered") -> Outline:
    x = np.linspace(0.0, LENGTH, count)
    return Outline(
        keel=pins(x, 0.0 * x),
        deck=pins(x, 0.0 * x + DRAUGHT),
        half=pins(x, [wigley_half_breadth(float(place), DRAUGHT) for place in x]),
        widest=((0.0, 1.0),),
        deck_half=NO_FLAT,
        sections=(_section(0.25), _section(0.5), _section(0.75)),
        stern=finish,
        bow=finish,
    )


@pytest.mark.parametrize("finish", ["sharp", "not entered"])
@pytest.mark.parametrize("count", [5, 7, 11])
def test_the_stated_spread_holds(count: int, finish: Finish) -> None:
    spread = outline_spread(_measured(count, finish), BRIM)
    assert holds(spread.envelope, VOLUME)
    assert holds(spread.nabla, VOLUME)
    assert holds(spread.waterplane, WATERPLANE)
    assert holds(spread.bm_t, BM)


@pytest.mark.parametrize("count", [5, 7, 11])
def test_volume_area_and_centre(count: int) -> None:
    mesh = outlined(_measured(count))
    assert_closed(mesh)
    volume, centre = volume_and_centre(mesh)
    assert volume == pytest.approx(VOLUME, rel=2e-3)
    assert centre[2] == pytest.approx(5.0 * DRAUGHT / 8.0, rel=2e-3)
    assert centre[0] == pytest.approx(LENGTH / 2.0, abs=1e-6)
    assert area(mesh) - WATERPLANE == pytest.approx(0.1487906, rel=2e-3)


def test_to_say_that_the_ends_are_sharp_narrows_the_spread() -> None:
    answer, untold = (
        outline_spread(_measured(5, finish), BRIM).nabla for finish in ("sharp", "not entered")
    )
    assert answer.spread < untold.spread
