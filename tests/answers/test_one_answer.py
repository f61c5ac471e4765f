"""One boat, one answer: each figure given in two places reads alike in both.

All six demo boats and the twenty by chance; ``python -m tests.answers.rate`` prints the rate.
"""

import re

import pytest
from tests.answers.boats import names
from tests.answers.patterns import LINES
from tests.answers.walk import Walked, all_walked, in_vain, walked

ALWAYS = {"trim, low", "BG, low", "weight, full", "need", "mass", "GM, blown", "trim, blown"}


@pytest.mark.parametrize("name", names())
def test_a_figure_reads_alike_wherever_it_stands(name: str) -> None:
    found = walked(name)
    assert not found.differ, "\n".join(found.differ)
    assert found.compared > 100, "figures were found to compare"


@pytest.mark.parametrize("name", ["bittern-as-bought", "grebe", "seed 3"])
def test_the_figures_that_matter_stand_in_several_places(name: str) -> None:
    for figure in ALWAYS:
        assert len(walked(name).quoted[figure]) >= 3, figure


def test_nothing_is_looked_for_in_vain() -> None:
    """A pattern that is met in no boat, or a figure that stands in one place, compares nothing."""
    assert in_vain(all_walked()) == []


def test_the_walk_sees_what_differs_and_what_stands_alone() -> None:
    """A figure that reads otherwise once is named with all its places; one place compares none."""
    answer = {"trim": {"float": "level", "page": "0.1° bow down"}, "BG": {"float": "8.8 mm"}}
    one = Walked(name="a boat", quoted=answer)
    assert one.differ == ["a boat: trim: float: level; page: 0.1° bow down"]
    assert one.compared == 1
    assert "figure BG" in in_vain([one])
    assert "figure trim" not in in_vain([one])


def test_a_pattern_that_was_not_met_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(LINES, "speed", re.compile("she makes (.+?) knots"))
    assert "line speed" in in_vain([])
