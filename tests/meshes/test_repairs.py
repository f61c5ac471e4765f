"""Meshes with known faults, mended, against manifold3d, trimesh and plain sums."""

import manifold3d
import numpy as np
import pytest
import trimesh
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.meshes.shapes import (
    BOX,
    SMALL,
    box,
    faces_of,
    inverted,
    mesh,
    small_box,
    together,
    without,
)

from trimdive.errors import GeometryError
from trimdive.fact import fact
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.meshes import Mended, light, mended, report, shell, troubles


def after(shape: trimesh.Trimesh, *repairs: str) -> Mended:
    return mended(mesh(shape), repairs, "x.stl")


def keys(found: Mesh) -> list[str]:
    return [one.key for one in troubles(report(found, "x"))]


def assert_watertight(found: Mesh) -> None:
    shape = trimesh.Trimesh(found.vertices, found.triangles, process=False)
    assert shape.is_watertight
    assert shape.is_winding_consistent
    assert solid(found).status() == manifold3d.Error.NoError


def solid(found: Mesh) -> manifold3d.Manifold:
    return manifold3d.Manifold(manifold3d.Mesh64(found.vertices, found.triangles.astype(np.uint64)))


def test_nothing_is_mended_unasked() -> None:
    shape = mesh(inverted(box()))
    assert mended(shape, (), "x.stl").mesh is shape


def test_flip_turns_a_body_outward() -> None:
    found = after(inverted(box()), "flip")
    assert volume(found.mesh) == pytest.approx(BOX)
    assert found.did == (fact("triangles-turned", triangles=12),)
    assert keys(found.mesh) == []


@pytest.mark.parametrize("seed", range(3))
def test_flip_of_any_triangles_of_a_ball(seed: int) -> None:
    ball = trimesh.creation.icosphere(subdivisions=3)
    faces = ball.faces.copy()
    turned = np.random.default_rng(seed).random(len(faces)) < 0.4
    faces[turned] = faces[turned][:, ::-1]
    found = after(faces_of(ball, faces), "flip")
    assert_watertight(found.mesh)
    assert volume(found.mesh) == pytest.approx(ball.volume, rel=1e-12)


def test_flip_leaves_cavities() -> None:
    hollow = together(box(), inverted(small_box()))
    assert volume(after(hollow, "flip").mesh) == pytest.approx(BOX - SMALL)
    assert volume(after(inverted(hollow), "flip").mesh) == pytest.approx(BOX - SMALL)


def test_flip_of_one_body_beside_another() -> None:
    far = small_box()
    far.apply_translation((0.5, 0.0, 0.0))
    found = after(together(box(), inverted(far)), "flip")
    assert volume(found.mesh) == pytest.approx(BOX + SMALL)


def test_a_twisted_band_has_no_outside() -> None:
    turn = np.linspace(0, 2 * np.pi, 24, endpoint=False)
    across = np.column_stack([np.cos(turn) * np.cos(turn / 2), np.sin(turn) * np.cos(turn / 2)])
    across = np.column_stack([across, np.sin(turn / 2)])
    middle = np.column_stack([np.cos(turn), np.sin(turn), 0 * turn])
    points = np.concatenate([middle + 0.3 * across, middle - 0.3 * across])
    one = np.arange(24)
    a, b, c, d = one, one + 24, np.roll(one, -1).copy(), np.roll(one + 24, -1).copy()
    c[-1], d[-1] = 24, 0  # its end is joined to its beginning half a turn round
    faces = np.concatenate([np.stack([a, b, c], 1), np.stack([b, d, c], 1)])
    with pytest.raises(GeometryError, match="only one side"):
        mended(Mesh(vertices=points, triangles=faces), ["flip"], "band.stl")


def test_cap_closes_small_holes() -> None:
    ball = trimesh.creation.icosphere(subdivisions=5)
    fans = np.flatnonzero((ball.faces == 700).any(axis=1))  # a hole of five or six corners
    found = after(without(ball, 3, *fans), "cap")
    assert_watertight(found.mesh)
    (did,) = found.did
    assert (did.kind, did.values["holes"]) == ("holes-capped", 2)
    assert volume(found.mesh) == pytest.approx(ball.volume, rel=1e-3)
    assert keys(found.mesh) == []


def test_cap_leaves_large_holes() -> None:
    found = after(without(box(), 0), "cap")
    assert "open" in keys(found.mesh)


def test_weld_joins_what_nearly_meets() -> None:
    ball = trimesh.creation.icosphere(subdivisions=3)
    corners = ball.triangles.reshape(-1, 3).copy()
    corners += 2e-6 * np.random.default_rng(2).uniform(-1, 1, size=corners.shape)
    soup = trimesh.Trimesh(corners, np.arange(len(corners)).reshape(-1, 3), process=False)
    found = after(soup, "weld")
    assert len(found.mesh.vertices) == len(ball.vertices)
    assert_watertight(found.mesh)
    assert volume(found.mesh) == pytest.approx(ball.volume, rel=1e-4)


def test_weld_keeps_what_is_apart() -> None:
    found = after(box(), "weld")
    assert len(found.mesh.vertices) == 8
    assert volume(found.mesh) == pytest.approx(BOX)


def test_drop_takes_doubles_and_loose_triangles() -> None:
    points = np.vstack([box().vertices, [[1, 1, 1], [1, 2, 1], [2, 1, 1]]])
    faces = np.vstack([box().faces, box().faces[:3], [[8, 9, 10]]])
    found = after(trimesh.Trimesh(points, faces, process=False), "drop")
    assert len(found.mesh.triangles) == 12
    assert len(found.mesh.vertices) == 8
    assert_watertight(found.mesh)


def test_drop_takes_both_sides_of_a_flap() -> None:
    points = np.vstack([box().vertices, [[1.0, 0.0, 0.0]]])
    flap = np.array([[0, 1, 8], [0, 8, 1]])
    found = after(trimesh.Trimesh(points, np.vstack([box().faces, flap]), process=False), "drop")
    assert len(found.mesh.triangles) == 12


def test_nothing_but_loose_triangles() -> None:
    corners = np.random.default_rng(3).random((300, 3))
    soup = trimesh.Trimesh(corners, np.arange(300).reshape(-1, 3), process=False)
    assert keys(mesh(soup)) == ["loose"]
    with pytest.raises(GeometryError, match="nothing but loose triangles"):
        after(soup, "drop")


shifts = st.tuples(*(st.floats(-0.9 * side, 0.9 * side) for side in (0.2, 0.1, 0.05)))


@settings(max_examples=20)
@given(shifts)
def test_union_of_two_boxes(shift: tuple[float, float, float]) -> None:
    common = np.prod([side - abs(off) for side, off in zip((0.2, 0.1, 0.05), shift, strict=True)])
    found = after(together(box(), box(shift)), "union")
    # the library takes points some nanometres apart for one: 1e-8 m over her sides of 0.1 m
    assert volume(found.mesh) == pytest.approx(2 * BOX - float(common), rel=1e-6)


def test_union_keeps_cavities_and_agrees_with_manifold() -> None:
    one = together(box(), inverted(small_box()))
    other = trimesh.creation.icosphere(subdivisions=3, radius=0.06)
    other.apply_translation((0.11, 0.02, 0.01))
    found = after(together(one, other), "union")
    wanted = solid(mesh(box())) - solid(mesh(small_box())) + solid(mesh(other))
    assert volume(found.mesh) == pytest.approx(wanted.volume(), rel=1e-9)
    assert_watertight(found.mesh)
    assert keys(found.mesh) == []


def test_union_counts_a_body_inside_out_as_if_turned() -> None:
    """Two boxes lapped by half, one of them inside out, by hand."""
    far = box((0.1, 0.0, 0.0))
    found = after(together(box(), inverted(far)), "union")
    assert volume(found.mesh) == pytest.approx(1.5 * BOX)
    assert found.did[0].values["turned"] == 1
    found = after(together(box(), inverted(box((0.5, 0.0, 0.0)))), "union", "flip")
    assert volume(found.mesh) == pytest.approx(2 * BOX)


def test_one_fault_after_another() -> None:
    ball = trimesh.creation.icosphere(subdivisions=4, radius=0.1)
    faces = np.vstack([ball.faces[1:, ::-1], ball.faces[7:9, ::-1]])
    found = after(faces_of(ball, faces), "drop", "flip", "cap")
    kinds = ["triangles-dropped", "triangles-turned", "holes-capped"]
    assert [one.kind for one in found.did] == kinds
    assert_watertight(found.mesh)
    assert volume(found.mesh) == pytest.approx(ball.volume, rel=1e-3)


def test_shell_has_no_rooms() -> None:
    hollow = mesh(together(box(), inverted(small_box())))
    assert volume(shell(hollow, "x")) == pytest.approx(BOX)


def test_light_copy_is_near() -> None:
    ball = trimesh.creation.icosphere(subdivisions=5, radius=0.1)
    copy = light(mesh(ball), 2e-4, "ball")
    assert len(copy.triangles) < len(ball.faces) / 2
    assert volume(copy) == pytest.approx(ball.volume, rel=0.01)
    radii = np.linalg.norm(copy.vertices, axis=1)
    assert np.abs(radii - 0.1).max() < 4e-4


def test_what_does_not_close_never_reaches_the_library() -> None:
    """One triangle too many on an edge: an odd number of sides ends the manifold3d library."""
    shape = box()
    points = np.vstack([shape.vertices, [[0.3, 0.0, 0.0]]])
    fin = np.vstack([shape.faces, [[0, 1, 8]]])
    odd = together(trimesh.Trimesh(points, fin, process=False), box((0.1, 0.0, 0.0)))
    assert len(odd.faces) % 2
    with pytest.raises(GeometryError, match="does not close"):
        after(odd, "union")
