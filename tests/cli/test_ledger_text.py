"""What ``weigh`` and ``float`` say of a boat that is not finished, and told by outlines only."""

from pathlib import Path

from typer.testing import CliRunner

from trimdive.cli.app import app

BOAT = """
format = 1
name = "Coot"
length = "1 m"
[units]
length = "mm"
mass = "g"
[waterline]
height = "70 mm"
[[region]]
name = "hull"
surface = "outline"
length = "1000 mm"
breadth = "120 mm"
height = "110 mm"
thickness = "2 mm"
material = "GRP"
profile = [
    { x = "0 mm", keel = "60 mm", deck = "100 mm" },
    { x = "300 mm", keel = "0 mm", deck = "110 mm" },
    { x = "700 mm", keel = "0 mm", deck = "110 mm" },
    { x = "1000 mm", keel = "50 mm", deck = "112 mm" },
]
breadths = [
    { x = "0 mm", half = "4 mm" },
    { x = "500 mm", half = "60 mm" },
    { x = "1000 mm", half = "3 mm" },
]
section = [
    { x = "250 mm", shape = "oval" },
    { x = "500 mm", shape = "oval" },
    { x = "750 mm", shape = "oval" },
]
[[cylinder]]
name = "tube"
outside = "80 mm"
wall = "3 mm"
length = "500 mm"
x = "500 mm"
z = "50 mm"
mass = "600 g"
known = "weighed"
[[part]]
name = "masts"
aboard = false
mass = "20 g"
soaked = "22 g"
volume = "10 cm3"
x = "520 mm"
z = "150 mm"
[[weigh_in]]
date = 2026-03-01
mass = "2900 g"
[[weigh_in]]
date = 2026-04-11
mass = "3000 g"
note = "with paint"
"""


def said(command: str, folder: Path) -> str:
    file = folder / "boat.toml"
    file.write_text(BOAT, "utf-8")
    result = CliRunner().invoke(app, [command, str(file)])
    assert result.exit_code == 1, result.output  # the ledger does not explain the scale
    return " ".join(result.output.split())


def test_today_and_still_to_come(tmp_path: Path) -> None:
    text = said("weigh", tmp_path)
    assert "still to come: 22 g." in text
    assert "2 g soaks in within a day." in text


def test_growth_from_one_weigh_in_to_the_next(tmp_path: Path) -> None:
    text = said("weigh", tmp_path)
    assert "On the scale 2026-03-01: 2900 g." in text
    assert "2026-04-11: 3000 g, 100 g more than last time (with paint)." in text


def test_an_outline_says_how_sure_it_is(tmp_path: Path) -> None:
    text = said("float", tmp_path)
    assert (
        "Given by its outline only, the volume of hull below the waterline may be off by ±" in text
    )
    assert "Measure " in text
