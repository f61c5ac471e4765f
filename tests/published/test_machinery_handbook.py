"""Machinery's Handbook, 31st edition, page 2770, table 14: PVC pipe bears less when it is warm."""

import pytest

from trimdive.vessels.strength import warm_share


@pytest.mark.parametrize(
    ("fahrenheit", "cold", "hot"), [(120, 230, 92), (140, 280, 62), (73, 230, 230), (100, 100, 62)]
)
def test_pressure_ratings(fahrenheit: float, cold: float, hot: float) -> None:
    """230 psi become 92 psi at 120 °F, 280 psi 62 psi at 140 °F (61.6)."""
    share = warm_share("PVC-U", (fahrenheit - 32) / 1.8)
    assert share is not None
    assert cold * share == pytest.approx(hot, abs=0.5)


def test_between_and_below_the_rows() -> None:
    assert warm_share("PVC-U", (85 - 32) / 1.8) == pytest.approx((0.88 + 0.75) / 2)
    assert warm_share("PVC-U", 4.0) == 1.0
    assert warm_share("brass", 20.0) is None
