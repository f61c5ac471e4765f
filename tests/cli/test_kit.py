"""``kit`` on the terminal: text, JSON, keys told, widths, bad input."""

import json
from importlib import import_module
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from trimdive.assessment import Assessment
from trimdive.cli.app import app
from trimdive.text import kit_asked

ROOT = Path(__file__).parents[2]
GREBE = str(ROOT / "boats" / "grebe")
GEAR = ("--waters", "sea", "--with", "battery = 560 g", "--without", "masts",
        "--seconds", "600")  # fmt: skip


KITS: dict[str, tuple[Assessment, object]] = {}  # made once for text and JSON


@pytest.fixture(autouse=True)
def once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the same kit of the same boat be worked out once, and let a slow machine prove it."""
    monkeypatch.setattr(import_module("trimdive.placing.kit.cover"), "SLICE", 600.0)
    made = kit_asked.made

    def kept(her: Assessment, *asked: object) -> object:
        key = f"{id(her)} {asked}"
        if key not in KITS:
            KITS[key] = her, made(her, *asked)  # type: ignore[arg-type]
        return KITS[key][1]

    monkeypatch.setattr(kit_asked, "made", kept)


def run(*words: str) -> Result:
    return CliRunner().invoke(app, ["kit", *words], env={"COLUMNS": "80"})


def test_it_fits_eighty_columns_and_has_no_nan() -> None:
    text = run(GREBE, *GEAR).output
    assert max(len(row) for row in text.splitlines()) <= 80
    assert "nan" not in text
    assert "Proven" in text
    assert "L1" in text
    assert "sea, battery of" in text


def test_text_and_json_agree() -> None:
    found = json.loads(run(GREBE, "--waters", "sea, cold sea", "--json").output)
    text = run(GREBE, "--waters", "sea, cold sea").output
    assert [one["water"] for one in found["planned"]] == ["pond", "sea", "cold sea"]
    for piece in found["pieces"]:
        if piece["kind"] == "lead":
            assert f"{piece['mass_kg'] * 1e3:.0f} g" in text
    for one in found["planned"]:
        assert one["near_enough"]
        assert f"{abs(one['pull_kg']) * 1e3:.0f} g" in text


def test_no_kit_is_needed_for_her_own_water() -> None:
    text = run(GREBE, "--waters", "pond").output
    assert "No kit needed" in text


def test_pockets_can_be_named() -> None:
    found = json.loads(run(GREBE, "--waters", "sea", "--fore", "900 mm", "--json").output)
    assert found["pockets"][0]["x_m"] == pytest.approx(0.9)


def keys(value: object, path: str = "") -> set[str]:
    if isinstance(value, dict):
        return {key for name, part in value.items() for key in keys(part, f"{path}.{name}")}
    if isinstance(value, list) and value:
        return {key for part in value for key in keys(part, f"{path}[]")}
    return {path.lstrip(".")}


def test_every_key_is_told() -> None:
    found = json.loads(run(GREBE, *GEAR, "--json").output)
    answer = (ROOT / "docs" / "json.md").read_text("utf-8")
    names = {key.split(".lies")[0] if ".lies" in key else key for key in keys(found)}
    missing = [key for key in names if f"`{key.removesuffix('[]')}" not in answer]
    assert missing == []


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--waters", "soup"), "'soup' is not a water"),
        (("--waters", " , "), "names no water"),
        (("--waters", "pond 6 m"), "--water"),
        (("--with", "battery"), "Write it as"),
        (("--with", "batery = 1 kg"), "Did you mean 'battery'?"),
        (("--with", "battery = 1 m"), "is a length, not a mass"),
        (("--with", "battery = 1 kg @ 3 kg"), "not a length"),
        (("--with", "battery = 310 g @ 5 m"), "is outside her"),
        (("--without", "batery"), "Did you mean 'battery'?"),
        (("--fore", "9 m"), "no room"),
        (("--aft", "2 kg"), "not a length"),
    ],
)
def test_bad_input_is_told_in_a_sentence(words: tuple[str, ...], says: str) -> None:
    found = run(GREBE, *words)
    assert found.exit_code == 2
    assert says in " ".join(found.output.split())
    assert "Traceback" not in found.output
