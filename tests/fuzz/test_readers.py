"""Short runs of ``readers``, ``forms`` and ``slips``: a sentence comes out of whatever is wrong.

What is right is the project's own rule; no outside source. The long run is made by hand.
"""

import os

import pytest
from tests.fuzz import forms, slips
from tests.fuzz.readers import run

pytestmark = pytest.mark.skipif(os.name != "posix", reason="SIGALRM is POSIX's")


@pytest.mark.parametrize("seed", range(4))
def test_nothing_but_sentences_comes_out(seed: int) -> None:
    found = run(240, seed)
    assert found.wrong == {}
    assert sum(found.tried.values()) == 240
    assert sum(found.refused.values()) < 240, "some are good"


def test_whatever_is_typed_on_the_page_is_answered() -> None:
    found = forms.run(40, 5)
    assert found.wrong == {}
    assert found.tried["form"] == 40


def test_whatever_slips_is_calculated_or_refused() -> None:
    found = slips.run(8, 5)
    assert found.wrong == {}
    assert 0 < found.refused["slip"] < 8
