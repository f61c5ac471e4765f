"""The force of pressure on a cap, and what holds it, worked out by hand."""

import pytest

from trimdive.errors import GeometryError
from trimdive.vessels.strength import end_load, push_off, rod_pull


@pytest.mark.parametrize(("across", "force"), [(0.094, 680.6), (0.104, 833.1), (0.144, 1597.1)])
def test_ten_metres_on_a_cap(across: float, force: float) -> None:
    assert end_load(98_066.5, across) == pytest.approx(force, abs=0.06)


def test_a_cap_is_pushed_off_or_stays() -> None:
    load = end_load(14_475, 0.104)
    loose, held = push_off(14_475, 0.104, 0.0), push_off(14_475, 0.104, 2.01 * load)
    assert not loose.stays
    assert loose.load == pytest.approx(load)
    assert held.stays
    assert held.bears == pytest.approx(2.01)
    assert not push_off(14_475, 0.104, 1.5 * load).stays
    assert push_off(14_475, 0.104, 1.5 * load, wanted=1.4).stays


def test_a_vacuum_pulls_caps_on() -> None:
    sucked = push_off(-10_000, 0.104, 0.0)
    assert sucked.load == 0.0
    assert sucked.stays
    assert sucked.bears == float("inf")


def test_rods_share() -> None:
    assert rod_pull(3, 1069.0, 123.0) == pytest.approx(1192.0 / 3)
    with pytest.raises(GeometryError, match="0 tie rods hold nothing"):
        rod_pull(0, 1.0, 1.0)


def test_what_cannot_be() -> None:
    with pytest.raises(GeometryError, match="diameter above 0"):
        push_off(1e4, 0.0, 0.0)
