"""Common practice, no source: what builders say to each other, held against our litres.

None of it is published; each figure is one that practitioners use, and each is derived beside it.
"""

from dataclasses import replace
from math import atan, degrees, pi

import numpy as np
import pytest
from tests.findings.checks import with_answers
from tests.rest.crate import crate

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.findings.ballast import tip_of

UPPERWORKS = """\
format = 1
name = "Upperworks"

[units]
length = "mm"

[waterline]
height = 100

[[cylinder]]
name = "cylinder"
outside = 60
wall = 3
length = "1 m"
x = 500
z = 50
mass = "3 kg"
"""
TWO_TANKS = """
[[tank]]
name = "fore tank"
length = "11 in"
bore = "{bore} in"
mass = "0.3 kg"
x = 700
z = 50

[[tank]]
name = "after tank"
length = "11 in"
bore = "{bore} in"
mass = "0.3 kg"
x = 300
z = 50
"""


def upperworks(mass: str, density: str, more: str = "") -> Assessment:
    """Return a boat with so much of one material above her waterline."""
    piece = (
        f'[[part]]\nname = "upperworks"\nmass = "{mass}"\ndensity = "{density}"\n'
        'x = 500\nz = 600\nshape = "box"\nlength = 600\nbreadth = 100\nheight = 100\nopen = true\n'
    )
    return Assessment(boat=parse(UPPERWORKS + piece + more), files={})


def test_rule_of_thumb() -> None:
    """3.9 kg above the waterline by the rule of thumb is 3.9 L."""
    need = upperworks("3.9 kg", "1.60 g/cm3").need
    assert need.mass_above == pytest.approx(3.9, rel=1e-9)
    assert need.volume == pytest.approx(3.9 / 1.6e3, rel=1e-9)


@pytest.mark.parametrize(("bore", "more"), [("3.9", 0.10), ("3.75", 0.02)])
def test_two_tanks_eleven_inches_long(bore: str, more: float) -> None:
    """With 3.9 in of bore two hold about 10 % more than 3.9 L, with 3.75 in about 2 %."""
    boat = upperworks("3.9 kg", "1 g/cm3", TWO_TANKS.format(bore=bore))
    by_hand = 2 * pi / 4 * (float(bore) * 0.0254) ** 2 * 11 * 0.0254
    assert boat.need.fitted == pytest.approx(by_hand, rel=1e-9)
    assert boat.need.fitted / 3.9e-3 - 1 == pytest.approx(more, abs=5e-3)
    assert boat.need.margin == pytest.approx(more, abs=5e-3)


def test_rule_asks_glass_fibre_for_too_much() -> None:
    """Upperworks of 3.0 kg at 1.6: 1.9 L needed, the rule with its 10 % gives 3.3 L."""
    need = upperworks("3 kg", "1.6 g/cm3").need
    assert need.volume * 1e3 == pytest.approx(1.9, abs=0.05)
    assert need.mass_above * 1.1 == pytest.approx(3.3, abs=0.05)


def test_rule_asks_a_sealed_box_for_too_little() -> None:
    """1.2 kg of ABS and a sealed box of 0.8 L: 1.9 L needed, the rule gives 1.3 L."""
    sealed = '[[part]]\nname = "box"\nmass = "0 g"\nvolume = "0.8 L"\nx = 500\nz = 800\n'
    need = upperworks("1.2 kg", "1.05 g/cm3", sealed).need
    assert need.volume * 1e3 == pytest.approx(1.9, abs=0.05)
    assert need.mass_above * 1.1 == pytest.approx(1.3, abs=0.05)


def test_a_square_metre_a_millimetre_thick_is_a_litre() -> None:
    """1 m² of skin above the waterline × 1 mm of wall: 1 L, less what the edges share.

    The crate has 2 × (1.0 + 0.2) × 0.05 + 1.0 × 0.2 = 0.32 m² above, 2 mm thick.
    """
    assert crate().need.volume == pytest.approx(0.32 * 0.002, rel=0.02)


def test_tank_fifty_millimetres_off_ends_twelve_degrees_down() -> None:
    """1.9 kg of water 50 mm off on 30 kg with 15 mm of BG: atan(95 / 450) = 11.92°, about 12°."""
    facts = crate()
    answer = with_answers(
        facts,
        need=replace(
            facts.need, volume=1.9e-3, water_place=facts.need.place + np.array([0.05, 0, 0])
        ),
        dived=replace(facts.dived, displacement_mass=30.0),
        bg=0.015,
    )
    assert degrees(tip_of(answer)) == pytest.approx(degrees(atan(95 / 450)), abs=0.02)
    assert round(degrees(tip_of(answer))) == 12


def test_what_the_formula_tells_is_how_she_hangs() -> None:
    """Tank full and no slack surface left: the formula's angle is the angle at rest."""
    full = "length = 72\nx = 500 -> length = 61.685\nx = 510"  # so long that the need fills it
    found = crate(tank=full)
    assert found.need.filling == pytest.approx(1.0, abs=1e-4)
    assert found.dived.trim_angle == pytest.approx(tip_of(found), rel=2e-3)


DRY_HULL = """\
format = 1
name = "Dry hull"

[units]
length = "in"

[waterline]
height = 4.6

[[region]]
name = "hull"
surface = "myring"
nose = 22
middle = 46
tail = 40
diameter = "8 1/2 in"
power = 2.0
tail_angle = "15°"
z = 4.25
sealed = true
mass = "9 kg"
known = "weighed"

[[part]]
name = "all that is in her"
mass = "{inside} kg"
known = "weighed"
x = {x}
z = 2
inside = "hull"
"""


def test_nine_feet_built_dry_is_more_than_two_should_lift() -> None:
    """A dry hull weighs what her outside shape displaces: 9 ft by 8 1/2 in, some 43 kg to 4.6 in.

    The volume is counted once more here from the profile's own formula in thin slices.
    """
    empty = Assessment(boat=parse(DRY_HULL.format(inside=1, x=54)), files={})
    below = empty.floater.volume - empty.need.volume
    slices = _below(4.6 * 0.0254)
    assert below == pytest.approx(slices, rel=1e-3)
    inside = 999.1026 * below - 9
    boat = Assessment(boat=parse(DRY_HULL.format(inside=inside, x=54)), files={})
    mass = boat.floater.mass
    assert mass > 33  # two thirds of two times 25 kg: L23, Manual Handling, guidance, from memory
    lifts = [one for one in boat.first_findings if one.key == "lift-two"]
    assert len(lifts) == 1
    assert lifts[0].weight == "look at"


def _below(height: float) -> float:
    """Return the volume of the dry hull below this height [m³], by 4000 slices along her."""
    inch, r0 = 0.0254, 4.25
    x = (np.arange(4000) + 0.5) / 4000 * 108
    nose, tail = 22.0, 40.0
    t = np.radians(15)
    s = np.clip(tail - x, 0, None)
    aft = r0 - (3 * 2 * r0 / (2 * tail**2) - np.tan(t) / tail) * s**2
    aft = aft + (2 * r0 / tail**3 - np.tan(t) / tail**2) * s**3
    fore = r0 * np.sqrt(np.clip(1 - (np.clip(x - 86, 0, None) / nose) ** 2, 0, None))
    r = np.minimum(aft, fore)
    h = np.clip(r0 - height / inch, -r, r)  # of the axis over the water, down is positive
    area = r**2 * np.arccos(h / r) - h * np.sqrt(r**2 - h**2)
    return float(area.sum() * 108 / 4000 * inch**3)
