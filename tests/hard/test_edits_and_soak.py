"""Short runs of ``edits`` and ``soak``. The long runs are made by hand.

The rule is the project's own: what is answered is saved, and memory is given back.
"""

import sys
from collections.abc import Sequence

import pytest
from tests.hard import edits, soak
from tests.hard.served import Server


def test_edits_of_several_hands_are_all_saved() -> None:
    found = edits.run(20, hands=5)
    assert found.wrong == []
    assert found.done == 20


def test_edits_that_are_not_on_disk_are_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    types = edits.let_type

    def loses(server: Server, hands: Sequence[edits.Hand], count: int) -> None:
        types(server, list(hands), count)
        hands[0].found.last["part[1].mass"] = (9, "9 g")
        hands[0].found.done += 1

    monkeypatch.setattr(edits, "let_type", loses)
    lost, steps, *_ = edits.run(2, hands=1).wrong
    assert "is on disk" in lost
    assert "to be undone" in steps


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="memory is read as Linux tells it")
def test_an_afternoon_holds_no_more_memory_than_allowed(monkeypatch: pytest.MonkeyPatch) -> None:
    found = soak.run(12, seed=4)
    assert found.wrong == []
    assert all(0 < held < soak.MOST for _, held in found.memory)
