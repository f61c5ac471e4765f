"""Keels told from how the lowest half-breadths grow; Wigley hull and half ellipses by formula."""

from math import sqrt
from pathlib import Path

import numpy as np
import pytest
from tests.lines.tables import boat, offsets, wigley_half_breadth
from tests.said import what_of

from trimdive.assessment import assess
from trimdive.geometry.lines import loft, read_table, volume
from trimdive.geometry.lines.keel import keel_doubt

WIGLEY = 4 / 9 * 1.0 * 0.1 * 0.0625  # volume of L 1, B 0.1, T 0.0625 [m³]
X, Z = np.linspace(0.0, 1.0, 11), np.linspace(0.0, 0.0625, 6)


def oval(x: float, z: float) -> float:
    """Return the half-breadth of half ellipses, 0.06 m half broad amidships and 0.0625 m deep."""
    return 0.06 * (1 - (2 * x - 1) ** 2) * sqrt(max(1 - (1 - z / 0.0625) ** 2, 0.0))


def unmarked(text: str) -> str:
    """Return a table without its last column."""
    return "\n".join(row.rpartition(",")[0] for row in text.strip().splitlines())


def test_a_sharp_keel_that_is_not_marked_is_told_and_mended() -> None:
    table = read_table(unmarked(offsets(X, Z, wigley_half_breadth)), "wigley.csv")
    found = keel_doubt(table)
    assert found is not None
    assert found.is_sharp
    assert volume(loft(table)) > 1.005 * WIGLEY
    right = read_table(found.text, "wigley.csv")
    assert keel_doubt(right) is None
    assert volume(loft(right)) == pytest.approx(WIGLEY, rel=5e-4)


def test_a_round_keel_marked_as_a_knuckle_is_told_and_mended() -> None:
    table = read_table(offsets(X, Z, oval, knuckles="keel"), "oval.csv")
    found = keel_doubt(table)
    assert found is not None
    assert not found.is_sharp
    right = read_table(found.text, "oval.csv")
    assert keel_doubt(right) is None
    assert volume(loft(right)) > volume(loft(table))


@pytest.mark.parametrize("name", ["grebe", "bittern"])
def test_nothing_is_told_of_the_demo_boats(name: str) -> None:
    assert keel_doubt(read_table(boat(name), name)) is None


def test_other_knuckles_stay() -> None:
    text = offsets(X, Z, wigley_half_breadth, knuckles="25")
    found = keel_doubt(read_table(text, "wigley.csv"))
    assert found is not None
    assert read_table(found.text, "wigley.csv").cells[3][-1] == "keel 25"


def test_it_is_asked_in_the_check(tmp_path: Path) -> None:
    (tmp_path / "lines.csv").write_text(unmarked(offsets(X, Z, wigley_half_breadth)))
    (tmp_path / "boat.toml").write_text(
        'format = 1\nname = "Fine"\nlength = "1000 mm"\n[waterline]\nheight = "50 mm"\n'
        '[[region]]\nname = "hull"\nsurface = "lines"\nfile = "lines.csv"\nmaterial = "GRP"\n'
        'thickness = "2 mm"\n'
    )
    her = assess(tmp_path / "boat.toml")
    found = next(one for one in her.first_findings if "keel" in one.subject)
    assert "lines.csv: the sections run straight to the keel" in what_of(found)
    mended = her.edited(found.edits)
    assert not [one for one in mended.first_findings if "keel" in one.subject]
