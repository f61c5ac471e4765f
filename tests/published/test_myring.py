"""Prestero, Verification of a six-degree of freedom simulation model for the REMUS vehicle, 2001.

Tables 2.1 (shape) and 2.7 (figures of it); the formulas are Myring's, Aeronautical Quarterly 27,
1976. The thesis prints a volume of 0.0315 m³; its formulas give 0.031655 m³, half a per cent more.
"""

import numpy as np
import pytest
from tests.lines.tables import area, assert_closed, volume_and_centre

from trimdive.errors import GeometryError
from trimdive.geometry.lines import myring

REMUS = {
    "nose": 0.191,
    "nose_cut": 0.0165,
    "middle": 0.654,
    "tail": 0.541,
    "tail_cut": 0.0368,
    "power": 2.0,
    "tail_angle": 0.436,
    "diameter": 0.191,
}
LENGTH = 0.191 - 0.0165 + 0.654 + 0.541 - 0.0368


def test_figures_of_table_2_7() -> None:
    body = myring(steps=800, **REMUS)
    mesh = body.mesh(sides=120)
    assert_closed(mesh)
    measured, centre = volume_and_centre(mesh)
    assert pytest.approx(1.33, abs=5e-3) == LENGTH  # table 2.1
    assert np.pi * body.r.max() ** 2 == pytest.approx(0.0285, rel=6e-3)  # printed to 1e-4
    assert np.trapezoid(2.0 * body.r, body.x) == pytest.approx(0.226, abs=5e-4)
    assert measured == pytest.approx(0.0315, rel=6e-3)  # we are half a per cent above it
    assert LENGTH - centre[0] == pytest.approx(0.611 - 0.00554, abs=5e-4)


def test_volume_area_and_centre_by_quadrature_of_the_formulas() -> None:
    mesh = myring(steps=800, **REMUS).mesh(sides=120)
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(0.031655, rel=2e-5)
    assert area(mesh) == pytest.approx(0.71948 + 0.00474 + 0.00082, rel=2e-4)
    assert LENGTH - centre[0] == pytest.approx(0.60584, abs=1e-5)


@pytest.mark.parametrize(
    ("x", "r"),
    [(0.05, 0.07242), (0.10, 0.08794), (0.9, 0.09476), (1.0, 0.09009), (1.1, 0.07911),
     (1.2, 0.05949), (1.3, 0.02892)],
)  # fmt: skip
def test_radii_from_the_cut_nose(x: float, r: float) -> None:
    body = myring(steps=4000, **REMUS)
    assert np.interp(LENGTH - x, body.x, body.r) == pytest.approx(r, abs=1.1e-5)


def test_with_power_two_the_nose_is_half_a_spheroid() -> None:
    whole = REMUS | {"nose_cut": 0.0, "middle": 0.0, "tail_cut": 0.0}
    body = myring(steps=3000, **whole)
    nose = body.x >= 0.541
    measured = np.trapezoid(np.pi * body.r[nose] ** 2, body.x[nose])
    assert measured == pytest.approx(2.0 / 3.0 * np.pi * 0.0955**2 * 0.191, rel=1e-5)


def test_more_cut_off_than_there_is() -> None:
    with pytest.raises(GeometryError, match="cut off"):
        myring(**(REMUS | {"nose_cut": 0.2}))
