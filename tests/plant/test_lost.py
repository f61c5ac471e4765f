"""Power lost: Boyle's law by hand, and which way the water goes."""

from dataclasses import replace

import pytest
from tests.plant.systems import bottle, gas_system, piston, pump, system

from trimdive.data import constant
from trimdive.plant import Lift, does, home, leak_flow, unpowered
from trimdive.plant.home import DEEPEST

AIR, G = constant("atmosphere"), constant("gravity")


def steady(depth: float) -> float:
    """Return 2 g heavier for each metre [kg]."""
    return 2e-3 * depth


def test_a_screw_and_a_shut_valve_hold() -> None:
    for one in (system(kind="piston", drive=piston(50e-4), air=4e-3), system()):
        assert unpowered(one, 1e-3, 3.0) == 1e-3
    assert does(system(kind="piston", drive=piston(50e-4))).kind == "screw-holds"


def test_a_leaky_pump_lets_the_pressed_air_push_the_water_out() -> None:
    """Closed tank: V (1 - p0 / p) is left, so none at the surface; at 3 m 22.5 % of it."""
    leaky = system(unpowered="open", leaks=1e-11)
    assert unpowered(leaky, 0.5e-3, 0.0) == pytest.approx(0.0, abs=1e-12)
    share = 1 - AIR / (AIR + 998.2 * G * 3)
    assert share == pytest.approx(0.225, abs=1e-3)
    assert unpowered(leaky, 0.5e-3, 3.0) == pytest.approx(share * 1.5e-3)


def test_vented_to_the_dry_space_it_leaks_in_or_out() -> None:
    """With 4 L of air a full tank of 0.5 L presses 14.5 kPa: as 1.48 m of water."""
    vented = system(kind="pump vented", air=4e-3, full=0.5e-3, unpowered="open", leaks=1e-11)
    level = 14475 / (998.2 * G)
    assert unpowered(vented, 0.5e-3, level) == pytest.approx(0.5e-3, rel=1e-4)
    assert unpowered(vented, 0.5e-3, 1.0) < 0.5e-3
    assert leak_flow(vented, 0.5e-3, 1.0) < 0 < leak_flow(vented, 0.5e-3, 2.0)
    assert leak_flow(replace(vented, leaks=0.0), 0.5e-3, 2.0) == 0.0


def test_a_valve_that_springs_open_blows() -> None:
    spring = gas_system(unpowered="open")
    assert unpowered(spring, 0.17e-3, 2.0) == 0.0
    weak = gas_system(unpowered="open", drive=bottle("n-butane", 5.0))
    assert unpowered(weak, 0.17e-3, 3.0) == 0.17e-3
    bag = system(kind="air bag", unpowered="open", room=0.5e-3, full=0.5e-3)
    assert unpowered(bag, 0.1e-3, 1.0) == 0.5e-3
    assert does(bag).kind == "water-sinks-her"


def test_from_how_deep_she_comes_home() -> None:
    """10 g light at the surface, 2 g heavier a metre: from just under 5 m, and 4 g left at 3 m."""
    held = system(kind="piston", drive=piston(50e-4), neutral=1.3e-3, air=4e-3)
    lift = Lift(empty=998.2 * 1.3e-3 + 0.010, other=0.0, density=998.2, heavier=steady)
    found = home((held,), lift, 3.0)
    assert found.reserve == pytest.approx(0.004)
    assert found.comes_up
    assert found.from_depth == pytest.approx(4.95, abs=0.06)
    heavy = Lift(empty=998.2 * 1.3e-3 - 0.010, other=0.0, density=998.2, heavier=steady)
    assert not home((held,), heavy, 3.0).comes_up
    assert home((held,), heavy, 3.0).from_depth == 0.0


def test_a_tank_that_cannot_be_filled_so_far_leaves_her_light() -> None:
    """A closed tank at 1 bar takes 49.7 % of 1.5 L, not the 1.3 L that were planned."""
    lift = Lift(empty=998.2 * 1.3e-3, other=0.0, density=998.2, heavier=steady)
    answer = 998.2 * (1.3e-3 - 1.5e-3 * (1 - AIR / (AIR + 1e5)))
    assert home((system(neutral=1.3e-3),), lift, 0.0).reserve == pytest.approx(answer)


def test_one_that_blows_by_itself_comes_home_from_anywhere() -> None:
    """Half a litre of lift, and gas that is strong enough down to 20 m."""
    spring = gas_system(unpowered="open", drive=bottle("CO2", 10.0))
    lift = Lift(empty=0.5, other=0.0, density=998.2, heavier=steady)
    assert home((spring,), lift, 3.0).from_depth == pytest.approx(DEEPEST)


def test_a_pump_that_stands_still_holds_where_it_has_a_valve() -> None:
    assert unpowered(system(drive=pump(), unpowered="shut"), 1.0e-3, 3.0) == 1.0e-3
