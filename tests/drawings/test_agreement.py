"""Drawings and the terminal's answers tell the same figures of the same states."""

import re
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
from tests.drawings.boats import BOATS, ROOT, boat
from tests.drawings.test_boat_drawing import words
from typer.testing import CliRunner

from trimdive.cli.app import app
from trimdive.cli.sheets import drawn

Columns = dict[str, list[str]]


@cache
def told(name: str) -> Columns:
    """Return the rows of what ``float`` prints, by their name: a text for each state."""
    result = CliRunner().invoke(app, ["float", str(ROOT / "boats" / name)])
    assert result.exit_code in (0, 1), result.output  # 1: something to put right
    rows = [re.split(r" {2,}", line.strip()) for line in result.stdout.splitlines()]
    return {row[0]: row[1:] for row in rows if len(row) == 3} | {"": rows[2]}


def drawings(name: str, folder: Path) -> list[ElementTree.Element]:
    """Return the drawings that are made of a boat unasked."""
    return [ElementTree.parse(file).getroot() for file in drawn(boat(name), None, folder)]


@pytest.mark.parametrize("name", BOATS)
def test_drawings_and_float_show_the_same_two_states(name: str, tmp_path: Path) -> None:
    rows, both = told(name), drawings(name, tmp_path)
    assert len(both) == 2
    for k, svg in enumerate(both):
        figure = words(svg, "figure")[-1]
        says = rows["tips by"][k]
        head = words(svg, "state")[0]
        if says == "level":
            assert float(figure.removesuffix("°")) < 0.05
        else:
            assert says.startswith(f"{figure} by the ")
            assert says in head
        assert ("wholly under" in head) == rows[""][k].startswith("dived")


def test_a_boat_that_stays_up_is_drawn_up_and_held_under_told_apart(tmp_path: Path) -> None:
    files = drawn(boat("bittern-as-bought"), None, tmp_path)
    assert [file.name for file in files] == [
        "bittern-as-bought-surfaced.svg", "bittern-as-bought-tanks-full.svg",
    ]  # fmt: skip
    svg = ElementTree.parse(files[1]).getroot()
    assert words(svg, "figure")[-1] == "12.4°"  # as ``float`` tells
    assert words(svg, "held") == ["Held wholly under by hand she would tip 56.7° by the bow."]
    assert words(ElementTree.parse(files[0]).getroot(), "held") == []
    good = drawn(boat("bittern"), None, tmp_path)
    assert good[1].name == "bittern-dived.svg"
    assert words(ElementTree.parse(good[1]).getroot(), "held") == []
