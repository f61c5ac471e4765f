"""The least weight that brings a state within reach: by hand, by a grid, by her moments."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimdive.assessment import Assessment
from trimdive.ballast.reach import Wanted, apart, reach, remedy, spreads
from trimdive.hydrostatics.equilibrium import tank_waters
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water

TANKS = reach([np.array([[0.0, 0.0], [1.0, 0.5]]), np.array([[0.0, 0.0], [2.0, -0.5]])])
ENDS = (-1.0, 1.0)


def test_within_reach_nothing_helps() -> None:
    one = Wanted(name="inside", mass=1.5, moment=0.0)
    assert remedy(TANKS, one, 0.0, ENDS) is None


def test_too_much_water_wanted() -> None:
    """3 kg at no moment is all they hold: 0.4 kg more, 0.1 kg m forward, wants 0.4 kg at 0.25 m."""
    one = Wanted(name="light", mass=3.4, moment=0.1)
    found = remedy(TANKS, one, 0.0, ENDS)
    assert found is not None
    assert (found.pull, found.x) == pytest.approx((0.4, 0.25))


def test_too_little_water_wanted() -> None:
    """She is 0.2 kg heavy with empty tanks: that must come out where its moment is."""
    found = remedy(TANKS, Wanted(name="heavy", mass=-0.2, moment=-0.06), 2.0, (1.0, 3.0))
    assert found is not None
    assert (found.pull, found.x) == pytest.approx((-0.2, 2.3))


def test_what_no_one_weight_can_do() -> None:
    """Too heavy, with a moment beyond her ends: no one thing to take out does it."""
    one = Wanted(name="far", mass=-0.001, moment=9.0)
    assert remedy(TANKS, one, 0.0, (-0.01, 0.01)) is None


def test_denser_water_fills_tanks_with_more() -> None:
    one = Wanted(name="sea", mass=3.4, moment=0.0, denser=1.1)
    assert apart(TANKS, one) == pytest.approx((0.1, 0.0))


@given(mass=st.floats(-1.0, 5.0), moment=st.floats(-2.0, 2.0))
def test_it_is_the_least_of_a_grid(mass: float, moment: float) -> None:
    """Every weight tried on a grid that brings her within reach is at least as much."""
    one = Wanted(name="any", mass=mass, moment=moment)
    found = remedy(TANKS, one, 0.0, ENDS)
    if found is not None:
        left = Wanted(name="", mass=mass - found.pull, moment=moment - found.pull * found.x)
        assert apart(TANKS, left) == pytest.approx((0.0, 0.0), abs=1e-6)
    if max(map(abs, apart(TANKS, one))) < 1e-9:
        return
    for pull in np.linspace(-3.0, 3.0, 31):
        for arm in np.linspace(*ENDS, 21):
            left = Wanted(name="", mass=mass - pull, moment=moment - pull * arm)
            if max(map(abs, apart(TANKS, left))) < 1e-9:
                assert found is not None
                assert abs(found.pull) <= abs(pull) + 1e-9


def test_the_lead_for_the_sea_makes_her_neutral_and_level(bittern: Assessment) -> None:
    """Summed up anew, not by the polygon: all her weights against all her buoyancy."""
    sea = next(one for one in bittern.wanted if one.name == "sea")
    aft, fore = (float(x) for x in bittern.hull.envelope.bounds[:, 0])
    found = remedy(bittern.reach, sea, bittern.midships, (aft, fore))
    assert found is not None
    boat, up = bittern.floater, np.array([0.0, 0.0, 1.0])
    rho = boat.density * sea.denser
    full = tank_waters(bittern.boat, boat.tanks, "full")
    middles = tank_water(boat, full, up, levels_at(boat, full, up)).centroids[:, 0]
    weight = bittern.masses.mass + rho * full.sum() + found.pull
    assert weight == pytest.approx(rho * boat.volume, rel=1e-9)
    masses = sum(entry.mass * float(entry.place[0]) for entry in bittern.masses.entries)
    lift = rho * boat.volume * float(boat.buoyancy[0] + boat.tree.centre[0])
    moment = masses + rho * float(full @ middles) + found.pull * found.x
    assert moment == pytest.approx(lift, rel=1e-9)


def test_spreads_are_the_outmost_of_many_boats(bittern: Assessment) -> None:
    """Against boats drawn at random, each mass by its own ± (numpy's normal numbers, a seed)."""
    rng = np.random.default_rng(7)
    entries = bittern.masses.entries
    sigma = np.array([entry.spread for entry in entries]) / 1.96
    arms = np.array([float(entry.place[0]) - bittern.midships for entry in entries])
    drawn = rng.normal(size=(40_000, len(entries))) * sigma
    masses, moments = drawn.sum(axis=1), drawn @ arms
    heavy, light, bow, stern = spreads(bittern.masses, bittern.midships)
    assert heavy[0] == pytest.approx(1.96 * masses.std(), rel=0.02)
    assert bow[1] == pytest.approx(1.96 * moments.std(), rel=0.02)
    slope = np.cov(masses, moments)[0, 1]
    assert heavy[1] == pytest.approx(1.96 * slope / masses.std(), rel=0.05, abs=2e-3)
    assert (light[0], stern[1]) == (-heavy[0], -bow[1])
