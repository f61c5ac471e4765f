"""``dive``: the table, the files, the orders of filling as typed, and bad input.

The yardsticks of *Bittern* are those she was designed to, worked out before with another program
(hull and parts as clouds of small volumes): both tanks together she tips by about 5° near 82 %,
with the after tank ahead by 8 % by about half of that, 2.4°.
"""

import csv
import re
from collections.abc import Callable
from math import degrees
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.cli.boats import BOATS, NAMES, SMALL, demo, document
from tests.cli.compared import compare, documented_keys, keys_in
from tests.cli.refusing import refused
from typer.testing import CliRunner, Result

from trimdive.ballast.dive import planned
from trimdive.cli import app as commands
from trimdive.cli import dive as module
from trimdive.errors import AskError
from trimdive.text.dive_kinks import kinks, standing_out
from trimdive.text.dive_text import dived
from trimdive.text.dive_typed import as_typed, filled, in_words, ordered

Dive = Callable[..., Result]


@pytest.fixture
def dive(monkeypatch: pytest.MonkeyPatch) -> Dive:
    """Return a way to ask for the dive of a demo boat that is already worked out."""
    monkeypatch.setattr(module, "opened", lambda boat, water=None: demo(boat.name))
    monkeypatch.setenv("COLUMNS", "80")

    def typed(name: str, *options: str) -> Result:
        return CliRunner().invoke(commands.app, ["dive", str(BOATS / name), *options])

    return typed


@pytest.mark.parametrize("name", NAMES)
def test_text_fits_80_columns_and_names_the_worst(dive: Dive, name: str) -> None:
    result = dive(name)
    assert result.exit_code == (1 if name.endswith("as-bought") else 0)
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert not re.search(r"\bnan\b|\binf\b|None|-0\.0", result.stdout)
    her = demo(name)
    least = her.boat.units.write(dived(her, None).down.least_gm.state.gm_t, "length")
    assert re.search(rf"least GM +{re.escape(least)} at \d", result.stdout)
    for step in range(0, 101, 4):
        assert re.search(rf"^ +{step}\.0 %  ?", result.stdout, re.MULTILINE), step


def test_steps_as_asked(dive: Dive) -> None:
    found = re.findall(r"^ +(\d+\.\d) % ", dive("grebe", "--steps", "4").stdout, re.MULTILINE)
    assert {"0.0", "25.0", "50.0", "75.0", "100.0"} <= set(found)
    assert not {"5.0", "10.0", "55.0"} & set(found)


def test_bittern_goes_down_as_designed() -> None:
    """Her own design figures: 5.1° at 82 % by a coarser sum; positive GM throughout."""
    her = demo("bittern")
    most = her.down.largest_trim
    assert degrees(most.state.trim_angle) == pytest.approx(5.1, abs=0.8)
    assert most.filling == pytest.approx(0.82, abs=0.03)
    assert min(m.state.gm_t for way in (her.down, her.up) for m in way.moments) > 0.004


def test_after_tank_ahead_halves_the_trim() -> None:
    """Her own design figures: never more than 2.4° with the after tank ahead by 8 %."""
    her = as_typed(demo("bittern"), "after tank ahead by 8 %", None)
    most = her.down.largest_trim
    assert degrees(abs(most.state.trim_angle)) == pytest.approx(2.4, abs=0.3)


def test_orders_of_filling_as_typed() -> None:
    her = demo("bittern")
    for text, half in (
        ("after tank first", (0.0, 1.0)),
        ("After Tank last", (1.0, 0.0)),
        ("forward tank, after tank", (1.0, 0.0)),
        ("after tank then forward tank", (0.0, 1.0)),
        ("forward tank + after tank", (0.5, 0.5)),
        ("together", (0.5, 0.5)),
    ):
        path = planned(ordered(her.boat, text, her.neutral), her.floater.tanks)
        got = path.at(0.5) / her.floater.tanks.capacities
        # both tanks have the same room: half of the water fills one, or half of each
        assert got == pytest.approx(half, abs=1e-6), text


def test_a_table_of_fillings_as_typed() -> None:
    her = demo("bittern")
    boat = filled(her.boat, "after tank = 8 %; after tank = 100 %, forward tank = 92 %")
    path = planned(boat, her.floater.tanks)
    fillings = path.waters / her.floater.tanks.capacities
    wanted = [(0, 0), (0, 0.08), (0.92, 1.0), (1.0, 1.0)]  # forward, after
    assert fillings == pytest.approx(np.array(wanted), abs=1e-6)
    assert "After tank to 8 %" in in_words(boat)


@pytest.mark.parametrize(
    ("option", "text", "said"),
    [
        ("--order", "afer tank first", "Did you mean 'after tank'?"),
        ("--order", "sideways", "is no order of filling"),
        ("--order", "after tank, after tank", "is there twice"),
        ("--order", "after tank ahead by 130 %", "cannot be 130 % full"),
        ("--order", "after tank ahead by some", "'some' is not a filling"),
        ("--fill", "after tank = 120 %", "cannot be 120 % full"),
        ("--fill", "after tank = -3 %", "cannot be -3 % full"),
        ("--fill", "trim tank = 20 %", "there is no tank 'trim tank'"),
        ("--fill", "after tank 20 %", "is not a filling"),
        ("--fill", "after tank = 20 %; after tank = 10 %", "emptier in step 2"),
        ("--fill", "after tank = 5 %, after tank = 6 %", "is there twice"),
        ("--fill", " ; ", "it says nothing"),
        ("--steps", "0", "0 is not a number of steps"),
        ("--steps", "100000", "100000 is not a number of steps"),
    ],
)
def test_bad_orders(dive: Dive, option: str, text: str, said: str) -> None:
    line = refused(dive("bittern", option, text))
    assert line.startswith(f"{option}: ")
    assert said in line


def test_a_boat_without_tanks(tmp_path: Path) -> None:
    without = re.sub(r"\[\[tank\]\]\n(?:\S.*\n)+", "", SMALL)
    assert "[[tank]]" not in without
    (tmp_path / "boat.toml").write_text(without, "utf-8")
    line = refused(CliRunner().invoke(commands.app, ["dive", str(tmp_path)]))
    assert "no tank" in line


def test_files(dive: Dive, tmp_path: Path) -> None:
    table = tmp_path / "new" / "dive.csv"
    result = dive("grebe", "--csv", str(table), "--charts", str(tmp_path / "charts"))
    assert "Written: " in result.stdout
    charts = sorted(file.name for file in (tmp_path / "charts").iterdir())
    assert {"grebe-dive.svg", "grebe-gm.svg", "grebe-gz.svg"} <= set(charts)
    for file in (tmp_path / "charts").iterdir():
        ElementTree.fromstring(file.read_text("utf-8"))
    with table.open(encoding="utf-8", newline="") as stream:
        found = list(csv.DictReader(stream))
    assert {row["way"] for row in found} == {"down", "up"}
    density = demo("grebe").water.density
    volume = demo("grebe").floater.volume
    for row in found:
        # Archimedes: afloat, what is under weighs as much as she does.
        out, mass = float(row["out_of_water_m3"]), float(row["displacement_kg"])
        if row["under"] == "0":
            assert (volume - out) * density == pytest.approx(mass, rel=1e-8)
        else:
            assert row["draught_aft_m"] == ""


def test_files_that_cannot_be_written(dive: Dive, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    for option in ("--csv", "--charts"):
        assert "another file" in refused(dive("grebe", option, str(tmp_path / "file" / "x")))


def plain(found: dict[str, object]) -> set[str]:
    """Return all keys, each state and the way up as one."""
    keys = {re.sub(r"\.(state|before|after)\..*", r".\1", key) for key in keys_in(found)}
    return {"up" if key.startswith("up.") else key for key in keys}


def test_every_key_is_told(dive: Dive, tmp_path: Path) -> None:
    keys: set[str] = set()
    for name in ("bittern", "bittern-as-bought"):
        keys |= plain(document(dive(name, "--json", "--charts", str(tmp_path))))
    compare(keys, documented_keys("dive\n") | documented_keys("Every command"))


def test_text_and_json_agree(dive: Dive) -> None:
    found = document(dive("bittern-as-bought", "--json"))
    text = dive("bittern-as-bought").stdout
    down = found["down"]
    assert isinstance(down, dict)
    assert len(down["jumps"]) == text.count("Going down she flops") > 0
    least = down["least_gm"]
    assert f"{least['gm_t_m'] * 1e3:.1f} mm at {least['filling'] * 100:.0f} %" in text
    jump = down["jumps"][0]
    turned = [
        abs(jump["after"]["heel_starboard_rad"] - jump["before"]["heel_starboard_rad"]),
        abs(jump["after"]["trim_bow_down_rad"] - jump["before"]["trim_bow_down_rad"]),
    ]
    assert jump["angle_rad"] == pytest.approx(np.hypot(*turned), rel=0.02)


def test_formula_and_geometry_of_slack_tanks(dive: Dive) -> None:
    """Upright the handbook's i/∇ and the surface where it lies are one (Derrett, free surface)."""
    found = document(dive("bittern", "--json"))
    down = found["down"]
    assert isinstance(down, dict)
    level = [m for m in down["moments"] if abs(m["state"]["trim_bow_down_rad"]) < 1e-3]
    assert level
    for moment in level:
        assert moment["level_surface_t_m"] == pytest.approx(
            moment["state"]["free_surface_t_m"], abs=2e-5
        )


def test_kinks_say_what_is_left_above_water() -> None:
    her = demo("bittern")
    said = {text for _, text in kinks(her, her.down)}
    assert any("leaves only tower and" in text for text in said)
    assert any(
        text.startswith("the whole boat goes under: only BG keeps her upright") for text in said
    )
    assert "tower" in standing_out(her, her.surfaced)
    assert standing_out(her, her.dived) == []


def test_the_other_orders_are_the_ones_that_can_be_typed(dive: Dive) -> None:
    text = dive("bittern").stdout.split("Other orders of filling")[1]
    named = re.findall(r"^((?:forward|after) tank .*?)  ", text, re.MULTILINE)
    assert len(named) == 6
    boat, neutral = demo("bittern").boat, demo("bittern").neutral
    for order in named:
        ordered(boat, order, neutral)
    with pytest.raises(AskError):
        ordered(boat, "nothing first", neutral)
