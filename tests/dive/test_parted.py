"""Bays by geometry, against closed forms: a box of a tank, and the formula with divisions."""

from itertools import pairwise

import numpy as np
import pytest
from tests.rest.crate import crate

from trimdive.assessment import Assessment
from trimdive.ballast.dive.parted import bays_of, divided, parted, two_tanks
from trimdive.errors import AskError
from trimdive.geometry.lines.mesh import volume
from trimdive.geometry.solids.build import tank_room
from trimdive.hydrostatics.equilibrium import rest

BOX = (
    'inside = "cylinder"\nlength = 72 -> shape = "box"\nbreadth = 80\nheight = 40\n'
    "length = {}\nz = 60\nmass = 1"
)
LEAD = "mass = 799.8 -> mass = 1800"


def boxed(length: int) -> Assessment:
    """Return the crate with a box of a tank, standing free, 80 mm broad."""
    return crate(tank=BOX.format(length), lead=LEAD)


def test_across_the_boat_by_the_closed_form() -> None:
    """0.30 × 0.08 m: i = l b³ / 12 = 1.28e-5 m⁴, 0.64 mm on 20 kg of fresh water; halved, 0.16.

    Worked out by hand from the formula of any text on ship stability.
    """
    boat = boxed(300)
    found = parted(boat, boat.dive, "tank", 2, "along")
    i = found.lost * found.before.displacement_mass / boat.water.density
    assert i == pytest.approx(0.30 * 0.08**3 / 12, rel=1e-3)
    assert i / 0.020 == pytest.approx(0.64e-3, rel=5e-3)
    assert found.left == pytest.approx(found.lost / 4, rel=1e-3)
    assert found.formula == pytest.approx(found.lost / 4)


@pytest.mark.parametrize("count", [2, 3, 5])
def test_along_the_boat_by_the_square_of_the_bays(count: int) -> None:
    boat = boxed(300)
    found = parted(boat, boat.dive[25:26], "tank", count)  # half full and level
    i = found.lost * found.before.displacement_mass / boat.water.density
    assert i == pytest.approx(0.08 * 0.30**3 / 12, rel=1e-3)
    assert found.left == pytest.approx(found.lost / count**2, rel=5e-3)
    assert found.after.gm_l - found.before.gm_l == pytest.approx(found.lost - found.left, rel=1e-3)


def test_one_bay_changes_nothing(bittern: Assessment) -> None:
    for bulkheads in ("across", "along"):
        found = parted(bittern, bittern.dive, "after tank", 1, bulkheads)
        assert found.after.gm_l == pytest.approx(found.before.gm_l, rel=1e-6)
        assert found.after.gm_t == pytest.approx(found.before.gm_t, rel=1e-6)
        assert found.left == pytest.approx(found.lost, rel=1e-6)


def test_more_bays_never_take_more(bittern: Assessment) -> None:
    left = [parted(bittern, bittern.dive, "after tank", n).left for n in (1, 2, 3, 4)]
    assert all(b < a for a, b in pairwise(left))


def test_bays_fill_the_room_and_hold_the_water_level(bittern: Assessment) -> None:
    """Full tanks in bays are full tanks: she rests as before."""
    room = tank_room(bittern.boat.tanks[0], bittern.boat, bittern.files)
    for way in ("across", "along"):
        bays = bays_of(room, 3, way, "tank")
        assert sum(volume(bay) for bay in bays) == pytest.approx(volume(room), rel=1e-12)
    ready, shares = divided(bittern, "forward tank", 3, "across")
    full = bittern.full_water
    there = rest(ready, np.append(full[1:], full[0] * shares))
    assert there.n == pytest.approx(bittern.full.rest.n, abs=1e-6)


def test_a_long_tank_should_be_two(bittern: Assessment) -> None:
    """0.9 m by 0.08 m on some 12 L: b l³ / 12 ∇ = 0.4 m against a BG of millimetres."""
    boat = boxed(900)
    found = two_tanks(boat, "tank", boat.floater.tanks.capacities * 0.5)
    by_hand = 0.08 * 0.9**3 / 12 / boat.floater.volume
    assert found.lost == pytest.approx(by_hand, rel=1e-3)
    assert found.better
    assert found.lost / found.bays**2 <= found.bg / 2
    assert found.lost / (found.bays - 1) ** 2 > found.bg / 2
    for tank in bittern.boat.tanks:
        assert not two_tanks(bittern, tank.name, bittern.dived.rest.waters).better


def test_what_cannot_be_parted(bittern: Assessment, grebe: Assessment) -> None:
    with pytest.raises(AskError, match="piston"):
        parted(grebe, grebe.dive, "piston tank", 2)
    with pytest.raises(AskError, match=r"there is no tank 'aft tank'.*after tank"):
        parted(bittern, bittern.dive, "aft tank", 2)
    for count in (0, -1, 51):
        with pytest.raises(AskError, match=f"{count} bays cannot be"):
            parted(bittern, bittern.dive, "after tank", count)
    with pytest.raises(AskError, match="never part full"):
        parted(bittern, bittern.dive[-1:], "after tank", 2)
