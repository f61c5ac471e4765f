"""What is kept with a surface: found again while she is used, and gone with her."""

import gc
import pickle
import weakref

import numpy as np
import pytest

from trimdive.geometry.lines.kept import while_used, with_mesh
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.solids.shapes import box
from trimdive.geometry.solids.tree import planted

asked: list[float] = []


class Answer:
    """Something that was worked out."""


@with_mesh(2)
def worked_out(mesh: Mesh, x: float) -> Answer:
    asked.append(x)
    return Answer()


@while_used
def made(x: float) -> Answer | None:
    asked.append(x)
    return Answer() if x else None


@pytest.fixture(autouse=True)
def nothing_asked() -> None:
    asked.clear()


def test_the_latest_answers_of_a_mesh_are_found_again() -> None:
    mesh, other = box(1.0, 1.0, 1.0), box(1.0, 1.0, 1.0)
    first = worked_out(mesh, 1.0)
    assert worked_out(mesh, 1.0) is first
    assert worked_out(other, 1.0) is not first
    worked_out(mesh, 2.0)
    worked_out(mesh, 3.0)
    assert worked_out(mesh, 1.0) is not first
    assert asked == [1.0, 1.0, 2.0, 3.0, 1.0]


def test_they_go_with_the_mesh() -> None:
    mesh = box(1.0, 1.0, 1.0)
    answer = weakref.ref(worked_out(mesh, 1.0))
    planted(mesh, 1.0)
    assert answer() is not None
    del mesh
    gc.collect()
    assert answer() is None


def test_another_process_gets_the_mesh_alone() -> None:
    mesh = box(1.0, 2.0, 3.0)
    worked_out(mesh, 1.0)
    again = pickle.loads(pickle.dumps(mesh))
    assert np.array_equal(again.vertices, mesh.vertices)
    assert np.array_equal(again.triangles, mesh.triangles)
    assert again.kept == {}


def test_what_is_used_is_made_once_and_what_is_not_is_forgotten() -> None:
    first = made(1.0)
    assert made(1.0) is first
    gone = weakref.ref(first)
    del first
    gc.collect()
    assert gone() is None
    assert made(1.0) is not None
    assert made(0.0) is made(0.0) is None
    assert asked == [1.0, 1.0, 0.0, 0.0]
