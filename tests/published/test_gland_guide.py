"""Seal Design Guide, Seal Types and Gland Design, table A: the squeeze that it prints.

The ranges follow from its own depths and the spread of the sections; printed in whole per cent, to
which they round, save two of the moving ones, which it prints to half a per cent and rounds its
own way: 0.210 at least 8.3 against 8.5, and 0.275 at least 10.8 against 10.5.
"""

import pytest

from trimdive.data import table
from trimdive.seals import fill, gland, glands, rings, squeeze

WORKED_OUT = {  # least and most squeeze at the worst, in per cent, to the digits given
    "radial": [(17.9, 31.5), (14.0, 24.5), (14.1, 23.1), (14.1, 20.9), (12.6, 19.9)],
    "face": [(19.4, 32.9), (19.0, 29.2), (20.0, 30.1), (19.5, 27.9), (20.1, 27.0)],
}
SECTIONS = [0.070, 0.103, 0.139, 0.210, 0.275]  # in
INCH = 0.0254
FILLS = [(69.8, 83.7), (68.8, 78.2), (68.9, 76.8), (71.5, 77.7), (73.8, 79.9)]  # usual, most


def spread(section: float) -> float:
    return next(one.section_spread for one in rings() if abs(one.section - section) < 1e-9)


@pytest.mark.parametrize("kind", ["radial", "face"])
def test_squeeze_ranges(kind: str) -> None:
    for inches, (least, most) in zip(SECTIONS, WORKED_OUT[kind], strict=True):
        section = inches * INCH
        room, loose = gland(section, kind), spread(section)
        assert squeeze(section - loose, room.depth_most) * 100 == pytest.approx(least, abs=0.051)
        assert squeeze(section + loose, room.depth_least) * 100 == pytest.approx(most, abs=0.051)


@pytest.mark.parametrize("entry", table("glands"), ids=lambda entry: entry["key"])
def test_printed_ranges(entry: dict[str, str]) -> None:
    room = next(
        one
        for one in glands()
        if one.kind == entry["kind"] and abs(one.section - float(entry["section"]) * INCH) < 1e-9
    )
    loose = spread(room.section)
    least = squeeze(room.section - loose, room.depth_most)
    most = squeeze(room.section + loose, room.depth_least)
    assert least == pytest.approx(float(entry["squeeze_least"]), abs=0.0051)
    assert most == pytest.approx(float(entry["squeeze_most"]), abs=0.0055)


def test_fill_of_the_grooves() -> None:
    """Worked out apart from the program; at the worst with the width 0.005 in less."""
    for inches, (usual, most) in zip(SECTIONS, FILLS, strict=True):
        section = inches * INCH
        room, loose = gland(section, "radial"), spread(section)
        middle = fill(section, room.depth, room.width)
        worst = fill(section + loose, room.depth_least, room.width - room.width_spread)
        assert middle * 100 == pytest.approx(usual, abs=0.051)
        assert worst * 100 == pytest.approx(most, abs=0.051)


def test_depths_in_millimetres() -> None:
    printed = [(1.27, 1.40), (2.03, 2.18), (2.79, 2.95), (4.32, 4.47), (5.71, 5.97)]
    for inches, (least, most) in zip(SECTIONS, printed, strict=True):
        room = gland(inches * INCH, "radial")
        assert room.depth_least * 1e3 == pytest.approx(least, abs=6e-3)
        assert room.depth_most * 1e3 == pytest.approx(most, abs=6e-3)
