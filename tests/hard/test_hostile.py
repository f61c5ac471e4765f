"""Some of ``hostile``, and that it finds out a reader that lets a library's error through.

What is right is the project's own rule: one sentence, status 2. All of them are asked by hand.
"""

import os

import pytest
from tests.hard.hostile import everything, run

pytestmark = pytest.mark.skipif(os.name != "posix", reason="fork and its figures are POSIX's")
SLOW = ("bomb", "million", "many", "long", "cells", "last", "tags", "goes on")


def test_what_is_made_to_break_readers_is_refused_in_a_sentence() -> None:
    some = [one for one in everything() if not any(word in one.name for word in SLOW)][::5]
    found = run(some)
    assert found.wrong == []
    assert found.refused > 15


def test_a_command_that_breaks_is_found_out(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken() -> None:
        raise SystemError("a library's own")

    monkeypatch.setattr("trimdive.cli.main", broken)
    assert run(everything()[:1]).wrong
