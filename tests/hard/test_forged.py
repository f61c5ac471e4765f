"""A part of ``forged``, and that it finds out a guard that lets strangers in.

Sources are named there. All of it is sent by hand.
"""

import pytest
from tests.hard.forged import run

from trimdive.page.guard import Guard


def test_nothing_that_is_forged_gets_through() -> None:
    found = run(part=9)
    assert found.wrong == []
    assert len(found.tried) >= 12, "all kinds of them"


@pytest.mark.parametrize("way", ["refused", "locked"])
def test_a_guard_that_looks_away_is_found_out(monkeypatch: pytest.MonkeyPatch, way: str) -> None:
    monkeypatch.setattr(Guard, way, lambda *_, **__: None)
    assert run(part=40).wrong
