"""Holes, plate lines and draught marks on a round hull, by hand; what is off it is refused."""

import json
from pathlib import Path

import numpy as np
import pytest
from tests.cli.compared import documented_keys, keys_in
from typer.testing import CliRunner

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.cli.app import app
from trimdive.errors import TrimdiveError
from trimdive.marking.marked import marks_on

R = 0.05  # of the hull [m]
HEAD = """
format = 1
name = "Tube"
scale = "1:50"
length = "1 m"
units.length = "mm"
units.mass = "g"
waterline.height = 60
[[region]]
name = "hull"
surface = "round"
file = "radii.csv"
z = 50
thickness = 2
material = "GRP"
"""
RADII = b"x [mm],radius [mm]\n0,50\n100,50\n500,50\n900,50\n1000,50\n"
ROW = """
[[hole]]
name = "limbers"
kind = "limber hole"
x = "10 m full size"
z = "2.5 m full size"
shape = "slot"
length = "500 mm full size"
height = "200 mm full size"
count = 8
pitch = "1 m full size"
"""


def her(more: str) -> Assessment:
    return Assessment(boat=parse(HEAD + more), files={"radii.csv": RADII})


def test_a_row_typed_full_size() -> None:
    """1:50: from 200 mm, 20 mm apart, at the axis: a quarter round from the keel, π/2·50 mm."""
    (one,) = her(ROW).marked.holes
    assert one.size == pytest.approx((0.010, 0.004))
    assert one.count == 16
    assert [spot.x for spot in one.on("port")] == pytest.approx(np.arange(0.2, 0.35, 0.02))
    for port, starboard in zip(one.on("port"), one.on("starboard"), strict=True):
        assert port.point == pytest.approx((port.x, R, 0.05), abs=1e-4)
        assert starboard.point == pytest.approx((port.x, -R, 0.05), abs=1e-4)
        assert port.girth == pytest.approx(np.pi / 2 * R, abs=1e-4)
    assert one.length == pytest.approx(0.14, rel=1e-6)  # a straight run on a tube
    assert one.pitch == pytest.approx(0.02, rel=1e-6)
    slot = np.pi / 4 * 0.004**2 + 0.004 * 0.006
    assert one.area == pytest.approx(slot)
    assert one.region == "hull"
    assert her(ROW).marked.areas == {"hull": pytest.approx(16 * slot)}


def test_lines_along_and_round() -> None:
    """Round to the axis a quarter of a circle; along, as long as it is; rivets by their pitch."""
    lines = """
[[plate_line]]
name = "weld"
kind = "weld"
x = 400
z_top = 50
[[plate_line]]
name = "strake"
kind = "rivets"
girth = 30
x_aft = 200
x_fore = 800
pitch = 5
side = "port"
[[plate_line]]
name = "boot top"
kind = "boot top"
z = 60
band = 10
"""
    weld, strake, boot = her(lines).marked.lines
    assert weld.length == pytest.approx(np.pi / 2 * R, rel=1e-3)
    assert strake.length == pytest.approx(0.6, rel=1e-6)
    assert strake.rivets == 121
    assert {one.side for one in strake.lines} == {"port"}
    ends = np.sqrt(R**2 - 0.01**2)  # the flat ends, each to the middle
    assert boot.length == pytest.approx(1.0 + 2 * ends, rel=1e-3)
    wide = R * (np.arcsin(20 / 50) - np.arcsin(10 / 50))  # round the skin, 10 mm upright
    assert boot.girths == pytest.approx((wide, wide), rel=5e-3)
    assert len(boot.lines) == 4


def test_draught_marks_stand_where_stem_and_side_are() -> None:
    figures = """
[[draught_mark]]
name = "bow"
at = "stem"
set_back = 50
z = "2 m full size"
step = "20 cm full size"
count = 3
"""
    (one,) = her(figures).marked.figures
    assert [spot.z for spot in one.spots[:3]] == pytest.approx([0.04, 0.044, 0.048])
    assert [spot.x for spot in one.spots[:3]] == pytest.approx([0.95] * 3)
    assert one.spots[0].y == pytest.approx(np.sqrt(R**2 - 0.01**2), abs=1e-4)
    assert len(one.spots) == 6


HOLE = '[[hole]]\nname = "hole"\nx = 500\ndiameter = 5\n'
WRONG = {
    "above her": (HOLE + "z = 120", "height 120 mm is off the skin"),
    "beyond her girth": (HOLE + "girth = 200", "girth 200 mm is more than the 157"),
    "off the deck": (HOLE + "off_middle = 60", "60 mm off the middle line is off the skin"),
    "beyond her end": (HOLE + "z = 50\ncount = 30\npitch = 20", "its foremost hole reaches 82.5"),
    "larger than she is": (
        HOLE.replace("diameter = 5", 'shape = "slot"\nlength = 5\nheight = 200') + "z = 50",
        "it is 200 mm high up the skin, which is only 157",
    ),
    "no place": (HOLE, "it has no place on the skin"),
    "two places": (HOLE + "z = 50\ngirth = 20", "z and girth both say where it lies"),
    "no size": (HOLE.replace("diameter = 5", 'shape = "slot"') + "z = 50", "needs its length"),
    "no pitch": (HOLE + "z = 50\ncount = 3", "a row of holes needs its pitch"),
    "into each other": (HOLE + "z = 50\ncount = 3\npitch = 4", "run into each other"),
    "no such region": (HOLE + 'z = 50\non = "hul"', "there is no region 'hul'"),
    "line beyond": ('[[plate_line]]\nname = "l"\nz = 50\nx_aft = -20', "beyond the hull"),
    "weld with a band": ('[[plate_line]]\nname = "l"\nz = 50\nkind = "weld"\nband = 5', "no band"),
    "marks nowhere": ('[[draught_mark]]\nname = "d"\nz = 50\nstep = 5', "at stem or stern, or at"),
    "marks over her": (
        '[[draught_mark]]\nname = "d"\nat = "stem"\nz = 90\nstep = 20\ncount = 2',
        "height 110 mm is off stem and stern",
    ),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_cannot_be_is_refused_in_a_sentence(name: str) -> None:
    typed, says = WRONG[name]
    with pytest.raises(TrimdiveError, match=says) as caught:
        _ = her(typed).hull
    assert any(key in str(caught.value) for key in ("hole[1]", "plate_line[1]", "draught_mark[1]"))


def test_without_marks_nothing_changes() -> None:
    """Holes and lines take nothing from what she weighs and displaces."""
    assert her(ROW).hull.skins[0].volume == her("").hull.skins[0].volume


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    mark = '[[draught_mark]]\nname = "bow"\nat = "stem"\nz = 40\nstep = 4\nset_back = 9\n'
    line = '[[plate_line]]\nname = "strake"\ngirth = 30\n'
    (tmp_path / "boat.toml").write_text(HEAD + ROW + line + mark, "utf-8")
    (tmp_path / "radii.csv").write_bytes(RADII)
    return tmp_path


def test_the_command_tells_them_in_model_and_full_size(folder: Path) -> None:
    run = CliRunner().invoke(app, ["marks", str(folder)], env={"COLUMNS": "80"})
    text = " ".join(run.output.split())
    assert "10.0 mm × 4.0 mm" in text
    assert "500 mm × 200 mm" in text
    assert "pitch 20.0 mm along her and 20.0 mm along the skin" in text
    assert "hull 585 mm²" in text  # sixteen slots, as above
    found = json.loads(CliRunner().invoke(app, ["marks", str(folder), "--json"]).output)
    own = ("scale", "holes", "hole_areas", "plate_lines", "draught_marks")
    keys = {key.replace("[][]", "[]") for key in keys_in({key: found[key] for key in own})}
    assert keys == documented_keys("marks")


def test_figures_do_not_climb_a_tower(grebe: Assessment) -> None:
    """Above the stem head the foremost thing on the middle line is the tower: none goes there."""
    text = '[[draught_mark]]\nname = "stem"\nat = "stem"\nz = "2.4 m full size"\n'
    mark = f'{text}step = "20 cm full size"\ncount = 16\nheight = "12 cm full size"\n'
    file = Path(__file__).parents[2] / "boats" / "grebe" / "boat.toml"
    boat = parse(file.read_text("utf-8") + "\n" + mark)
    with pytest.raises(TrimdiveError, match="only a tower stands there"):
        marks_on(boat, grebe.hull)
