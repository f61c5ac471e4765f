"""What it means how she lies: each pair of the table has words, and no words are left over."""

from pathlib import Path

from trimdive.data import table
from trimdive.text.diagnosis import DIAGNOSES


def test_each_pair_has_words() -> None:
    assert {row["key"] for row in table("diagnosis")} == set(DIAGNOSES)


def test_the_table_holds_no_sentences() -> None:
    for row in table("diagnosis"):
        assert set(row) == {"key", "source"}


def test_gm_lengthways_has_one_name() -> None:
    """GM_L is its symbol in the table of symbols alone."""
    source = Path(__file__).parents[2] / "src" / "trimdive"
    told = [
        file for place in ("text", "page", "cli", "pond") for file in (source / place).rglob("*.py")
    ]
    assert not [str(file) for file in told if '"GM_L' in file.read_text("utf-8")]
