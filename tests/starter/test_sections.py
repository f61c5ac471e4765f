"""A first boat through three sections that were measured: the hull is as broad there as told."""

import numpy as np
import pytest

from trimdive.errors import StarterError
from trimdive.estimates.starter import Section, Wish, starter
from trimdive.geometry.solids.hull import hull
from trimdive.geometry.solids.section import segments

PLACES = (0.21, 0.7, 1.19)


def _wish(breadths: tuple[float, float, float], shape: str) -> Wish:
    radius = 0.02 if shape == "box" else 0.0
    found = tuple(
        Section(x=x, breadth=breadth, shape=shape, radius=radius)  # type: ignore[arg-type]
        for x, breadth in zip(PLACES, breadths, strict=True)
    )
    return Wish(name="S", length=1.4, breadth=0.15, height=0.15, waterline=0.118, sections=found)


@pytest.mark.parametrize("shape", ["oval", "round", "box"])
@pytest.mark.parametrize("breadths", [(0.09, 0.15, 0.11), (0.12, 0.15, 0.08)])
def test_the_hull_is_as_broad_as_measured(breadths: tuple[float, float, float], shape: str) -> None:
    """The hull cut at each place: its breadth there, within a millimetre."""
    made = starter(_wish(breadths, shape))
    skin = hull(made.boat, {}).envelope
    for x, breadth in zip(PLACES, breadths, strict=True):
        rim = segments(skin.corners, np.array([1.0, 0.0, 0.0]), x).reshape(-1, 3)
        assert np.ptp(rim[:, 1]) == pytest.approx(breadth, abs=1e-3)
    assert made.gm > 0
    assert made.bg > 0


def test_a_section_broader_than_she_is_is_refused() -> None:
    with pytest.raises(StarterError, match="160 mm broad at 700 mm cannot be"):
        starter(_wish((0.09, 0.16, 0.1), "oval"))
