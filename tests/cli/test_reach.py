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
    assert f"{lacking * 1e3:.0f} g more than they hold" in " ".join(text.split())


def keys(value: object, path: str = "") -> set[str]:
    if isinstance(value, dict):
        return {key for name, part in value.items() for key in keys(part, f"{path}.{name}")}
    if isinstance(value, list) and value:
        return keys(value[0], f"{path}[]")
    return {path.lstrip(".")}


def test_every_key_is_told() -> None:
    found = json.loads(run(str(ROOT / "boats" / "grebe"), "--json"))
    told = (ROOT / "docs" / "json.md").read_text("utf-8")
    assert all(f"`{key}`" in told for key in keys(found) if not key.startswith("not_counted"))
