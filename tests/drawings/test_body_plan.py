"""The body plan: its sections are as broad as her table of lines says, each half on its side."""

import csv
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.drawings.boats import BOATS, boat
from tests.drawings.seen import marked

from trimdive.pictures.drawings.body_plan import COUNT, body_plan, places

LINES = Path(__file__).parents[2] / "boats" / "bittern" / "lines.csv"
LIP = 140.0  # her lower hull alone reaches below this [mm]


def halves(name: str, side: str) -> list[np.ndarray]:
    """Return the points of each line drawn on one side [mm]."""
    return marked(ElementTree.fromstring(body_plan(boat(name))), f"section {side}", "")


@pytest.mark.parametrize("name", BOATS)
def test_the_after_half_is_on_the_left(name: str) -> None:
    aft, fore = halves(name, "aft"), halves(name, "fore")
    assert min(len(aft), len(fore)) >= COUNT / 2 - 1
    assert all(half[:, 0].max() <= 0.05 for half in aft)
    assert all(half[:, 0].min() >= -0.05 for half in fore)


def test_sections_are_as_broad_as_the_table_of_lines() -> None:
    """Between two stations of lines.csv each is no broader and no narrower than both."""
    with LINES.open(encoding="utf-8") as file:
        rows = [[float(one) for one in row] for row in csv.reader(file) if row[0].isdigit()]
    widest = [(x, half) for x, _, _, half, *_ in rows]
    drawn = [h for side in ("aft", "fore") for h in halves("bittern", side) if -h[:, 1].min() < 165]
    lower = [half for half in drawn if -half[:, 1].max() < LIP]
    assert len(lower) == COUNT
    for at, half in zip(places(boat("bittern")), lower, strict=True):
        (_, one), (_, other) = next(
            pair for pair in pairwise(widest) if pair[0][0] <= 1e3 * at < pair[1][0]
        )
        breadth = float(np.abs(half[:, 0]).max())
        assert min(one, other) - 0.5 <= breadth <= max(one, other) + 0.5, at
