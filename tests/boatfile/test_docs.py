"""The handbook page and the schema say what the models say."""

import importlib.util
import json
from pathlib import Path
from types import ModuleType

import pytest

from trimdive.boatfile.schema import schema

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def tool() -> ModuleType:
    spec = importlib.util.spec_from_file_location("tool", ROOT / "tools/write_boat_file_docs.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize("name", ["boat-file.md", "boat-file.schema.json"])
def test_nothing_is_stale(name: str, tool: ModuleType) -> None:
    found = (ROOT / "docs" / name).read_text("utf-8")
    assert found == tool.written()[name], "run python tools/write_boat_file_docs.py"


def test_every_field_is_explained_in_a_sentence() -> None:
    described = schema()
    for name, model in {"Boat": described, **described["$defs"]}.items():
        assert model["description"].endswith("."), name
        for field, entry in model["properties"].items():
            where = f"{name}.{field}"
            text = entry.get("description") or described["$defs"]["WaterOf"]["description"]
            assert text.endswith("."), where
            assert len(text) < 120, where


def test_the_schema_holds_no_nothing_and_stands_as_json() -> None:
    text = json.dumps(schema())
    assert '"null"' not in text
    assert json.loads(text)["required"] == ["format", "name"]
