"""``trimdive sheets``: what is written, what is told, and what is refused."""

import json
import re
from pathlib import Path

import pytest
from tests.cli.compared import documented_keys, keys_in
from typer.testing import CliRunner

from trimdive.cli.app import app

PLOVER = str(Path(__file__).parents[2] / "boats" / "plover")


def run(*words: str, status: int = 0) -> str:
    """Return what the command prints; it ends as it should."""
    found = CliRunner().invoke(app, ["sheets", PLOVER, *words])
    assert found.exit_code == status, found.output
    return found.output


def test_it_writes_what_it_names_and_tells_every_key(tmp_path: Path) -> None:
    told = json.loads(run("--at", "360 mm", "--out", str(tmp_path), "--json"))
    assert sorted(told["files"]) == sorted(str(file) for file in tmp_path.iterdir())
    assert [one["kind"] for one in told["patterns"]] == ["shell below", "shell above", "frame"]
    own = keys_in({key: told[key] for key in ("files", "patterns")})
    assert {re.sub(r"(\[\])+", "[]", key) for key in own} == documented_keys("sheets")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--at", "900 mm"), "--at: 900 mm from the stern is beyond the hull."),
        (("--kind", "cradle"), "--kind: 'cradle' is none. Write shell, frame or both."),
        (("--paper", "a5"), "--paper: 'a5' is none. Write a4, a3 or letter."),
        (("--gap", "-1 mm"), "--gap:"),
        (("--printed", "90 mm, 100 mm"), "--printed: a ruler of 100 mm that prints as 90 mm"),
        (("--printed", "99 mm"), "--printed: the printer is told by two lengths."),
        (("--at", "1 mm", "--kind", "frame"), "Choose a station farther from her ends."),
    ],
)
def test_what_cannot_be_is_refused_in_a_sentence(
    words: tuple[str, ...], says: str, tmp_path: Path
) -> None:
    said = run(*words, "--out", str(tmp_path / "out"), status=2)
    assert says in said
    assert not (tmp_path / "out").exists()
