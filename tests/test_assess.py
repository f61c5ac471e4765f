"""The order of work: what hangs on what, and that nothing changes the boat that was given."""

from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from tests.rest.crate import CRATE, crate

from trimdive.assessment import Assessment, assess
from trimdive.boatfile import load, parse
from trimdive.errors import BoatError, GeometryError
from trimdive.findings import Edit

TANK = '[[tank]]\nname = "tank"\ninside = "cylinder"\nlength = 72\nx = 500\n'


def test_a_file_a_path_or_what_was_loaded(tmp_path: Path) -> None:
    file = tmp_path / "crate.toml"
    file.write_text(CRATE, "utf-8")
    whole = crate().floater.mass
    for given in (file, str(file), load(file)):
        assert assess(given).floater.mass == whole


def test_answers_are_worked_out_once() -> None:
    boat = crate()
    assert boat.dive is boat.dive
    assert boat is boat


def test_no_waterline() -> None:
    boat = crate(line="[waterline]\nheight = 130\n -> ")
    with pytest.raises(BoatError, match="waterline"):
        assert boat.need
    assert boat.surfaced.draught(0.5) == pytest.approx(0.130, abs=5e-6)  # she floats all the same


def test_nothing_that_displaces() -> None:
    bare = 'format = 1\nname = "Nothing"\n[waterline]\nheight = "10 mm"\n'
    boat = Assessment(boat=parse(bare), files={})
    with pytest.raises(GeometryError, match="nothing displaces"):
        assert boat.floater


def test_dive_goes_from_blown_to_full() -> None:
    dive = crate().dive
    fillings = [moment.filling for moment in dive]
    assert fillings[0] == 0.0
    assert fillings[-1] == 1.0
    assert fillings == sorted(fillings)
    displaced = [moment.state.displacement_mass for moment in dive]
    steps = np.diff(displaced)
    assert steps == pytest.approx(np.full(len(steps), steps[0]), rel=1e-9)
    out = [moment.state.reserve for moment in dive]
    assert all(a >= b - 1e-12 for a, b in pairwise(out))
    assert dive[-1].state.rest.under


def test_the_dive_ends_where_full_is() -> None:
    boat = crate()
    afresh = boat.at(boat.full_water)
    assert boat.full.rest.excess == pytest.approx(afresh.rest.excess, abs=1e-12)
    assert boat.full.rest.excess == pytest.approx(
        999.1026 * (boat.need.fitted - 629.632e-6), abs=5e-5
    )


def test_neutral_dived_is_neither_light_nor_heavy() -> None:
    boat = crate()
    assert boat.dived.rest.under
    assert boat.dived.rest.excess == pytest.approx(0.0, abs=1e-6)
    assert boat.dived.rest.waters.sum() / boat.floater.tanks.capacities.sum() == pytest.approx(
        boat.neutral, rel=1e-9
    )


def test_without_a_tank() -> None:
    boat = crate(tank=f"{TANK} -> ")
    assert boat.neutral == float("inf")
    assert boat.full is boat.surfaced
    assert boat.need.fitted == 0
    assert boat.dived.rest.under


def test_an_edit_makes_another_boat() -> None:
    boat = crate()
    before = boat.surfaced.trim_angle
    after = boat.edited((Edit(action="set", path="part[1]", fields=(("x", 0.64),)),))
    assert after.surfaced.trim_angle > before + 0.01
    assert boat.boat.parts[0].x == 0.62
    assert after.hull.skins is boat.hull.skins  # no part of the hull changed: it is kept


def test_another_water() -> None:
    """Sea water of 35 g/kg at 15 °C: 1026 kg/m³, so she rises by what 2.7 % more lift lets go."""
    boat = crate()
    sea = boat.in_water("sea", 15.0, 35.0)
    assert sea.water.density == pytest.approx(1025.97, abs=0.3)
    assert sea.surfaced.draught(0.5) < boat.surfaced.draught(0.5)
    assert sea.floater.mass == boat.floater.mass
    lift = (sea.water.density - boat.water.density) * boat.floater.volume
    assert boat.full.rest.excess - sea.full.rest.excess == pytest.approx(
        lift - (sea.water.density - boat.water.density) * boat.need.fitted, abs=1e-6
    )


def test_other_ways_to_rest_hold() -> None:
    """The crate on her side or head: each is a rest that holds, and none is the upright one."""
    boat = crate()
    for one in boat.others:
        assert one.rest.stable
        assert float(one.rest.n @ boat.surfaced.rest.n) < 0.9999


def test_film_pulls_by_the_length_of_the_edges() -> None:
    """Twice the round of the skin, outer and inner face: 4.78 m at 7.42 g/m, 35 g.

    72.74 mN/m at 20 °C over 9.80665: Revised release on surface tension, R1-76(2014).
    """
    edges = 2 * (1.0 + 0.2) + 2 * (0.996 + 0.196)
    assert crate().film == pytest.approx(edges * 0.07274 / 9.80665, rel=5e-3)
