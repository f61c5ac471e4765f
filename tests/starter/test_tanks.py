"""Cylinders, tanks and plant of a first boat as they were asked for, and what then cannot be."""

from math import pi

import pytest
from tests.starter.wanting import weighty

from trimdive.assessment import Assessment
from trimdive.boatfile.plant import Kind
from trimdive.errors import StarterError
from trimdive.estimates.starter import Starter, Wish, starter
from trimdive.estimates.starter.tanks import PLANTS
from trimdive.text.first_boat import first_boat


def made(length: float = 1.4, **wish: object) -> Starter:
    return starter(Wish(**{"name": "Dotterel", "length": length, **wish}))  # type: ignore[arg-type]


@pytest.mark.parametrize("kind", PLANTS)
def test_every_plant_serves_all_tanks_and_nothing_is_to_be_put_right(kind: Kind) -> None:
    boat = made(plant=kind)
    assert [plant.kind for plant in boat.boat.plants] == [kind]
    assert boat.boat.plants[0].tanks == tuple(tank.name for tank in boat.boat.tanks)
    assert {tank.kind for tank in boat.boat.tanks} == {"piston" if kind == "piston" else "open"}
    assert weighty(boat) == []


@pytest.mark.parametrize(("length", "kind"), [(1.1, "dry"), (2.4, "wet")])
def test_pistons_in_a_dry_hull_and_in_two_cylinders(length: float, kind: str) -> None:
    boat = made(length, kind=kind, plant="piston")
    assert len(boat.boat.plants) == len(boat.boat.tanks) == (1 if kind == "dry" else 2)
    assert weighty(boat) == []


def test_nothing_is_written_of_a_plant_that_nobody_named() -> None:
    assert "[[plant]]" not in first_boat(made())
    assert 'kind = "gas"' in first_boat(made(plant="gas"))
    guessed = first_boat(made(plant="gas", is_plant_guessed=True))
    assert next(line for line in guessed.splitlines() if '"gas"' in line).endswith("# guessed")


@pytest.mark.parametrize("plant", ["pump vented", "piston"])
def test_tanks_hold_what_was_asked_for_and_she_is_neutral_as_full_as_that_makes(
    plant: Kind,
) -> None:
    boat = made(held=0.0012, plant=plant)
    rooms = [pi / 4 * one.bore**2 * one.length * (1 - one.lost) for one in boat.boat.tanks]
    assert sum(rooms) == pytest.approx(0.0012, rel=0.01)  # of cylinders, without what fittings take
    her = Assessment(boat=boat.boat, files={})
    assert her.neutral == pytest.approx(boat.litres / 0.0012, abs=0.01)
    assert weighty(boat) == []


def test_tanks_too_small_leave_her_afloat() -> None:
    boat = made(held=0.0004)
    assert {tank.neutral for tank in boat.boat.tanks} == {1.0}
    assert not Assessment(boat=boat.boat, files={}).full.rest.under


def test_tanks_too_large_are_refused_with_what_there_is_room_for() -> None:
    with pytest.raises(StarterError, match=r"5 L do not fit .* room for about 3\.\d+ L"):
        made(held=0.005)


def test_two_cylinders_where_one_is_usual() -> None:
    assert len(made(cylinders=2, plant="piston").boat.cylinders) == 2
