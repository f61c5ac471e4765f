"""Four slips typed by hand, in terminal and page: named first, with a mend that works.

Two tanks laid into each other, a battery outside its cylinder, lead inside one, the wrong tank
slipped. What is right is what the demo boat's own file says: after the mend she is as she was.
"""

import re
import shutil
from html import unescape
from pathlib import Path

import pytest
from tests.conftest import BOATS
from tests.page.conftest import page_of
from tests.page.hands import put
from tests.said import what_of
from typer.testing import CliRunner

from trimdive.boatfile import append, remove, set_value
from trimdive.cli.app import app as commands
from trimdive.page.shown import name_of

Typed = tuple[str, str | None]  # a figure's path and what is typed; None: its line is forgotten
NEAR = 0.006  # so near to its place a thing comes back that balances her there [m]
TANK = {
    "bittern": {"inside": "after cylinder", "x": "860 mm", "length": "130 mm"},
    "grebe": {"inside": "cylinder", "x": "700 mm", "length": "60 mm"},
    "plover": {"inside": "cylinder", "x": "440 mm", "length": "57 mm", "bore": "64 mm"},
}
BATTERY = {"bittern": "part[1]", "grebe": "part[2]", "plover": "part[3]"}
BEYOND = {"bittern": "1950 mm", "grebe": "960 mm", "plover": "580 mm"}


def typed(folder: Path, name: str, *figures: Typed) -> Path:
    """Return a copy of a demo boat's file with figures typed into it."""
    shutil.copytree(BOATS / name, folder / name)
    file = folder / name / "boat.toml"
    text = file.read_text("utf-8")
    for path, value in figures:
        text = remove(text, path) if value is None else set_value(text, path, value)
    file.write_text(text, "utf-8")
    return file


def checked(file: Path) -> tuple[int, str]:
    """Return the exit status of ``check``, and the first thing that it tells, in one line."""
    said = CliRunner().invoke(commands, ["check", str(file)])
    first = said.stdout.partition("\n1. ")[2].partition("\n2. ")[0]
    return said.exit_code, " ".join(first.split())


def done_on_page(file: Path, first: str) -> None:
    """Open the page, press the first "Do it" under To put right, and save."""
    page = page_of(file).enter()
    answer = page.desk.her.findings
    right = page.client.get("/right").text
    on_page = unescape(
        re.sub(r"<[^>]+>", "", right.partition('class="what">')[2].partition("</p>")[0])
    )
    assert " ".join(on_page.split()) in first
    before = {one.about for one in answer}
    page.press(f"do {name_of(answer[0])}")
    after = page.desk.her.findings
    assert answer[0].about not in {one.about for one in after}
    assert {one.about for one in after} <= before, [what_of(one) for one in after]
    page.press("save")


def assert_mended(file: Path, *named: str) -> None:
    """Check that a thing is named first, and that its mend, done on the page, leaves her in order.

    The page saves it; she is read from the file again for ``check``.

    Args:
        file: The boat file, as typed.
        named: What the first thing must say.
    """
    status, first = checked(file)
    assert status == 1
    assert all(word in first for word in named), first
    done_on_page(file, first)
    assert checked(file) == (0, "")


def place(file: Path, path: str, field: str = "x") -> str:
    """Return what stands in a boat file for one figure."""
    table, _, number = path.partition("[")
    text = file.read_text("utf-8").split(f"[[{table}]]")[int(number[:-1])]
    found = re.search(rf'^{field} = "([^"]*)"', text, re.MULTILINE)
    assert found, text
    return found[1]


@pytest.mark.parametrize("name", sorted(TANK))
def test_a_tank_more_laid_into_another(tmp_path: Path, name: str) -> None:
    """She needs none: it is the one that goes."""
    file = typed(tmp_path, name)
    says = "Remove trim tank: the other tanks hold all the water"
    text = append(file.read_text("utf-8"), "tank", {"name": "trim tank", **TANK[name]})
    file.write_text(text, "utf-8")
    assert_mended(file, "ank and trim tank share", "water in it counts twice", says)


def test_a_tank_entered_in_the_other_cylinder_upon_the_other_tank(tmp_path: Path) -> None:
    figures = (("tank[1].inside", "after cylinder"), ("tank[1].x", "958 mm"))
    file = typed(tmp_path, "bittern", *figures)
    assert_mended(file, "orward tank and after tank share", "lies inside it too, ")
    assert abs(float(place(file, "tank[1]").split()[0]) - 1520) < 1e3 * NEAR


def test_the_wrong_cylinder_chosen_on_the_page(tmp_path: Path) -> None:
    """The tank goes along into it, and is sent back to where its works are."""
    file = typed(tmp_path, "bittern")
    page = page_of(file).enter()
    put(page.desk, "tank[1].inside", "after cylinder")
    assert page.desk.steps[-1].says == "forward tank: inside after cylinder, x 675 mm"
    page.press("save")
    assert place(file, "tank[1]") == "675 mm"  # as far abaft the middle as in the other cylinder
    assert_mended(file, "orward tank and after battery share", "lies inside it too, ")
    assert abs(float(place(file, "tank[1]").split()[0]) - 1520) < 1e3 * NEAR


@pytest.mark.parametrize("name", sorted(BATTERY))
@pytest.mark.parametrize("slip", ["forgotten", "beyond", "both"])
def test_a_battery_outside_its_cylinder(tmp_path: Path, name: str, slip: str) -> None:
    """It comes back to where it was, within what she weighs too much or too little elsewhere."""
    path = BATTERY[name]
    right = place(BOATS / name / "boat.toml", path)
    figures: list[Typed] = [(f"{path}.x", BEYOND[name])] if slip != "forgotten" else []
    figures += [(f"{path}.inside", None)] if slip != "beyond" else []
    file = typed(tmp_path, name, *figures)
    said = "is entered as inside" if slip == "beyond" else "is in open water"
    assert_mended(file, "attery", said)
    found = place(file, path)
    assert abs(float(found.split()[0]) - float(right.split()[0])) < 1e3 * NEAR, found
    assert "cylinder" in place(file, path, "inside")


@pytest.mark.parametrize(
    ("name", "figure", "says"),
    [
        ("bittern", ("lead[1].z", "60 mm"), "Move lead 1 by 39.0 mm down"),
        ("bittern", ("lead[1].z", "70 mm"), "Move lead 1 by 49.0 mm down"),
        ("grebe", ("lead[4].z", "14 mm"), "Move lead 4 by 9.0 mm down"),
        ("grebe", ("lead[1].x", "700 mm"), "there she is level"),
        ("plover", ("lead[1].inside", None), "nter that it lies inside cylinder"),
        ("plover", ("lead[2].x", "472.5 mm"), "forward"),
    ],
)
def test_lead_inside_a_cylinder(tmp_path: Path, name: str, figure: Typed, says: str) -> None:
    """The small mend that is true: down to the keel, entered inside, or where she lies level."""
    file = typed(tmp_path, name, figure)
    assert_mended(file, "ead", "cylinder share", "it counts twice", says)


@pytest.mark.parametrize("height", ["60 mm", "88 mm"])
def test_lead_too_much_inside_a_cylinder(tmp_path: Path, height: str) -> None:
    """200 g that she does not need: taken out, not moved a third of a metre."""
    file = typed(tmp_path, "bittern")
    lead = {"mass": "200 g", "x": "740 mm", "z": height, "shape": "box"}
    lead |= {"length": "100 mm", "breadth": "40 mm", "height": "4.4 mm"}
    file.write_text(append(file.read_text("utf-8"), "lead", lead), "utf-8")
    assert_mended(file, "Lead 8 and", "Remove lead 8")


@pytest.mark.parametrize(
    ("name", "tank", "right", "by"),
    [
        ("bittern", "forward tank", ("tank[1].x", 1520.0), 172.0),
        ("bittern", "after tank", ("tank[2].x", 958.0), -172.0),
        ("bittern", "forward tank", ("tank[1].x", 1520.0), 30.0),
        ("grebe", "piston tank", ("tank[1].water_end", 766.0), 100.0),
        ("plover", "tank", ("tank[1].x", 409.0), -72.0),
        ("plover", "tank", ("tank[1].x", 409.0), 30.0),
    ],
)
def test_the_tank_that_slipped_is_sent_back(
    tmp_path: Path, name: str, tank: str, right: tuple[str, float], by: float
) -> None:
    """Never the other one, and never the battery upon which it came."""
    path, x = right
    file = typed(tmp_path, name, (path, f"{x + by} mm"))
    way = "aft" if by > 0 else "forward"
    status, first = checked(file)
    assert status == 1
    assert re.search(rf"Move {tank} [\d.]+ mm {way}", first), first
    assert first.lower().startswith(tank) or first.startswith("Tank water"), first
    assert_mended(file, tank)
    piece, _, field = path.partition(".")
    assert abs(float(place(file, piece, field).split()[0]) - x) < 1e3 * NEAR


def test_a_tank_that_slipped_out_of_its_cylinder_is_named(tmp_path: Path) -> None:
    """So the file is refused: by line, tank and how far, before anything is calculated."""
    file = typed(tmp_path, "bittern", ("tank[2].x", "1130 mm"))
    said = CliRunner().invoke(commands, ["check", str(file)])
    assert said.exit_code == 2
    assert "tank[2].x ('after tank'): the tank stands 149 mm out" in " ".join(said.stderr.split())
