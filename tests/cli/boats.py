"""Boats to ask at the terminal: the demo boats, each worked out once, and a small, quick one."""

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path

from typer.testing import Result

from trimdive.assessment import Assessment, assess

BOATS = Path(__file__).parents[2] / "boats"
NAMES = sorted(folder.parent.name for folder in BOATS.glob("*/boat.toml"))
Ask = Callable[..., Result]

SMALL = """\
format = 1
name = "Sprat"
length = "600 mm"

[units]
length = "mm"
mass = "g"
volume = "cm3"

[water]
temperature = "15 °C"

[waterline]
height = "80 mm"

[[region]]
name = "hull"
surface = "prism"
outline = "oval"
x_aft = "0 mm"
x_fore = "600 mm"
breadth = "120 mm"
z_bottom = "0 mm"
z_top = "100 mm"
thickness = "2 mm"
material = "GRP"

[[cylinder]]
name = "cylinder"
outside = "80 mm"
wall = "3 mm"
length = "400 mm"
x = "300 mm"
z = "45 mm"
material = "PVC-U"

[[tank]]
name = "fore tank"
inside = "cylinder"
x = "360 mm"
length = "28 mm"

[[tank]]
name = "after tank"
inside = "cylinder"
x = "240 mm"
length = "28 mm"

[[part]]
name = "battery"
inside = "cylinder"
mass = "400 g"
known = "weighed"
x = "300 mm"
z = "25 mm"

[[part]]
name = "mast"
mass = "10 g"
volume = "8 cm3"
known = "guess"
x = "300 mm"
z = "79 mm"

[[lead]]
mass = "842 g"
known = "weighed"
shape = "box"
length = "190 mm"
breadth = "40 mm"
height = "10 mm"
x = "300 mm"
z = "8 mm"

[[foam]]
shape = "box"
length = "100 mm"
breadth = "100 mm"
height = "10 mm"
x = "300 mm"
z = "60 mm"
"""


@cache
def demo(name: str) -> Assessment:
    """Return a demo boat, worked out once for all tests."""
    return assess(BOATS / name / "boat.toml")


def document(result: Result) -> dict[str, object]:
    """Return the JSON document that a command printed."""
    found = json.loads(result.stdout)
    assert isinstance(found, dict)
    return found
