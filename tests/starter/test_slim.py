"""A slim new boat: what is aboard can do what is said beside it, and each guess has its ±.

Lithium-ion cells hold 100 to 265 Wh/kg (common knowledge, from memory, no source); small geared
motors give no more than some 200 W/kg in use (common practice, no source).
"""

from pathlib import Path

import pytest
from tests.larger_tube import new_boat

from trimdive.boatfile import parse
from trimdive.errors import StarterError
from trimdive.estimates.starter import Wish, starter
from trimdive.estimates.starter.balance import THINNEST, Bar, _cut
from trimdive.page.desk import opened
from trimdive.page.places.scales_rows import rows
from trimdive.text.first_boat import first_boat

MOST_ENERGY, MOST_POWER = 265.0, 200.0  # [Wh/kg], [W/kg]


def masses(text: str, name: str) -> float:
    """Return what all parts of a name weigh together [kg]."""
    return sum(one.mass or 0.0 for one in parse(text).parts if one.name.endswith(name))


@pytest.mark.parametrize("length", [0.6, 0.9, 1.4, 2.2, 3.0])
def test_battery_and_motor_weigh_what_holds_their_energy_and_power(length: float) -> None:
    made = starter(Wish(name="Dunlin", length=length))
    text, power = first_boat(made), made.power
    assert power.volts * power.charge / masses(text, "battery") < MOST_ENERGY
    assert power.power / masses(text, "motor and gear") < MOST_POWER


def test_in_a_slim_boat_too() -> None:
    """7.4 V and 2.4 Ah, and 8 W in use, as is said beside them."""
    text = new_boat()
    assert "7.4 V 2.4 Ah" in text
    assert "8 W in use" in text
    assert 7.4 * 2.4 / masses(text, "battery") < MOST_ENERGY
    assert 8.0 / masses(text, "motor and gear") < MOST_POWER


def test_no_guess_is_shown_as_known_to_the_gram(tmp_path: Path) -> None:
    file = tmp_path / "boat.toml"
    file.write_text(new_boat(), "utf-8")
    shown = {row.name: row.cells["spread"].comes_to for row in rows(opened(file))}
    assert len(shown) > 20
    assert [name for name, text in shown.items() if text.startswith("± 0 ")] == []


@pytest.mark.parametrize("share", [0.01, 0.1, 0.5, 1.0])
def test_no_bar_of_lead_is_a_foil(share: float) -> None:
    bar = Bar(mass=1.0, x=1.0, z=0.02, length=0.18, breadth=0.035, height=0.014)
    cut = _cut(bar, share)
    assert cut.height >= THINNEST
    assert cut.mass == pytest.approx(share * bar.mass)
    assert cut.length * cut.breadth * cut.height == pytest.approx(share * 0.18 * 0.035 * 0.014)
    assert cut.z - cut.height / 2 == pytest.approx(0.013), "on the same floor"


@pytest.mark.parametrize("length", [0.6, 1.1, 2.0, 3.1])
@pytest.mark.parametrize("breadth", [0.08, 0.11, 0.14])
def test_new_boats_have_bars_that_can_be_cut(length: float, breadth: float) -> None:
    try:
        text = first_boat(starter(Wish(name="Dunlin", length=length, breadth=breadth * length)))
    except StarterError:
        pytest.skip("no boat of such proportions")
    assert min(one.height for one in parse(text).lead if one.height) >= 0.0019
