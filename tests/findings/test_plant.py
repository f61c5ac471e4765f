"""Checks of the plant on the bench: each passing, failing and just at its limit.

Limits are common practice, no source, unless the table says otherwise; figures at the limit are
taken from the boat itself, so that the limit alone decides.
"""

from dataclasses import replace
from math import isfinite

import pytest
from tests.said import mend_of, what_of

from trimdive.assessment import Assessment
from trimdive.boatfile.plant import Battery, Failsafe, Hose, Linkage, Plant, Pump, Store
from trimdive.errors import PlantError
from trimdive.findings import PLANT_CHECKS, Finding, Works, limit_of, plant_findings
from trimdive.plant import fullest, leak_flow

HAIR = 1e-9


def ran(key: str, her: Works, value: float | None = None) -> tuple[Finding, ...]:
    """Return what one check finds, with its limit or with this one [SI]."""
    limit = limit_of(key, her.assessed.boat)
    if value is not None:
        limit = replace(limit, value=value)
    return tuple(PLANT_CHECKS[key](her, limit))


def changed(her: Assessment, **fields: object) -> Works:
    """Return the plant of a boat with some tables of her file put in place of others."""
    boat = her.boat.model_copy(update=fields)
    return Assessment(boat=boat, files=her.files).works


def with_plant(her: Assessment, **fields: object) -> Works:
    """Return the plant of a boat with every plant of hers changed."""
    plants = tuple(one.model_copy(update=fields) for one in her.boat.plants)
    return changed(her, plants=plants)


def with_air(her: Assessment, air: float, **fields: object) -> Works:
    """Return the plant of a boat with other free air in each of her cylinders [m³]."""
    cylinders = tuple(one.model_copy(update={"air": air}) for one in her.boat.cylinders)
    plants = tuple(one.model_copy(update=fields) for one in her.boat.plants)
    return changed(her, cylinders=cylinders, plants=plants)


def with_battery(her: Assessment, **fields: object) -> Works:
    first, *rest = her.boat.batteries
    return changed(her, batteries=(first.model_copy(update=fields), *rest))


def figure(her: Works, key: str) -> float:
    found = her.answers[0].figure(key)
    assert found is not None
    return found.value


# ---- the demo boats


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover"])
def test_good_boats_are_green(name: str, request: pytest.FixtureRequest) -> None:
    her: Assessment = request.getfixturevalue(name)
    found = plant_findings(her.works)
    assert [what_of(one) for one in found if one.weight == "put right"] == []
    stuck = [one for one in found if one.key == "failsafe-bottom"]
    assert bool(stuck) is (name == "plover"), "one valve alone blows her: stuck, she hovers"


@pytest.mark.parametrize(
    ("name", "key", "words"),
    [
        ("bittern_as_bought", "failsafe-told", "no failsafe action set for signal lost"),
        ("grebe_as_bought", "battery-low", "battery of 7.4 V counts as empty at 8.8 V"),
        ("plover_as_bought", "plant-blows", "is good for 2 blows at"),
    ],
)
def test_boats_as_bought_are_not(
    name: str, key: str, words: str, request: pytest.FixtureRequest
) -> None:
    her: Assessment = request.getfixturevalue(name)
    first = plant_findings(her.works)[0]
    assert (first.key, first.weight) == (key, "put right")
    assert words in what_of(first)
    assert mend_of(first).endswith(".")


def test_what_is_on_the_bench_is_not_mixed_with_what_is_in_the_water(
    plover_as_bought: Assessment,
) -> None:
    keys = {one.key for one in plover_as_bought.first_findings}
    assert not keys & set(PLANT_CHECKS)


def test_a_boat_file_without_a_plant_is_asked_nothing(bittern: Assessment) -> None:
    her = changed(bittern, plants=(), batteries=(), failsafe=None, linkages=())
    assert plant_findings(her) == ()
    assert her.failures is None


# ---- each check by itself


def test_too_slow(bittern: Assessment) -> None:
    slow = with_plant(bittern, pump=Pump(flow=0.5 / 6e4))
    for key, time in (("plant-fill-time", "fill-time"), ("plant-empty-time", "empty-deep")):
        assert ran(key, bittern.works) == ()
        found = ran(key, slow)
        assert len(found) == 2
        assert "Use a pump with" in mend_of(found[0])
        exact = max(one.figure(time).value for one in bittern.works.answers)  # pyright: ignore
        assert ran(key, bittern.works, exact) == ()
        assert ran(key, bittern.works, exact - HAIR)


def test_filling_not_reached(bittern: Assessment) -> None:
    closed = with_plant(bittern, kind="pump closed", valve=None)
    found = ran("plant-filling", closed)
    assert ran("plant-filling", bittern.works) == ()
    system = closed.systems[0]
    needs = float(bittern.dived.rest.waters[0])  # the tank that this plant serves
    assert f"of pressed air; she is neutral at {needs / system.room:.0%}".replace("%", " %") in (
        what_of(found[0])
    )
    short = (needs - fullest(system)) / system.room
    at_limit, beyond = (ran("plant-filling", closed, short + way * HAIR)[0] for way in (1, -1))
    assert (at_limit.weight, beyond.weight) == ("look at", "put right")


def test_a_pump_that_cannot_start(bittern: Assessment) -> None:
    weak = with_air(bittern, 20e-3, pump=Pump(head=0.2e5))
    found = ran("plant-start", weak)
    assert ran("plant-start", bittern.works) == ()
    assert "0.22 bar stand against the pump, which ends at 0.20 bar" in what_of(found[0])
    assert "The nearest that works is" in mend_of(found[0])
    assert ran("plant-start", weak, float(len(weak.answers[0].troubles))) == ()


def test_a_snorkel_is_no_fault_of_its_own(plover: Assessment) -> None:
    her = with_plant(plover, kind="snorkel", store=None, valve=None)
    assert [one.weight for one in ran("plant-start", her)] == ["look at"]


def test_a_boat_that_sinks_as_she_is_is_not_told_so_again(bittern: Assessment) -> None:
    heavy = bittern.boat.lead[0].model_copy(update={"mass": 5.0})
    her = changed(bittern, lead=(heavy, *bittern.boat.lead[1:]))
    assert her.assessed.surfaced.rest.under
    assert ran("plant-home", her) == ran("failsafe-bottom", her) == ()


@pytest.mark.parametrize(
    "fields",
    [
        {"free_air": 1e-6},
        {"closed_at": 0.5},
        {"hose": Hose(bore=1e-4, length=20.0)},
        {"pump": Pump(flow=1e-3, head=1e7)},
        {"pump": Pump(flow=1e-8, head=100.0)},
    ],
)
def test_odd_plants_are_answered_all_the_same(
    bittern: Assessment, fields: dict[str, object]
) -> None:
    her = with_plant(bittern, **fields)
    assert all(one.figures or one.troubles for one in her.answers)
    assert all(isfinite(figure.value) for one in her.answers for figure in one.figures)
    assert all(what_of(one) and mend_of(one).endswith(".") for one in plant_findings(her))


def test_closed_full_there_is_no_air(bittern: Assessment) -> None:
    with pytest.raises(PlantError, match="Enter a smaller closed_at, or more free air"):
        with_plant(bittern, kind="pump closed", closed_at=1.0)


def test_a_press_in_the_dry_space(bittern: Assessment) -> None:
    """1.356 L out of 3 L: 0.83 bar, by Boyle; 4.1 L would keep it at half a bar."""
    small = with_air(bittern, 3.0e-3)
    found = ran("plant-pressure", small)
    assert ran("plant-pressure", bittern.works) == ()
    assert "0.84 bar over" in what_of(found[0]) or "0.83 bar over" in what_of(found[0])
    assert "4.1 L of free air" in mend_of(found[0])
    exact = figure(bittern.works, "dry-pressure")
    assert ran("plant-pressure", bittern.works, exact) == ()
    assert ran("plant-pressure", bittern.works, exact - 1e-3)


def test_a_vacuum_in_the_dry_space(bittern: Assessment) -> None:
    plants = tuple(
        Plant(name=one.name, kind="air bag", tanks=one.tanks) for one in bittern.boat.plants
    )
    bags = changed(bittern, plants=plants)
    assert ran("plant-vacuum", bittern.works) == ()
    found = ran("plant-vacuum", bags)
    assert "every seal is drawn in" in what_of(found[0])
    exact = -figure(bags, "dry-pressure")
    assert ran("plant-vacuum", bags, exact) == ()
    assert ran("plant-vacuum", bags, exact - 1.0)


def test_home_without_power(bittern: Assessment) -> None:
    assert ran("plant-home", bittern.works) == ()
    reserve = bittern.works.answers[0].home.reserve
    assert 0 < reserve < 0.036  # 36 g light at the surface, and PVC shrinks
    assert ran("plant-home", bittern.works, reserve + 1e-6)
    assert ran("plant-home", bittern.works, reserve - 1e-6) == ()
    tanks = tuple(one.model_copy(update={"neutral": 0.93}) for one in bittern.boat.tanks)
    heavy = changed(bittern, tanks=tanks)
    found = ran("plant-home", heavy)[0]
    assert "she stays down from any depth" in what_of(found)
    assert "a weight to drop" in mend_of(found)


def test_a_weight_to_drop_changes_what_she_does_without_power(bittern: Assessment) -> None:
    """What is dropped weighs so much less its water; lead of 11.34 g/cm³ keeps 91 % of it."""
    tanks = tuple(one.model_copy(update={"neutral": 0.93}) for one in bittern.boat.tanks)
    lead = max(bittern.boat.lead, key=lambda one: one.mass or 0.0)
    no_battery = Failsafe(drops=lead.name)
    found = ran("plant-home", changed(bittern, tanks=tanks, failsafe=no_battery))[0]
    assert "battery of its own" in mend_of(found)
    dropped = Failsafe(drops=lead.name, own_battery=True)
    assert ran("plant-home", changed(bittern, tanks=tanks, failsafe=dropped)) == ()


def test_blows(plover: Assessment) -> None:
    count = figure(plover.works, "blows")
    assert count >= 8  # eight to twelve are usual
    assert ran("plant-blows", plover.works, count) == ()
    assert ran("plant-blows", plover.works, count + 1)
    few = with_plant(plover, store=Store(gas="R-1234ze(E)", mass=3e-3))
    assert "good for 2 blows" in what_of(ran("plant-blows", few)[0])


def test_gas_that_burns(plover: Assessment) -> None:
    hot = with_plant(plover, store=Store(gas="propane", mass=20e-3))
    assert ran("plant-burns", plover.works) == ()
    assert ran("plant-burns", hot)[0].weight == "look at"
    assert ran("plant-burns", hot, 1.0) == ()


def test_a_gear_pump_without_a_valve_drifts(bittern: Assessment) -> None:
    bare = with_plant(bittern, valve=None)
    found = ran("plant-drift", bare)
    assert ran("plant-drift", bittern.works) == ()
    assert "has no valve: standing at 3.0 m she grows" in what_of(found[0])
    flow = leak_flow(bare.systems[0], bare.systems[0].neutral, 3.0)
    grams = abs(flow) * 60 * bare.systems[0].density
    assert ran("plant-drift", bare, grams + HAIR) == ()
    assert ran("plant-drift", bare, grams - HAIR)


def test_failsafe_told(bittern: Assessment) -> None:
    none = changed(bittern, failsafe=None)
    assert ran("failsafe-told", bittern.works) == ()
    found = ran("failsafe-told", none)[0]
    assert "signal lost, battery low, leak and too deep" in what_of(found)
    assert ran("failsafe-told", none, 4.0) == ()
    assert ran("failsafe-told", none, 3.0)


def test_failsafe_that_leaves_her_on_the_bottom(bittern: Assessment) -> None:
    tanks = tuple(one.model_copy(update={"neutral": 0.95}) for one in bittern.boat.tanks)
    stays = Failsafe(signal_lost="stay", battery_low="come up", leak="come up", too_deep="come up")
    her = changed(bittern, tanks=tanks, failsafe=stays)
    found = [one for one in ran("failsafe-bottom", her) if one.weight == "put right"]
    assert ran("failsafe-bottom", bittern.works) == ()
    assert [one.subject for one in found] == ["failsafe, signal lost"]
    assert "no action, and she ends on the bottom" in what_of(found[0])
    square = bittern.works.failures.at("signal lost", "dived")  # pyright: ignore
    assert ran("failsafe-bottom", bittern.works, square.grams)
    assert all(
        one.subject != "failsafe, signal lost"
        for one in ran("failsafe-bottom", bittern.works, square.grams - HAIR)
    )


def test_a_fuse_that_blows(bittern: Assessment) -> None:
    small = with_battery(bittern, fuse=2.0)
    assert ran("fuse-spare", bittern.works) == ()
    found = ran("fuse-spare", small)[0]
    assert "has a fuse of 2 A; pump and motors draw 2.9 A" in what_of(found)
    assert "Fit 4 A" in mend_of(found)
    draws = small.feeding[0].draws
    assert ran("fuse-spare", with_battery(bittern, fuse=1.1 * draws)) == ()
    assert ran("fuse-spare", with_battery(bittern, fuse=1.1 * draws - 1e-6))


def test_a_fuse_that_does_not_save_the_wire(bittern: Assessment) -> None:
    thin = with_battery(bittern, wire=0.5e-6)
    assert ran("fuse-wire", bittern.works) == ()
    assert "0.5 mm² of copper carry 4 A, but the fuse is 10 A" in what_of(ran("fuse-wire", thin)[0])
    assert ran("fuse-wire", with_battery(bittern, wire=0.5e-6, fuse=4.0)) == ()
    assert ran("fuse-wire", with_battery(bittern, wire=0.5e-6, fuse=4.001))


def test_a_wire_that_loses_too_much(bittern: Assessment) -> None:
    """2.9 A through 3 m of 0.5 mm² and back: 0.61 V of 12.8 V, 4.8 %; 4 m are too much."""
    assert ran("wire-drop", with_battery(bittern, wire=0.5e-6, wire_length=3.0)) == ()
    long = with_battery(bittern, wire=0.5e-6, wire_length=4.0)
    assert "of 12.8 V are lost in the wires" in what_of(ran("wire-drop", long)[0])
    share = long.feeding[0].drop / 12.8
    assert ran("wire-drop", long, share + HAIR) == ()
    assert ran("wire-drop", long, share - HAIR)


def test_a_battery_that_counts_as_empty_at_once(bittern: Assessment) -> None:
    assert ran("battery-low", bittern.works) == ()
    assert ran("battery-low", with_battery(bittern, low=0.97 * 12.8)) == ()
    assert ran("battery-low", with_battery(bittern, low=0.97 * 12.8 + 1e-6))


def with_linkage(her: Assessment, **fields: object) -> Works:
    first: Linkage = her.boat.linkages[0]
    return changed(her, linkages=(first.model_copy(update=fields),))


def test_linkages(bittern: Assessment) -> None:
    for key in ("link-throw", "link-spare", "link-clear", "link-side"):
        assert ran(key, bittern.works) == ()
    short = with_linkage(bittern, arm=8e-3)
    assert "25° wanted" in what_of(ran("link-throw", short)[0])
    lack = short.links[0].wanted - short.links[0].one_way
    assert ran("link-throw", short, lack + 1e-6) == ()
    assert ran("link-throw", short, lack - 1e-6)
    weak = with_linkage(bittern, torque=0.05)
    assert "the servo of after planes holds" in what_of(ran("link-spare", weak)[0])
    assert ran("link-spare", weak, weak.links[0].spare) == ()
    near = with_linkage(bittern, shaft_z=0.134, shaft_y=0.0)
    assert "strikes the shaft" in what_of(ran("link-clear", near)[0])
    least = min(one.clear for one in bittern.works.links)
    assert ran("link-clear", bittern.works, least) == ()
    assert ran("link-clear", bittern.works, least + HAIR)
    hard = with_linkage(bittern, rubs=30.0, gland=20e-3)
    assert "N sideways at its gland" in what_of(ran("link-side", hard)[0])
    assert ran("link-side", hard, hard.links[0].side_pull) == ()


def test_models_are_made_in_python_too() -> None:
    assert Battery(name="b", voltage=7.4, capacity=3600.0).drive == 0.0
    assert Hose().bore is None
