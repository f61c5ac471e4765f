"""A maker's note on the buckling of PVC pressure pipe.

Stiffness Sc = E I / Dm³ with E = 3200 MPa and ν = 0.4. A pipe without ends
collapses at 24 Sc / (1 - ν²).
"""

import pytest

from trimdive.vessels.strength import long_tube, tube


@pytest.mark.parametrize(
    ("stiffness", "slender", "pressure"),
    [(18.3, 25.4, 0.523), (43.3, 19.3, 1.237), (146.1, 13.2, 4.174)],
)
def test_stiffness_and_collapse(stiffness: float, slender: float, pressure: float) -> None:
    """PN 9, 12 and 18, to DN 150; Do/t to 0.1, so the pressure within 1.5 %."""
    shape = tube(slender, 1.0, 1e3)
    found = long_tube(shape, 3200, 0.4)
    assert 24 * stiffness * 1e-3 / (1 - 0.4**2) == pytest.approx(pressure, abs=6e-4)
    assert found == pytest.approx(pressure, rel=1.5e-2)
