"""Short runs of ``edits`` and ``soak``. The long runs are made by hand.

The rule is the project's own: what is answered is saved, and memory is given back.
"""

import sys

import pytest
from tests.hard import edits, soak

from trimdive.page.desk import Desk


def test_edits_of_several_hands_are_all_saved() -> None:
    found = edits.run(16)
    assert found.wrong == []
    assert found.done == 16


def test_edits_that_are_not_saved_are_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Desk, "keep", lambda _: None)
    assert edits.run(4).wrong


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="memory is read as Linux tells it")
def test_an_afternoon_holds_no_more_memory_than_allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    found = soak.run(12, seed=4)
    assert found.wrong == []
    assert all(0 < held < soak.MOST for _, held in found.memory)
