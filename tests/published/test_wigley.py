"""The Wigley hull y = (B/2)·(1 − (2x/L)²)·(1 − (z/T)²): closed forms by integration.

Volume 4LBT/9, waterplane 2LB/3, KB 5T/8, BM 3B²/(35T) across and 3L²/(40T) along; wetted area
0.1487906 L² for B = L/10, T = L/16, by quadrature.
"""

import numpy as np
import pytest
from tests.lines.tables import area, assert_closed, offsets, volume_and_centre, wigley_half_breadth

from trimdive.geometry.lines import Mesh, loft, read_table

LENGTH, BREADTH, DRAUGHT = 1.0, 0.1, 0.0625
HEIGHTS = DRAUGHT * np.array([0.0, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 1.0])


def _hull(stations: int) -> Mesh:
    x = np.linspace(0.0, LENGTH, stations)
    text = offsets(x, HEIGHTS, wigley_half_breadth, knuckles="keel")
    return loft(read_table(text, "wigley.csv"), along=240, around=120)


def _deck(mesh: Mesh) -> tuple[float, float, float]:
    """Return area and second moments, across and along about the middle, of the level deck."""
    corners = mesh.vertices[mesh.triangles]
    flat = corners[np.all(np.abs(corners[:, :, 2] - DRAUGHT) < 1e-12, axis=1)]
    a, b, c = (flat[:, k, :2] - (LENGTH / 2.0, 0.0) for k in range(3))
    parts = ((b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]) / 2.0
    middles = ((a + b) / 2.0) ** 2 + ((b + c) / 2.0) ** 2 + ((c + a) / 2.0) ** 2
    i_l, i_t = (parts[:, None] * middles / 3.0).sum(axis=0)
    return float(parts.sum()), float(i_t), float(i_l)


@pytest.mark.parametrize(("stations", "close"), [(11, 2e-4), (15, 2e-4), (21, 2e-4)])
def test_from_few_stations(stations: int, close: float) -> None:
    mesh = _hull(stations)
    assert_closed(mesh)
    nabla, centre = volume_and_centre(mesh)
    waterplane, i_t, i_l = _deck(mesh)
    assert nabla == pytest.approx(4.0 * LENGTH * BREADTH * DRAUGHT / 9.0, rel=close)
    assert waterplane == pytest.approx(2.0 * LENGTH * BREADTH / 3.0, rel=close)
    assert centre[2] == pytest.approx(5.0 * DRAUGHT / 8.0, rel=close)
    assert centre[0] == pytest.approx(LENGTH / 2.0, abs=1e-6)
    assert i_t / nabla == pytest.approx(3.0 * BREADTH**2 / (35.0 * DRAUGHT), rel=2.0 * close)
    assert i_l / nabla == pytest.approx(3.0 * LENGTH**2 / (40.0 * DRAUGHT), rel=2.0 * close)
    assert area(mesh) - waterplane == pytest.approx(0.1487906, rel=close)
