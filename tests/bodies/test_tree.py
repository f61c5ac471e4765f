"""The order of the tree: every triangle once, every box around what it holds, sums that add up."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.bodies.solids import boulder, unit

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.shapes import box, cylinder, moved, sphere
from trimdive.geometry.solids.tree import carried, corners, forest, plant, planted, shifted, span

FEW = [1, 2, 7, 8, 9, 63, 64, 65, 513, 1280]


def sorted_rows(points: np.ndarray) -> np.ndarray:
    return points[np.lexsort(points.T)]


@pytest.mark.parametrize("count", FEW)
def test_every_triangle_is_kept_once(count: int) -> None:
    """What fills up the last leaf has no area and stands on a corner of the body."""
    ball = boulder(1)
    mesh = Mesh(vertices=ball.vertices, triangles=ball.triangles[:count])
    tree = plant(mesh)
    kept = corners(tree)
    area = np.linalg.norm(np.cross(kept[:, 1] - kept[:, 0], kept[:, 2] - kept[:, 0]), axis=1)
    assert (area > 0).sum() == count
    own = (mesh.corners - tree.centre).reshape(count, 9)
    np.testing.assert_array_equal(sorted_rows(kept[area > 0].reshape(-1, 9)), sorted_rows(own))


@pytest.mark.parametrize("count", FEW)
def test_sums_of_the_root_are_those_of_all(count: int) -> None:
    ball = boulder(2)
    mesh = Mesh(vertices=ball.vertices, triangles=ball.triangles[:count])
    tree = plant(mesh, weight=0.5)
    a, b, c = np.moveaxis(mesh.corners - tree.centre, 1, 0)
    w, area, s = np.sum(a * np.cross(b, c), axis=1) / 6.0, np.cross(b - a, c - a) / 2.0, a + b + c
    plain = [w.sum(), *area.sum(axis=0), *(w @ s), *(area.T @ s).ravel()]
    root = tree.sums[:8].sum(axis=0)
    np.testing.assert_allclose(root, 0.5 * np.array(plain), atol=1e-13)


@given(st.integers(0, 10_000))
@settings(max_examples=30)
def test_a_tree_that_is_shifted_is_cut_as_the_body_moved(seed: int) -> None:
    """Corners, boxes and sums are of where it lies: any plane finds what it finds anew."""
    dice = np.random.default_rng(seed)
    mesh, (shift, start, n) = boulder(seed, 2), dice.normal(size=(3, 3))
    n /= np.linalg.norm(n)
    before = plant(mesh, 0.5, start)
    kept = before.leaves.copy()
    found, anew = shifted(before, shift), plant(moved(mesh, *shift), 0.5, start)
    np.testing.assert_array_equal(before.leaves, kept)
    np.testing.assert_allclose(found.sums[:8].sum(axis=0), anew.sums[:8].sum(axis=0), atol=1e-12)
    np.testing.assert_allclose(span(found, 0, n), span(anew, 0, n), atol=1e-12)
    for d in np.linspace(*(moved(mesh, *shift).bounds @ n), 5):
        ours, theirs = cut(found, n, float(d)), cut(anew, n, float(d))
        assert ours.volume == pytest.approx(theirs.volume, abs=1e-12)
        np.testing.assert_allclose(ours.moment, theirs.moment, atol=1e-12)
        np.testing.assert_allclose(ours.area_second, theirs.area_second, atol=1e-11)


def test_a_body_that_is_moved_brings_its_tree_along() -> None:
    mesh, shift = boulder(4), np.array([0.02, -0.3, 0.11])
    there = carried(mesh, shift)
    np.testing.assert_array_equal(there.vertices, moved(mesh, *shift).vertices)
    found, anew = planted(there, 1.0), plant(there, 1.0)
    assert found.leaves is planted(mesh, 1.0).leaves
    np.testing.assert_allclose(found.centre, anew.centre, atol=1e-15)
    np.testing.assert_allclose(found.sums, anew.sums, atol=1e-14)


@given(st.integers(0, 10_000))
@settings(max_examples=30)
def test_spans_hold_the_body_tightly(seed: int) -> None:
    mesh, other = boulder(seed, 2), moved(box(1.0, 0.5, 0.25), 5.0, 0.0, 0.0)
    tree = forest([plant(mesh, 1.0, np.zeros(3)), plant(other, 1.0, np.zeros(3))])
    n = np.random.default_rng(seed).normal(size=3)
    n /= np.linalg.norm(n)
    heights = mesh.vertices @ n
    low, high = span(tree, 0, n)
    assert low <= heights.min() + 1e-15
    assert high >= heights.max() - 1e-15
    middle = span(tree, 1, np.array([1.0, 0.0, 0.0]))
    assert middle == (pytest.approx(4.5), pytest.approx(5.5))


@pytest.mark.parametrize("n", [unit(0, 0, 1), unit(1, 1, 1), unit(-0.2, 0.9, 0.1)], ids=str)
def test_a_forest_of_many_sizes_is_the_sum_of_its_trees(n: np.ndarray) -> None:
    centre = np.array([0.3, 0.0, 0.1])
    meshes = [boulder(1), sphere(0.2), box(0.1, 0.1, 0.1), boulder(2, 4), cylinder(0.1, 0.5)]
    spread = [moved(mesh, 0.3 * k, -0.1 * k, 0.05 * k) for k, mesh in enumerate(meshes)]
    whole = forest([plant(mesh, 1.0, centre) for mesh in spread])
    again = forest([forest([plant(mesh, 1.0, centre)]) for mesh in spread])
    for d in (-0.4, 0.0, 0.15, 0.6, 9.0):
        alone = sum(cut(plant(mesh), n, d).volume for mesh in spread)
        assert cut(whole, n, d).volume == pytest.approx(alone, abs=1e-13)
        assert cut(again, n, d).volume == pytest.approx(alone, abs=1e-13)
    assert cut(whole, n, 9.0).volume == pytest.approx(sum(map(volume, spread)), rel=1e-13)


def test_nothing_to_plant_or_join() -> None:
    nothing = Mesh(vertices=np.zeros((0, 3)), triangles=np.zeros((0, 3), np.int64))
    with pytest.raises(GeometryError, match="no triangles"):
        plant(nothing)
    with pytest.raises(GeometryError, match="nothing displaces"):
        forest([])
