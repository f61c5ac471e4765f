"""Names in the drawing of a cylinder: no name meets another, as broad as lettering comes out."""

import re
from html import unescape
from itertools import combinations
from pathlib import Path

import pytest
from tests.cli.boats import NAMES

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import load
from trimdive.pictures.drawings.cylinder import PAPER, cylinder_drawing

BOATS = Path(__file__).parents[2] / "boats"
NARROW = 150.0  # width of a drawing with large lettering [mm of paper]
BROAD = 0.55  # of a letter, in heights of lettering: DejaVu Sans, measured [-]
TEXT = re.compile(r"<text ([^>]*)>([^<]*)</text>")


def boxes(svg: str, names: set[str]) -> list[tuple[str, float, float, float, float]]:
    """Return each name with its left, right, base line and height [mm of the boat]."""
    found: list[tuple[str, float, float, float, float]] = []
    for given, text in TEXT.findall(svg):
        if (name := unescape(text)) in names:
            at = {key: float(dict(re.findall(r'([\w-]+)="([^"]*)"', given))[key])
                  for key in ("x", "y", "font-size")}  # fmt: skip
            half = BROAD * at["font-size"] * len(name) / 2
            found.append((name, at["x"] - half, at["x"] + half, at["y"], at["font-size"]))
    return found


def meetings(her: Assessment, paper: float = PAPER) -> list[str]:
    """Return names that meet in the drawings of her cylinders."""
    names = {one.name for one in (*her.boat.parts, *her.boat.tanks)}
    met: list[str] = []
    for one in her.bench.cylinders:
        drawn = boxes(cylinder_drawing(her, one, paper), names)
        assert drawn
        for a, b in combinations(drawn, 2):
            if abs(a[3] - b[3]) < 0.9 * a[4] and a[1] < b[2] and b[1] < a[2]:
                met.append(f"{a[0]} | {b[0]}")
    return met


@pytest.mark.parametrize("name", NAMES)
def test_no_name_meets_another(name: str) -> None:
    assert meetings(assess(load(BOATS / name / "boat.toml"))) == []


def crowded() -> Assessment:
    """Return a boat with points in a row in her cylinder, nearer than their names are broad."""
    her = assess(load(BOATS / "grebe" / "boat.toml"))
    home = her.boat.cylinders[0]
    called = ("motor and gear", "speed controller and fuse", "servos with inner linkage",
              "receiver and failsafe", "inner wiring of all of it")  # fmt: skip
    aft = home.x - home.length / 2
    some = next(one for one in her.boat.parts if one.inside == home.name and one.shape == "point")
    inside = tuple(
        some.model_copy(update={"name": name, "x": aft + 0.06 + 0.03 * k, "z": home.z + 0.002})
        for k, name in enumerate(called)
    )
    others = tuple(one for one in her.boat.parts if one.inside != home.name)
    boat = her.boat.model_copy(update={"parts": (*others, *inside)})
    return Assessment(boat=boat, files=her.files)


def test_names_of_points_in_a_row_keep_apart() -> None:
    her = crowded()
    assert meetings(her, NARROW) == []
