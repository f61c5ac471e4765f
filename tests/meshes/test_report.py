"""What is said of meshes with faults made on purpose; volumes by trimesh and by hand."""

import numpy as np
import pytest
import trimesh
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

from trimdive.geometry.meshes import MeshReport, likely_unit, likely_walls, report, troubles
from trimdive.geometry.meshes.crossing import crossings
from trimdive.text.meshed_text import of_mesh


def looked(shape: trimesh.Trimesh) -> MeshReport:
    return report(mesh(shape), "x.stl")


def keys(found: MeshReport) -> list[str]:
    return [one.key for one in troubles(found)]


def test_a_clean_box() -> None:
    found = looked(box())
    assert keys(found) == []
    assert found.is_closed
    assert found.volume == pytest.approx(BOX, rel=1e-12)
    assert found.hull_volume == pytest.approx(BOX, rel=1e-12)
    assert found.area == pytest.approx(box().area, rel=1e-12)


def test_inside_out() -> None:
    found = looked(inverted(box()))
    assert keys(found) == ["inside-out"]
    assert found.volume == pytest.approx(-BOX)


def test_a_cavity_is_no_inverted_body() -> None:
    found = looked(together(box(), inverted(small_box())))
    assert (found.solid_bodies, found.cavities, found.inside_out) == (1, 1, 0)
    assert keys(found) == []
    assert found.volume == pytest.approx(BOX - SMALL)


def test_an_inverted_body_beside_is_no_cavity() -> None:
    far = small_box()
    far.apply_translation((0.5, 0.0, 0.0))
    found = looked(together(box(), inverted(far)))
    assert (found.solid_bodies, found.cavities, found.inside_out) == (2, 0, 1)
    assert keys(found) == ["inside-out"]


def test_a_wall_wholly_inside_out_has_one_trouble() -> None:
    found = looked(inverted(together(box(), inverted(small_box()))))
    assert (found.cavities, found.inside_out, keys(found)) == (1, 1, ["inside-out"])


def test_a_body_in_a_cavity_is_a_body() -> None:
    tiny = trimesh.creation.box((0.01, 0.01, 0.01))
    found = looked(together(box(), inverted(small_box()), tiny))
    assert (found.solid_bodies, found.cavities) == (2, 1)
    assert keys(found) == []


def test_a_body_within_a_body_counts_twice() -> None:
    found = looked(together(box(), small_box()))
    assert keys(found) == ["overlap"]
    assert found.overlap == pytest.approx(SMALL)


@pytest.mark.parametrize("shift", [(0.1, 0.03, 0.02), (0.15, 0.0, 0.01), (0.05, -0.06, -0.03)])
def test_overlap_by_hand(shift: tuple[float, float, float]) -> None:
    found = looked(together(box(), box(shift)))
    common = np.prod([side - abs(off) for side, off in zip((0.2, 0.1, 0.05), shift, strict=True)])
    assert keys(found) == ["overlap"]
    assert found.overlap == pytest.approx(float(common), rel=1e-9)
    assert found.crossing_bodies == found.crossings > 0


def test_bodies_that_only_touch_do_not_overlap() -> None:
    found = looked(together(box(), box((0.2, 0.0, 0.0))))
    assert found.crossings == 0
    assert found.overlap == 0.0
    assert keys(found) == []


def test_open_edges_and_the_hole() -> None:
    shape = trimesh.creation.icosphere(subdivisions=3)
    found = looked(without(shape, 5))
    assert keys(found) == ["open"]
    assert (found.open_edges, len(found.holes)) == (3, 1)
    assert found.holes[0].span <= float(shape.edges_unique_length.max()) * 3**0.5


def test_one_triangle_turned() -> None:
    faces = box().faces.copy()
    faces[0] = faces[0][::-1]
    found = looked(faces_of(box(), faces))
    assert keys(found) == ["turned"]
    assert found.turned_edges == 3


def test_doubled_triangles() -> None:
    found = looked(faces_of(box(), np.vstack([box().faces, box().faces[:2]])))
    assert found.doubled == 2
    assert keys(found)[0] == "doubled"


def test_flat_triangles_are_counted() -> None:
    shape = box()
    points = np.vstack([shape.vertices, shape.vertices[shape.faces[0][:2]].mean(axis=0)])
    line = [*shape.faces[0][:2], len(points) - 1]
    found = looked(trimesh.Trimesh(points, np.vstack([shape.faces, [line]]), process=False))
    assert found.flat == 1


def test_points_as_good_as_on_each_other() -> None:
    shape = trimesh.creation.icosphere(subdivisions=2)
    corners = shape.triangles.reshape(-1, 3).copy()
    corners += 1e-6 * np.random.default_rng(1).normal(size=corners.shape)
    soup = trimesh.Trimesh(corners, np.arange(len(corners)).reshape(-1, 3), process=False)
    found = looked(soup)
    assert found.loose == found.triangles  # nothing hangs together
    assert found.near_points > 0


def test_self_crossing_is_found_where_a_tube_bends_through_itself() -> None:
    figure = np.linspace(0, 2 * np.pi, 60, endpoint=False)
    path = np.column_stack([np.sin(figure), np.sin(figure) * np.cos(figure), 0 * figure])
    around = np.linspace(0, 2 * np.pi, 12, endpoint=False)
    ahead = np.roll(path, -1, axis=0) - np.roll(path, 1, axis=0)
    side = np.cross(ahead, [0.0, 0.0, 1.0])
    side /= np.linalg.norm(side, axis=1, keepdims=True)
    up = np.array([0.0, 0.0, 1.0])
    rings = path[:, None] + 0.1 * (
        np.cos(around)[None, :, None] * side[:, None] + np.sin(around)[None, :, None] * up
    )
    ids = np.arange(60 * 12).reshape(60, 12)
    right, over = np.roll(ids, -1, axis=0), np.roll(ids, -1, axis=1)
    both = np.roll(right, -1, axis=1)
    faces = np.concatenate([np.stack([ids, right, both], -1), np.stack([ids, both, over], -1)])
    found = looked(trimesh.Trimesh(rings.reshape(-1, 3), faces.reshape(-1, 3), process=False))
    assert found.is_closed
    assert found.crossings > 0
    assert "self-crossing" in keys(found)


@pytest.mark.parametrize("seed", range(4))
def test_crossings_agree_with_every_pair_looked_at(seed: int) -> None:
    """Against all pairs by trimesh: edges of one triangle meeting the other."""
    random = np.random.default_rng(seed)
    corners = random.uniform(size=(60, 1, 3)) + 0.25 * random.normal(size=(60, 3, 3))
    shape = trimesh.Trimesh(corners.reshape(-1, 3), np.arange(180).reshape(-1, 3), process=False)
    found = {tuple(sorted(pair)) for pair in crossings(mesh(shape)).tolist()}
    wanted = set()
    for i in range(60):
        for j in range(i + 1, 60):
            if _meet(corners[i], corners[j]) or _meet(corners[j], corners[i]):
                wanted.add((i, j))
    assert found == wanted
    assert wanted


def _meet(edges: np.ndarray, face: np.ndarray) -> bool:
    """Return whether an edge of one triangle meets another: three equations, solved by numpy."""
    for k in range(3):
        p, q = edges[k], edges[(k + 1) % 3]
        matrix = np.column_stack([q - p, face[0] - face[1], face[0] - face[2]])
        t, u, v = np.linalg.solve(matrix, face[0] - p)
        if 0 < t < 1 and u > 0 and v > 0 and u + v < 1:
            return True
    return False


def test_walls_are_told_from_an_outside() -> None:
    inner = trimesh.creation.box((0.195, 0.095, 0.045))
    assert likely_walls(looked(box())).answer == "outside"
    printed = looked(together(box(), inverted(inner)))
    assert likely_walls(printed).answer == "printed"
    assert printed.wall == pytest.approx(0.0025, rel=0.06)


def test_hull_of_very_many_points_is_near() -> None:
    shape = trimesh.creation.icosphere(subdivisions=6)
    assert looked(shape).hull_volume == pytest.approx(shape.convex_hull.volume, rel=2e-3)


@pytest.mark.parametrize(
    ("numbers", "answer", "also"),
    [
        ((4.0, 0.5, 0.5), "ft", "in (102 mm)"),  # 1.22 m: a hull of 102 mm is none
        ((5.0, 1.0, 1.0), "ft", "in (127 mm)"),
        ((12.0, 2.0, 2.0), "in", "ft (3.66 m)"),
        ((47.0, 6.0, 6.0), "in", "cm (470 mm)"),
        ((90.0, 10.0, 10.0), "mm", "cm (900 mm)"),
        ((60.0, 40.0, 5.0), "mm", "in (1.52 m)"),  # as broad as a fin
        ((0.8, 0.1, 0.1), "m", "ft (244 mm)"),
    ],
)
def test_units_are_weighed_by_what_hulls_are(
    numbers: tuple[float, float, float], answer: str, also: str
) -> None:
    """Common practice, no source: hulls of models are 0.4 to 2 m long, most are drawn in mm."""
    found = likely_unit(np.array(numbers))
    assert found.answer == answer
    assert not found.is_certain
    assert also in of_mesh(found.why)


@pytest.mark.parametrize("longest", [300.0, 800.0, 1300.0, 2000.0])
def test_some_lengths_can_only_be_millimetres(longest: float) -> None:
    found = likely_unit(np.array([longest, longest / 8, longest / 8]))
    assert (found.answer, found.is_certain) == ("mm", True)
