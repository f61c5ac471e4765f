"""Fixes that move the same lead opposite ways say so, and what does both."""

from dataclasses import replace

from tests.page.conftest import BOATS

from trimdive import assess
from trimdive.findings.afloat import shifted_lead
from trimdive.findings.finding import Edit, Finding, known_mend
from trimdive.findings.opposed import moves, opposed
from trimdive.text.remaining import remaining_words


def with_edits(one: Finding, edits: tuple[Edit, ...]) -> Finding:
    """Return a finding with other changes as its mend, that takes nothing along."""
    return replace(one, cure=known_mend((one.mend, edits)), follows=())


def test_a_fix_says_which_other_moves_its_lead_the_other_way() -> None:
    her = assess(BOATS / "grebe-as-bought" / "boat.toml")
    forward, aft = shifted_lead(her, 0.05), shifted_lead(her, -0.02)
    assert moves(her.boat, forward) == {
        (f"lead[{n}]", "x"): (piece.x + 0.05) - piece.x for n, piece in enumerate(her.boat.lead, 1)
    }
    first, second, third = her.findings[:3]
    found = [with_edits(first, forward), with_edits(second, aft), with_edits(third, ())]
    assert opposed(her.boat, 0, found) == [1]
    assert opposed(her.boat, 1, found) == [0]
    assert opposed(her.boat, 2, found) == []
    said = remaining_words(her.boat, 0, found, ["1", "2", "3"])
    assert "2 moves the same lead the other way" in said
    same = [with_edits(first, forward), with_edits(second, shifted_lead(her, 0.03))]
    assert opposed(her.boat, 0, same) == [], "the same way they only add up"
    along = [found[0], replace(found[1], follows=(first.about,))]
    assert opposed(her.boat, 0, along) == [], "it goes with the first"
