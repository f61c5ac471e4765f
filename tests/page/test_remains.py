"""Findings shown at once, before it is worked out anew what remains of each."""

from tests.page.conftest import Page
from tests.page.hands import put

from trimdive.page.remains import as_before, at_once, is_whole
from trimdive.page.rows import PENDING


def test_what_remains_follows_what_is_shown_at_once(bittern: Page) -> None:
    """One change, from what stands at once to what remains, calculated once for all of this."""
    before = bittern.desk.her.findings
    assert 'class="do"' in bittern.client.get("/right").text
    put(bittern.desk, "part[3].mass", "700 g")
    assert not is_whole(bittern.desk.her)
    # Nothing is answered of a boat that was changed meanwhile.
    assert bittern.client.get("/right/remains", params={"revision": 1}).status_code == 204
    # Until it is worked out, findings stand as they did, ordered and grouped as before.
    now = at_once(bittern.desk)
    assert {one.about for one in now} == {one.about for one in bittern.desk.her.first_findings}
    kept = [one.about for one in before if one.about in {other.about for other in now}]
    assert [one.about for one in now][: len(kept)] == kept
    follows = {one.about: one.follows for one in before}
    assert all(one.follows == follows[one.about] for one in now if one.about in follows)
    # The page says so, and offers no mend: neither a button nor what it would do.
    page = bittern.client.get("/right").text
    assert "being calculated again" in page
    assert 'class="do"' not in page
    assert PENDING in page
    # Both are there with what remains, which is answered when it is worked out.
    assert not is_whole(bittern.desk.her)
    answer = bittern.client.get("/right/remains", params={"revision": bittern.desk.revision})
    assert answer.status_code == 200
    assert "being calculated again" not in answer.text
    assert PENDING not in answer.text
    assert is_whole(bittern.desk.her)
    assert at_once(bittern.desk) == bittern.desk.her.findings
    doable = [one for one in bittern.desk.her.findings if one.edits]
    assert answer.text.count('class="do"') == len(doable) > 0


def test_what_is_new_comes_after_what_was_there(bittern: Page) -> None:
    found = bittern.desk.her.findings
    assert as_before(found[::-1], found[1:]) == (*found[1:], found[0])
