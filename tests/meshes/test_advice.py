"""Repairs are advised that were tried: each leads on, none in a circle; dead ends are said."""

import numpy as np
import pytest
import trimesh
from tests.meshes.shapes import box, faces_of, inverted, mesh, together, without
from tests.said import mend_of, what_of

from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes import Trouble, advised, mended, report, tried
from trimdive.text.meshed_text import METRIC


def advice(found: Mesh, done: tuple[str, ...] = ()) -> tuple[Trouble, ...]:
    stands = report(found, "x.stl")
    return advised(stands, tried(found, stands, "x.stl"), done)


def flat() -> trimesh.Trimesh:
    """Return a box with a triangle that has two corners on one point."""
    return faces_of(box(), np.vstack([box().faces, [[0, 0, 1]]]))


def in_line() -> trimesh.Trimesh:
    """Return a box with a triangle laid along one of its edges."""
    shape = box()
    points = np.vstack([shape.vertices, shape.vertices[shape.faces[0][:2]].mean(axis=0)])
    line = [*shape.faces[0][:2], len(points) - 1]
    return trimesh.Trimesh(points, np.vstack([shape.faces, [line]]), process=False)


def sheet() -> trimesh.Trimesh:
    """Return a box with a sheet that stands on one of its edges: three faces on that edge."""
    shape = box()
    a, b = shape.faces[0][:2]
    points = np.vstack([shape.vertices, shape.vertices[[a, b]] + [0.0, 0.0, 0.3]])
    faces = np.vstack([shape.faces, [[a, b, 8], [b, 9, 8], [8, 9, 10]]])
    return trimesh.Trimesh(np.vstack([points, points[8] + 1.0]), faces, process=False)


def crossed() -> trimesh.Trimesh:
    """Return a box that is open, and lapped by another box."""
    return together(without(box(), 0, 1), box((0.1, 0.01, 0.01)))


SHAPES = {
    "inside out": inverted(box()),
    "lapped": together(box(), box((0.1, 0.0, 0.0))),
    "inside out and lapped": together(box(), inverted(box((0.1, 0.0, 0.0)))),
    "twice": together(box(), box()),
    "flat": flat(),
    "in line": in_line(),
    "sheet": sheet(),
    "open and lapped": crossed(),
    "doubled": faces_of(box(), np.vstack([box().faces, box().faces[:2]])),
    "one turned": faces_of(box(), np.vstack([box().faces[:1, ::-1], box().faces[1:]])),
    "hole": without(trimesh.creation.icosphere(subdivisions=3), 5),
}


@pytest.mark.parametrize("name", SHAPES)
def test_what_is_advised_leads_to_the_end(name: str) -> None:
    """Following the advice, one repair at a time, never asks for the same repair again."""
    found, done = mesh(SHAPES[name]), ()
    for _ in range(6):
        asked = [one.repair for one in advice(found, done) if one.repair]
        if not asked:
            break
        assert asked[0] not in done
        done = (*done, asked[0])
        found = mended(mesh(SHAPES[name]), done, "x.stl").mesh
    left = advice(found, done)
    assert not [one.repair for one in left if one.repair]
    if name not in ("sheet", "open and lapped"):
        assert left == ()


@pytest.mark.parametrize("name", ["flat", "in line"])
def test_drop_is_offered_for_flat_triangles(name: str) -> None:
    answer = advice(mesh(SHAPES[name]))
    assert what_of(answer[0]) == "1 triangle is flat and closes nothing"
    assert {one.repair for one in answer} == {"drop"}
    left = mended(mesh(SHAPES[name]), ("drop",), "x.stl").mesh
    assert trimesh.Trimesh(left.vertices, left.triangles, process=False).is_watertight


def test_a_dead_end_is_said() -> None:
    answer = {one.key: one for one in advice(mesh(SHAPES["open and lapped"]))}
    assert answer["overlap"].repair == ""
    assert mend_of(answer["overlap"]) == '"union" was tried and does not help here. ' + (
        "Repair it where it was drawn."
    )


def test_union_and_flip_are_both_advised_beside_each_other() -> None:
    answer = advice(mesh(SHAPES["inside out and lapped"]))
    assert [(one.key, one.repair) for one in answer] == [
        ("inside-out", "flip"),
        ("overlap", "union"),
    ]
    assert "overlap by 500 cm³" in what_of(answer[1], METRIC)  # 100 × 100 × 50 by hand


@pytest.mark.parametrize(("lap", "says"), [(1e-5, "0.050 cm³"), (3e-6, "0.015 cm³")])
def test_small_overlaps_are_told_with_digits(lap: float, says: str) -> None:
    """By hand: the lap × 100 × 50 mm."""
    answer = advice(mesh(together(box(), box((0.2 - lap, 0.0, 0.0)))))
    assert says in what_of(answer[0], METRIC)


def test_a_repair_that_was_done_is_not_advised_again() -> None:
    found = mesh(SHAPES["inside out"])
    (answer,) = advice(found, ("flip",))
    assert answer.repair == ""
    assert (
        mend_of(answer) == '"flip" was done and does not help here. Repair it where it was drawn.'
    )
