"""A short run of ``readers``: whatever is wrong with a file, one sentence comes out of it.

What is right is the project's own rule; no outside source. The long run is made by hand.
"""

import os

import pytest
from tests.fuzz.readers import run

pytestmark = pytest.mark.skipif(os.name != "posix", reason="SIGALRM is POSIX's")


@pytest.mark.parametrize("seed", range(4))
def test_nothing_but_sentences_comes_out(seed: int) -> None:
    found = run(240, seed)
    assert found.wrong == {}
    assert sum(found.tried.values()) == 240
    assert sum(found.refused.values()) < 240, "some are good"
