"""The air in dry spaces of whole boats: six cases by hand, and what two places say of one cylinder.

Laws beside each case. p0 is 101.325 kPa, nought Celsius 273.15 K.
"""

from math import pi
from pathlib import Path

import pytest
from tests.said import mend_of, what_of
from typer.testing import CliRunner

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import parse
from trimdive.cli.app import app as commands
from trimdive.errors import BoatError
from trimdive.fact import fact
from trimdive.plant import dry_space, fullest
from trimdive.text.plant_figures import shown

BOATS = Path(__file__).parents[2] / "boats"
ALL = ("bittern", "grebe", "plover", "bittern-as-bought", "grebe-as-bought", "plover-as-bought")
P0 = 101325.0
GREBE_AIR, BITTERN_AIR = 'air = "2.4 L"', 'air = "4.36 L"'
FULL = GREBE_AIR, f'closed = "tanks full"\n{GREBE_AIR}'
WARM = GREBE_AIR, f'closing_temperature = "25 °C"\n{GREBE_AIR}'


def boat(name: str, *changes: tuple[str, str]) -> Assessment:
    """Return a demo boat with lines of her file changed."""
    text = (BOATS / name / "boat.toml").read_text("utf-8")
    for was, now in changes:
        assert was in text, was
        text = text.replace(was, now)
    return Assessment(boat=parse(text), files=assess(BOATS / name / "boat.toml").files)


def state(her: Assessment, key: str, number: int = 0) -> float:
    """Return the pressure in one of her cylinders in a state, above the air's [Pa]."""
    return next(one.pressure for one in her.bench.cylinders[number].inside if one.key == key)


def room(her: Assessment, number: int = 0) -> float:
    return float(her.floater.tanks.capacities[number])


def test_tank_water() -> None:
    """Boyle: 1.356 L of 4.36 L, p0 · 1.356 / 3.004 = 45.7 kPa; p A on 117.6 mm: 497 N."""
    her = boat("bittern")
    assert room(her) == pytest.approx(1.356e-3, abs=1e-6)
    assert state(her, "tank full") == pytest.approx(P0 * 1.356 / (4.36 - 1.356), rel=1e-3)
    load = state(her, "tank full") * pi / 4 * 0.1176**2
    assert load == pytest.approx(497, abs=1)


def test_a_piston_pushes_caps_too() -> None:
    """Boyle: 0.609 L of 2.4 L, p0 · 0.609 / 1.791 = 34.5 kPa; p A on 84 mm: 191 N."""
    her = boat("grebe")
    assert state(her, "tank full") == pytest.approx(P0 * 0.6088 / (2.4 - 0.6088), rel=1e-3)
    assert state(her, "tank full") * pi / 4 * 0.084**2 == pytest.approx(191, abs=1)


def test_in_the_sun() -> None:
    """Gay-Lussac: closed at 15 °C, 40 °C: p0 · 25 / 288.15 = 8.79 kPa."""
    assert state(boat("plover"), "sun") == pytest.approx(8_791, abs=1)


def test_closed_warm_and_cold_in_the_water() -> None:
    """Gay-Lussac: closed at 30 °C, 15 °C: p0 · (288.15 / 303.15 - 1) = -5.01 kPa."""
    her = boat("plover", ('air = "0.5 L"', 'air = "0.5 L"\nclosing_temperature = "30 °C"'))
    assert state(her, "cold") == pytest.approx(-5_014, abs=1)
    assert her.bench.cylinders[0].strength.vacuum == pytest.approx(5_014, abs=1)
    assert state(her, "sun") == pytest.approx(P0 * 10 / 303.15, rel=1e-6), "40 °C less 30 °C"


def test_closed_with_its_tank_full() -> None:
    """Boyle: 2.4 L less 0.609 L at p0 fill 2.4 L: p0 · (1.791 / 2.4 - 1) = -25.7 kPa.

    Emptied and warm from closing it is both: p0 · (1.791 / 2.4 · 288.15 / 298.15 - 1) = -28.2 kPa.
    """
    her = boat("grebe", FULL)
    assert state(her, "tank emptied") == pytest.approx(-P0 * 0.6088 / 2.4, rel=1e-3)
    assert "tank full" not in {one.key for one in her.bench.cylinders[0].inside}, "as it was closed"
    assert her.bench.cylinders[0].strength.vacuum == pytest.approx(25_700, abs=50)
    warm = boat("grebe", FULL, WARM)
    wanted = P0 * ((2.4 - 0.6088) / 2.4 * 288.15 / 298.15 - 1)
    assert state(warm, "tank emptied") == pytest.approx(wanted, rel=1e-3)


def test_full_and_in_the_sun_together() -> None:
    """Boyle and Gay-Lussac: p0 · (2.4 / 1.791 · 313.15 / 288.15 - 1) = 46.2 kPa; 256 N."""
    her = boat("grebe")
    wanted = P0 * (2.4 / (2.4 - 0.6088) * 313.15 / 288.15 - 1)
    assert state(her, "tank full, sun") == pytest.approx(wanted, rel=1e-3)
    assert her.bench.cylinders[0].push.load == pytest.approx(wanted * pi / 4 * 0.084**2, rel=1e-3)


def in_one() -> Assessment:
    """Return Bittern with both tanks in her forward cylinder, 130 mm each, with 5.9 L of air."""
    aft, fore = (
        'inside = "after cylinder"\nx = "958 mm"',
        'inside = "forward cylinder"\nx = "1660 mm"',
    )
    return boat("bittern", (aft, fore), (BITTERN_AIR, 'air = "5.9 L"'))


def test_two_plants_in_one_cylinder_see_each_others_water() -> None:
    """Boyle: 2 · 1.356 L of 5.9 L, p0 · 2.711 / 3.189 = 86.1 kPa, said alike by both."""
    her = in_one()
    wanted = P0 * 2 * 1.3556 / (5.9 - 2 * 1.3556)
    assert state(her, "tank full") == pytest.approx(wanted, rel=1e-3)
    for answer in her.works.answers:
        figure = answer.figure("dry-pressure")
        assert figure is not None
        assert figure.value == pytest.approx(wanted, rel=1e-3)
        assert "others-as-filled" in {note.kind for note in answer.assumed}
    found = [one for one in her.bench_findings if one.key == "plant-pressure"]
    assert [one.subject for one in found] == ["cylinder[1]"], "once, and of the cylinder"


def test_air_moved_into_a_bag_leaves_a_vacuum() -> None:
    """Boyle: p0 · 4.36 L stay with the bag's p V: (p0 · 4.36 - 1.05 bar-ish · 1.356) / 4.36."""
    plain = boat("bittern")
    plants = tuple(
        one.model_copy(update={"kind": "air bag", "pump": None, "valve": None, "stretch": 5e3})
        for one in plain.boat.plants
    )
    bags = Assessment(boat=plain.boat.model_copy(update={"plants": plants}), files=plain.files)
    met = bags.floater.density * 9.80665 * bags.bench.depth
    wanted = -(P0 + 5e3 + met) * 1.3556 / 4.36
    least = state(bags, "tank emptied")
    assert wanted * 1.001 < least < -0.25e5, "the deeper the more, as far as its pump moves it"
    figure = bags.works.answers[0].figure("dry-pressure")
    assert figure is not None
    assert figure.value == least


@pytest.mark.parametrize("name", ALL)
def test_bench_plant_and_the_moment_say_the_same_of_one_cylinder(name: str) -> None:
    her = assess(BOATS / name / "boat.toml")
    text = " ".join(CliRunner().invoke(commands, ["bench", str(BOATS / name)]).stdout.split())
    for number, one in enumerate(her.bench.cylinders):
        tanks = {taker.tank for taker in one.dry.space.takers}
        for system, answer in zip(her.works.systems, her.works.answers, strict=True):
            if not tanks & set(system.tanks):
                continue
            over = dry_space(system, fullest(system)) - P0
            assert state(her, "tank full", number) == pytest.approx(over)
            figure = answer.figure("dry-pressure")
            assert figure is not None
            assert figure.value == pytest.approx(over)
            stated = shown(answer, figure)
            assert f"Tank full: {stated} above the air outside" in text
            assert f"pressure in the dry space {stated}" in text


def test_where_a_pump_ends_is_told_everywhere() -> None:
    """Boyle: 0.5 bar at 12 V are 53.3 kPa at 12.8 V; 2 L of air: 2 (1 - p0 / 154.7) = 0.690 L."""
    head = 'head = "1.2 bar"', 'head = "0.5 bar"'
    her = boat("bittern", head, (BITTERN_AIR, 'air = "2 L"'))
    most = 50e3 * 12.8 / 12
    ends = 2e-3 * (1 - P0 / (P0 + most))
    assert fullest(her.works.systems[0]) == pytest.approx(ends, rel=1e-6)
    assert state(her, "tank full") == pytest.approx(most, rel=1e-6)
    found = next(one for one in her.bench_findings if one.key == "plant-filling")
    share = ends / room(her)
    assert what_of(found) == (
        f"forward pump fills its tank to {share:.0%} and no farther, against 0.53 bar of pressed "
        "air; she is neutral at 90 %"
    ).replace(f"{share:.0%}", f"{share:.0%}".replace("%", " %"))
    assert found.weight == "put right"
    needs = P0 * her.neutral * 1.3556 / (2 - her.neutral * 1.3556)
    assert f"presses against {needs / 1e5:.2f} bar" in mend_of(found)
    enough = her.neutral * room(her) * (P0 + most) / most
    assert f"leave {enough * 1e3:.1f} L of free air" in mend_of(found)
    inside = her.bench.cylinders[0].inside
    assert fact("tanks-filled", many=False, is_short=True) in {one.state for one in inside}
    figure = her.works.answers[0].figure("filling")
    assert figure is not None
    assert figure.value == pytest.approx(share)
    text = " ".join(CliRunner().invoke(commands, ["bench", str(BOATS / "bittern")]).stdout.split())
    assert "as full as it gets 100 %" in text


def test_enough_is_not_full() -> None:
    """It reaches what she needs and not its brim: to look at, not to put right."""
    her = boat("bittern", ('head = "1.2 bar"', 'head = "0.41 bar"'))
    found = [one for one in her.bench_findings if one.key == "plant-filling"]
    assert {one.weight for one in found} == {"look at"}
    assert "against 0.44 bar of pressed air" in what_of(found[0])


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        (('kind = "pump vented"', 'kind = "pump vented"\nfree_air = "4.4 L"'),
         "the air in forward cylinder is entered in cylinder[1].air already. Keep cylinder[1].air "
         "or free_air, not both"),
        (('air = "4.36 L"', 'air = "436 L"'), "more than forward cylinder holds"),
    ],
)  # fmt: skip
def test_one_air_is_entered_once(changes: tuple[str, str], says: str) -> None:
    with pytest.raises(BoatError) as refused:
        boat("bittern", changes)
    assert says in str(refused.value)


def test_how_she_is_closed_is_entered_once() -> None:
    seal = 'seal = "40 N"', 'closed_at = "50 %"\nseal = "40 N"'
    with pytest.raises(BoatError, match=r"is entered in cylinder\[1\]\.closed already"):
        boat("grebe", FULL, seal)


def test_the_air_may_stand_in_the_plant() -> None:
    """The same record from either field."""
    there = 'seal = "40 N"', 'seal = "40 N"\nfree_air = "2.4 L"'
    moved = boat("grebe", (GREBE_AIR, ""), there)
    assert state(moved, "tank full") == state(boat("grebe"), "tank full")
    assert moved.bench.cylinders[0].dry.space.is_entered


def test_not_entered_it_is_worked_out_alike_everywhere() -> None:
    """Room of 84 mm by 578 mm, 3.203 L, less what is listed in it by mass over 2 kg a litre."""
    her = boat("grebe", ('air = "2.4 L"', ""))
    held = sum(part.mass or 0.0 for part in her.boat.parts if part.inside == "cylinder") / 2000
    wanted = pi / 4 * 0.084**2 * 0.578 - held
    assert her.bench.cylinders[0].air == pytest.approx(wanted, rel=0.02)
    assert her.works.systems[0].air == her.bench.cylinders[0].air
    assert not her.bench.cylinders[0].dry.space.is_entered
    known = her.bench.cylinders[0].dry.space.known
    assert known.kind == "air-less-listed"
    assert known in her.bench.cylinders[0].assumed
    assert fact("air-taken", known=known) in her.works.answers[0].assumed
