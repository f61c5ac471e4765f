"""``weights-in`` and ``weights-out`` as they are typed, and the example in the document."""

import json
import re
import tomllib
from pathlib import Path

import pytest
from tests.cli.boats import SMALL
from tests.lists.books import book_of
from typer.testing import CliRunner, Result

from trimdive.cli.app import app

DOCUMENT = Path(__file__).parents[2] / "docs" / "weight-lists.md"
LIST = (
    "Part;Mass [g];x [mm];z [mm];Material;Note\nservo;55,5;300;40;ABS;spare\nlead;500;310;9;lead;\n"
)


@pytest.fixture
def boat(tmp_path: Path) -> Path:
    (tmp_path / "boat.toml").write_text(SMALL, "utf-8")
    return tmp_path


def typed(*words: object) -> Result:
    return CliRunner().invoke(app, [str(word) for word in words], env={"COLUMNS": "80"})


def put(boat: Path, text: str, name: str = "list.csv") -> Path:
    file = boat / name
    file.write_text(text, "utf-8")
    return file


def refused(result: Result) -> str:
    assert result.exit_code == 2, result.output
    assert len(result.stderr.splitlines()) == 1
    assert "Traceback" not in result.output
    return result.stderr


def test_the_preview_changes_nothing(boat: Path) -> None:
    result = typed("weights-in", put(boat, LIST), boat)
    assert result.exit_code == 0, result.output
    assert (boat / "boat.toml").read_text("utf-8") == SMALL
    assert "555.5 g together" in result.stdout
    assert all(len(line) <= 80 for line in result.stdout.splitlines())


def test_apply_writes_and_keeps_the_previous_version(boat: Path) -> None:
    result = typed("weights-in", put(boat, LIST), boat, "--apply", "--known", "weighed")
    assert result.exit_code == 0, result.output
    text = (boat / "boat.toml").read_text("utf-8")
    names = [part["name"] for part in tomllib.loads(text)["part"]]
    assert names[-2:] == ["servo", "lead"]
    assert "# spare" in text
    assert (boat / "boat.previous.toml").read_text("utf-8") == SMALL
    again = typed("weights-in", boat / "list.csv", boat, "--apply", "--known", "weighed")
    assert "nothing to change" in " ".join(again.stdout.split())
    assert (boat / "boat.toml").read_text("utf-8") == text


def test_a_list_that_does_not_add_up_is_said_not_refused(boat: Path) -> None:
    file = put(boat, LIST + "Total;600;;;;\n")
    result = typed("weights-in", file, boat)
    assert result.exit_code == 1
    assert "does not add up" in " ".join(result.stdout.split())
    assert "44.5 g more" in " ".join(result.stdout.split())
    assert typed("weights-in", file, boat, "--apply").exit_code == 0


def test_rows_not_understood_stop_it_unless_left_out(boat: Path) -> None:
    file = put(boat, LIST + "radio;tbd;300;60;ABS;\n")
    assert "row 4 is not understood" in refused(typed("weights-in", file, boat, "--apply"))
    assert (boat / "boat.toml").read_text("utf-8") == SMALL
    assert typed("weights-in", file, boat, "--apply", "--leave-out").exit_code == 0


def test_what_is_missing_stops_it_and_can_be_said(boat: Path) -> None:
    file = put(boat, "Part,Weight\nservo,55\n")
    assert "unit of 'Weight'" in refused(typed("weights-in", file, boat, "--apply"))
    said = ["--mass-unit", "g", "--x", "300 mm", "--z", "40 mm", "--material", "ABS"]
    assert typed("weights-in", file, boat, "--apply", *said).exit_code == 0


def test_a_mistake_for_the_boat_file_leaves_it_as_it_was(boat: Path) -> None:
    said = ["--apply", "--inside", "no such cylinder"]
    file = put(boat, "Part;Mass [g];x [mm];z [mm]\nservo;55;300;40\n")
    assert "no such cylinder" in refused(typed("weights-in", file, boat, *said))
    assert (boat / "boat.toml").read_text("utf-8") == SMALL


@pytest.mark.parametrize(
    ("name", "data", "what"),
    [
        ("none.csv", None, "there is no such file"),
        ("list.csv", b"", "it is empty"),
        ("list.xlsx", b"PK\x03\x04 and so on", "the workbook is damaged"),
        ("list.xls", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "a workbook of the old kind"),
        ("list.csv", b"a,b\n1,2\n", "no row names its columns"),
    ],
)
def test_bad_lists(boat: Path, name: str, data: bytes | None, what: str) -> None:
    if data is not None:
        (boat / name).write_bytes(data)
    assert what in refused(typed("weights-in", boat / name, boat))


def test_a_folder_is_no_list(boat: Path) -> None:
    assert "it is a folder" in refused(typed("weights-in", boat, boat))


def test_json(boat: Path) -> None:
    file = boat / "list.xlsx"
    file.write_bytes(book_of([["Part", "Mass [g]", "x [mm]", "z [mm]"], ["servo", 55, 300, 40]]))
    found = json.loads(typed("weights-in", file, boat, "--json").stdout)
    assert found["mass_kg"] == pytest.approx(0.055)
    assert found["parts"][0]["x_m"] == pytest.approx(0.3)
    assert found["asks"][0]["field"] == "material"
    assert found["applied"] is False


@pytest.mark.parametrize("name", ["out.csv", "out.xlsx"])
def test_out_and_in_again_changes_nothing(boat: Path, name: str) -> None:
    file = boat / name
    result = typed("weights-out", boat, file)
    assert result.exit_code == 0, result.output
    assert "there is such a file already" in refused(typed("weights-out", boat, file))
    assert typed("weights-out", boat, file, "--replace").exit_code == 0
    result = typed("weights-in", file, boat, "--apply")
    assert result.exit_code == 0, result.output
    assert "nothing to change" in " ".join(result.stdout.split())


def test_out_refuses_other_names_and_places(boat: Path) -> None:
    assert "neither .csv nor .xlsx" in refused(typed("weights-out", boat, boat / "out.txt"))
    assert "no such file" in refused(typed("weights-out", boat, boat / "none" / "out.csv"))


def test_the_document_shows_what_happens(boat: Path) -> None:
    text = DOCUMENT.read_text("utf-8")
    example = re.search(r"```csv\n(.*?)```", text, flags=re.DOTALL)
    shown = re.search(r"```text\n(.*?)```", text, flags=re.DOTALL)
    assert example
    assert shown
    result = typed("weights-in", put(boat, example[1]), boat)
    printed = [line.rstrip() for line in result.stdout.split("\n\nWith --apply")[0].split("\n")]
    assert [line.rstrip() for line in shown[1].strip().split("\n")] == printed


def test_every_option_is_in_the_document() -> None:
    text = DOCUMENT.read_text("utf-8")
    for command in ("weights-in", "weights-out"):
        helped = typed(command, "--help").stdout
        for option in set(re.findall(r"--[a-z][a-z-]+", helped)) - {"--help"}:
            assert f"`{option}" in text, option
