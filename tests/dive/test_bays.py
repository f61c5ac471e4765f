"""Slack water and its cure, against the closed form."""

from itertools import pairwise

import pytest

from trimdive.assessment import Assessment
from trimdive.ballast.dive.bays import free_surface_loss


def test_half_a_metre_by_a_tenth_on_30_kg() -> None:
    """Worked out from b l³ / 12 V: 35 mm off fore-and-aft stiffness; 0.3 m 7.5 mm; 0.15 m 1 mm."""
    assert free_surface_loss(0.5, 0.1, 0.030) == pytest.approx(0.035, abs=0.5e-3)
    assert free_surface_loss(0.3, 0.1, 0.030) == pytest.approx(0.0075, abs=0.05e-3)
    assert free_surface_loss(0.15, 0.1, 0.030) == pytest.approx(0.001, abs=0.1e-3)


def test_bays_cut_it_by_their_square() -> None:
    whole = free_surface_loss(0.4, 0.08, 0.02)
    assert free_surface_loss(0.4, 0.08, 0.02, 3) == pytest.approx(whole / 9)


def test_the_softest_moment_grows_stiffer_with_bays(bittern: Assessment) -> None:
    found = bittern.bays
    assert [one.count for one in found] == [1, 2, 3, 4]
    assert all(b.gm_l >= a.gm_l for a, b in pairwise(found))
    assert found[0].gm_l == pytest.approx(min(m.state.gm_l for m in bittern.dive))
