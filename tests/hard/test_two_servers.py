"""A short run of ``two_servers``, and that it finds out a lock that holds nobody off.

The rule is the project's own: what is answered as saved is on disk. The long run is made by hand.
"""

import os

import pytest
from tests.hard.two_servers import run

from trimdive.boatfile import saving

pytestmark = pytest.mark.skipif(os.name != "posix", reason="fork is POSIX's")


def test_of_two_programs_none_loses_a_save_without_a_word() -> None:
    found = run(100)
    assert found.wrong == []
    assert found.saved == found.last > 0


def test_saves_that_do_not_look_are_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    stamps = iter(range(10**9))
    monkeypatch.setattr("trimdive.page.desk.lies_on_disk", lambda *_: True)
    monkeypatch.setattr(saving, "stamp_of", lambda _: str(next(stamps)))
    assert run(10).wrong
