"""The first start on a machine says why it takes longer."""

import os
from pathlib import Path

import pytest

from trimdive.cli.opening import is_first_start


def test_nothing_compiled_is_a_first_start(tmp_path: Path) -> None:
    assert is_first_start(tmp_path / "__pycache__")
    (tmp_path / "__pycache__").mkdir()
    assert is_first_start(tmp_path / "__pycache__")
    (tmp_path / "__pycache__" / "solve.rest-1.py311.nbi").touch()
    assert not is_first_start(tmp_path / "__pycache__")


def test_the_sums_of_this_copy_are_kept_there(grebe_as_bought: object) -> None:
    """Once a boat has been let go, no start is the first: the place looked at is the right one."""
    grebe_as_bought.surfaced  # type: ignore[attr-defined]  # noqa: B018
    assert not is_first_start()


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere")
def test_where_nothing_can_be_kept_nothing_is_promised(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    assert not is_first_start(tmp_path / "__pycache__")
