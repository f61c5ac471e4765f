"""AS568, Aerospace Size Standard for O-Rings: spot sizes, the run of the series, how many.

Published tables that go wrong space the inside diameters evenly or shift them by a row; the spot
sizes catch these. Most rows are from memory of the regular steps and say so.
"""

from itertools import pairwise

import pytest

from trimdive.vessels.seals import ring, rings

SPOTS = {"010": 6.07, "012": 9.25, "110": 9.19, "120": 25.07, "210": 18.64, "222": 37.69,
    "223": 40.87, "325": 37.47, "425": 113.67}  # fmt: skip
SERIES = {  # first figure: section and its ±, first and last inside diameter, in
    "0": (0.070, 0.003, 0.029, 5.239),
    "1": (0.103, 0.003, 0.049, 9.737),
    "2": (0.139, 0.004, 0.171, 17.955),
    "3": (0.210, 0.005, 0.412, 25.940),
    "4": (0.275, 0.006, 4.475, 25.940),
}


@pytest.mark.parametrize("number", list(SPOTS))
def test_spot_sizes(number: str) -> None:
    assert ring(number).inside * 1e3 == pytest.approx(SPOTS[number], abs=5.1e-3)


def test_how_many_there_are() -> None:
    """369 in all, 20 of them for screwed ports, which are left out."""
    assert len(rings()) == 369 - 20


@pytest.mark.parametrize("first", list(SERIES))
def test_ends_of_the_series(first: str) -> None:
    section, spread, least, most = SERIES[first]
    series = [one for one in rings() if one.number[0] == first]
    assert series[0].inside == pytest.approx(least * 0.0254)
    assert series[-1].inside == pytest.approx(most * 0.0254)
    thin = {"001", "002", "003"}
    for one in series:
        assert one.section_spread == pytest.approx(spread * 0.0254)
        if one.number not in thin:
            assert one.section == pytest.approx(section * 0.0254)


def test_rings_grow_by_sixteenths_of_an_inch() -> None:
    """From 1/2 in on each step is a whole number of thirty-seconds, to a thousandth or three.

    Save where the standard leaves its steps: at 15.955 and 22.940 in they are 0.015 to 0.03 less.
    """
    for before, after in pairwise(rings()):
        if before.number[0] == after.number[0] and before.inside > 0.0127:
            dropped = 0.022 if round(after.inside / 0.0254, 3) in {15.955, 22.940} else 0.0
            step = (after.inside - before.inside) / 0.0254 + dropped
            whole = round(step * 32) / 32
            assert whole > 0, after.number
            assert step == pytest.approx(whole, abs=0.0085 if dropped else 0.0031), after.number


def test_spread_of_the_inside() -> None:
    """ISO 3601-1 class B, from memory; AS568 has ±0.015 in for 222, also from memory."""
    assert ring("222").inside_spread / 0.0254 == pytest.approx(0.015, abs=1e-3)


def test_what_is_from_memory_says_so() -> None:
    answer = [one.status for one in rings()]
    assert answer.count("from memory") == 253
    assert answer.count("lists that agree") == 96
