"""What readings should be: freeboards on both sides, lead laid on deck, other waters."""

import datetime
from functools import cache
from math import tan
from pathlib import Path

import numpy as np
import pytest

from trimdive.assessment import Assessment, assess
from trimdive.boatfile.tub import Reading
from trimdive.trials.readings import Off, averaged, listed, predicted, rows_of

GREBE = Path(__file__).parents[2] / "boats" / "grebe" / "boat.toml"
DAY = datetime.date(2026, 11, 25)


@cache
def leaning() -> tuple[Assessment, Off]:
    """Grebe with her battery 5 mm to starboard, so that she leans."""
    plain = assess(GREBE)
    parts = tuple(
        part.model_copy(update={"y": -0.005}) if part.name == "battery" else part
        for part in plain.boat.parts
    )
    boat = plain.boat.model_copy(update={"parts": parts})
    her = Assessment(boat=boat, files=plain.files)
    ready = listed(boat, plain.files)
    return her, Off(her=ready, off=np.zeros(len(ready.sources)))


def test_freeboards_of_both_sides_differ_by_the_lean() -> None:
    """60 mm to either side: twice that times the tangent of the lean, plane geometry."""
    her, ready = leaning()
    port, starboard = (
        Reading(date=DAY, at="middle", freeboard=0.03, edge=0.13, side=side, y=0.06)
        for side in ("port", "starboard")
    )
    apart = predicted(ready, port)[0] - predicted(ready, starboard)[0]
    assert her.surfaced.heel > 0.01  # to starboard: the port side is high
    assert apart == pytest.approx(2 * 0.06 * tan(her.surfaced.heel), rel=1e-4)


def test_a_draught_and_the_freeboard_beside_it_make_the_height_of_the_edge() -> None:
    _, ready = leaning()
    draught = predicted(ready, Reading(date=DAY, at="bow", draught=0.1))[0]
    freeboard = predicted(ready, Reading(date=DAY, at="bow", freeboard=0.0, edge=0.145))[0]
    assert draught + freeboard == pytest.approx(0.145)


def test_lead_laid_on_deck_counts_as_it_pulls_under_water() -> None:
    """20 g of lead pull 20 (1 - 999.1/11340) = 18.24 g, by hand; scales would read it below 0."""
    _, ready = leaning()
    laid = Reading(date=DAY, laid_aft=0.02, laid_fore=0.0, x_aft=0.1, x_fore=1.2)
    aft, fore = rows_of(ready, averaged([laid]))
    assert aft.read == pytest.approx(0.01824, abs=5e-6)
    assert fore.read == pytest.approx(0.0)
    scales = Reading(date=DAY, pull_aft=0.0, pull_fore=0.0, x_aft=0.1, x_fore=1.2)
    assert predicted(ready, laid) == pytest.approx([-pull for pull in predicted(ready, scales)])


def test_sea_water_carries_her_as_much_higher() -> None:
    """Dived in the sea she is lighter by her volume times the difference of densities.

    Sea water of practical salinity 35, 35.165 g/kg, at 15 °C: 1025.97 kg/m³; fresh 999.10 (UNESCO
    1981, from memory).
    """
    her, ready = leaning()
    fresh = Reading(date=DAY, pull_aft=0.0, pull_fore=0.0, x_aft=0.1, x_fore=1.2)
    sea = fresh.model_copy(update={"water": "sea", "salt": 35.165})
    lighter = sum(predicted(ready, fresh)) - sum(predicted(ready, sea))
    volume = her.floater.volume - float(her.full_water.sum())
    assert lighter == pytest.approx(volume * (1025.97 - 999.10), rel=1e-3)


def test_what_a_tank_gives_is_its_room_less_what_stays_in() -> None:
    """A piston of 78 mm bore and 130 mm stroke, 2 % lost: 608.8 ml, by hand."""
    _, ready = leaning()
    one = Reading(date=DAY, litres=0.0006, tank="piston tank")
    assert predicted(ready, one)[0] == pytest.approx(0.98 * np.pi / 4 * 0.078**2 * 0.13)
