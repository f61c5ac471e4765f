"""Checks of the moments between, on the demo boats: passing, failing, at the limit."""

from tests.findings.checks import one, ran
from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.ballast.dive.whatif import stuck_full


def test_no_swing_on_a_boat_in_order(bittern: Assessment) -> None:
    assert ran("dive-turn", bittern) == ()


def test_the_last_few_per_cent_once_the_house_is_open(bittern_as_bought: Assessment) -> None:
    """Told apart of her: level until 86 %, then bow down in the last three per cent."""
    opened = bittern_as_bought.edited(one("void-above", bittern_as_bought).edits)
    found = one("dive-turn", opened)
    assert "bow down" in what_of(found)
    assert "86 % and 88 %" in what_of(found)


def test_swing_at_the_limit(bittern: Assessment) -> None:
    pairs = zip(bittern.dive, bittern.dive[1:], strict=False)
    most = max(abs(b.state.trim_angle - a.state.trim_angle) for a, b in pairs)
    assert ran("dive-turn", bittern, most * (1 + 1e-9)) == ()
    assert len(ran("dive-turn", bittern, most * (1 - 1e-9))) == 1


def test_a_tank_stuck_full(bittern: Assessment, grebe: Assessment) -> None:
    assert ran("stuck-tank", bittern) == ()
    assert ran("stuck-tank", grebe) == ()  # one tank: nothing else to blow
    left = stuck_full(bittern, "forward tank").state.reserve
    assert "stuck full" in what_of(ran("stuck-tank", bittern, left * (1 + 1e-6))[0])
    assert ran("stuck-tank", bittern, left * (1 - 1e-6)) == ()
