"""Compression characteristics of laterally-unrestrained rubber O-rings, 1967; from memory.

F' = d E (1.25 C^1.5 + 50 C⁶) with E = 5.5 MPa; figures worked out apart from the program.
"""

from math import pi

import pytest

from trimdive.vessels.seals import closing_line


@pytest.mark.parametrize(
    ("section", "pressed", "force"),
    [(3.53, 0.25, 3.27), (3.53, 0.20, 2.23), (2.62, 0.20, 1.66), (1.78, 0.20, 1.13)],
)
def test_force_for_each_millimetre(section: float, pressed: float, force: float) -> None:
    assert closing_line(section * 1e-3, pressed) * 1e-3 == pytest.approx(force, abs=6e-3)


def test_a_whole_ring() -> None:
    """Section 3.53 mm, squeeze 0.25, on 104 mm: 1069 N."""
    assert closing_line(3.53e-3, 0.25) * pi * 0.104 == pytest.approx(1069, abs=1)
