"""Findings shown at once, before it is worked out anew what remains of each."""

from tests.page.conftest import Page
from tests.page.hands import put

from trimdive.page.remains import as_before, at_once, is_whole
from trimdive.page.rows import PENDING


def test_until_it_is_worked_out_findings_stand_as_they_did(bittern: Page) -> None:
    """Ordered and grouped as before; the page says so, and asks for the rest."""
    before = bittern.desk.her.findings
    put(bittern.desk, "part[3].mass", "700 g")
    assert not is_whole(bittern.desk.her)
    now = at_once(bittern.desk)
    assert {one.about for one in now} == {one.about for one in bittern.desk.her.first_findings}
    kept = [one.about for one in before if one.about in {other.about for other in now}]
    assert [one.about for one in now][: len(kept)] == kept
    follows = {one.about: one.follows for one in before}
    assert all(one.follows == follows[one.about] for one in now if one.about in follows)
    page = bittern.client.get("/right").text
    assert "being calculated again" in page


def test_no_mend_is_offered_before_it_is_calculated(bittern: Page) -> None:
    """Neither a button nor what it would do; both are there with what remains."""
    assert 'class="do"' in bittern.client.get("/right").text
    put(bittern.desk, "part[3].mass", "700 g")
    at_once = bittern.client.get("/right").text
    assert 'class="do"' not in at_once
    assert PENDING in at_once
    asked = {"revision": bittern.desk.revision}
    answer = bittern.client.get("/right/remains", params=asked).text
    assert PENDING not in answer
    doable = [one for one in bittern.desk.her.findings if one.edits]
    assert answer.count('class="do"') == len(doable) > 0


def test_what_remains_is_answered_when_it_is_worked_out(bittern: Page) -> None:
    put(bittern.desk, "part[3].mass", "700 g")
    answer = bittern.client.get("/right/remains", params={"revision": bittern.desk.revision})
    assert answer.status_code == 200
    assert "being calculated again" not in answer.text
    assert is_whole(bittern.desk.her)
    assert at_once(bittern.desk) == bittern.desk.her.findings


def test_nothing_is_answered_of_a_boat_that_was_changed_meanwhile(bittern: Page) -> None:
    put(bittern.desk, "part[3].mass", "700 g")
    assert bittern.client.get("/right/remains", params={"revision": 1}).status_code == 204


def test_what_is_new_comes_after_what_was_there(bittern: Page) -> None:
    found = bittern.desk.her.findings
    assert as_before(found[::-1], found[1:]) == (*found[1:], found[0])
