"""The moves by name: foam above the waterline, and lead low with foam high in pairs.

Each is put into the boat and she is assessed again; the laws are those of two states in balance.
"""

import pytest
from tests.rest.crate import crate

from trimdive.ballast.need import foam_instead, pair_for_bg
from trimdive.ballast.need.moves import UNDER, foam_across

RHO = 999.1026
FOAM, LEAD = 35.0, 11340.0


def foam_at(volume: float, x: float, z: float) -> str:
    """Return a flat board of foam, 20 mm thick and 100 broad, as the boat file has it."""
    return (
        f'[[foam]]\nname = "new foam"\nx = {x * 1e3:.9f}\nz = {z * 1e3:.9f}\nshape = "box"\n'
        f'length = "{volume / 0.002 * 1e3:.12f} mm"\nbreadth = 100\nheight = 20\n'
        f'density = "{FOAM} kg/m3"\n'
    )


@pytest.mark.parametrize("x", [560, 430])
def test_foam_above_brings_the_middle_over_the_tank(x: int) -> None:
    """With the foam in, and its own litres taken, the tank lies under the middle: offset 0."""
    change = f"length = 72\nx = 500 -> length = 90\nx = {x}"
    before = crate(tank=change).need
    assert before.offset == pytest.approx(x / 1000 - 0.5, abs=1e-8)
    foam = foam_instead(before, (0.0, 1.0))
    assert foam is not None
    arm = 0.8 * ((1.0 if x > 500 else 0.0) - x / 1000)
    assert foam.x == pytest.approx(x / 1000 + arm, abs=1e-8)
    assert foam.volume == pytest.approx(before.volume * before.offset / arm, rel=1e-6)
    after = crate(foam_at(foam.volume, foam.x, 0.16), tank=change).need
    assert after.offset == pytest.approx(0.0, abs=1e-7)
    assert after.volume == pytest.approx(before.volume + foam.volume, rel=1e-7)


def test_no_foam_where_nothing_is_off() -> None:
    assert foam_instead(crate().need, (0.0, 1.0)) is None


def test_worked_case_of_the_trade() -> None:
    """50 mm off with 1.9 kg, the cure at 0.9 m of arm: about 105 g of foam lift, 0.1 L more water.

    Common practice, no source: 1.9 L × 50 / 900 = 105.6 cm³.
    """
    tank = 0.65  # a tank from which the end lies 1.125 m away: 0.8 of that is 0.9 m
    need = crate(tank=f"length = 72\nx = 500 -> length = 72\nx = {tank * 1000:g}").need
    foam = foam_instead(need, (0.0, tank + 0.9 / 0.8))
    assert foam is not None
    assert foam.x - tank == pytest.approx(0.9, abs=1e-7)
    per_litre = foam.volume / need.volume / need.offset
    assert per_litre * 1.9e-3 * 0.050 == pytest.approx(105e-6, abs=1e-6)


@pytest.mark.parametrize("gain", [0.001, 0.004])
def test_lead_and_foam_in_pairs_raise_bg_and_leave_the_rest(gain: float) -> None:
    plain = crate()
    pair = pair_for_bg(
        gain, (plain.dived.displacement_mass, plain.bg), (0.006, 0.11), (RHO, LEAD, FOAM)
    )
    assert pair.lead * (1 - RHO / LEAD) == pytest.approx(pair.foam * (RHO - FOAM), rel=1e-9)
    lead = f"[[lead]]\nmass = {pair.lead * 1e3:.9f}\nx = 500\nz = 6\n"
    after = crate(lead + foam_at(pair.foam, 0.5, 0.11))
    assert after.bg - plain.bg == pytest.approx(gain, rel=2e-3)
    assert after.surfaced.draught(0.5) == pytest.approx(plain.surfaced.draught(0.5), abs=5e-6)
    assert after.need.volume == pytest.approx(plain.need.volume, rel=1e-9)
    assert after.neutral == pytest.approx(plain.neutral, abs=1e-4)
    assert after.surfaced.gm_t > plain.surfaced.gm_t


def test_foam_moved_straight_up_across_the_waterline_leaves_the_dived_state_alone() -> None:
    """Weight, its middle along her and neutral filling stay; surfaced she sinks deeper by it."""
    low, high = crate(foam_at(40e-6, 0.6, 0.11)), crate(foam_at(40e-6, 0.6, 0.15))
    assert high.neutral == pytest.approx(low.neutral, abs=1e-9)
    assert high.dived.displacement_mass == pytest.approx(low.dived.displacement_mass, rel=1e-9)
    assert high.dived.lcb == pytest.approx(low.dived.lcb, abs=2e-5)
    assert high.bg > low.bg  # foam up raises B
    assert high.need.volume == pytest.approx(low.need.volume + 40e-6, rel=1e-6)
    deeper = high.surfaced.draught(0.6) - low.surfaced.draught(0.6)
    assert deeper > 40e-6 / (low.surfaced.waterplane_area * 1.5)
    assert low.surfaced.trim_angle < 0 < high.surfaced.trim_angle + 2e-3


def test_lead_moved_below_the_waterline_cannot_level_both_states() -> None:
    """Tank 20 mm forward; all the lead moved aft: what it mends dived it spoils surfaced."""
    change = "length = 72\nx = 500 -> length = 72\nx = 520"
    level = crate(tank=change)
    shifted = crate(tank=change, lead="x = 500\nz = 8 -> x = 480\nz = 8")
    assert abs(level.surfaced.trim_angle) < 1e-6
    assert level.need.offset == pytest.approx(shifted.need.offset, abs=1e-9)
    assert abs(shifted.dived.trim_angle) < abs(level.dived.trim_angle)
    assert shifted.surfaced.trim_angle < -1e-3


def test_foam_across_sinks_her_and_raises_bg_as_told() -> None:
    """10 cm³ from 20 mm under to 20 mm over: 10 / 4.784 = 2.09 mm deeper; M BG grows by 40 mm.

    The waterplane is the skin's edge, 4784 mm²; foam of 33 kg/m³ lifts 0.966 g for each cm³.
    """
    low, high = (crate(board(z)) for z in (0.130 - UNDER, 0.130 + UNDER))
    answer = foam_across(10e-6, 4784e-6, low.dived.displacement_mass, RHO)
    assert answer is not None
    assert answer.sinks == pytest.approx(10e-6 / 4784e-6, rel=1e-9)
    deeper = high.surfaced.draught(0.5) - low.surfaced.draught(0.5)
    assert deeper == pytest.approx(answer.sinks, rel=5e-3)
    assert high.bg - low.bg == pytest.approx(answer.gain, rel=5e-3)


def board(z: float) -> str:
    return (
        f'[[foam]]\nname = "board"\nx = 500\nz = {z * 1e3}\nshape = "box"\nlength = 50\n'
        'breadth = 20\nheight = 10\ndensity = "33 kg/m3"\n'
    )
