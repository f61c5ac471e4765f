"""A boat to test by: invented, small, with one of everything."""

from pathlib import Path

import pytest

BOAT = """\
format = 1
name = "Trial"  # of no class
scale = "1:24"
length = "2300 mm"

[units]
length = "mm"
mass = "g"

[water]
temperature = "12 °C"

[waterline]
height = 154

[[mark]]
name = "bow"
x = 2200

[[region]]
name = "hull"
surface = "suboff"
length = 2300
z = 100
thickness = 3.2
material = "GRP"
mass = 4507
x = 1206
known = "weighed"
below = 160

[[region]]
name = "tower"
surface = "prism"
outline = "oval"
x_aft = 1290
x_fore = 1590
breadth = 86
z_bottom = 200
z_top = 352
thickness = 2.2
material = "GRP"

[[coat]]
name = "paint"
mass = 453
material = "paint"
on = ["hull", "tower"]

[[opening]]
name = "well"
x_aft = 1070
x_fore = 1250
breadth = 120

[[hatch]]
name = "casing hatch"
x_aft = 880
x_fore = 1440
breadth = 190
z_bottom = 150

[[hatch]]
name = "tower"
off = ["tower"]
after = ["casing hatch"]

[[plan]]
name = "lines"
file = "plan.png"
marks = "plan.json"

[[cylinder]]
name = "forward cylinder"
outside = 125
wall = 3.7
length = 612
x_aft = 1279
z = 88
mass = 1954
known = "weighed"

# The tank that the pump fills.
[[tank]]
name = "forward tank"
inside = "forward cylinder"
length = 130
x = 1520
lost = "4 %"

[[part]]
name = "battery"
mass = "1480 g"
x_fore = 600     # from the bow: easier to reach
from = "bow"
z_bottom = 35
shape = "box"
length = 151
breadth = 65
height = 95
inside = "forward cylinder"

[[part]]
name = "propellers"
mass = "71 g"
x = 178
y = 30
z = 62
pair = "both"
material = "brass"

# Keel lead, aft first.
[[lead]]
mass = 380
x = 600
z = 15

[[lead]]
mass = 500
x = 1400
z = 9

[[foam]]
volume = "560 cm3"
x = 340
y = 70
z = 110
pair = "both"

[[keep_clear]]
name = "well"
x_aft = 1070
x_fore = 1250
breadth = 120
z_bottom = -10
z_top = 210

[limits]
gm-least = "4 mm"
"""


@pytest.fixture
def text() -> str:
    return BOAT


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "boat.toml"
    path.write_text(BOAT, encoding="utf-8")
    return path
