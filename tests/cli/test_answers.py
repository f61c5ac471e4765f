"""The answers: text that fits, JSON that says the same, and statuses that agree.

The checks are of one answer against another, and of lines of text against the width of a
terminal; what the figures are is checked where they are worked out.
"""

import json
import re
from math import degrees
from pathlib import Path

import pytest
from tests.cli.boats import NAMES, Ask, document
from tests.cli.compared import DOCS, STATES, compare, documented_keys, keys_in, value_of
from typer.testing import CliRunner

from trimdive.cli.app import app

COMMANDS = ["float", "litres", "weigh", "check"]


@pytest.mark.parametrize("command", COMMANDS)
def test_text_fits_80_columns_and_is_plain(ask: Ask, name: str, command: str) -> None:
    result = ask(command, name)
    assert result.stderr == ""
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert "\x1b" not in result.stdout, "colour in a pipe"
    assert not re.search(r"\bnan\b|\binf\b|None", result.stdout)


@pytest.mark.parametrize("columns", [200, 60, 40, 20])
def test_other_widths(ask: Ask, monkeypatch: pytest.MonkeyPatch, columns: int) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    for command in COMMANDS:
        result = ask(command, "grebe")
        assert max(map(len, result.stdout.splitlines())) <= min(columns, 80)


def test_statuses_agree(ask: Ask, name: str) -> None:
    expected = 1 if name.endswith("as-bought") else 0
    for command in COMMANDS:
        assert ask(command, name).exit_code == expected
        assert ask(command, name, "--json").exit_code == expected


def test_the_way_to_the_check_is_told(ask: Ask, name: str) -> None:
    count = document(ask("check", name, "--json"))["things_to_put_right"]
    for command in ("float", "litres", "weigh"):
        answer = re.findall(
            r"(\d+) things? to put right: trimdive check", ask(command, name).stdout
        )
        assert answer == ([str(count)] if count else [])


def test_check_says_in_order_on_one_line(ask: Ask) -> None:
    text = " ".join(ask("check", "bittern").stdout.split())
    assert re.search(
        r"In order afloat, but watch the way up\. Dived at neutral, "
        r"tanks 90 % full: (level|trim .*), "
        r"BG .* mm; .* heavy with",
        text,
    )


def test_json_answers_agree(ask: Ask, name: str) -> None:
    floats, litres, check, weigh = (
        document(ask(command, name, "--json")) for command in ("float", "litres", "check", "weigh")
    )
    for key in (
        "boat", "in_order", "things_to_put_right", "things_to_put_right_on_bench",
        "things_not_entered",
    ):  # fmt: skip
        assert floats[key] == litres[key] == check[key] == weigh[key]
    assert floats["lift_left_kg"] == check["lift_left_kg"]
    assert floats["upright_bg_m"] == check["upright_bg_m"]
    low = floats["surfaced"]
    assert isinstance(low, dict)
    water = sum(tank["water_m3"] for tank in low["tanks"])
    density = floats["water"]["density_kg_m3"]  # type: ignore[index]
    # Archimedes: what floats weighs as much as the water it pushes aside.
    assert low["displacement_m3"] * density == pytest.approx(low["displacement_kg"], rel=1e-8)
    assert weigh["mass_kg"] + water * density == pytest.approx(low["displacement_kg"], rel=1e-9)  # type: ignore[operator]
    assert weigh["mass_kg"] == pytest.approx(sum(e["mass_kg"] for e in weigh["entries"]))  # type: ignore[union-attr]
    assert litres["need_m3"] == pytest.approx(sum(s["volume_m3"] for s in litres["shares"]))  # type: ignore[union-attr]


def test_findings_are_counted(ask: Ask, name: str) -> None:
    check = document(ask("check", name, "--json"))
    found = check["findings"]
    assert isinstance(found, list)
    assert sum(one["weight"] == "put right" for one in found) == check["things_to_put_right"]
    text = " ".join(ask("check", name).stdout.split()).replace(" more ", " ")
    for one in found:
        number, first = one["number"], one["what"][:1]
        assert f"{number}. {first.upper()}" in text or f"{number}. {first}" in text
        assert " ".join(one["mend"].split()).replace(" more ", " ") in text


def test_float_text_and_json_agree(ask: Ask, name: str) -> None:
    text = ask("float", name).stdout
    low = document(ask("float", name, "--json"))["surfaced"]
    assert isinstance(low, dict)
    for label, key in (
        ("BG", "bg_m"),
        ("GM", "gm_t_m"),
        ("GM lengthways", "gm_l_m"),
        ("KB", "buoyancy_z_m"),
        ("KG", "gravity_z_m"),
        ("LCB", "buoyancy_x_m"),
        ("LCG", "gravity_x_m"),
    ):
        figure = float(value_of(text, label).split(" ")[0]) / 1000  # these boats are told in mm
        assert figure == pytest.approx(low[key], abs=0.5e-3)
    assert float(value_of(text, "displacement").split(" ")[0]) / 1000 == pytest.approx(
        low["displacement_kg"], abs=0.5e-3
    )
    tips = value_of(text, "trim")
    angle = 0.0 if tips == "level" else float(tips.split("°")[0])
    assert angle == pytest.approx(abs(degrees(low["trim_bow_down_rad"])), abs=0.051)


def test_litres_text_and_json_agree(ask: Ask, name: str) -> None:
    text = " ".join(ask("litres", name).stdout.split())
    litres = document(ask("litres", name, "--json"))
    assert f"She needs {litres['need_m3'] * 1e6:.0f} cm³" in text  # type: ignore[operator]
    assert f"rule of thumb says {litres['mass_above_kg'] * 1e3:.0f} cm³" in text  # type: ignore[operator]
    fitted, need = litres["fitted_m3"], litres["need_m3"]
    assert isinstance(fitted, float)
    assert isinstance(need, float)
    assert ("They lack" in text) == (fitted < need)


def test_asked_state(ask: Ask) -> None:
    text = ask("float", "bittern", "--tanks", "forward tank = 40,5 %, After Tank=full").stdout
    assert "forward tank 40 % full, after tank 100 % full" in text
    found = document(ask("float", "bittern", "--tanks", "60 %", "--json"))["asked"]
    assert isinstance(found, dict)
    assert [tank["filling"] for tank in found["tanks"]] == pytest.approx([0.6, 0.6])
    for word, state in (("blown", "surfaced"), ("full", "full"), ("neutral", "dived")):
        whole = document(ask("float", "bittern", "--tanks", word, "--json"))
        assert whole["asked"]["filling"] == whole[state]["filling"]  # type: ignore[index]
        assert whole["asked"]["under"] == whole[state]["under"]  # type: ignore[index]


def test_salt_water_lifts_her(small: Path) -> None:
    def ask_small(water: str) -> dict[str, object]:
        words = ["float", str(small), "--json", "--water", water]
        found = json.loads(CliRunner().invoke(app, words).stdout)
        assert isinstance(found, dict)
        return found

    fresh, sea = ask_small("fresh 15 °C"), ask_small("sea 15 °C")
    ratio = sea["water"]["density_kg_m3"] / fresh["water"]["density_kg_m3"]  # type: ignore[index]
    # Archimedes: the same mass pushes aside less of the denser water.
    for_sea, for_fresh = (state["surfaced"]["displacement_m3"] for state in (sea, fresh))  # type: ignore[index]
    assert for_fresh / for_sea == pytest.approx(ratio, rel=1e-8)
    assert 1.025 < ratio < 1.028  # 35 g/kg at 15 °C: 1026 over 999.1 kg/m³


def test_drawings_are_named_and_written(ask: Ask, tmp_path: Path) -> None:
    result = ask("draw", "grebe", "--out", str(tmp_path / "new"))
    assert result.exit_code == 0
    files = [Path(line) for line in result.stdout.split()]
    assert [file.name for file in files] == ["grebe-surfaced.svg", "grebe-dived.svg"]
    assert all(file.read_text("utf-8").lstrip().startswith("<") for file in files)


def test_drawings_as_json(ask: Ask, tmp_path: Path) -> None:
    result = ask("draw", "grebe", "--out", str(tmp_path), "--tanks", "60 %", "--json")
    found = document(result)
    assert found["files"] == [str(tmp_path / "grebe-60.svg")]
    compare(keys_in(found), documented_keys("draw") | documented_keys("Every command"))


def test_drawings_that_cannot_be_written(ask: Ask, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    result = ask("draw", "grebe", "--out", str(tmp_path / "file" / "out"))
    assert result.exit_code == 2
    assert len(result.stderr.splitlines()) == 1


# docs/json.md


@pytest.mark.parametrize("command", COMMANDS)
def test_every_key_is_told(ask: Ask, command: str) -> None:
    found: set[str] = set()
    for name in NAMES:
        found |= keys_in(document(ask(command, name, "--json")))
    rare = {"other_rests[].trim_bow_down_rad", "other_rests[].heel_starboard_rad", "stand_ins[]"}
    compare(
        found | (rare if command == "float" else set()),
        documented_keys(command) | documented_keys("Every command"),
    )


def test_every_key_of_a_state_is_told(ask: Ask) -> None:
    whole = document(ask("float", "grebe", "--json", "--tanks", "50 %"))
    found: set[str] = set()
    for state in STATES:
        assert isinstance(whole[state], dict)
        found |= keys_in(whole[state])
    compare(found, documented_keys("A state"))


def test_every_key_of_a_refusal_is_told() -> None:
    result = CliRunner().invoke(app, ["float", "none.toml", "--json"])
    several = {"error.others", "error.left"}  # told only where there are several mistakes
    assert keys_in(json.loads(result.stdout)) | several == documented_keys("Bad input")


def test_keys_end_with_their_units() -> None:
    page = DOCS.read_text("utf-8")
    units = ("_m", "_m2", "_m3", "_kg", "_kg_m", "_kg_m3", "_g_kg", "_rad", "_celsius")
    plain = {"filling", "margin", "least", "most", "neutral_filling", "things_to_put_right"}
    for key in re.findall(r"^\| `([^`]+)` \| (?:centre|mass|volume|area|trim)", page, re.MULTILINE):
        last = re.split(r"[.\[]", key)[-1].rstrip("]")
        assert last.endswith(units) or last in plain, key
