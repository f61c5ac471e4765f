"""Places taken over from a list, for pieces that are aboard already."""

import csv
import json
import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from trimdive.boatfile import load
from trimdive.cli.app import app

RUN = CliRunner()
BOATS = Path(__file__).parents[2] / "boats"


@pytest.fixture
def her(tmp_path: Path) -> Path:
    shutil.copytree(BOATS / "bittern", tmp_path / "bittern")
    return tmp_path / "bittern"


def said(*words: str) -> tuple[int, str]:
    answer = RUN.invoke(app, ["weights-in", *words])
    assert "Traceback" not in answer.output
    return answer.exit_code, " ".join(answer.output.split())


def listed(her: Path, *rows: str, head: str = "name;mass [g];x [mm];z [mm]") -> str:
    file = her.parent / "list.csv"
    file.write_text("\n".join([head, *rows]) + "\n", "utf-8")
    return str(file)


def battery(her: Path) -> tuple[str, float, float, float]:
    (found,) = [p for p in load(her / "boat.toml").boat.parts if p.name == "forward battery"]
    return found.name, found.x, found.z, found.mass or 0.0


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover", "bittern-as-bought"])
def test_a_list_that_the_program_wrote_moves_nothing(name: str, tmp_path: Path) -> None:
    her, file = tmp_path / name, tmp_path / "list.csv"
    shutil.copytree(BOATS / name, her)
    assert RUN.invoke(app, ["weights-out", str(her), str(file)]).exit_code == 0
    _, answer = said(str(file), str(her), "--places", "--json")
    assert json.loads(answer)["moved"] == []
    before = (her / "boat.toml").read_bytes()
    assert "nothing to change" in said(str(file), str(her), "--places", "--apply")[1]
    assert (her / "boat.toml").read_bytes() == before


def test_shown_first_and_then_set(her: Path) -> None:
    name, x, z, mass = battery(her)
    file = listed(her, f"{name};{mass * 1e3:.0f};{x * 1e3 + 25:.1f};{z * 1e3 - 4:.1f}")
    before = (her / "boat.toml").read_bytes()
    code, answer = said(file, str(her), "--places")
    assert code == 0
    assert "1 piece moves" in answer
    assert f"{x * 1e3:.0f} mm -> {x * 1e3 + 25:.0f} mm" in answer
    assert (her / "boat.toml").read_bytes() == before
    assert "With --places its place is taken too" in said(file, str(her))[1]
    assert "1 moved" in said(file, str(her), "--places", "--apply")[1]
    assert battery(her)[1:] == pytest.approx((x + 0.025, z - 0.004, mass))


def test_inches_from_the_bow(her: Path) -> None:
    name, _, z, mass = battery(her)
    length = load(her / "boat.toml").boat.length or 0.0
    row = f'{name};{mass * 1e3:.0f};"9 3/4 in";{z * 1e3:.1f} mm'
    file = listed(her, row, head="name;mass [g];from bow;z")
    assert "1 moved" in said(file, str(her), "--places", "--apply")[1]
    assert battery(her)[1] == pytest.approx(length - 9.75 * 0.0254)  # inch: exact by definition


def test_without_places_only_the_mass_is_taken(her: Path) -> None:
    name, x, z, _ = battery(her)
    file = listed(her, f"{name};900;{x * 1e3 + 25:.1f};{z * 1e3:.1f}")
    assert "1 weighed again" in said(file, str(her), "--apply")[1]
    assert battery(her)[1:] == pytest.approx((x, z, 0.9))


def test_an_end_takes_the_place_of_the_middle(her: Path) -> None:
    (tank,) = [t for t in load(her / "boat.toml").boat.tanks if t.name == "forward tank"]
    aft = (tank.x - tank.length / 2) * 1e3
    head = "name;mass [g];aft end [mm];z [mm]"
    file = listed(her, f"forward tank;100;{aft + 10:.2f};{tank.z * 1e3:.1f}", head=head)
    _, answer = said(file, str(her), "--places", "--json")
    moved = json.loads(answer)["moved"]
    assert [one["name"] for one in moved] == ["forward tank"]
    assert moved[0]["after_m"][0] - moved[0]["before_m"][0] == pytest.approx(0.010, abs=1e-5)


def test_a_place_that_cannot_be_is_refused_and_nothing_written(her: Path) -> None:
    file = listed(her, "forward tank;100;30;62")
    before = (her / "boat.toml").read_bytes()
    code, answer = said(file, str(her), "--places", "--apply")
    assert code == 2
    assert "row 2: 'forward tank' cannot stand there: the tank stands" in answer
    assert (her / "boat.toml").read_bytes() == before


def test_the_sheet_of_a_spreadsheet_is_as_good(her: Path) -> None:
    name, x, z, mass = battery(her)
    file = her.parent / "comma.csv"
    with file.open("w", encoding="utf-8", newline="") as stream:
        rows = csv.writer(stream)
        rows.writerow(["name", "mass [g]", "x [mm]", "y [mm]", "z [mm]"])
        rows.writerow([name, f"{mass * 1e3:.0f}", f"{x * 1e3:.1f}", "7", f"{z * 1e3:.1f}"])
    _, answer = said(str(file), str(her), "--places", "--json")
    assert json.loads(answer)["moved"][0]["after_m"][1] == pytest.approx(0.007)
