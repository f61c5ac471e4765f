"""ASTM F480, thermoplastic well casing: p = 2 E / (1-ν²) / ((D/t) (D/t - 1)²), E 4e5 psi, ν 0.33.

The formula was seen where a public discussion quotes the standard; no figure is printed there.
The pressures are the formula's, worked out apart from the program. That D/t leads in the first
factor, where the ring theory has D/t - 1 again, makes it the safer by the share 1 - t/D; ours is
the ring theory.
"""

import pytest

from trimdive.vessels.strength import long_tube, tube


@pytest.mark.parametrize(("slender", "worked_out"), [(26, 55.25), (21, 106.9), (18.99, 146.1)])
def test_well_casing(slender: float, worked_out: float) -> None:
    found = long_tube(tube(slender, 1.0, 1e4), 4e5, 0.33)
    assert found * (1 - 1 / slender) == pytest.approx(worked_out, rel=5e-4)
