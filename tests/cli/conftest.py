"""What the tests of the terminal begin with."""

from pathlib import Path

import pytest
from tests.cli.boats import BOATS, NAMES, SMALL, Ask, demo
from typer.testing import CliRunner, Result

from trimdive.cli import app as commands


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """Return the folder of a small boat."""
    folder = tmp_path / "sprat"
    folder.mkdir()
    (folder / "boat.toml").write_text(SMALL, "utf-8")
    return folder


@pytest.fixture(params=NAMES)
def name(request: pytest.FixtureRequest) -> str:
    """Return the folder's name of each demo boat in turn."""
    return str(request.param)


@pytest.fixture
def ask(monkeypatch: pytest.MonkeyPatch) -> Ask:
    """Return a way to type a command about a demo boat that is already worked out."""
    monkeypatch.setattr(commands, "opened", lambda boat, water=None: demo(boat.name))
    monkeypatch.setenv("COLUMNS", "80")

    def typed(command: str, name: str, *options: str) -> Result:
        return CliRunner().invoke(commands.app, [command, str(BOATS / name), *options])

    return typed
