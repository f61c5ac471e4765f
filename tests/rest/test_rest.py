"""What makes a rest a rest: least energy, nothing left over, and where the word is too heavy."""

from math import atan2, degrees, radians

import numpy as np
import pytest
from tests.rest.floaters import NO_WATER, UP, boat_of, box_at, round_at
from tests.rest.tankers import tanker

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.cut import VOLUME, WIDTH, axes_in_plane, cut_raw
from trimdive.hydrostatics.equilibrium import Floater, Rest, other_rests, rest, state
from trimdive.hydrostatics.equilibrium.energy import FLOAT, HANG, evaluate
from trimdive.hydrostatics.equilibrium.solve import FORCE_TOLERANCE, LEVER_TOLERANCE


def energy_at(boat: Floater, waters: Floats, n: Floats, mode: int = FLOAT) -> float:
    """Return the energy over g [kg m] at this turn, sunk until weight and buoyancy balance."""
    total = boat.mass + boat.density * waters.sum()
    low, high, out = -1.0, 1.0, np.empty(WIDTH)
    for _ in range(60 if mode == FLOAT else 0):
        d = (low + high) / 2
        cut_raw(boat.tree, boat.tree.roots, n, d, out)
        low, high = (d, high) if boat.density * out[VOLUME] < total else (low, d)
    slope, stiffness = np.empty(3), np.empty((3, 3))
    levels = np.zeros(len(waters))
    return float(evaluate(boat, waters, mode, n, (low + high) / 2, levels, slope, stiffness))


def turned(n: Floats, by_forward: float, by_port: float) -> Floats:
    forward, port = axes_in_plane(n)
    out = n + by_forward * forward + by_port * port
    return out / np.linalg.norm(out)


def test_a_stable_rest_is_a_least_of_energy() -> None:
    """However she is turned from her rest by up to 6°, her energy is higher."""
    boat, waters = tanker()
    at = rest(boat, waters)
    assert at.stable
    here = energy_at(boat, waters, at.n)
    rng = np.random.default_rng(1)
    for _ in range(60):
        turn = rng.normal(size=2) * 0.03
        assert energy_at(boat, waters, turned(at.n, *turn)) > here


def test_dived_too() -> None:
    boat, waters = tanker()
    at = rest(boat, waters, hanging=True)
    here = energy_at(boat, waters, at.n, HANG)
    rng = np.random.default_rng(2)
    for _ in range(30):
        turn = rng.normal(size=2) * 0.03
        assert energy_at(boat, waters, turned(at.n, *turn), HANG) > here


@pytest.mark.parametrize("mode", [FLOAT, HANG])
def test_stiffness_is_the_second_difference_of_the_energy(mode: int) -> None:
    """Central differences over 0.06° agree with the exact stiffness about both axes."""
    boat, waters = tanker()
    at = rest(boat, waters, hanging=mode == HANG)
    step, here = 1e-3, energy_at(boat, waters, at.n, mode)
    for i, axis in enumerate([(step, 0.0), (0.0, step)]):
        there = energy_at(boat, waters, turned(at.n, *axis), mode)
        back = energy_at(boat, waters, turned(at.n, -axis[0], -axis[1]), mode)
        assert (there - 2 * here + back) / np.arctan(step) ** 2 == pytest.approx(
            at.stiffness[i, i], rel=2e-3
        )


def test_slope_is_the_first_difference_of_the_energy_away_from_rest() -> None:
    boat, waters = tanker()
    n = turned(UP, 0.05, 0.2)
    slope, stiffness = np.empty(3), np.empty((3, 3))
    spare, levels, step = np.empty(3), np.zeros(2), 1e-5
    evaluate(boat, waters, FLOAT, n, 0.01, levels, slope, stiffness)
    for i, (a, b, h) in enumerate([(step, 0, 0), (0, step, 0), (0, 0, step)]):
        up = evaluate(boat, waters, FLOAT, turned(n, a, b), 0.01 + h, levels, spare, stiffness)
        down = evaluate(boat, waters, FLOAT, turned(n, -a, -b), 0.01 - h, levels, spare, stiffness)
        assert (up - down) / (2 * step) == pytest.approx(slope[i], rel=1e-5, abs=1e-7)


def test_what_is_left_over_is_within_the_named_tolerances() -> None:
    boat, waters = tanker()
    at = rest(boat, waters)
    total = boat.mass + 0.7
    assert abs(at.residual[2]) <= FORCE_TOLERANCE * total
    assert np.abs(at.residual[:2]).max() <= LEVER_TOLERANCE * boat.length * total
    assert state(boat, at).nabla * 1000 == pytest.approx(total, rel=1e-9)


def test_started_upside_down_she_rights_herself() -> None:
    """A round boat has one rest: axis level, G down. From wherever she is let go she finds it."""
    boat = boat_of([round_at(0.16, 1.0)], 12.0, (0.0, 0.0, 0.06))
    for n in ([0, 0.1, -1], [0.3, 0.9, -0.1], [-0.2, -0.9, -0.4]):
        start = np.array(n) / np.linalg.norm(n)
        at = rest(boat, NO_WATER, n=start)
        assert at.n == pytest.approx(UP, abs=1e-6)
    assert other_rests(boat, rest(boat, NO_WATER)) == ()


def test_other_rests_are_rests_of_their_own() -> None:
    """A flat plank with G in its middle floats on either face, and nothing in between holds."""
    plank = boat_of([box_at((1.0, 0.3, 0.05))], 7.5, (0.0, 0.0, 0.025))
    at = rest(plank, NO_WATER)
    others = other_rests(plank, at)
    assert [one.n == pytest.approx(-at.n, abs=1e-6) for one in others] == [True]
    assert all(one.stable for one in others)


def test_too_heavy_she_sinks_and_the_grams_are_right() -> None:
    boat = boat_of([box_at((1.0, 0.2, 0.1))], 20.137, (0.0, 0.0, 0.04))
    at = rest(boat, NO_WATER)
    assert at.under
    assert at.excess == pytest.approx(0.137, abs=1e-9)
    assert state(boat, at).reserve == pytest.approx(0.0, abs=1e-12)
    assert state(boat, at).draught(0.0) >= 0.1 - 1e-6  # a surface above all of her


def test_too_light_to_go_under_and_the_grams_are_right() -> None:
    """With 0.5 kg let into 19 kg of a boat of 20 L she stays up: 500 g and 0.5 L are left."""
    room = box_at((0.25, 0.05, 0.04), keel=0.01)
    boat = boat_of([box_at((1.0, 0.2, 0.1))], 19.0, (0.0, 0.0, 0.03), rooms=[room])
    at = rest(boat, np.array([0.5e-3]))
    assert not at.under
    assert at.excess == pytest.approx(-0.5, abs=1e-9)
    assert state(boat, at).reserve == pytest.approx(0.5e-3, rel=1e-7)


def test_held_under_though_she_would_float() -> None:
    boat = boat_of([box_at((1.0, 0.2, 0.1))], 10.0, (0.0, 0.0, 0.03))
    at = rest(boat, NO_WATER, hanging=True)
    assert at.under
    assert at.excess == pytest.approx(-10.0)


def test_with_g_off_the_middle_b_comes_under_it() -> None:
    """Dived the plumb line passes through both: her lean is that of the line from G to B."""
    boat = boat_of([round_at(0.16, 1.0)], 25.0, (0.003, -0.002, 0.07))
    found = state(boat, rest(boat, NO_WATER))
    assert found.rest.under
    assert found.heel == pytest.approx(atan2(0.002, 0.010), abs=1e-6)
    line = np.array([-0.003, 0.002, 0.010])
    assert found.rest.n == pytest.approx(line / np.linalg.norm(line), abs=1e-6)


def test_followed_up_from_wholly_under() -> None:
    """Started from the rest dived, with less water, she comes up to the rest found afresh."""
    room = box_at((0.25, 0.1, 0.04), keel=0.01)
    boat = boat_of([box_at((1.0, 0.2, 0.1))], 19.2, (0.001, 0.0, 0.03), rooms=[room])
    down = rest(boat, np.array([0.9e-3]))
    assert down.under
    up = rest(boat, np.array([0.4e-3]), start=down)
    afresh = rest(boat, np.array([0.4e-3]))
    assert not up.under
    assert up.n == pytest.approx(afresh.n, abs=1e-7)
    assert up.d == pytest.approx(afresh.d, abs=1e-8)


def test_on_a_knife_edge_she_topples() -> None:
    """Stood on her stern, exactly balanced, a log does not stay: it lies down."""
    log = boat_of([round_at(0.1, 1.0)], 4.0, (0.0, 0.0, 0.05))
    at = rest(log, NO_WATER, n=np.array([1.0, 0.0, 0.0]))
    assert at.stable
    assert abs(degrees(state(log, at).trim_angle)) < 0.01


def test_starts_do_not_change_where_she_comes_to_rest() -> None:
    boat, waters = tanker()
    at = rest(boat, waters)
    for bow in (-10, 15):
        n = np.array([np.sin(radians(bow)), 0.1, np.cos(radians(bow))])
        again: Rest = rest(boat, waters, n=n / np.linalg.norm(n))
        assert again.n == pytest.approx(at.n, abs=1e-7)
        assert again.d == pytest.approx(at.d, abs=1e-8)
