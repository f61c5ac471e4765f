"""A part of ``full``, and that it finds out a writer that forgets to look whether all was written.

Sources are named there. All of it is tried by hand.
"""

import os
from collections.abc import Mapping
from pathlib import Path

import pytest
from tests.hard import full

from trimdive.boatfile import saving

pytestmark = pytest.mark.skipif(os.name != "posix", reason="rights of folders are POSIX's")


def test_nothing_is_lost_or_silent_where_the_disk_fails() -> None:
    found = full.run(every=24)
    assert found.wrong == []
    assert found.refused > 5


def test_a_writer_that_writes_one_after_another_is_found_out(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def plainly(folder: Path, files: Mapping[str, bytes]) -> None:
        for name, data in files.items():
            with os.fdopen(os.open(folder / name, os.O_WRONLY | os.O_CREAT), "wb") as stream:
                stream.write(data)

    monkeypatch.setattr(saving, "write", plainly)
    monkeypatch.setattr(full, "WAYS", full.WAYS[:1])
    monkeypatch.setattr(full, "ACTS", (full.edit,))
    assert full.run(every=3).wrong
