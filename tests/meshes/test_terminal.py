"""``trimdive mesh``: statuses, questions, repairs, JSON and refusals."""

import json
from pathlib import Path

import pytest
import trimesh
from tests.meshes.shapes import as_file, box, inverted
from typer.testing import CliRunner, Result

from trimdive.cli.app import app


def asked(*words: str) -> Result:
    return CliRunner().invoke(app, ["mesh", *words], env={"COLUMNS": "80"})


@pytest.fixture
def turned(tmp_path: Path) -> Path:
    """Return a box of 200 × 100 × 50, inside out."""
    shape = inverted(box())
    shape.apply_scale(1e3)
    file = tmp_path / "turned.stl"
    file.write_bytes(as_file(shape, "stl"))
    return file


def test_a_trouble_and_its_repair(turned: Path) -> None:
    answer = asked(str(turned), "--unit", "mm")
    assert answer.exit_code == 1
    assert "It is inside out." in answer.output
    assert "--repair flip" in answer.output
    assert "200 mm × 100 mm × 50.0 mm" in answer.output


def test_it_fits_80_columns(turned: Path) -> None:
    assert max(len(row) for row in asked(str(turned)).output.splitlines()) <= 80


def test_mended_and_written(turned: Path, tmp_path: Path) -> None:
    out = tmp_path / "mended.stl"
    answer = asked(str(turned), "--unit", "mm", "--repair", "flip", "--out", str(out))
    assert answer.exit_code == 0
    assert "12 triangles turned" in answer.output
    assert answer.stderr == f"written: {out}\n"
    shape = trimesh.load(out)
    assert shape.volume == pytest.approx(200 * 100 * 50, rel=1e-6)
    again = asked(str(turned), "--out", str(out))
    assert again.exit_code == 2
    assert "--replace" in again.output


def test_unit_is_asked_for_with_a_likely_answer(turned: Path) -> None:
    assert "likely mm" in asked(str(turned)).output
    inches = asked(str(turned), "--length", "5080 mm", "--json")
    assert json.loads(inches.output)["questions"]["unit"]["answer"] == "in"  # 200 in
    assert json.loads(inches.output)["questions"]["unit"]["is_certain"] is True


def test_axes_are_guessed_and_taken(tmp_path: Path) -> None:
    shape = trimesh.creation.cone(radius=20.0, height=300.0)  # stands on end
    file = tmp_path / "cone.stl"
    file.write_bytes(as_file(shape, "stl"))
    answer = json.loads(asked(str(file), "--json").output)
    assert answer["questions"]["forward_up"]["answer"].startswith("z")
    laid = json.loads(asked(str(file), "--forward", "z", "--up", "y", "--json").output)
    assert laid["size_m"] == pytest.approx([0.3, 0.04, 0.04], rel=0.01)


def test_json(turned: Path) -> None:
    answer = json.loads(asked(str(turned), "--unit", "mm", "--json").output)
    assert answer["volume_m3"] == pytest.approx(-1e-3, rel=1e-6)
    assert [one["repair"] for one in answer["troubles"]] == ["flip"]


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--repair", "polish"], "there is no repair 'polish'"),
        (["--up", "w"], "there is no axis 'w'"),
        (["--unit", "blobs"], "blobs"),
        (["--unit", "m"], "200 m long"),
        (["--forward", "z"], "both lie along z"),
    ],
)
def test_what_cannot_be(turned: Path, words: list[str], says: str) -> None:
    answer = asked(str(turned), *words)
    assert answer.exit_code == 2
    assert says in answer.output
    assert "Traceback" not in answer.output


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("picture.stl", b"\x89PNG\r\n\x1a\n" + bytes(99), "a picture (PNG), not a mesh"),
        ("none.stl", None, "there is no such file"),
        ("text.stl", "solid a".encode("utf-16"), "UTF-16"),
    ],
)
def test_bad_input_is_one_line(tmp_path: Path, name: str, data: bytes | None, says: str) -> None:
    file = tmp_path / name
    if data is not None:
        file.write_bytes(data)
    answer = asked(str(file))
    assert answer.exit_code == 2
    assert says in answer.output
    assert answer.output.count("\n") == 1


def test_where_it_begins_is_said(tmp_path: Path) -> None:
    file = tmp_path / "middle.stl"
    file.write_bytes(as_file(trimesh.creation.box((800.0, 100.0, 80.0)), "stl"))
    answer = " ".join(asked(str(file), "--unit", "mm").output.split())
    assert "its after end lies 400 mm aft of zero, its lowest point 40.0 mm below it" in answer
    assert 'write x_aft = "0 mm" and z_bottom = "0 mm"' in answer


def test_two_bars_lapped_are_told(tmp_path: Path) -> None:
    """By hand: 900 × 80 × 80 mm is 5760 cm³, and the lap of 100 mm 640 cm³."""
    file = tmp_path / "bars.stl"
    one = trimesh.creation.box(bounds=[[0, -40, 0], [400, 40, 80]])
    other = trimesh.creation.box(bounds=[[300, -40, 0], [900, 40, 80]])
    file.write_bytes(as_file(trimesh.util.concatenate([one, other]), "stl"))
    answer = asked(str(file), "--unit", "mm")
    assert answer.exit_code == 1
    assert "Its bodies overlap by 640 cm³, which counts twice." in answer.output
    assert "5760 cm³" in answer.output
    mended = asked(str(file), "--unit", "mm", "--repair", "union", "--json")
    assert json.loads(mended.output)["volume_m3"] == pytest.approx(5.76e-3, rel=1e-9)
