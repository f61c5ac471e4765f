"""Groves, Huang, Chang, Geometric characteristics of DARPA SUBOFF models, DTRC, 1989, table 1.

Volume, area and centre are those of its formulas by quadrature to all digits shown; the area
agrees with the 5.988 m² quoted in the literature, the volume with its 0.699 m³.
"""

import numpy as np
import pytest
from tests.lines.tables import area, assert_closed, radii, volume_and_centre

from trimdive.geometry.lines import Mesh, loft, read_table, suboff
from trimdive.geometry.lines.forms import SUBOFF_END, suboff_radius

FOOT = 0.3048
LENGTH = 4.35610  # over all [m]
VOLUME, AREA, LCB = 0.699211, 5.988264, 2.00861


@pytest.mark.parametrize(
    ("x", "r"),
    [
        (0.1, 0.283815),
        (0.5, 0.532727),
        (1.0, 0.648356),
        (2.0, 0.774402),
        (3.0, 0.831701),
        (11.0, 0.827397),
        (12.0, 0.654667),
        (13.0, 0.319551),
        (13.5, 0.168430),
        (13.979167, 0.097917),
        (14.1, 0.090301),
        (14.25, 0.048849),
    ],
)
def test_offsets_in_feet(x: float, r: float) -> None:
    assert suboff_radius(np.array([x]))[0] == pytest.approx(r, abs=1e-6)


def test_from_the_formula() -> None:
    mesh = suboff(length=LENGTH, steps=700).mesh(sides=120)
    assert_closed(mesh)
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(VOLUME, rel=2e-5)  # 700 cones stand for the curve
    assert area(mesh) == pytest.approx(AREA, rel=2e-4)  # and 120 flats for the circle
    assert LENGTH - centre[0] == pytest.approx(LCB, abs=1e-4)


def _from_stations(x: np.ndarray) -> Mesh:
    r = suboff_radius(x)
    r[[0, -1]] = 0.0
    table = read_table(radii(FOOT * (SUBOFF_END - x[::-1]), FOOT * r[::-1]), "suboff.csv")
    return loft(table, along=400, around=100)


def test_from_21_stations_closer_at_the_ends() -> None:
    x = SUBOFF_END / 2.0 * (1.0 - np.cos(np.linspace(0.0, np.pi, 21)))
    mesh = _from_stations(x)
    assert_closed(mesh)
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(VOLUME, rel=1e-3)  # the stations do not know the formula
    assert area(mesh) == pytest.approx(AREA, rel=1e-3)
    assert LENGTH - centre[0] == pytest.approx(LCB, abs=1e-3)


def test_from_21_even_stations() -> None:
    mesh = _from_stations(np.linspace(0.0, SUBOFF_END, 21))
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(VOLUME, rel=5e-3)  # two stations only in the rounded nose
    assert LENGTH - centre[0] == pytest.approx(LCB, abs=5e-3)


def test_radii_at_given_stations_come_out_again() -> None:
    x = SUBOFF_END / 2.0 * (1.0 - np.cos(np.linspace(0.0, np.pi, 21)))
    mesh = _from_stations(x)
    at = FOOT * (SUBOFF_END - x[10])
    ring = mesh.vertices[np.abs(mesh.vertices[:, 0] - at) < 1e-6]
    sides = len(ring)
    half_width = ring[:, 1].max()
    scale = np.sqrt(2.0 * np.pi / sides / np.sin(2.0 * np.pi / sides))  # equal area, by geometry
    assert half_width == pytest.approx(scale * FOOT * suboff_radius(x[10:11])[0], rel=1e-5)
