"""Litres of the crate worked by hand: what stands above 130 mm, where, and what the tank gives.

Skin above the waterline: 1000 × 200 × 50 less 996 × 196 × 48 mm, 629.632 cm³ at x 500, z by hand.
"""

from math import pi

import numpy as np
import pytest
from tests.rest.crate import crate

from trimdive.ballast.need import ranges, split

RHO = 999.1026  # fresh water at 15 °C [kg/m³]: Metrologia 38, 2001
OUTER, INNER = 1.0 * 0.2 * 0.05, 0.996 * 0.196 * 0.048
SKIN = OUTER - INNER
SKIN_Z = (OUTER * 0.155 - INNER * 0.154) / SKIN

HOUSE = """
[[part]]
name = "house"
mass = 20
x = 700
z = 200
shape = "box"
length = 50
breadth = 40
height = 20
"""
BLOCK = """
[[foam]]
name = "block"
volume = 30
x = 620
z = 150
density = "35 kg/m3"
"""
SECOND_TANK = """
[[tank]]
name = "fore tank"
inside = "cylinder"
length = 72
x = 640
"""


def test_bare_crate() -> None:
    need = crate().need
    assert pytest.approx(629.632e-6, rel=1e-12) == SKIN
    assert need.volume == pytest.approx(SKIN, rel=1e-9)
    assert need.place == pytest.approx([0.5, 0.0, SKIN_Z], abs=1e-9)
    assert need.mass_above == pytest.approx(SKIN * 1600, rel=1e-9)
    room = pi / 4 * 0.114**2 * 0.072
    assert need.fitted == pytest.approx(room, rel=1e-9)
    assert need.filling == pytest.approx(SKIN / room, rel=1e-9)
    assert need.margin == pytest.approx(room / SKIN - 1, rel=1e-9)
    assert need.offset == pytest.approx(0.0, abs=1e-9)


def test_house_and_foam_count_by_volume() -> None:
    """40 cm³ of house and 30 cm³ of foam: 699.632 cm³ in all; the rule counts what they weigh."""
    need = crate(HOUSE + BLOCK).need
    volume = SKIN + 40e-6 + 30e-6
    x = (SKIN * 0.5 + 40e-6 * 0.7 + 30e-6 * 0.62) / volume
    z = (SKIN * SKIN_Z + 40e-6 * 0.2 + 30e-6 * 0.15) / volume
    assert need.volume == pytest.approx(volume, rel=1e-9)
    assert need.place == pytest.approx([x, 0.0, z], abs=1e-8)
    foam = 30e-6 * 35
    assert need.mass_above == pytest.approx(SKIN * 1600 + 0.020 + foam, rel=1e-9)
    assert [share.name for share in need.shares] == ["hull", "house", "block"]
    assert need.offset == pytest.approx(0.5 - x, abs=1e-8)


def test_a_body_across_the_waterline_counts_by_what_is_above() -> None:
    """A block 40 mm high with its middle 10 mm under the waterline: a quarter of it is above."""
    post = HOUSE.replace("z = 200", "z = 120").replace("height = 20", "height = 40")
    need = crate(post).need
    share = next(share for share in need.shares if share.name == "house")
    assert share.volume == pytest.approx(0.05 * 0.04 * 0.01, rel=1e-9)
    assert share.mass == pytest.approx(0.020 / 4, rel=1e-9)
    assert share.x == pytest.approx(0.7, abs=1e-9)


def test_mass_without_volume_counts_only_for_the_rule() -> None:
    bell = '[[part]]\nname = "bell"\nmass = 55\nx = 500\nz = 190\nvolume = 0\n'
    plain, with_bell = crate().need, crate(bell).need
    assert with_bell.volume == pytest.approx(plain.volume, rel=1e-12)
    assert with_bell.mass_above == pytest.approx(plain.mass_above + 0.055, rel=1e-9)


def test_masses_inside_a_vessel_never_count() -> None:
    inside = '[[part]]\nname = "top load"\nmass = 55\nx = 500\nz = 140\ninside = "cylinder"\n'
    assert crate(inside).need.mass_above == pytest.approx(crate().need.mass_above, rel=1e-12)


def test_sloping_waterline() -> None:
    """130 mm at x 500, 12 mm higher at the bow than at the stern: by hand as a wedge.

    Above a plane of slope s the box (outer or inner) of half length a has its centroid moved aft by
    s a² / (3 h), h its mean height above the plane; volumes stay, end walls included.
    """
    line = "[waterline]\naft = { x = 0, height = 124 }\nfore = { x = 1000, height = 136 }"
    need = crate(line="[waterline]\nheight = 130 -> " + line).need
    outer = 0.5 - 0.012 * 0.5**2 / (3 * 0.05)
    inner = 0.5 - 0.012 * 0.498**2 / (3 * 0.048)
    assert need.volume == pytest.approx(SKIN, rel=1e-9)
    assert need.place[0] == pytest.approx((OUTER * outer - INNER * inner) / SKIN, abs=1e-8)


def test_water_that_will_not_come_out_and_air_that_will_not() -> None:
    dead = "length = 72\nx = 500 -> length = 72\nx = 500\ndead_water = 20\ndead_air = 15"
    found = crate(tank=dead)
    room = pi / 4 * 0.114**2 * 0.072
    assert found.need.fitted == pytest.approx(room - 35e-6, rel=1e-9)
    assert found.blown_water == pytest.approx([20e-6])
    assert found.full_water == pytest.approx([room - 15e-6])
    assert found.need.filling == pytest.approx((SKIN + 20e-6) / room, rel=1e-9)


def test_more_than_the_tank_holds() -> None:
    need = crate(tank="length = 72 -> length = 50").need
    room = pi / 4 * 0.114**2 * 0.050
    assert need.margin == pytest.approx(room / SKIN - 1, rel=1e-9)
    assert need.margin < 0
    assert need.filling == pytest.approx(1.0)
    assert need.takes == pytest.approx([room], rel=1e-9)


def test_piston_water_begins_at_its_end() -> None:
    """From x 540 aft: with the need in, its middle lies half of the used stroke aft of the end."""
    piston = 'length = 72\nx = 500 -> kind = "piston"\nwater_end = 540\nstroke = 72\nruns = "aft"'
    need = crate(tank=piston).need
    used = SKIN / (pi / 4 * 0.114**2)
    assert need.water_place[0] == pytest.approx(0.540 - used / 2, abs=1e-8)
    assert need.offset == pytest.approx(0.540 - used / 2 - 0.5, abs=1e-8)


def test_open_water_lies_at_the_bottom_of_its_tank() -> None:
    """Height of the middle of a circular segment below its surface, by its own formula."""
    found = crate()
    part = found.need.filling
    theta = _segment(part)
    z = 0.060 - (2 * 0.057 * np.sin(theta / 2) ** 3) / (3 * (theta - np.sin(theta)) / 2)
    assert found.need.water_place[2] == pytest.approx(z, abs=2e-5)  # 64 sides stand for a circle


def _segment(share: float) -> float:
    """Return the angle of the circular segment that is this share of the circle [rad]."""
    low, high = 0.0, 2 * pi
    for _ in range(60):
        theta = (low + high) / 2
        low, high = (theta, high) if (theta - np.sin(theta)) / 2 < share * pi else (low, theta)
    return theta


def test_one_filling_of_two_tanks() -> None:
    need = crate(SECOND_TANK).need
    room = pi / 4 * 0.114**2 * 0.072
    assert need.filling == pytest.approx(SKIN / (2 * room), rel=1e-9)
    assert need.takes == pytest.approx([SKIN / 2, SKIN / 2], rel=1e-9)
    assert need.offset == pytest.approx((0.5 + 0.64) / 2 - 0.5, abs=1e-8)


def test_two_tanks_split_so_that_their_centre_is_right() -> None:
    """Tanks at 500 and 640: the fore one takes the lever of what is above over the after one."""
    found = crate(SECOND_TANK + HOUSE.replace("x = 700", "x = 980"))
    volume = SKIN + 40e-6
    x = (SKIN * 0.5 + 40e-6 * 0.98) / volume
    fore = volume * (x - 0.5) / 0.14
    room = pi / 4 * 0.114**2 * 0.072
    wanted = ((volume - fore) / room, fore / room)
    assert split(found.floater, found.need) == pytest.approx(wanted, rel=1e-7)


def test_no_split_where_one_would_have_to_go_below_empty() -> None:
    found = crate(SECOND_TANK + HOUSE.replace("x = 700", "x = 20"))
    assert split(found.floater, found.need) is None


def test_no_split_of_one_tank() -> None:
    found = crate()
    assert split(found.floater, found.need) is None


def test_the_need_is_what_makes_her_neutral() -> None:
    """Floating at her waterline blown, she is neutral dived with just the need in her tank."""
    found = crate()
    assert found.surfaced.draught(0.5) == pytest.approx(0.130, abs=5e-6)
    assert found.neutral == pytest.approx(found.need.filling, abs=1e-4)
    assert found.dived.displacement_mass == pytest.approx(RHO * found.floater.volume, rel=1e-5)


def test_three_tanks_have_a_range_of_ways() -> None:
    """At 360, 500 and 640 round a need at 500: the outer two are alike, t, the middle V/C - 2 t.

    With V/C = 0.857 and all between empty and full, t runs from 0 to 0.428, the middle to 0.857.
    """
    third = SECOND_TANK.replace("fore tank", "after tank").replace("x = 640", "x = 360")
    found = crate(SECOND_TANK + third)
    share = SKIN / (pi / 4 * 0.114**2 * 0.072)
    (middle, fore, after) = ranges(found.floater, found.need, np.ones(3)) or ((), (), ())
    assert middle == pytest.approx((0.0, share), abs=1e-7)
    assert fore == pytest.approx((0.0, share / 2), abs=1e-7)
    assert after == pytest.approx((0.0, share / 2), abs=1e-7)


def test_two_tanks_have_one_way_in_their_range() -> None:
    found = crate(SECOND_TANK + HOUSE.replace("x = 700", "x = 980"))
    way = split(found.floater, found.need)
    assert way is not None
    for one, (low, high) in zip(
        way, ranges(found.floater, found.need, np.ones(2)) or (), strict=True
    ):
        assert low == pytest.approx(high, abs=1e-7)
        assert low == pytest.approx(one, abs=1e-7)


def test_the_second_tank_waits_for_the_first() -> None:
    """The first alone holds the need: filled in order, no water is in the second when neutral."""
    need = crate(SECOND_TANK + "order = 2\n").need
    assert need.takes == pytest.approx([SKIN, 0.0], abs=1e-9)
    assert need.offset == pytest.approx(0.0, abs=1e-8)
