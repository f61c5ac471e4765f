"""Drawings and the terminal's answers tell the same figures of the same states."""

import re
from functools import cache
from math import cos
from pathlib import Path
from xml.etree import ElementTree

import pytest
from tests.drawings.boats import BOATS, ROOT, boat
from tests.drawings.odd import STEEP
from tests.drawings.seen import words
from typer.testing import CliRunner

from trimdive.assessment import assess
from trimdive.cli.app import app
from trimdive.cli.sheets import drawn
from trimdive.pictures.drawings import boat_drawing
from trimdive.text.words import headline

Columns = dict[str, list[str]]


@cache
def answer(folder: Path) -> Columns:
    """Return the rows of what ``float`` prints, by their name: a text for each state."""
    result = CliRunner().invoke(app, ["float", str(folder)])
    assert result.exit_code in (0, 1), result.output  # 1: something to put right
    rows = [re.split(r" {2,}", line.strip()) for line in result.stdout.splitlines()]
    return {row[0]: row[1:] for row in rows if len(row) == 3} | {"": rows[2]}


def drawings(name: str, folder: Path) -> list[ElementTree.Element]:
    """Return the drawings that are made of a boat unasked."""
    return [ElementTree.parse(file).getroot() for file in drawn(boat(name), None, folder)]


def draughts(svg: ElementTree.Element) -> dict[str, str]:
    """Return the draughts told under a drawing, by the place's name, as ``float`` writes them."""
    lines = [text.removeprefix("draught ") for text in words(svg, "draught")]
    each = len(lines) // 3
    rows = [lines[i : i + each] for i in range(0, len(lines), each)] if lines else []
    return {name: ", ".join(more) for name, *more in rows}


@pytest.mark.parametrize("name", BOATS)
def test_drawings_and_float_show_the_same_two_states(name: str, tmp_path: Path) -> None:
    rows, both = answer(ROOT / "boats" / name), drawings(name, tmp_path)
    assert len(both) == 2
    for k, svg in enumerate(both):
        figure = words(svg, "figure")[-1]
        says = rows["trim"][k]
        head = words(svg, "state")[0]
        if says == "level":
            assert float(figure.removesuffix("°")) < 0.05
        else:
            assert says.startswith(f"{figure} ")
            assert says in head
        assert ("wholly under" in head) == rows[""][k].startswith("dived")


def test_a_boat_that_stays_up_is_drawn_up_and_held_under_told_apart(tmp_path: Path) -> None:
    files = drawn(boat("bittern-as-bought"), None, tmp_path)
    assert [file.name for file in files] == [
        "bittern-as-bought-surfaced.svg", "bittern-as-bought-tanks-full.svg",
    ]  # fmt: skip
    svg = ElementTree.parse(files[1]).getroot()
    assert words(svg, "figure")[-1] == "12.4°"  # as ``float`` tells
    assert words(svg, "held") == ["Held under by hand, tanks full: trim 56.6° bow down."]
    assert words(ElementTree.parse(files[0]).getroot(), "held") == []
    good = drawn(boat("bittern"), None, tmp_path)
    assert good[1].name == "bittern-dived.svg"
    assert words(ElementTree.parse(good[1]).getroot(), "held") == []


@pytest.mark.parametrize("name", BOATS)
def test_draughts_are_read_at_the_same_places(name: str, tmp_path: Path) -> None:
    rows = answer(ROOT / "boats" / name)
    surfaced, low = drawings(name, tmp_path)
    at_marks = {row.removeprefix("draught at "): cells for row, cells in rows.items()}
    found = draughts(surfaced)
    assert len(found) == 3
    assert found == {mark: at_marks[mark][0] for mark in found}
    for mark, text in draughts(low).items():
        assert at_marks[mark][1].startswith(text)  # how far off is told of tanks blown alone


def test_draughts_without_marks_are_read_at_her_ends(tmp_path: Path) -> None:
    (tmp_path / "boat.toml").write_text(STEEP, "utf-8")
    rows, her = answer(tmp_path), assess(tmp_path / "boat.toml")
    surfaced = ElementTree.parse(drawn(her, None, tmp_path)[0]).getroot()
    found = draughts(surfaced)
    assert list(found) == ["stern", "middle", "bow"]
    assert found == {mark: rows[f"draught at {mark}"][0] for mark in found}
    # By the plane of the water at x = 0 and at x = length, from the record of the rest.
    n, d = her.surfaced.rest.n, her.surfaced.rest.d
    assert found["stern"].startswith(f"{1000 * d / n[2]:.3g} mm")
    assert found["bow"].startswith(f"{1000 * (d - n[0] * 0.9) / n[2]:.3g} mm")


def test_bg_of_a_drawing_is_that_of_the_state_drawn() -> None:
    her = boat("grebe-as-bought")
    svg = ElementTree.fromstring(boat_drawing(her, her.dived))
    assert words(svg, "lever")[0] == "BG 9.4 mm"
    assert her.boat.units.write(her.bg, "length") == "8.1 mm"  # upright it would be less
    # Her tank is a piston's, so its water stays where it is: the way from G to B turns with her.
    assert her.dived.bg == pytest.approx(her.bg / cos(her.dived.trim_angle), rel=1e-6)
    level = boat("grebe")
    lines = words(ElementTree.fromstring(boat_drawing(level, level.dived)), "lever")
    assert lines[0] == f"BG {level.boat.units.write(level.dived.bg, 'length')}"
    assert lines[1].startswith("G at x ")


def test_check_and_drawing_say_alike_that_full_tanks_make_her_heavy() -> None:
    her = boat("bittern")
    heavy = her.boat.units.write(her.full.rest.excess, "mass")
    figures = words(ElementTree.fromstring(boat_drawing(her, her.full)), "header")
    assert headline(her).endswith(f"; {heavy} heavy with tanks full")
    i = figures.index(f"{heavy} heavy")
    assert figures[i - 1 : i + 2] == [
        "light or heavy", f"{heavy} heavy", "tanks full, neutral at 90 %",
    ]  # fmt: skip
