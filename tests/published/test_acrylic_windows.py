"""NCEL Technical Report R-773: acrylic windows at 90 and 32 °F against 70 °F."""

import pytest

from trimdive.errors import StrengthError
from trimdive.vessels.strength import material, warm_share


def test_warmth_and_cold() -> None:
    """At 90 °F about 10 to 20 % below, at 32 °F 15 to 25 % above."""
    hot, cold = warm_share("acrylic", (90 - 32) / 1.8), warm_share("acrylic", 0.0)
    assert hot is not None
    assert cold is not None
    assert 0.80 - 1e-9 <= hot <= 0.90
    assert 1.15 - 1e-9 <= cold <= 1.25
    assert warm_share("acrylic", (70 - 32) / 1.8) == pytest.approx(1.0)


def test_a_material_follows() -> None:
    hot, usual = material("acrylic", 90 / 1.8 - 32 / 1.8), material("acrylic", 70 / 1.8 - 32 / 1.8)
    assert hot.modulus / usual.modulus == pytest.approx(0.80)
    assert hot.limit / usual.limit == pytest.approx(0.80)


def test_continuous_stress() -> None:
    """1500 psi for loads that stay, as sheet makers print: 10.34 MPa."""
    assert material("acrylic", held=True).limit == pytest.approx(1500 * 6894.757, rel=2e-2)


def test_hotter_than_the_table() -> None:
    with pytest.raises(StrengthError, match="Stay below 32 °C"):
        material("acrylic", 60.0)
