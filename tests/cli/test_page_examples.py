"""The boat files that stand in the pages want nothing in the water: everybody begins by one.

What is not entered for the bench (caps, rings, failsafe) is told as not entered, with status 1.
"""

import re
from pathlib import Path

import pytest
from typer.testing import CliRunner

from trimdive.cli.app import app

DOCS = Path(__file__).parents[2] / "docs"


def example(page: str) -> str:
    """Return the first boat file in a page."""
    found = re.search(r"```toml\n(format = 1\n.*?)```", (DOCS / page).read_text("utf-8"), re.S)
    assert found, page
    return found[1]


def typed(*words: object) -> str:
    result = CliRunner().invoke(app, [str(word) for word in words], env={"COLUMNS": "80"})
    assert result.exit_code == (1 if "not entered" in result.stdout else 0), result.output
    assert "to put right: trimdive" not in result.stdout
    return " ".join(result.stdout.split())


@pytest.fixture(params=["boat-file.md", "outlines.md"])
def boat(request: pytest.FixtureRequest, tmp_path: Path) -> Path:
    (tmp_path / "boat.toml").write_text(example(request.param), "utf-8")
    return tmp_path


def test_nothing_is_wanted_in_the_water(boat: Path) -> None:
    answer = typed("check", boat)
    assert "In order afloat. " in answer
    assert "To look at" not in answer
    assert "In order:" not in answer, "the bench has not been entered"


def test_she_floats_at_her_waterline_and_level(boat: Path) -> None:
    answer = typed("float", boat)
    assert re.search(r"draught at middle \d+\.\d mm, on her waterline", answer)
    assert re.search(r" trim (level|0\.\d° (bow|stern) down) ", answer)
    assert "She sinks" not in answer
