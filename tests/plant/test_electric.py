"""Fuses and wires: Ohm's law by hand, and the tables' own order."""

from itertools import pairwise

import pytest

from trimdive.assessment import Assessment
from trimdive.data import table
from trimdive.errors import PlantError
from trimdive.plant import fuse_for, wire_drop, wire_for, wires
from trimdive.plant.failsafe import feeding


def test_a_metre_of_copper() -> None:
    """1/58 Ω mm² a metre (IEC 60028): 10 A through 1 m of 1.5 mm² and back lose 0.23 V."""
    assert wire_drop(10.0, 1.5e-6, 1.0) == pytest.approx(2 * 10 / 58 / 1.5, rel=1e-4)
    with pytest.raises(PlantError, match="Give copper above 0"):
        wire_drop(1.0, 0.0, 1.0)


@pytest.mark.parametrize(("drawn", "fuse"), [(0.7, 1), (2.4, 3), (4.0, 5), (6.1, 10), (12.0, 15)])
def test_the_next_fuse_a_quarter_above(drawn: float, fuse: float) -> None:
    assert fuse_for(drawn) == fuse


def test_the_fuse_protects_the_wire() -> None:
    """Short: by what it carries (7.5 A on 1 mm²). Long: by what is lost: 3 % of 7.4 V at 6 A."""
    assert wire_for(7.5, 6.0, 0.1, 12.0) == pytest.approx(1e-6)
    long = wire_for(7.5, 6.0, 1.0, 7.4)
    assert long == pytest.approx(1e-6)
    assert wire_drop(6.0, long, 1.0) <= 0.03 * 7.4 < wire_drop(6.0, 0.75e-6, 1.0)


def test_too_much_for_the_tables_is_said() -> None:
    with pytest.raises(PlantError, match=r"The largest of the table is 80 A"):
        fuse_for(70.0)
    with pytest.raises(PlantError, match="lay two, or shorten it"):
        wire_for(80.0, 60.0, 10.0, 7.4)


def test_thicker_wires_carry_more() -> None:
    for thin, thick in pairwise(wires()):
        assert thin.area < thick.area
        assert thin.carries < thick.carries
    sold = [float(entry["current"]) for entry in table("fuses")]
    assert sold == sorted(sold)


def test_what_bitterns_batteries_feed(bittern: Assessment) -> None:
    """Each its own pump; the after one the motors too: 5 A and the pump's 1.9 A ask for 10 A."""
    forward, after = feeding(bittern)
    assert forward.drive == 1.0
    assert forward.draws == pytest.approx(forward.plant + 1.0)
    assert after.fuse_wanted == 10.0
    assert after.wire_wanted == pytest.approx(2.5e-6)  # for the 15 A fuse that is in
    assert after.drop < after.drop_allowed
