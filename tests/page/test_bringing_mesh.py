"""A mesh brought in as a hull: its unit told as a guess where it is one, its origin set."""

import trimesh
from tests.meshes.shapes import as_file

from trimdive.page.bringing import brought


def hull(length: float) -> bytes:
    return as_file(trimesh.creation.box((length, length / 8, length / 9)), "stl")


def test_a_guessed_unit_is_told_with_all_that_fit() -> None:
    made = brought("five.stl", hull(5.0))
    assert "Her unit is a guess (ft): its length of 5 would be 1.52 m" in made.says
    assert "in (127 mm)" in made.says
    assert 'file_unit = "ft"' in made.text


def test_a_sure_unit_is_not_asked_about() -> None:
    made = brought("hull.stl", hull(800.0))
    assert "guess (" not in made.says
    assert 'x_aft = "0 mm"' in made.text
    assert 'length = "800 mm"' in made.text
