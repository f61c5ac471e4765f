"""The cut against plain sums, another library, and the laws that hold for any body."""

import numpy as np
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from tests.bodies.solids import boulder, plain_cut, rotation, sliced, trimmed, turned, unit

from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.solids.cut import Cut, axes_in_plane, cut
from trimdive.geometry.solids.shapes import box, cylinder, moved, scaled, sphere, turned_out
from trimdive.geometry.solids.tree import forest, plant

ROUNDING = 1e-13  # of a sum of some thousand terms in double precision
SLICED = 3e-8  # m² and so on: outlines of some 5 m, known to 1e-8 m here and there
DOWN_AND_UP = [unit(0.05, 0.1, 1.0), unit(-0.3, 0.8, -0.2), unit(1.0, 0.0, 0.0), unit(0.2, 0, 1)]
SEEDS = st.integers(0, 10_000)
SHARES = st.floats(-0.9, 0.9)


def level_in(mesh: Mesh, n: Floats, share: float) -> float:
    """Return the height of a plane across the mesh, at this share of the way from its middle."""
    heights = mesh.vertices @ n
    return float((heights.max() + heights.min() + share * np.ptp(heights)) / 2.0)


def assert_same(one: Cut, other: Cut, size: float, close: float = ROUNDING) -> None:
    """Assert that two cuts agree to ``close`` of what a body of this size [m] can have."""
    assert one.volume == pytest.approx(other.volume, abs=close * size**3)
    assert one.area == pytest.approx(other.area, abs=close * size**2)
    np.testing.assert_allclose(one.moment, other.moment, atol=close * size**4, rtol=0)
    np.testing.assert_allclose(one.area_moment, other.area_moment, atol=close * size**3, rtol=0)
    np.testing.assert_allclose(one.area_second, other.area_second, atol=close * size**4, rtol=0)


@pytest.mark.parametrize("seed", range(8))
@pytest.mark.parametrize("n", DOWN_AND_UP, ids=str)
def test_agrees_with_a_plain_sum(seed: int, n: Floats) -> None:
    mesh = boulder(seed)
    for share in (-1.1, -0.7, 0.0, 0.3, 0.99, 1.1):
        plane = n, level_in(mesh, n, share)
        ours, plain = cut(plant(mesh), *plane), plain_cut(mesh, plane)
        assert ours.volume == pytest.approx(plain.volume, abs=ROUNDING * volume(mesh))
        np.testing.assert_allclose(ours.moment, plain.moment, atol=ROUNDING, rtol=0)


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("n", DOWN_AND_UP, ids=str)
def test_agrees_with_another_library(seed: int, n: Floats) -> None:
    """manifold3d trims and slices; it gives the points of a slice rounded to some 1e-8 m."""
    mesh = boulder(seed, halvings=4)
    plane = n, level_in(mesh, n, 0.2)
    ours = cut(plant(mesh), *plane)
    forward, port = axes_in_plane(n)
    axes = np.stack([forward, port])
    assert ours.volume == pytest.approx(trimmed(mesh, plane), rel=1e-9)
    area, *firsts, xx, xy, yy = sliced(mesh, plane, forward, port)
    assert ours.area == pytest.approx(area, abs=SLICED)
    np.testing.assert_allclose(axes @ ours.area_moment, firsts, atol=SLICED)
    second = axes @ ours.area_second @ axes.T
    np.testing.assert_allclose(second, [[xx, xy], [xy, yy]], atol=SLICED)


@given(SEEDS, SHARES)
@settings(max_examples=40)
def test_below_and_above_make_the_whole(seed: int, share: float) -> None:
    mesh, n = boulder(seed, 2), rotation(seed)[0]
    d = level_in(mesh, n, share)
    tree = plant(mesh)
    below, above = cut(tree, n, d), cut(tree, -n, -d)
    whole = cut(tree, n, d + 10.0)
    assert below.volume + above.volume == pytest.approx(volume(mesh), abs=ROUNDING)
    assert below.area == pytest.approx(above.area, abs=ROUNDING)
    assert whole.area == 0.0
    np.testing.assert_allclose(below.moment + above.moment, whole.moment, atol=ROUNDING)
    np.testing.assert_allclose(below.area_second, above.area_second, atol=ROUNDING)


@given(SEEDS, SHARES, st.floats(1e-3, 1e3))
@settings(max_examples=40)
def test_scales(seed: int, share: float, factor: float) -> None:
    mesh, n = boulder(seed, 2), rotation(seed)[0]
    d = level_in(mesh, n, share)
    one, large = cut(plant(mesh), n, d), cut(plant(scaled(mesh, factor)), n, factor * d)
    alike = Cut(
        volume=large.volume / factor**3,
        moment=large.moment / factor**4,
        area=large.area / factor**2,
        area_moment=large.area_moment / factor**3,
        area_second=large.area_second / factor**4,
    )
    assert_same(alike, one, size=2.0, close=1e-12)


@given(SEEDS, SHARES, st.tuples(*[st.floats(-50.0, 50.0)] * 3))
@settings(max_examples=40)
def test_moving_moves_only_coordinates(
    seed: int, share: float, shift: tuple[float, float, float]
) -> None:
    """Coordinates 50 m off carry 1e-14 m, and their squares 1e-10 m² of rounding."""
    mesh, n, s = boulder(seed, 2), rotation(seed)[0], np.array(shift)
    d = level_in(mesh, n, share)
    here, there = cut(plant(mesh), n, d), cut(plant(moved(mesh, *shift)), n, d + float(n @ s))
    assert there.volume == pytest.approx(here.volume, abs=1e-12)
    assert there.area == pytest.approx(here.area, abs=1e-12)
    np.testing.assert_allclose(there.moment, here.moment + here.volume * s, atol=1e-10)
    np.testing.assert_allclose(there.area_moment, here.area_moment + here.area * s, atol=1e-10)
    mixed = np.outer(s, here.area_moment)
    second = here.area_second + mixed + mixed.T + here.area * np.outer(s, s)
    np.testing.assert_allclose(there.area_second, second, atol=1e-8)


@given(SEEDS, SHARES)
@settings(max_examples=40)
def test_turning_body_and_plane_turns_the_answer(seed: int, share: float) -> None:
    mesh, n, axes = boulder(seed, 2), rotation(seed)[0], rotation(seed + 1)
    d = level_in(mesh, n, share)
    one, other = cut(plant(mesh), n, d), cut(plant(turned(mesh, axes)), n @ axes, d)
    back = Cut(
        volume=other.volume,
        moment=axes @ other.moment,
        area=other.area,
        area_moment=axes @ other.area_moment,
        area_second=axes @ other.area_second @ axes.T,
    )
    assert_same(back, one, size=2.0, close=1e-12)


@given(SEEDS, SHARES)
@example(2002, 0.828125)  # a facet nearly along the plane
@settings(max_examples=30)
def test_area_is_the_slope_of_volume(seed: int, share: float) -> None:
    """dV/dd = A; between corners V is a cubic, of which two central differences tell it exactly.

    One alone is off by d³V/dd³ h²/6, which a facet nearly along the plane makes large.
    """
    mesh, n = boulder(seed, 2), rotation(seed)[0]
    d, h = level_in(mesh, n, share), 1e-5
    heights = mesh.vertices @ n
    assume(np.abs(heights - d).min() > 2.0 * h)  # no corner between, so that A is smooth there
    tree = plant(mesh)
    wide, near = (
        (cut(tree, n, d + step).volume - cut(tree, n, d - step).volume) / (2.0 * step)
        for step in (h, h / 2.0)
    )
    slope = (4.0 * near - wide) / 3.0
    assert slope == pytest.approx(cut(tree, n, d).area, abs=1e-8)


@given(SEEDS, SHARES, st.floats(0.1, 3.0))
@settings(max_examples=30)
def test_bodies_add_up_and_weights_scale(seed: int, share: float, weight: float) -> None:
    one, other = boulder(seed, 2), moved(boulder(seed + 1, 3), 0.4, 2.0, -0.3)
    n, centre = rotation(seed)[0], np.array([0.1, 0.2, 0.3])
    d = level_in(one, n, share)
    both = cut(forest([plant(one, 1.0, centre), plant(other, weight, centre)]), n, d)
    a, b = cut(plant(one), n, d), cut(plant(other), n, d)
    added = Cut(
        volume=a.volume + weight * b.volume,
        moment=a.moment + weight * b.moment,
        area=a.area + weight * b.area,
        area_moment=a.area_moment + weight * b.area_moment,
        area_second=a.area_second + weight * b.area_second,
    )
    assert_same(both, added, size=6.0)


def test_inside_out_counts_negative() -> None:
    n = unit(0.1, 0.2, 1.0)
    shell = forest([plant(sphere(0.2)), plant(turned_out(sphere(0.1)))])
    outer, inner = cut(plant(sphere(0.2)), n, 0.02), cut(plant(sphere(0.1)), n, 0.02)
    both = cut(shell, n, 0.02)
    assert both.volume == pytest.approx(outer.volume - inner.volume, rel=1e-13)
    assert both.area == pytest.approx(outer.area - inner.area, rel=1e-13)


@pytest.mark.parametrize("axis", range(3))
def test_a_face_on_the_plane_counts_as_below(axis: int) -> None:
    """A box whose top lies on the plane is all below, with no waterplane: all its corners are."""
    n = np.eye(3)[axis]
    size = np.array([2.0, 0.5, 0.25])
    tree = plant(box(*size))
    top = cut(tree, n, size[axis] / 2.0)
    assert (top.volume, top.area) == (pytest.approx(0.25, rel=1e-15), 0.0)
    bottom = cut(tree, n, -size[axis] / 2.0)
    assert bottom.volume == pytest.approx(0.0, abs=1e-16)
    assert bottom.area == pytest.approx(0.25 / size[axis], rel=1e-15)


@given(SEEDS, st.integers(0, 161))
@settings(max_examples=60)
def test_a_plane_through_a_corner(seed: int, corner: int) -> None:
    mesh, n = boulder(seed, 2), rotation(seed)[1]
    d = float(mesh.vertices[corner] @ n)
    tree, plain = plant(mesh), plain_cut(mesh, (n, d))
    here = cut(tree, n, d)
    assert here.volume == pytest.approx(plain.volume, abs=ROUNDING)
    around = [cut(tree, n, d + h).area for h in (-1e-9, 1e-9)]
    assert min(around) - 1e-7 <= here.area <= max(around) + 1e-7


@given(st.integers(0, 7), st.integers(0, 7), SEEDS)
@settings(max_examples=60)
def test_a_plane_through_an_edge_or_diagonal_of_a_turned_box(a: int, b: int, seed: int) -> None:
    """Two corners lie on the plane to within rounding; half the box, or none or all, is below."""
    assume(a != b)
    axes = rotation(seed)
    mesh = turned(box(1.0, 0.5, 0.25), axes)
    across = np.cross(
        mesh.vertices[a] - mesh.vertices[b], np.random.default_rng(seed).normal(size=3)
    )
    n = across / np.linalg.norm(across)
    d = float(n @ mesh.vertices[a])
    here, plain = cut(plant(mesh), n, d), plain_cut(mesh, (n, d))
    assert here.volume == pytest.approx(plain.volume, abs=1e-14)
    assert np.isfinite(here.area_second).all()
    assert -1e-12 < here.area < 1.0


@pytest.mark.parametrize("seed", range(5))
def test_faces_of_a_turned_box_on_the_plane(seed: int) -> None:
    """Rounding decides on which side each corner lies, yet volume must not care."""
    axes = rotation(seed)
    mesh = turned(box(1.0, 0.5, 0.25), axes)
    for k, half in enumerate((0.5, 0.25, 0.125)):
        for sign in (-1.0, 1.0):
            below = cut(plant(mesh), axes[k], sign * half)
            assert below.volume == pytest.approx(0.125 * (sign > 0.0), abs=1e-14)
            assert -1e-12 < below.area < 0.125 / (2.0 * half) + 1e-12


@pytest.mark.parametrize("sign", [-1.0, 1.0])
def test_axes_in_plane_are_square_even_on_end(sign: float) -> None:
    for n in (np.array([sign, 0.0, 0.0]), unit(sign, 1e-7, -1e-7), unit(sign, 0.4, 0.2)):
        forward, port = axes_in_plane(n)
        np.testing.assert_allclose(np.stack([forward, port, n]) @ n, [0.0, 0.0, 1.0], atol=1e-6)
        np.testing.assert_allclose(np.cross(n, forward), port, atol=1e-15)


def test_far_off_origins_cost_no_digits() -> None:
    """A cylinder a kilometre off: its own coordinates carry 1e-13 m, and so does the volume."""
    n = unit(0.0, 0.1, 1.0)
    here, there = cylinder(0.1, 0.5), moved(cylinder(0.1, 0.5), 1000.0, -1000.0, 500.0)
    far = cut(plant(there), n, 0.01 + float(n @ np.array([1000.0, -1000.0, 500.0])))
    assert far.volume == pytest.approx(cut(plant(here), n, 0.01).volume, rel=1e-10)
