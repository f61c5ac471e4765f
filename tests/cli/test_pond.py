"""``pond`` on the terminal: text, JSON as its document has it, cards written, bad input."""

import re
from pathlib import Path

import pytest
from tests.cli.boats import BOATS, document
from typer.testing import CliRunner, Result

from trimdive.cli.app import app

DOCS = Path(__file__).parents[2] / "docs" / "json.md"


def ask(name: str, *typed: str) -> Result:
    return CliRunner().invoke(app, ["pond", str(BOATS / name), *typed])


@pytest.mark.parametrize("water", ["brackish", "sea 6 °C", "pool 28 °C 3 g/kg", "1012 kg/m³"])
def test_text_fits_the_terminal(water: str) -> None:
    result = ask("grebe", "--water", water)
    assert result.exit_code == 0, result.stderr
    assert max(map(len, result.stdout.splitlines())) <= 80
    assert "of lead:" in result.stdout


def test_her_own_water_asks_for_nothing() -> None:
    assert "Nothing to change." in ask("grebe").stdout


def test_json_is_as_its_document_has_it() -> None:
    part = DOCS.read_text("utf-8").partition("\n## pond\n")[2].partition("\n## ")[0]
    answer = set(re.findall(r"^\| `([^`]+)`", part, flags=re.MULTILINE))
    found = document(ask("grebe", "--water", "brackish", "--json"))
    common = {
        "boat", "water", "in_order", "things_to_put_right", "things_to_put_right_on_bench",
        "things_not_entered",
    }  # fmt: skip
    assert set(found) - common == {re.split(r"[.\[]", key)[0] for key in answer}
    assert isinstance(found["today"], dict)
    assert {f"today.{key}" for key in found["today"]} <= answer
    assert found["lead_kg"] == pytest.approx(0.040, abs=1e-3)


@pytest.mark.parametrize(("name", "first"), [("a.html", b"<!doctype html>"), ("a.pdf", b"%PDF")])
def test_cards_are_written_once(tmp_path: Path, name: str, first: bytes) -> None:
    out = tmp_path / name
    assert ask("grebe", "--water", "sea", "--out", str(out)).exit_code == 0
    data = out.read_bytes()
    assert data.startswith(first)
    again = ask("grebe", "--out", str(out))
    assert again.exit_code == 2
    assert "there is such a file already. Name another." in again.stderr
    assert out.read_bytes() == data


def test_a_boat_to_be_put_right_gets_no_card(tmp_path: Path) -> None:
    out = tmp_path / "a.html"
    result = ask("grebe-as-bought", "--out", str(out))
    assert result.exit_code == 1
    assert "No card yet. Put these right first:" in result.stdout
    assert "180 g light" in result.stdout
    assert not out.exists()
    found = document(ask("grebe-as-bought", "--json"))
    assert found["lead_kg"] is None
    assert found["refused"]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (("--water", "tea"), "'tea' is not a water"),
        (("--water", "2 kg/m³"), "no water to sail on weighs 2 kg/m³"),
        (("--water", "1,012,3 kg/m³"), "--water: "),
        (("--water", "sea 90 °C"), "90 °C is outside 0 to 40 °C"),
        (("--out", "card.txt"), "does not show which card"),
        (("--out", "no/such/folder/card.html"), "Choose another file."),
    ],
)
def test_bad_input_is_a_sentence(typed: tuple[str, str], says: str) -> None:
    result = ask("grebe", *typed)
    assert result.exit_code == 2
    assert says in result.stderr
    assert "Traceback" not in result.output
