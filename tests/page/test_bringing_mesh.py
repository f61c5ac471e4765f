"""A mesh brought in as a hull: its unit told as a guess where it is one, its origin set."""

import gzip
from pathlib import Path

import pytest
import trimesh
from tests.meshes.shapes import as_file
from tests.page.shelves import ShelfPage, workshop_of

from trimdive.errors import BoatFileError
from trimdive.page.bringing import brought
from trimdive.page.places.shelf import SHELF


def hull(length: float) -> bytes:
    return as_file(trimesh.creation.box((length, length / 8, length / 9)), "stl")


def test_a_guessed_unit_is_told_with_all_that_fit() -> None:
    made = brought("five.stl", hull(5.0))
    assert "Her unit is a guess (ft): its length of 5 would be 1.52 m" in made.says
    assert "in (127 mm)" in made.says
    assert 'file_unit = "ft"' in made.text
    assert "Where her unit is wrong, add the file again with its unit chosen beside it" in made.says


def test_a_unit_that_was_chosen_is_no_guess_and_the_boat_is_planned_by_it() -> None:
    """40 inches are 1016 mm by definition; taken for millimetres she would be no boat."""
    made = brought("hull.stl", hull(40.0), "in")
    assert "guess (" not in made.says
    assert 'file_unit = "in"' in made.text
    assert 'length = "1016 mm"' in made.text
    with pytest.raises(BoatFileError, match="'mile' is no unit of a mesh"):
        brought("hull.stl", hull(40.0), "mile")


def test_the_unit_chosen_beside_the_file_goes_with_it(tmp_path: Path) -> None:
    page = ShelfPage(workshop_of(tmp_path))
    assert '<select name="bring-unit">' in page.client.get("/shelf").text
    (unit,) = SHELF.takes["in"].given(page.desk, {"place": "shelf", "bring-unit": "in"})
    assert unit == "in"


def test_what_counts_twice_is_mended_as_it_comes_in_and_said() -> None:
    """Two bars 450 mm long, lapped by 100 mm: 80 x 80 x 800 mm³, not 900 (by hand)."""
    bars = [trimesh.creation.box((450, 80, 80)) for _ in range(2)]
    bars[1].apply_translation((350, 0, 0))
    made = brought("bars.stl", as_file(trimesh.util.concatenate(bars), "stl"))
    assert "it encloses 5120 cm³" in made.says
    assert "its bodies joined" in made.says
    assert 'repairs = ["union"]' in made.text


def test_why_no_boat_was_planned_is_told() -> None:
    made = brought("flat.stl", as_file(trimesh.creation.box((1500, 120, 60)), "stl"))
    assert "No boat was planned into it: height: a height of 60 mm does not go" in made.says


def test_a_packed_mesh_is_read_as_in_the_terminal() -> None:
    made = brought("Hull.stl.gz", gzip.compress(hull(800.0)))
    assert made.name == "Hull"
    assert "it encloses 7111 cm³" in made.says
    assert list(made.files) == ["hull.stl.gz"]


def test_a_sure_unit_is_not_asked_about() -> None:
    made = brought("hull.stl", hull(800.0))
    assert "guess (" not in made.says
    assert 'x_aft = "0 mm"' in made.text
    assert 'length = "800 mm"' in made.text
