"""``why`` and ``words`` on the terminal: text that fits, JSON as its document has it, bad input."""

import re
from pathlib import Path

import pytest
from tests.cli.boats import BOATS, document
from typer.testing import CliRunner, Result

from trimdive.cli.app import app
from trimdive.data import table

DOCS = Path(__file__).parents[2] / "docs" / "json.md"


def ask(*typed: str) -> Result:
    return CliRunner().invoke(app, list(typed))


def documented_keys() -> set[str]:
    """Return the keys that the document tells of ``why``."""
    part = DOCS.read_text("utf-8").partition("\n## why\n")[2].partition("\n## ")[0]
    return set(re.findall(r"^\| `([^`]+)`", part, flags=re.MULTILINE))


@pytest.mark.parametrize("key", ["", "trim", "litres-centre", "finding/2a", "lead-for-water/sea"])
def test_text_fits_the_terminal(key: str) -> None:
    result = ask("why", str(BOATS / "bittern-as-bought"), *([key] if key else []))
    assert result.exit_code == 1, "she has things to put right"
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert "trimdive check" in result.stdout


def test_json_is_as_its_document_has_it() -> None:
    common = {
        "boat", "water", "in_order", "things_to_put_right", "things_to_put_right_on_bench",
        "things_not_entered",
    }  # fmt: skip
    found = document(ask("why", str(BOATS / "grebe"), "kg-dived", "--json"))
    named = {key.split("[")[0] for key in documented_keys()} - {"keys"}
    assert set(found) - common == named
    assert isinstance(found["put_in"], list)
    own = {key.partition("[].")[2] for key in documented_keys() if key.startswith("put_in[].")}
    assert set(found["put_in"][0]) == own
    assert "kg-dived" in document(ask("why", str(BOATS / "grebe"), "--json"))["keys"]  # type: ignore[operator]


def test_a_figure_that_she_has_not_is_refused() -> None:
    result = ask("why", str(BOATS / "grebe"), "bg-uprigth")
    assert result.exit_code == 2
    assert "Did you mean 'bg-upright'?" in result.stderr


def test_words_tell_what_they_mean() -> None:
    everything = " ".join(ask("words").stdout.split())
    assert all(one["meaning"] in everything for one in table("glossary"))
    assert "What closes a cylinder at its end" in ask("words", "end cap").stdout
    unknown = ask("words", "draugt")
    assert unknown.exit_code == 2
    assert "Did you mean 'draught'?" in unknown.stderr
