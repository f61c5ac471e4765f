"""Every recipe of docs/library.md runs, prints what stands there, and agrees with the terminal."""

import contextlib
import io
import json
import re
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from tests.said import what_of
from typer.testing import CliRunner

import trimdive as td
from trimdive.cli import app as commands
from trimdive.text.say import Say

ROOT = Path(__file__).parents[1]
BOATS = ROOT / "boats"
PAGE = (ROOT / "docs" / "library.md").read_text("utf-8")
RECIPES = re.findall(r"```python\n(.*?)```\n\n```text\n(.*?)```\n", PAGE, flags=re.DOTALL)
BATTERY = 'x = "300 mm"\nz = "22 mm"'  # where Plover's battery lies
LEAD = 'mass = "188 g"'  # on the floor of her cylinder

Names = dict[str, Any]


def ran(number: int, monkeypatch: pytest.MonkeyPatch) -> Names:
    """Return what a recipe names, having held what it prints against what stands behind it."""
    monkeypatch.chdir(ROOT)
    code, printed = RECIPES[number]
    names: Names = {}
    said = io.StringIO()
    with contextlib.redirect_stdout(said):
        exec(compile(code, f"recipe {number}", "exec"), names)
    assert said.getvalue() == printed
    return names


def typed(command: str, boat: Path, *options: str) -> Names:
    """Return the document of a command."""
    result = CliRunner().invoke(commands.app, [command, str(boat), "--json", *options])
    found = json.loads(result.stdout)
    assert isinstance(found, dict)
    return found


def plover(folder: Path, was: str, now: str) -> Path:
    """Return the folder of Plover with a few words of her file changed."""
    there = folder / "plover"
    shutil.copytree(BOATS / "plover", there, dirs_exist_ok=True)
    text = (BOATS / "plover" / "boat.toml").read_text("utf-8")
    assert text.count(was) == 1
    (there / "boat.toml").write_text(text.replace(was, now), "utf-8")
    return there


def same(one: object, other: object) -> bool:
    """Return whether two figures are the same but for the last digits of sums."""
    return one == pytest.approx(other, rel=1e-6, abs=1e-9)


def test_there_are_ten_and_each_says_what_it_prints() -> None:
    assert len(re.findall(r"^## \d+\. ", PAGE, flags=re.MULTILINE)) == 10
    assert len(RECIPES) == 1 + 10 == PAGE.count("```python")


def first(names: Names, _: Path) -> None:
    found = typed("float", BOATS / "plover")["surfaced"]
    state: td.State = names["afloat"]
    assert same(state.displacement_mass, found["displacement_kg"])
    assert same(state.trim_angle, found["trim_bow_down_rad"])
    assert same(state.gm_t, found["gm_t_m"])
    assert same(state.draught(0.36), found["draughts"][1]["draught_m"])


def put_right(names: Names, _: Path) -> None:
    found = typed("check", BOATS / "bittern-as-bought")["findings"]
    assert len(found) > 3
    her = names["bittern"]
    answer = [what_of(one, Say(her.boat)) for one in her.findings]
    assert answer == [one["what"] for one in found]


def moved(names: Names, folder: Path) -> None:
    there = plover(folder, BATTERY, 'x = "280 mm"\nz = "20 mm"')
    found = typed("float", there)
    assert same(names["aft"].surfaced.trim_angle, found["surfaced"]["trim_bow_down_rad"])
    assert same(names["aft"].bg, found["upright_bg_m"])
    assert same(names["plover"].bg, typed("float", BOATS / "plover")["upright_bg_m"])


def swept(names: Names, folder: Path) -> None:
    for x, trim in zip(names["places"], names["trims"], strict=True):
        there = plover(folder, BATTERY, f'x = "{1000 * x:.6g} mm"\nz = "22 mm"')
        assert same(trim, typed("float", there)["surfaced"]["trim_bow_down_rad"])


def columns(dive: td.Table, moments: list[Names]) -> None:
    """Hold a table of a dive against the moments of the document."""
    assert dive.rows == len(moments) > 50
    assert same(list(dive["share"]), [one["share"] for one in moments])
    states = [one["state"] for one in moments]
    keys = [key for key in dive if key in states[0]]
    assert len(keys) > 20
    for key in keys:
        answer = [np.nan if state[key] is None else state[key] for state in states]
        assert np.allclose(dive[key], answer, rtol=1e-6, atol=1e-9, equal_nan=True), key
    middle = [
        np.nan if state["draughts"] is None else state["draughts"][1]["draught_m"]
        for state in states
    ]
    assert np.allclose(dive["draught_middle_m"], middle, rtol=1e-6, equal_nan=True)


def every_moment(names: Names, _: Path) -> None:
    found = typed("dive", BOATS / "plover")
    columns(names["dive"], found["down"]["moments"])
    columns(td.assess(BOATS / "plover").dive_table(up=True), found["up"]["moments"])
    least = found["down"]["least_gm"]
    assert same(names["dive"]["gm_t_m"][names["worst"]], least["gm_t_m"])
    assert same(names["dive"]["filling"][names["worst"]], least["filling"])


def weighed(names: Names, _: Path) -> None:
    found = typed("weigh", BOATS / "plover")
    parts: td.Table = names["parts"]
    for key in ("name", "kind", "path", "known"):
        assert list(parts[key]) == [one[key] for one in found["entries"]]
    for key in ("mass_kg", "spread_kg", "x_m", "y_m", "z_m"):
        assert same(list(parts[key]), [one[key] for one in found["entries"]])
    assert same(np.average(parts["x_m"], weights=parts["mass_kg"]), found["x_m"])


def three_places(names: Names, folder: Path) -> None:
    for x, dive in names["dives"].items():
        there = plover(folder, BATTERY, f'x = "{x}"\nz = "22 mm"')
        columns(dive, typed("dive", there)["down"]["moments"])
        assert x in names["picture"].svg
    assert "trim bow down [°]" in names["picture"].svg


def pictures(names: Names, folder: Path) -> None:
    for name in ("afloat", "levers", "across"):
        picture: td.Picture = names[name]
        assert picture.svg.startswith("<svg")
        assert picture._repr_svg_() == picture.svg  # pyright: ignore[reportPrivateUsage]
        assert picture.save(folder / "one.svg").read_text("utf-8") == picture.svg
    typed("draw", BOATS / "plover", "--out", str(folder))
    drawn = [file.read_text("utf-8").strip() for file in folder.glob("*.svg")]
    assert names["afloat"].svg.strip() in drawn


def waters(names: Names, _: Path) -> None:
    for kind, text in (("fresh", "fresh 4 °C"), ("pool", "pool 28 °C"), ("sea", "sea 15 °C")):
        found = typed("float", BOATS / "plover", "--water", text)
        celsius = found["water"]["temperature_celsius"]
        her = names["plover"].in_water(kind, celsius, found["water"]["salt_g_kg"])
        assert same(her.neutral, found["neutral_filling"])
        if found["water"]["salt_g_kg"] in (0, 35):
            assert same(names["plover"].in_water(kind, celsius).neutral, found["neutral_filling"])
    asked = typed("float", BOATS / "plover", "--tanks", "50 %")["asked"]
    assert same(names["half"].trim_angle, asked["trim_bow_down_rad"])
    assert same(names["half"].reserve, asked["out_of_water_m3"])


def in_python(names: Names, folder: Path) -> None:
    file = folder / "sprat.toml"
    file.write_text(td.text_of(names["boat"]), "utf-8")
    assert same(names["sprat"].masses.mass, typed("weigh", file)["mass_kg"])
    found = typed("float", file)["surfaced"]
    assert same(names["sprat"].surfaced.reserve, found["out_of_water_m3"])


def in_order(names: Names, folder: Path) -> None:
    there = plover(folder, LEAD, 'mass = "198 g"')
    found = typed("check", there)["findings"]
    answer = [one["check"] for one in found if one["weight"] == "put right"]
    assert set(names["wrong"]) <= set(answer)
    assert same(names["her"].neutral, typed("float", there)["neutral_filling"])


AGREE: list[Callable[[Names, Path], None]] = [
    first,
    put_right,
    moved,
    swept,
    every_moment,
    weighed,
    three_places,
    pictures,
    waters,
    in_python,
    in_order,
]


@pytest.mark.parametrize("number", range(len(AGREE)))
def test_a_recipe_agrees_with_the_terminal(
    number: int, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    AGREE[number](ran(number, monkeypatch), tmp_path)
