"""``reach`` on the terminal: text, JSON, keys told, widths."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from trimdive.cli.app import app

ROOT = Path(__file__).parents[2]
BOATS = ("bittern", "bittern-as-bought", "grebe", "grebe-as-bought")


def run(*words: str) -> str:
    result = CliRunner().invoke(app, ["reach", *words])
    assert result.exit_code in (0, 1), result.output
    return result.output


@pytest.mark.parametrize("boat", BOATS)
def test_it_fits_eighty_columns_and_has_no_nan(boat: str) -> None:
    text = run(str(ROOT / "boats" / boat))
    assert max(len(row) for row in text.splitlines()) <= 80
    assert "nan" not in text


def test_text_and_json_agree() -> None:
    boat = str(ROOT / "boats" / "bittern")
    found = json.loads(run(boat, "--json"))
    sea = next(one for one in found["waters"] if one["name"] == "sea")
    text = run(boat)
    assert f"{sea['lead_kg'] * 1e3:.0f} g" in text
    lacking = next(one for one in found["wanted"] if one["name"] == "sea")["lacking_kg"]
    assert f"{lacking * 1e3:.0f} g too much" in text


def test_other_gear_is_a_state() -> None:
    """A battery left at home leaves just its own mass for water to make up; it lies in the dry."""
    boat = str(ROOT / "boats" / "bittern")
    left = ("--without", "forward battery", "--instead", "forward battery", "--mass", "1 kg")
    states = {s["name"]: s["mass_kg"] for s in json.loads(run(boat, *left, "--json"))["wanted"]}
    without, another = states["without forward battery"], states["another forward battery"]
    assert without - another == pytest.approx(1.0)
    assert "without forward" in run(boat, *left)


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (("--without", "foward battery"), "Did you mean 'forward battery'?"),
        (("--mass", "1 kg"), "Name the part it replaces."),
        (("--instead", "forward battery"), "the other part has no mass. Give it with --mass"),
    ],
)
def test_wrong_gear_is_told_in_a_sentence(typed: tuple[str, ...], says: str) -> None:
    found = CliRunner().invoke(app, ["reach", str(ROOT / "boats" / "bittern"), *typed])
    assert found.exit_code == 2
    assert says in " ".join(found.output.split())
    assert "Traceback" not in found.output


def keys(value: object, path: str = "") -> set[str]:
    if isinstance(value, dict):
        return {key for name, part in value.items() for key in keys(part, f"{path}.{name}")}
    if isinstance(value, list) and value:
        return keys(value[0], f"{path}[]")
    return {path.lstrip(".")}


def test_every_key_is_told() -> None:
    found = json.loads(run(str(ROOT / "boats" / "grebe"), "--json"))
    answer = (ROOT / "docs" / "json.md").read_text("utf-8")
    assert all(f"`{key}`" in answer for key in keys(found) if not key.startswith("not_counted"))
