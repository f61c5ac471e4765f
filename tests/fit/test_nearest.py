"""The least gap between two surfaces, against manifold3d's ``min_gap`` and against closed forms."""

from collections.abc import Callable

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.solid import solid_of
from trimdive.geometry.solids.nearest import gap
from trimdive.geometry.solids.shapes import box, cylinder, moved, sphere

SHAPES: tuple[Callable[[np.random.Generator], Mesh], ...] = (
    lambda r: box(*r.uniform(0.01, 0.3, 3).tolist()),
    lambda r: cylinder(*r.uniform(0.01, 0.3, 2).tolist()),
    lambda r: sphere(float(r.uniform(0.01, 0.2))),
)


def thrown(r: np.random.Generator) -> Mesh:
    """Return a shape of some kind, turned and put anywhere."""
    made = SHAPES[r.integers(len(SHAPES))](r)
    turn = Rotation.from_quat(r.normal(size=4)).as_matrix()
    turned = Mesh(vertices=made.vertices @ turn.T, triangles=made.triangles)
    return moved(turned, *r.uniform(-0.3, 0.3, 3).tolist())


@pytest.mark.parametrize("seed", range(60))
def test_a_gap_is_as_wide_as_the_library_finds_it(seed: int) -> None:
    r = np.random.default_rng(seed)
    one, other = thrown(r), thrown(r)
    a, b = solid_of(one, "one"), solid_of(other, "other")
    found = gap(one, other)
    assert found is not None
    if (a ^ b).volume() > 0.0:
        is_within = min((a - b).volume(), (b - a).volume()) < 1e-12
        assert found.width == 0.0 or is_within
    else:
        assert found.width == pytest.approx(a.min_gap(b, 3.0), abs=1e-9)
    assert np.linalg.norm(found.here - found.there) == pytest.approx(found.width, abs=1e-9)


def test_a_wider_gap_than_is_looked_for_is_none() -> None:
    one, other = box(0.1, 0.1, 0.1), moved(box(0.1, 0.1, 0.1), 0.3, 0.0, 0.0)
    assert gap(one, other, 0.19) is None
    found = gap(one, other, 0.21)
    assert found is not None
    assert found.width == pytest.approx(0.2, abs=1e-12)
    assert (found.here[0], found.there[0]) == pytest.approx((0.05, 0.25))


def test_a_thing_within_another_has_the_gap_around_it() -> None:
    found = gap(box(0.1, 0.1, 0.1), box(0.2, 0.3, 0.4))
    assert found is not None
    assert found.width == pytest.approx(0.05, abs=1e-12)


def test_two_edges_that_cross_askew_are_nearest_there() -> None:
    one = box(1.0, 0.1, 0.1)
    turned = Mesh(
        vertices=box(1.0, 0.1, 0.1).vertices @ Rotation.from_euler("xz", [45, 90], degrees=True)
        .as_matrix().T,
        triangles=one.triangles,
    )  # fmt: skip
    lifted = moved(turned, 0.0, 0.0, 0.2)
    found = gap(one, lifted)
    assert found is not None
    assert found.width == pytest.approx(0.2 - 0.05 - 0.05 * 2**0.5, abs=1e-12)


@pytest.mark.parametrize("aside", [0.3, -0.25, 0.16])
def test_faces_in_one_plane_are_as_far_apart_as_their_edges(aside: float) -> None:
    """Closed form: the end of the one lies in the plane in which the other begins."""
    one = cylinder(0.1, 0.1)
    other = moved(box(0.1, 0.1, 0.3), 0.1, aside, 0.0)
    for first, second in ((one, other), (other, one)):
        found = gap(first, second)
        assert found is not None
        assert found.width == pytest.approx(abs(aside) - 0.1, abs=2e-4)  # its sides are straight
