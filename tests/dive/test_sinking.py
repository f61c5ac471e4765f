"""Sinking and rising: drag of the plan form, against hand figures."""

from math import atan, log, sqrt

import pytest

from trimdive.assessment import Assessment
from trimdive.ballast.dive.sinking import Heave, speed, stop
from trimdive.errors import BalanceError

G = 9.80665


def test_fifty_grams_on_two_metres_by_a_fifth() -> None:
    """Common practice, no source: 50 g on a 2 m x 0.2 m plan area is about 5 cm/s, C_D 1."""
    assert speed(0.050, 0.4, 999.1, 1.0) == pytest.approx(0.05, rel=0.02)


def test_the_square_root_law() -> None:
    assert speed(0.2, 0.4, 999.1) == pytest.approx(2 * speed(0.05, 0.4, 999.1))
    by_hand = sqrt(2 * 0.1 * 9.80665 / (1000.0 * 0.3))
    assert speed(0.1, 0.3, 1000.0, 1.0) == pytest.approx(by_hand)


def test_a_stop_against_drag_in_closed_form() -> None:
    """An even lift F against a moving mass m with drag c v²: z = m/2c ln(1 + c v²/F), by hand."""
    moves = Heave(plan_area=0.3, dry=30.0, flood=40.0, added=60.0, density=1000.0)
    start, lift, c = 0.2, 1.0, 0.5 * 1000.0 * 0.3
    found = stop(moves, excess=1e-6, rate=1.0, room=1e-3, start=start)  # a litre in a millisecond
    force = lift * G
    assert found.depth == pytest.approx(
        moves.moving / (2 * c) * log(1 + c * start**2 / force), 1e-2
    )
    slow = moves.moving / sqrt(force * c) * atan(start * sqrt(c / force))
    assert found.time == pytest.approx(slow, rel=1e-2)


def test_a_stop_without_drag_by_hand() -> None:
    """M dv/dt = (e - ρ r t) g: stands where v0 + g/m (e t - ρ r t²/2) = 0."""
    moves = Heave(plan_area=1e-9, dry=30.0, flood=40.0, added=60.0, density=1000.0)
    rate, e, v = 5e-5, 0.2, 0.1
    found = stop(moves, excess=e, rate=rate, room=1.0, start=v)
    a, b = 1000.0 * rate / 2, moves.moving * v / G
    by_hand = (e + sqrt(e**2 + 4 * a * b)) / (2 * a)
    assert found.time == pytest.approx(by_hand, rel=1e-6)


def test_what_blowing_cannot_stop_is_told_by_how_much() -> None:
    moves = Heave(plan_area=0.3, dry=30.0, flood=40.0, added=60.0, density=1000.0)
    with pytest.raises(BalanceError, match="100 g too heavy"):
        stop(moves, excess=0.6, rate=1e-4, room=5e-4)


def test_bittern_is_stopped_after_her_excess_is_blown(bittern: Assessment) -> None:
    """She cannot stand before as much is blown out as she was too heavy."""
    found = bittern.stop
    assert found is not None
    assert found.blown * bittern.water.density > bittern.full.rest.excess
    assert 0 < found.depth < found.speed * found.time
