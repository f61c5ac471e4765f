"""A change that leaves her worse is not offered, and guessed lead and foam are one finding.

A boat of guesses of 1050 mm, and a true tube of 90 × 3 × 480 mm typed over the guessed one of
60 mm: the guessed lead and foam then lie in it.
"""

import pytest
from tests.larger_tube import grebe_with_true_tube
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.edits.mends import mends
from trimdive.edits.placing import Hindered, place
from trimdive.findings import Edit
from trimdive.findings.order import loses_her
from trimdive.text.place_missing import missing_words


@pytest.fixture(scope="module")
def her() -> Assessment:
    return Assessment(boat=parse(grebe_with_true_tube()), files={})


def test_guessed_pieces_in_one_thing_are_one_finding(her: Assessment) -> None:
    """Seven pieces of lead and five of foam lie in the tube: that is one fault, not twelve."""
    shared = [one for one in her.findings if one.key == "room-wet"]
    assert [one.subject for one in shared] == ["cylinder"]
    assert what_of(shared[0]).startswith("12 guessed pieces of lead and foam share ")


def test_a_change_after_which_she_lies_over_is_not_offered(her: Assessment) -> None:
    """Cleared of all that shares room she lies on her side: BG 2.8 mm, not the 4.2 mm wanted."""
    raw = next(one for one in her.first_findings if one.key == "room-wet")
    assert raw.edits
    assert loses_her(her.first_findings, her.edited(raw.edits).first_findings)
    told = next(one for one in her.findings if one.key == "room-wet")
    assert not told.edits
    assert "Place lead and foam again" in mend_of(told)


def test_no_change_that_is_offered_loses_her(her: Assessment) -> None:
    for one in her.findings:
        if one.edits:
            assert not loses_her(her.first_findings, her.edited(one.edits).first_findings)
        assert "she can do without it" not in mend_of(one)


def test_guessed_pieces_that_share_room_are_laid_again_by_a_placing(her: Assessment) -> None:
    edits = next(one.edits for one in mends(her) if one.finding.key == "room-wet")
    assert {edit.action for edit in edits} == {"remove"}
    after = her.edited(edits)
    assert not after.boat.lead
    assert "room-wet" not in {one.key for one in after.first_findings}


def test_weighed_pieces_stay_findings_of_their_own(her: Assessment) -> None:
    weighed = tuple(
        Edit(action="set", path=f"{kind}[{k}]", fields=(("known", "weighed"),))
        for kind, some in (("lead", her.boat.lead), ("foam", her.boat.foam))
        for k, _ in enumerate(some, 1)
    )
    subjects = {one.subject for one in her.edited(weighed).first_findings if one.key == "room-wet"}
    assert len(subjects) == 12


def test_a_placing_without_an_answer_says_in_figures_what_is_missing(her: Assessment) -> None:
    """Her lead removed, she lacks what her sums say, and what the lead's room holds is less."""
    edits = next(one.edits for one in mends(her) if one.finding.key == "room-wet")
    found = place(her.edited(edits), seconds=5.0)
    assert isinstance(found, Hindered)
    words = missing_words(found)
    lacks = found.before.short - found.room.pull
    assert lacks > 0.05
    assert found.room.pull == pytest.approx(found.room.lead * (1 - 999.1 / 11340), rel=1e-3)
    assert f"{her.boat.units.write(lacks, 'mass')} are missing" in words
