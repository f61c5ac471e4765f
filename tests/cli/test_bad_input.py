"""Bad input: one sentence on one line of stderr, exit status 2, never a traceback."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from tests.cli.boats import SMALL
from typer.testing import CliRunner, Result

from trimdive.cli.app import app


def typed(*words: str) -> Result:
    return CliRunner().invoke(app, list(words))


def refused(result: Result) -> str:
    """Return the one sentence with which a command refused."""
    assert result.exit_code == 2, result.output
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert "Traceback" not in result.output
    lines = result.stderr.splitlines()
    assert len(lines) == 1, lines
    assert lines[0].endswith((".", "?", "…", '".'))
    return lines[0]


MESH = """
[[region]]
name = "house"
surface = "mesh"
file = "house.stl"
file_unit = "mm"
thickness = "2 mm"
material = "GRP"
"""
OPEN_STL = """solid house
facet normal 0 0 1
outer loop
vertex 0 0 0
vertex 1 0 0
vertex 0 1 0
endloop
endfacet
endsolid house
"""
LINED = """
[[region]]
name = "lined"
surface = "lines"
file = "lines.csv"
thickness = "2 mm"
material = "GRP"
"""
CROSSING = """station [mm],y [mm],z [mm]
0,1,10
0,20,40
0,20,20
0,5,60
300,1,0
300,50,50
300,30,90
600,1,10
600,20,40
600,5,60
"""

MISTAKES = {  # name: (what is in the file, what it becomes, what the sentence must hold)
    "wrong unit": ('mass = "400 g"', 'mass = "400 mm"', ["boat.toml:", "part[1].mass", "length"]),
    "missing unit": ('x = "360 mm"\nlength = "28 mm"', 'x = "360"\nlength = "28 q"', ["tank[1]"]),
    "unknown field": ('outside = "80 mm"', 'outsid = "80 mm"', ["outsid", "'outside'?"]),
    "part twice": ('name = "mast"', 'name = "battery"', ["battery"]),
    "negative mass": ('mass = "400 g"', 'mass = "-400 g"', ["part[1].mass", "-400 g"]),
    "not TOML": ("[waterline]", "[waterline", ["boat.toml:"]),
    "no such file beside": ("[waterline]", MESH + "[waterline]", ["house.stl"]),
    "no waterline": ('[waterline]\nheight = "80 mm"', "", ["waterline"]),
}


@pytest.mark.parametrize("mistake", list(MISTAKES))
@pytest.mark.parametrize("command", ["float", "check"])
def test_mistakes_in_the_boat_file(small: Path, mistake: str, command: str) -> None:
    before, after, held = MISTAKES[mistake]
    assert before in SMALL
    file = small / "boat.toml"
    file.write_text(SMALL.replace(before, after), "utf-8")
    sentence = refused(typed(command, str(small)))
    for part in held:
        assert part in sentence


@pytest.mark.parametrize("command", ["float", "check"])
def test_a_figure_that_may_have_slipped_is_asked_before_what_it_leads_to(
    small: Path, command: str
) -> None:
    before, after = (f'x = "240 mm"\nlength = "{length} mm"' for length in (28, 500))
    (small / "boat.toml").write_text(SMALL.replace(before, after), "utf-8")
    first, second = typed(command, str(small)).stderr.strip().splitlines()
    assert first.startswith("boat.toml:47: tank[2].length: after tank, length 500 mm: 50.0 mm?")
    assert "its cylinder 'cylinder' 400 mm over the caps" in second


def test_bare_numbers_without_a_unit_of_the_boat(small: Path) -> None:
    text = SMALL.replace('length = "mm"\n', "", 1).replace('outside = "80 mm"', "outside = 80")
    (small / "boat.toml").write_text(text, "utf-8")
    assert "cylinder[1].outside" in refused(typed("litres", str(small)))


@pytest.mark.parametrize(
    ("name", "data"),
    [("house.stl", OPEN_STL.encode()), ("house.stl", b""), ("house.stl", b"\xff\x00" * 50)],
)
def test_meshes_that_do_not_close(small: Path, name: str, data: bytes) -> None:
    (small / "boat.toml").write_text(SMALL + MESH, "utf-8")
    (small / name).write_bytes(data)
    assert "house" in refused(typed("float", str(small)))


@pytest.mark.parametrize(
    "text",
    [CROSSING, "", "\n\n", "not,a,table\n1,2\n", CROSSING.replace("y [mm],z [mm]", "y,z")],
    ids=["crossing", "empty", "blank", "no table", "no units"],
)
def test_tables_of_lines_that_are_wrong(small: Path, text: str) -> None:
    (small / "boat.toml").write_text(SMALL + LINED, "utf-8")
    (small / "lines.csv").write_text(text, "utf-8")
    assert "lines.csv" in refused(typed("float", str(small)))


def test_table_that_is_not_utf_8(small: Path) -> None:
    (small / "boat.toml").write_text(SMALL + LINED, "utf-8")
    (small / "lines.csv").write_bytes(b"station [mm],y [mm],z [mm]\n\xff\xfe\n")
    assert "lines.csv" in refused(typed("float", str(small)))


def test_two_gigabytes(tmp_path: Path) -> None:
    file = tmp_path / "boat.toml"
    with file.open("wb") as stream:
        stream.truncate(2 * 2**30)  # a sparse file: nothing is written
    assert "2048 MB" in refused(typed("float", str(file)))


def test_not_utf_8(tmp_path: Path) -> None:
    (tmp_path / "boat.toml").write_bytes(b'name = "a"\nnote = "\xff"\n')
    assert "boat.toml:2" in refused(typed("weigh", str(tmp_path)))


@pytest.mark.parametrize("name", ["none.toml", "none/none.toml", ""])
def test_no_such_file(tmp_path: Path, name: str) -> None:
    refused(typed("check", str(tmp_path / name)))


def test_folder_with_other_boat_files(tmp_path: Path) -> None:
    (tmp_path / "old.toml").write_text(SMALL, "utf-8")
    assert "old.toml" in refused(typed("check", str(tmp_path)))


@pytest.mark.parametrize(
    ("tanks", "held"),
    [
        ("lots", "'lots' is not a filling"),
        ("140 %", "140"),
        ("-3 %", "-3"),
        ("fore tnk = 40 %", "Did you mean 'fore tank'?"),
        ("fore tank=40 %, Fore Tank=50 %", "is there twice"),
        ("fore tank=", "'' is not a filling"),
        ("", "'' is not a filling"),
    ],
)
def test_fillings_that_are_none(small: Path, tanks: str, held: str) -> None:
    sentence = refused(typed("float", str(small), "--tanks", tanks))
    assert sentence.startswith("--tanks: ")
    assert held in sentence


def test_tanks_of_a_boat_without_tanks(small: Path) -> None:
    first, last = SMALL.index("[[tank]]"), SMALL.index("[[part]]")
    (small / "boat.toml").write_text(SMALL[:first] + SMALL[last:], "utf-8")
    assert "no tank" in refused(typed("float", str(small), "--tanks", "full"))


def test_water_that_is_none(small: Path) -> None:
    for command in ("float", "litres", "check"):
        assert "'vodka'" in refused(typed(command, str(small), "--water", "vodka"))


def test_bad_input_as_json(small: Path) -> None:
    (small / "boat.toml").write_text(SMALL.replace('mass = "400 g"', 'mass = "x"'), "utf-8")
    result = typed("float", str(small), "--json")
    sentence = refused(result)
    error = json.loads(result.stdout)["error"]
    assert sentence == f"{error['where']} ('battery'): {error['what']}. {error['mend']}"
    assert error["where"] == "boat.toml:52: part[1].mass"
    assert error.keys() == {"where", "what", "mend"}


def test_further_mistakes_stand_a_line_each_and_in_the_json_too(small: Path) -> None:
    text = SMALL.replace('mass = "400 g"', 'mass = "x"\ncolour = 3')
    (small / "boat.toml").write_text(text, "utf-8")
    result = typed("float", str(small), "--json")
    first, second = result.stderr.splitlines()
    error = json.loads(result.stdout)["error"]
    assert (error["where"], error["left"]) == ("boat.toml:52: part[1].mass", 0)
    (other,) = error["others"]
    assert first.endswith(f"{error['what']}. {error['mend']}")
    assert second == f"{other['where']} ('battery'): {other['what']}. {other['mend']}"


@pytest.mark.parametrize("words", [["float"], ["fload", "x"], ["float", "x", "--bogus"]])
def test_commands_that_are_none(words: list[str]) -> None:
    assert typed(*words).exit_code == 2


# What only a process of its own shows.


def run(*words: str, **more: object) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(
        [sys.executable, "-m", "trimdive", *words],
        text=True,
        check=False,
        stderr=subprocess.PIPE,
        **{"stdout": subprocess.PIPE, **more},  # type: ignore[arg-type]
    )


def test_refusal_of_a_process(tmp_path: Path) -> None:
    result = run("float", str(tmp_path / "none.toml"))
    assert (result.returncode, result.stdout) == (2, "")
    assert len(result.stderr.splitlines()) == 1


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_full_disk(small: Path) -> None:
    with Path("/dev/full").open("w") as full:
        result = run("weigh", str(small), stdout=full)
    assert result.returncode == 2
    assert "Traceback" not in result.stderr


@pytest.mark.skipif(os.name != "posix", reason="needs a pipe that breaks")
@pytest.mark.parametrize("options", ["", "--json"])
def test_broken_pipe_is_quiet(small: Path, options: str) -> None:
    line = f'"{sys.executable}" -m trimdive weigh "{small}" {options} | true'
    result = subprocess.run(line, shell=True, text=True, capture_output=True, check=False)
    assert result.stderr == ""


def test_terminal_that_knows_only_ascii(small: Path) -> None:
    result = run("weigh", str(small), env={**os.environ, "PYTHONIOENCODING": "ascii"})
    assert result.returncode in (0, 1), result.stderr
    assert "battery" in result.stdout
