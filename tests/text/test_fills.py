"""How full her plant makes her tanks: the bench and the dive say one figure, by Boyle's law."""

import pytest
from tests.cli.boats import demo
from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.hydrostatics.equilibrium.named import share
from trimdive.plant import systems
from trimdive.text.dive_text import dive_text, dived
from trimdive.text.fills import planned_words, stops_at
from trimdive.text.layout import Words


def closed_pumps() -> Assessment:
    """Return Bittern with pumps that press the air in tanks that are closed."""
    her = demo("bittern")
    fields = {"kind": "pump closed", "valve": None}
    plants = tuple(one.model_copy(update=fields) for one in her.boat.plants)
    return Assessment(boat=her.boat.model_copy(update={"plants": plants}), files=her.files)


def test_the_dive_says_where_the_pump_ends_as_the_bench_does() -> None:
    """Boyle: (p0 + head) (1 - f) = p0 (1 - f0); a tank closed with f0 in it fills to f."""
    her = closed_pumps()
    (name, full), _ = stops_at(her)
    one = systems(her)[0]
    before = one.blown / one.room
    by_hand = 1 - 101325 / (101325 + one.drive.head) * (1 - before)  # pyright: ignore
    assert full == pytest.approx(by_hand, abs=0.02)  # the pump sits a little below the surface
    said = f"fills its tank to {share(full)} and no farther"
    lines = [one.text for one in dive_text(dived(her, None)) if isinstance(one, Words)]
    assert any(said in text and text.lower().startswith(name) for text in lines)
    assert any(said in what_of(one) for one in her.bench_findings)


def test_a_plant_that_fills_its_tanks_is_not_told_of() -> None:
    assert stops_at(demo("bittern")) == ()


def test_dived_as_planned_is_told_apart_from_neutral() -> None:
    """Grebe's file plans 90 %; neutral she has 555 of 609 cm³, 91 %."""
    assert planned_words(demo("grebe")) == (
        "Dived: tanks 90 % full, as planned; she is neutral at 91 %."
    )
    tanks = tuple(
        one.model_copy(update={"neutral": demo("grebe").neutral})
        for one in demo("grebe").boat.tanks
    )
    her = demo("grebe")
    same = Assessment(boat=her.boat.model_copy(update={"tanks": tanks}), files=her.files)
    assert planned_words(same) == ""
