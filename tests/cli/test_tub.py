"""``tub`` on the terminal: text, JSON, keys told, widths."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from trimdive.cli.app import app

ROOT = Path(__file__).parents[2]
BOATS = ("bittern", "bittern-as-bought", "grebe", "grebe-as-bought", "plover")


def run(*words: str) -> str:
    result = CliRunner().invoke(app, ["tub", *words])
    assert result.exit_code in (0, 1), result.output
    return result.output


@pytest.mark.parametrize("boat", BOATS)
def test_it_fits_eighty_columns_and_has_no_nan(boat: str) -> None:
    text = run(str(ROOT / "boats" / boat))
    assert max(len(row) for row in text.splitlines()) <= 80
    assert "nan" not in text
    assert "To weigh or measure next" in text


def test_the_whole_mass_is_as_sure_as_weigh_has_it() -> None:
    boat = str(ROOT / "boats" / "grebe")
    told = json.loads(run(boat, "--json"))["sure"]["figures"]
    mass = next(one for one in told if one["key"] == "mass")
    weighed = json.loads(CliRunner().invoke(app, ["weigh", boat, "--json"]).output)
    assert mass["half"] == pytest.approx(weighed["spread_kg"], rel=1e-6)
    assert f"± {mass['half'] * 1e3:.0f} g" in run(boat)


def keys(value: object, path: str = "") -> set[str]:
    if isinstance(value, dict):
        return {key for name, part in value.items() for key in keys(part, f"{path}.{name}")}
    if isinstance(value, list) and value:
        return keys(value[0], f"{path}[]")
    return {path.lstrip(".")}


def test_every_key_is_told() -> None:
    found = json.loads(run(str(ROOT / "boats" / "grebe"), "--json"))
    told = (ROOT / "docs" / "json.md").read_text("utf-8")
    assert [key for key in keys(found) if f"`{key}`" not in told] == []
