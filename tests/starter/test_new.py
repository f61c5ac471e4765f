"""The command that writes a first boat file."""

import json
from pathlib import Path

import pytest
from tests.tape.readings import EXAMPLE
from typer.testing import CliRunner

from trimdive.assessment import assess
from trimdive.cli.app import app
from trimdive.estimates.tape import parse, tape_litres

RUN = CliRunner()
SAID = ["--name", "Dotterel", "--length", "1.4 m", "--scale", "1:48"]


def test_a_new_boat_is_written_and_never_overwritten(tmp_path: Path) -> None:
    folder = tmp_path / "boats" / "dotterel"
    answer = RUN.invoke(app, ["new", str(folder), *SAID])
    assert answer.exit_code == 0, answer.output
    assert max(len(line) for line in answer.stdout.splitlines()[1:]) <= 80
    her = assess(folder / "boat.toml")
    assert her.boat.name == "Dotterel"
    assert her.boat.scale == 48.0
    before = (folder / "boat.toml").read_bytes()
    again = RUN.invoke(app, ["new", str(folder), *SAID])
    assert again.exit_code == 2
    assert "there is a boat in this folder already" in again.output
    assert (folder / "boat.toml").read_bytes() == before
    checked = RUN.invoke(app, ["check", str(folder)])
    assert checked.exit_code == 1
    numbered = [line for line in checked.stdout.splitlines() if line[:1].isdigit()]
    assert ["are guesses" in line for line in numbered[:-1]] == [True]


def test_from_tape_readings(tmp_path: Path) -> None:
    tape = tmp_path / "tape.toml"
    tape.write_text(EXAMPLE, "utf-8")
    shown = RUN.invoke(app, ["new", str(tmp_path / "her"), "--tape", str(tape), "--json"])
    assert shown.exit_code == 0, shown.output
    answer = json.loads(shown.stdout)
    by_tape = tape_litres(parse(EXAMPLE))
    her = assess(Path(answer["file"]))
    skins = {"lower hull", "upper hull"}
    skin = sum(share.volume for share in her.need.shares if share.name in skins)
    assert skin == pytest.approx(by_tape.shares[0].volume, rel=0.04)
    assert answer["litres_m3"] == pytest.approx(her.need.volume, rel=0.02)
    assert her.boat.length == pytest.approx(1.41)


def test_inches_by_the_length_as_typed(tmp_path: Path) -> None:
    answer = RUN.invoke(app, ["new", str(tmp_path / "her"), "--length", "4 ft 7 in"])
    assert answer.exit_code == 0, answer.output
    text = (tmp_path / "her" / "boat.toml").read_text("utf-8")
    assert 'length = "55 in"' in text
    assert 'mass = "oz"' in text


@pytest.mark.parametrize(
    ("said", "what"),
    [
        ([], "--length: her length is missing"),
        (["--length", "1.4"], "--length: '1.4' has no length unit"),
        (["--length", "1.4 kg"], "--length: '1.4 kg' is a mass"),
        (["--length", "1.4 m", "--kind", "damp"], "--kind: 'damp' is not a kind of hull"),
        (["--length", "1.4 m", "--material", "GPR"], "--material: there is no material 'GPR'"),
        (["--length", "1.4 m", "--scale", "48"], "--scale: '48' is not a scale"),
        (["--length", "1.4 m", "--units", "cubits"], "--units: 'cubits' is no choice"),
        (["--tape", "nowhere.toml"], "nowhere.toml: no such file"),
    ],
)
def test_bad_input_is_one_sentence_and_writes_nothing(
    tmp_path: Path, said: list[str], what: str
) -> None:
    folder = tmp_path / "her"
    answer = RUN.invoke(app, ["new", str(folder), *said])
    assert answer.exit_code == 2
    assert what in answer.output
    assert "Traceback" not in answer.output
    assert not folder.exists()
