"""Flat geometry of the drawings, against closed forms and scipy."""

from itertools import pairwise
from math import pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import isotonic_regression
from scipy.spatial import ConvexHull

from trimdive.geometry.lines.mesh import Floats, join
from trimdive.geometry.solids.shapes import along, box, moved, sphere, tube, turned_out
from trimdive.pictures.drawings.flat import below, kept, loops, outline, spread, thinned, wrapped

X, Y, Z = np.eye(3)
ROWS = st.lists(st.tuples(st.floats(-500, 500), st.floats(0.1, 60)), min_size=1, max_size=12).map(
    sorted
)


def area(loop: Floats) -> float:
    """Return the area in a closed line, by the shoelace formula."""
    x, y = loop[:, 0], loop[:, 1]
    return 0.5 * float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def test_a_sphere_is_seen_as_a_circle() -> None:
    ball = moved(sphere(0.2, 96), 1.0, 0.0, 0.3)
    seen = outline(ball, X, Z)
    inner = np.abs(seen.across - 1.0) < 0.095
    circle = np.sqrt(0.1**2 - (seen.across[inner] - 1.0) ** 2)
    assert seen.high[inner] - 0.3 == pytest.approx(circle, abs=3e-4)  # a 96-sided ball
    assert 0.3 - seen.low[inner] == pytest.approx(circle, abs=3e-4)
    assert area(seen.loop) == pytest.approx(-pi * 0.1**2, rel=2e-3)


def test_a_box_that_stands_square_is_seen_to_its_ends() -> None:
    seen = outline(box(0.4, 0.1, 0.2), X, Z)
    assert (seen.across[0], seen.across[-1]) == pytest.approx((-0.2, 0.2))
    assert np.ptp(seen.high) == pytest.approx(0)
    assert (seen.low[0], seen.high[-1]) == pytest.approx((-0.1, 0.1))
    assert len(seen.loop) == 4


def test_an_inset_wedge_keeps_its_thickness() -> None:
    wedge = box(1.0, 0.1, 0.2)
    slanted = wedge.vertices.copy()
    slanted[:, 2] *= 1.0 - 0.5 * (slanted[:, 0] + 0.5)
    seen = outline(type(wedge)(vertices=slanted, triangles=wedge.triangles), X, Z)
    inner = seen.inset(0.004)
    high = np.interp(inner.across, seen.across, seen.high)
    # The top falls by 0.05 in 1.0; square to it, the faces are 4 mm apart.
    assert (high - inner.high) / np.hypot(1.0, 0.05) == pytest.approx(0.004, rel=1e-6)


@given(st.lists(st.tuples(st.floats(-9, 9), st.floats(-9, 9)), min_size=8, max_size=40))
def test_wrapping_agrees_with_scipy(points: list[tuple[float, float]]) -> None:
    cloud = np.array(points).round(3)
    try:
        known = ConvexHull(cloud).volume  # in the plane, scipy calls the area so
    except Exception:
        return  # all on one line
    if known > 1e-3:
        assert area(wrapped(cloud)) == pytest.approx(known, rel=1e-6)


def test_a_circle_is_kept_above_a_line() -> None:
    angle = 2 * pi * np.arange(2000) / 2000
    circle = np.column_stack([np.cos(angle), np.sin(angle)])
    upper = kept(circle, np.array([0.0, 1.0]), 0.5)
    # Segment of a circle: r² (α − sin α cos α), cos α = 1/2
    assert area(upper) == pytest.approx(pi / 3 - np.sqrt(3) / 4, rel=1e-5)
    assert upper[:, 1].min() == pytest.approx(0.5)
    assert len(kept(circle, np.array([0.0, 1.0]), 2.0)) == 0


def test_water_in_a_box_that_leans_is_a_trapezium() -> None:
    n = np.array([np.sin(0.1), 0.0, np.cos(0.1)])
    wet = wrapped(below(box(0.2, 0.1, 0.1), n, 0.0)[:, [0, 2]])
    assert area(wet) == pytest.approx(0.2 * 0.05)  # half of it, whatever the lean
    assert wet[:, 1].max() == pytest.approx(0.1 * np.tan(0.1))


def test_a_tube_cut_across_is_two_circles() -> None:
    rings = loops(tube(0.1, 0.01, 0.5), X, 0.05)
    sizes = sorted(abs(area(ring[:, 1:])) for ring in rings)
    assert sizes == pytest.approx([pi * 0.04**2, pi * 0.05**2], rel=1e-4)


def test_a_tube_cut_along_is_two_strips() -> None:
    strips = loops(tube(0.1, 0.01, 0.5), Y, 1e-5)
    assert sum(abs(area(strip[:, [0, 2]])) for strip in strips) == pytest.approx(
        2 * 0.01 * 0.5, rel=2e-2
    )


def test_faces_that_lie_on_one_another_cancel() -> None:
    outer, inner = box(0.4, 0.2, 0.2), moved(box(0.38, 0.18, 0.19), 0.0, 0.0, 0.005)
    trough = loops(join([outer, turned_out(inner)]), X, 0.01)
    assert len(trough) == 1, "one line round a trough, none across its open top"
    assert abs(area(trough[0][:, 1:])) == pytest.approx(0.2 * 0.2 - 0.18 * 0.19)


def test_lines_close_where_corners_lie_in_the_plane_or_close_by() -> None:
    for d in (0.0, 1e-7, 1e-6, 1e-5):
        rings = loops(along(sphere(0.1, 64), "y"), Y, d)
        assert sum(abs(area(ring[:, [0, 2]])) for ring in rings) == pytest.approx(
            pi * 0.05**2, rel=5e-3
        )


def test_thinning_leaves_what_bends() -> None:
    x = np.linspace(0, 1, 101)
    bent = np.column_stack([x, np.abs(x - 0.5)])
    assert thinned(bent) == pytest.approx(np.array([[0, 0.5], [0.5, 0], [1, 0.5]]))


@given(ROWS)
def test_labels_in_a_row_keep_clear_and_move_least(row: list[tuple[float, float]]) -> None:
    wanted, sizes = [list(column) for column in zip(*row, strict=True)]
    places = spread(wanted, sizes, 1.0, (-9e9, 9e9))
    steps = np.array([(a + b) / 2 + 1.0 for a, b in pairwise(sizes)])
    assert (np.diff(places) >= steps - 1e-6).all()
    # Least squares with a least distance is isotonic regression once the distances are taken off.
    starts = np.concatenate([[0.0], np.cumsum(steps)])
    assert np.array(places) - starts == pytest.approx(
        isotonic_regression(np.array(wanted) - starts).x, abs=1e-6
    )


def test_a_row_of_labels_stays_on_the_sheet() -> None:
    places = spread([1.0, 2.0, 99.0], [10.0, 10.0, 10.0], 0.0, (0.0, 100.0))
    assert places == pytest.approx([5.0, 15.0, 95.0])


def test_no_labels_need_no_room() -> None:
    assert spread([], [], 1.0, (0.0, 1.0)) == []
