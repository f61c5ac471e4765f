"""What if: against rest worked out from scratch, and what was told of the demo boats."""

from math import degrees

import pytest

from trimdive.assessment import Assessment
from trimdive.ballast.dive.whatif import exchanged, flooded, left_at_home, stuck_empty, stuck_full
from trimdive.findings import Edit


def test_either_tank_stuck_full(bittern: Assessment) -> None:
    """Told apart: 1.07 L still out of the water, and under 3°; her lead placed anew makes 3.0."""
    for tank in ("forward tank", "after tank"):
        case = stuck_full(bittern, tank)
        assert case.state.reserve == pytest.approx(1.07e-3, rel=0.03)
        assert abs(degrees(case.state.trim_angle)) < 3.1


def test_stuck_full_is_stuck_empty_of_the_other(bittern: Assessment) -> None:
    one = stuck_full(bittern, "forward tank").state
    other = stuck_empty(bittern, "after tank").state
    assert one.trim_angle == pytest.approx(other.trim_angle, abs=1e-9)


def test_a_part_left_at_home_is_the_boat_without_it(bittern: Assessment) -> None:
    number = next(i for i, p in enumerate(bittern.boat.parts, 1) if p.name == "forward battery")
    edit = Edit(action="remove", path=f"part[{number}]", fields=())
    scratch = bittern.edited((edit,)).surfaced
    case = left_at_home(bittern, "forward battery")
    assert case.state.trim_angle == pytest.approx(scratch.trim_angle, abs=1e-9)
    assert case.state.gm_t == pytest.approx(scratch.gm_t, rel=1e-9)


def test_a_flooded_cylinder_takes_her_down(bittern: Assessment) -> None:
    case = flooded(bittern, "forward cylinder")
    assert not case.stays_up
    assert case.state.trim_angle > 0


def test_another_battery_of_the_same_mass_and_place_changes_nothing(bittern: Assessment) -> None:
    part = next(p for p in bittern.boat.parts if p.name == "after battery")
    case = exchanged(bittern, "after battery", mass=part.mass or 0.0)
    assert case.state.trim_angle == pytest.approx(bittern.surfaced.trim_angle, abs=1e-9)


def test_a_full_tower_is_a_slack_tank_once(bittern: Assessment) -> None:
    """Wholly under nothing changes but by its own surface: the water weighs what it displaces."""
    first = bittern.held["tower"][0].state
    assert first.rest.under
    assert first.rest.excess == pytest.approx(bittern.full.rest.excess, abs=0.03)  # 1 % of 2.6 kg
    assert first.gm_t < bittern.full.gm_t


def test_coming_up_with_a_full_tower_she_is_tenderer(bittern: Assessment) -> None:
    way = bittern.held["tower"]
    upright = [moment.state.gm_t for moment in way if abs(moment.state.heel) < 0.05]
    assert min(upright) < min(moment.state.gm_t for moment in bittern.dive)
    assert any(abs(moment.state.heel) > 0.05 for moment in way)
