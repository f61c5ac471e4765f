"""``place`` on the terminal: text, JSON, what it writes, and what it refuses."""

import json
import shutil
from pathlib import Path
from xml.etree import ElementTree

import pytest
from tests.rest.crate import CRATE
from typer.testing import CliRunner, Result

from trimdive.boatfile.placing import Placing
from trimdive.cli.app import app
from trimdive.text.place_asked import wish_of

ROOT = Path(__file__).parents[2]
PASSED = '\n[limits]\nroom-wet = "300 mm"\nroom-skin = "10 mm"\n'  # as the crate is drawn
LIGHT = CRATE.replace("mass = 799.8", "mass = 690.1") + PASSED  # 100 g net too little, at x 500


@pytest.fixture
def light(tmp_path: Path) -> Path:
    """Return the folder of a crate that wants lead."""
    (tmp_path / "boat.toml").write_text(LIGHT, "utf-8")
    return tmp_path


def run(*words: object) -> Result:
    return CliRunner().invoke(app, ["place", *map(str, words)])


def text_of(*words: object) -> str:
    result = run(*words)
    assert result.exit_code in (0, 1), result.output
    return result.stdout


@pytest.mark.parametrize("boat", ["grebe-as-bought", "plover"])
def test_it_fits_eighty_columns_and_has_no_nan(boat: str) -> None:
    text = text_of(ROOT / "boats" / boat)
    assert max(len(row) for row in text.splitlines()) <= 80
    assert "nan" not in text
    assert "inf" not in text


def test_a_boat_in_order_has_nothing_to_place() -> None:
    result = run(ROOT / "boats" / "plover")
    assert result.exit_code == 0
    assert "Nothing to change." in result.stdout


def test_text_and_json_agree(light: Path) -> None:
    text = text_of(light)
    found = json.loads(text_of(light, "--json"))
    assert found["nothing_to_place"] is False
    assert found["mends"] == found["cures"] == found["shortfalls"] == []
    assert not found["written"]
    pieces = found["placement"]["pieces"]
    assert pieces
    for piece in pieces:
        assert piece["name"] in " ".join(text.split())
        assert f"{piece['mass_kg'] * 1e3:.0f} g" in text
    mass = sum(piece["mass_kg"] - piece["mass_before_kg"] for piece in pieces)
    assert mass == pytest.approx(0.1097, abs=0.006)
    assert found["placement"]["left"] == []
    aim = found["placement"]["aims"][0]
    assert aim["proven"]
    assert aim["bound"] <= aim["value"] + 1e-9


def test_it_changes_nothing_unasked_and_writes_when_asked(light: Path) -> None:
    file = light / "boat.toml"
    first = run(light)
    assert first.exit_code == 1
    assert "To apply it: trimdive place" in first.stdout
    assert file.read_text("utf-8") == LIGHT
    second = run(light, "--apply")
    assert second.exit_code == 1, "her bench is not entered"
    assert "things not entered" in second.stdout
    assert "trimdive check" not in second.stdout, "in the water nothing is left to put right"
    assert (light / "boat.previous.toml").read_text("utf-8") == LIGHT
    third = run(light)
    assert third.exit_code == 1
    assert "Nothing to change." in third.stdout


def test_mends_are_not_written_unasked(tmp_path: Path) -> None:
    folder = tmp_path / "grebe"
    shutil.copytree(ROOT / "boats" / "grebe-as-bought", folder)
    before = (folder / "boat.toml").read_bytes()
    result = run(folder, "--apply")
    assert result.exit_code == 2
    assert "mends first" in result.stderr
    assert "--mend" in result.stderr
    assert (folder / "boat.toml").read_bytes() == before
    assert not (folder / "boat.previous.toml").exists()


def test_the_card_is_drawn(light: Path) -> None:
    text = text_of(light, "--card", light / "cards")
    (file,) = (light / "cards").glob("*.svg")
    assert file.name == "crate-placing.svg"
    assert f"Placing card: {file}" in text.replace("\n", "")
    drawn = "".join(ElementTree.parse(file).getroot().itertext())
    assert "what goes where" in drawn
    assert "on the surface: trim" in drawn


def test_aims_and_what_is_kept(light: Path) -> None:
    few = json.loads(text_of(light, "--json", "--aims", "pieces", "--keep", "lead, foam"))
    assert [aim["aim"] for aim in few["placement"]["aims"]][:2] == ["pieces", "mass"]
    assert all(piece["action"] == "new" for piece in few["placement"]["pieces"])


@pytest.mark.parametrize(
    ("keep", "lead", "foam"),
    [("lead", "keep", "keep"), ("foam", "anew", "keep"), ("nothing", "anew", "anew")],
)
def test_what_is_not_named_stays_as_the_file_says(keep: str, lead: str, foam: str) -> None:
    wish = wish_of(Placing(), None, keep, above=False)
    assert (wish.lead, wish.foam) == (lead, foam)


@pytest.mark.parametrize(
    ("words", "where"),
    [
        (("--keep", "lead, nothing"), "--keep"),
        (("--aims", "weight"), "--aims"),
        (("--aims", "mass, mass"), "--aims"),
        (("--keep", "iron"), "--keep"),
        (("--take", "3"), "--take"),
        (("--seconds", "0"), "--seconds"),
    ],
)
def test_bad_input(light: Path, words: tuple[str, ...], where: str) -> None:
    result = run(light, *words)
    assert result.exit_code == 2
    assert where in result.stderr
    assert "Traceback" not in result.output
    assert (light / "boat.toml").read_text("utf-8") == LIGHT


def test_a_boat_without_a_waterline(tmp_path: Path) -> None:
    text = LIGHT.replace("[waterline]\nheight = 130\n", "")
    (tmp_path / "boat.toml").write_text(text, "utf-8")
    result = run(tmp_path)
    assert result.exit_code == 2
    assert "waterline" in result.stderr


def test_a_boat_without_tanks_or_lead(tmp_path: Path) -> None:
    start = LIGHT.index("[[tank]]")
    end = LIGHT.index("[[part]]")
    (tmp_path / "boat.toml").write_text(LIGHT[:start] + LIGHT[end : LIGHT.index("[[lead]]")])
    result = run(tmp_path)
    assert result.exit_code == 1, result.output
    assert "Traceback" not in result.output


def test_check_points_at_it_where_it_helps(light: Path) -> None:
    answer = CliRunner().invoke(app, ["check", str(light)])
    assert "trimdive place" in " ".join(answer.stdout.split())
    good = CliRunner().invoke(app, ["check", str(ROOT / "boats" / "plover")])
    assert "trimdive place" not in good.stdout
