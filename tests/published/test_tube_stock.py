"""DIN 8062, ASTM D1785 and ASME B36.10M: sizes of pipe, spot rows; and what the table must hold.

DIN 8062 chart: 110 mm has walls of 2.2, 3.2, 5.3 and 8.2 mm for PN 4, 6, 10 and 16. NPS 4 of
schedule 40 is 114.3 × 6.02 mm. 4 in × 1/8 in leaves 95.25 mm, 110 × 3 mm leaves 104 mm.
"""

import pytest

from trimdive.data import table
from trimdive.vessels.strength import material, stock


def test_din_8062_at_110() -> None:
    walls = sorted(
        one.wall * 1e3 for one in stock() if one.series.startswith("DIN") and one.size == "d110"
    )
    assert walls == pytest.approx([2.2, 3.2, 5.3, 8.2])


@pytest.mark.parametrize(
    ("name", "bore"),
    [("acrylic 110 × 3 mm", 104.0), ("PVC-U 114.3 × 6.02 mm", 102.26),
     ("acrylic 4 × 0.125 in", 95.25)],
)  # fmt: skip
def test_bores(name: str, bore: float) -> None:
    found = next(one for one in stock() if one.name == name)
    assert found.bore * 1e3 == pytest.approx(bore, abs=6e-3)


def test_every_row_is_a_tube_of_a_known_material() -> None:
    for one in stock():
        assert 0 < one.wall < one.outside / 2
        assert material(one.material).limit > 0
    for entry in table("tube_stock"):
        assert (entry["status"] == "from memory") == (entry["source"] == "memory")
