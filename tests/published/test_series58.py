"""Gertler, DTMB Report C-297, 1950, and Landweber and Gertler, TMB Report 719, 1950: Series 58.

The polynomial for m 0.40, r₀ 0.50, r₁ 0.10, C_P 0.65 is from memory; the six conditions that
define it give it again, which is the check. Volumes are integrals of the polynomial.
"""

import numpy as np
import pytest
from tests.lines.tables import area, assert_closed, volume_and_centre

from trimdive.errors import GeometryError
from trimdive.geometry.lines import series58
from trimdive.geometry.lines.forms import series58_coefficients

FORM = {"widest": 0.40, "nose_radius": 0.50, "tail_radius": 0.10}


@pytest.mark.parametrize(
    ("prismatic", "coefficients"),
    [
        (0.65, [1.0, 2.149653, -17.773496, 36.716580, -33.511285, 11.418548]),
        (0.60, [1.0, 0.837153, -8.585995, 14.075955, -10.542535, 3.215422]),
    ],
)
def test_coefficients(prismatic: float, coefficients: list[float]) -> None:
    found = series58_coefficients(prismatic=prismatic, **FORM)
    assert found == pytest.approx(coefficients, abs=1e-6)


@pytest.mark.parametrize(
    ("x", "y"),
    [(0.05, 0.23102), (0.1, 0.32722), (0.2, 0.43881), (0.3, 0.48773), (0.6, 0.46923),
     (0.8, 0.35663), (0.95, 0.14382)],
)  # fmt: skip
def test_radii_over_the_diameter(x: float, y: float) -> None:
    body = series58(length=1.0, diameter=1.0, prismatic=0.65, steps=4000, **FORM)
    assert np.interp(1.0 - x, body.x, body.r) == pytest.approx(y, abs=1e-5)


@pytest.mark.parametrize(
    ("prismatic", "volume", "place"), [(0.65, 0.510509, 0.464428), (0.60, 0.471239, 0.448442)]
)
def test_volume_and_its_centre(prismatic: float, volume: float, place: float) -> None:
    mesh = series58(length=1.4, diameter=0.2, prismatic=prismatic, steps=700, **FORM).mesh()
    assert_closed(mesh)
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(volume * 1.4 * 0.2**2, rel=1e-5)
    assert 1.0 - centre[0] / 1.4 == pytest.approx(place, abs=1e-5)


@pytest.mark.parametrize(("ratio", "share"), [(5, 0.78018), (7, 0.77390), (10, 0.77041)])
def test_surface_over_that_of_the_cylinder(ratio: float, share: float) -> None:
    body = series58(length=ratio, diameter=1.0, prismatic=0.65, steps=700, **FORM)
    assert area(body.mesh(sides=120)) / (np.pi * ratio) == pytest.approx(share, rel=2e-4)


def test_a_body_without_thickness_is_refused() -> None:
    with pytest.raises(GeometryError, match="prismatic"):
        series58(length=1.0, diameter=0.1, prismatic=0.3, **FORM)
