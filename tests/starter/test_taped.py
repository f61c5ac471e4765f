"""A first boat of tape readings: what was measured stays, and the litres are those of the tape."""

import json
import re
from pathlib import Path

import numpy as np
import pytest
import trimesh
from tests.tape.readings import EXAMPLE
from typer.testing import CliRunner

from trimdive.assessment import Assessment
from trimdive.cli.app import app
from trimdive.estimates.starter import Starter, starter, wish_by_tape
from trimdive.estimates.tape import parse, tape_litres
from trimdive.geometry.solids.surfaces import surface
from trimdive.text.first_boat import first_boat

RUN = CliRunner()
NO_MOULDING = re.sub(r"\[moulding\].*?\n\n", "", EXAMPLE, flags=re.DOTALL)
BARE = NO_MOULDING[: NO_MOULDING.index("[[standing]]")]
NO_BREADTH = re.sub(r', breadth = "[^"]*"', "", NO_MOULDING)
NO_WALL = re.sub(r"wall = \[.*\n", "", EXAMPLE, count=1)
AWASH = NO_MOULDING.replace('girth = "72 mm"', 'girth = "0 mm"')
INCHES = EXAMPLE.replace('length = "mm"', 'length = "in"').replace(
    'volume = "cm3"', 'volume = "in3"'
)


def made(text: str) -> Starter:
    return starter(wish_by_tape(parse(text)))


def girth_by_trimesh(boat: Starter, x: float) -> float:
    """Return the girth over the deck of a boat file's outline: a section by trimesh [m]."""
    whole = surface(boat.boat.regions[0], {})
    mesh = trimesh.Trimesh(whole.vertices, whole.triangles, process=False)
    line = trimesh.intersections.mesh_plane(mesh, [1.0, 0.0, 0.0], [x, 0.0, 0.0])
    assert boat.boat.waterline
    z = line[:, :, 2] - boat.boat.waterline.height_at(x)
    low, high = z.min(axis=1), z.max(axis=1)
    share = np.clip(high / np.maximum(high - low, 1e-12), 0.0, 1.0)
    return float(np.linalg.norm(line[:, 1] - line[:, 0], axis=1) @ share)


@pytest.mark.parametrize(
    "text",
    [EXAMPLE, NO_MOULDING, NO_BREADTH, NO_WALL, AWASH, INCHES],
    ids=["example", "walls alone", "no breadths", "moulding alone", "bow awash", "inches"],
)
def test_the_litres_are_those_of_the_tape(text: str) -> None:
    by_tape, boat = tape_litres(parse(text)), made(text)
    her = Assessment(boat=boat.boat, files={})
    assert her.need.volume == pytest.approx(by_tape.volume, rel=0.012)
    assert float(her.need.place[0]) == pytest.approx(by_tape.x, abs=by_tape.x_spread)
    assert sum(one.aboard for one in boat.taped) == pytest.approx(her.need.volume, rel=1e-6)
    assert [one.by_tape for one in boat.taped] == [one.volume for one in by_tape.shares]
    for one in boat.taped:
        assert abs(one.off) < 0.03 * one.by_tape + 1e-6, one.name
    for one in by_tape.readings.girths:
        assert girth_by_trimesh(boat, one.x) == pytest.approx(
            one.girth, abs=0.002
        )  # as a tape reads


def test_breadths_walls_and_masses_stay_as_measured() -> None:
    boat = made(EXAMPLE)
    assert boat.boat.waterline
    whole = surface(boat.boat.regions[0], {})
    mesh = trimesh.Trimesh(whole.vertices, whole.triangles, process=False)
    plane = mesh.section([0.0, 0.0, 1.0], [0.0, 0.0, boat.boat.waterline.height_at(0.7)])
    assert plane
    points = plane.vertices
    for x, breadth in ((0.2, 0.104), (0.45, 0.142), (0.7, 0.150)):  # as the page has them
        near = points[np.abs(points[:, 0] - x) < 0.02]
        rows = np.column_stack([near[:, 0], np.abs(near[:, 1])])
        at = np.interp(x, *np.unique(rows[rows[:, 0].argsort()], axis=0).T)
        assert 2 * at == pytest.approx(breadth, abs=0.003)
    upper = boat.boat.regions[1]
    assert upper.mass == pytest.approx(0.905)
    assert upper.known == "weighed"
    assert "2.4 mm, 2.7 mm, 2.3 mm" in first_boat(boat)
    (masts,) = [part for part in boat.boat.parts if part.name == "masts"]
    assert masts.mass == pytest.approx(0.024)


def test_the_tower_is_the_shell_that_was_measured() -> None:
    # By hand, a wall 1.8 mm thick: round it 330 mm less what the wall takes, 105 mm high, and a
    # flat top. Ellipse of three to one: area 0.0530 of the square of its girth (closed form).
    round_it = 330 - np.pi * 1.8
    by_hand = 1.8 * (round_it * 105 + 0.0530 * 330**2) * 1e-9
    boat = made(EXAMPLE)
    (tower,) = [one for one in boat.taped if one.name == "tower"]
    assert tower.aboard == pytest.approx(by_hand, rel=0.025)


def test_what_was_not_taped_is_named_with_its_figure(tmp_path: Path) -> None:
    file = tmp_path / "tape.toml"
    file.write_text(BARE, "utf-8")
    shown = RUN.invoke(app, ["new", str(tmp_path / "her"), "--tape", str(file), "--json"])
    answer = json.loads(shown.stdout)
    by_tape = tape_litres(parse(BARE)).volume
    assert answer["by_tape_m3"] == pytest.approx(by_tape)
    assert answer["litres_m3"] > 1.3 * by_tape
    off = sum(one["boat_file_m3"] - one["by_tape_m3"] for one in answer["above_waterline"])
    assert answer["litres_m3"] - by_tape == pytest.approx(off, rel=0.01)
    text = RUN.invoke(app, ["new", str(tmp_path / "again"), "--tape", str(file)]).stdout
    assert "What makes the difference:" in text
    assert re.search(r"tower +not on the tape; guessed, \d+ cm³", text)
    assert (tmp_path / "again" / "tape.toml").read_text("utf-8") == BARE


def test_with_all_of_it_taped_nothing_is_guessed_above(tmp_path: Path) -> None:
    file = tmp_path / "tape.toml"
    file.write_text(EXAMPLE, "utf-8")
    answer = RUN.invoke(app, ["new", str(tmp_path / "her"), "--tape", str(file)]).stdout
    assert "the same as by tape: 617 cm³ by tape, 616 cm³ in the boat file" in " ".join(
        answer.split()
    )
    text = (tmp_path / "her" / "boat.toml").read_text("utf-8")
    assert "deck planking" not in text
    assert "joint lip" not in text


def test_names_aboard_stand_once() -> None:
    thing = '\n[[standing]]\nname = "Battery"\nx = "300 mm"\nmass = "20 g"\n'
    boat = made(EXAMPLE + thing + thing + thing.replace("Battery", 'the \\"old\\" hatch'))
    names = [part.name for part in boat.boat.parts if part.known == "weighed"]
    assert names == ["masts", "Battery 2", "Battery 3", 'the "old" hatch']


def test_what_is_too_heavy_aloft_is_refused_in_a_sentence(tmp_path: Path) -> None:
    file = tmp_path / "tape.toml"
    file.write_text(EXAMPLE.replace('mass = "24 g"', 'mass = "3 kg"'), "utf-8")
    answer = RUN.invoke(app, ["new", str(tmp_path / "her"), "--tape", str(file)])
    assert answer.exit_code == 2
    assert "Traceback" not in answer.output
    assert not (tmp_path / "her").exists()
