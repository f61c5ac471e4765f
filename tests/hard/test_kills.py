"""A short run of ``kills``, and that it finds out a writer that does not hold what it promises.

What a program ended by signal 9 leaves is POSIX's (kill, rename). The long run is made by hand.
"""

import os
from collections.abc import Mapping
from pathlib import Path

import pytest
from tests.hard.kills import run

from trimdive.boatfile import saving

pytestmark = pytest.mark.skipif(os.name != "posix", reason="signal 9 and fork are POSIX's")


def test_nothing_is_lost_at_any_step_or_moment() -> None:
    found = run(30, seed=3, every=5)
    assert found.wrong == []
    assert len(found.kills) == 5, "every act, and random moments"
    assert found.answered > 0


def test_a_writer_that_writes_one_after_another_is_found_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def plainly(folder: Path, files: Mapping[str, bytes]) -> None:
        for name, data in files.items():
            (folder / name).write_bytes(data)

    monkeypatch.setattr(saving, "write", plainly)
    found = run(12, seed=3, every=3)
    assert any("table" in one or "not whole" in one for one in found.wrong)
