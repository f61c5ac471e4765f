"""STL files written by trimesh: clean ones are read, others say what is wrong."""

import pytest
import trimesh
from tests.lines.tables import assert_closed, volume_and_centre

from trimdive.errors import GeometryError
from trimdive.geometry.solids.meshed import closed


def _stl(mesh: trimesh.Trimesh, kind: str = "stl") -> bytes:
    data = mesh.export(file_type=kind)
    return data.encode() if isinstance(data, str) else data


@pytest.mark.parametrize("kind", ["stl", "stl_ascii"])
def test_box_in_millimetres(kind: str) -> None:
    mesh = closed(_stl(trimesh.creation.box((200.0, 100.0, 50.0)), kind), "box.stl", 1e-3)
    assert_closed(mesh)
    assert len(mesh.vertices) == 8
    assert volume_and_centre(mesh)[0] == pytest.approx(1e-3, rel=1e-9)  # 0.2 × 0.1 × 0.05 m


def test_the_unit_of_the_file() -> None:
    mesh = closed(_stl(trimesh.creation.box((1.0, 1.0, 1.0))), "b.stl", 0.0254)
    assert volume_and_centre(mesh)[0] == pytest.approx(0.0254**3)


def test_open_edges_are_counted() -> None:
    box = trimesh.creation.box((1.0, 1.0, 1.0))
    box.update_faces([True] * 11 + [False])
    with pytest.raises(GeometryError, match="not closed: 3 open edges"):
        closed(_stl(box), "hole.stl", 1e-3)


def test_inside_out() -> None:
    box = trimesh.creation.box((1.0, 1.0, 1.0))
    box.invert()
    with pytest.raises(GeometryError, match="inside out"):
        closed(_stl(box), "in.stl", 1e-3)


def test_one_triangle_turned() -> None:
    box = trimesh.creation.box((1.0, 1.0, 1.0))
    faces = box.faces.copy()
    faces[0] = faces[0][::-1]
    with pytest.raises(GeometryError, match=r"3 edges .* opposite ways"):
        closed(_stl(trimesh.Trimesh(box.vertices, faces, process=False)), "turned.stl", 1e-3)


@pytest.mark.parametrize("data", [b"", b"solid\nendsolid\n", b"not a mesh at all" * 20, b"\0" * 84])
def test_what_is_no_mesh(data: bytes) -> None:
    with pytest.raises(GeometryError, match=r"x\.stl: "):
        closed(data, "x.stl", 1e-3)
