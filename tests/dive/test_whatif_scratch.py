"""What if: every kind of case against a boat file written by hand for it and assessed anew."""

from math import pi

import pytest
from tests.rest.crate import CRATE, crate

from trimdive.assessment import Assessment
from trimdive.ballast.dive.whatif import (
    Case,
    cases,
    exchanged,
    flooded,
    left_at_home,
    stuck_empty,
    stuck_full,
    tower_full,
)
from trimdive.boatfile import parse
from trimdive.errors import AskError
from trimdive.findings import Edit
from trimdive.hydrostatics.equilibrium import State
from trimdive.text.whatif_text import case_name

TUBE = pi / 4 * ((0.120**2 - 0.114**2) * 0.600 + 2 * 0.114**2 * 0.003)  # wall and two caps [m³]
TOWER = """
[[region]]
name = "tower"
surface = "prism"
outline = "box"
x_aft = 520
x_fore = 620
breadth = 40
z_bottom = 150
z_top = 240
{}
"""
THICK = "999.1025717180356 kg/m³"  # of the water


def same(case: Case, scratch: State) -> None:
    """Check a case against a state worked out otherwise."""
    found = case.state
    assert found.displacement_mass == pytest.approx(scratch.displacement_mass, rel=1e-6)
    assert found.reserve == pytest.approx(scratch.reserve, abs=1e-9)
    assert found.rest.n == pytest.approx(scratch.rest.n, abs=1e-6)
    assert found.gm_t == pytest.approx(scratch.gm_t, rel=1e-4, abs=1e-8)
    assert found.gm_l == pytest.approx(scratch.gm_l, rel=1e-4, abs=1e-8)


def as_file(text: str) -> Assessment:
    return Assessment(boat=parse(text), files={})


def without(text: str, heads: tuple[str, ...]) -> str:
    """Return a boat file without all tables of some kinds."""
    blocks = text.split("\n[[")
    return "\n[[".join(block for block in blocks if not block.startswith(heads))


def test_a_flooded_cylinder_written_by_hand() -> None:
    """Tube of 138 cm³ and caps of 61 in the wet; works of 240 cm³ each no longer in a vessel."""
    text = without(CRATE, ("cylinder", "tank")).replace('inside = "cylinder"\n', "")
    text += f"""
[[part]]
name = "wall"
mass = 1500
volume = {TUBE * 1e6}
shape = "tube"
diameter = 120
wall = 3
length = 600
x = 500
z = 60
"""
    her = crate()
    case = flooded(her, "cylinder")
    same(case, as_file(text).surfaced)
    lost = pi / 4 * 0.120**2 * 0.600 - TUBE - 2 * 240e-6
    before = her.water.density * her.floater.volume - her.masses.mass
    assert case.spare == pytest.approx(before - her.water.density * lost, abs=1e-4)
    assert not case.stays_up
    assert case.supposed is None


def test_things_of_unknown_volume_are_said() -> None:
    bare = 'shape = "box"\nlength = 100\nbreadth = 60\nheight = 40\n'
    text = CRATE.replace(f'inside = "cylinder"\n{bare}', 'inside = "cylinder"\n')
    case = flooded(as_file(text), "cylinder")
    assert case.supposed is not None
    assert case.supposed.values["things"] == 2
    assert case.supposed.values["mass"] == pytest.approx(2 * 1.46735)
    sized = text.replace(
        'inside = "cylinder"\n\n', f'inside = "cylinder"\nvolume = {1467.35 / 2.5}\n\n'
    )
    assert case.spare == pytest.approx(flooded(as_file(sized), "cylinder").spare, abs=1e-6)


def test_a_tank_stuck_full_is_a_tank_that_blows_to_full(bittern: Assessment) -> None:
    names = [tank.name for tank in bittern.boat.tanks]
    for k, name in enumerate(names, 1):
        edit = Edit(action="set", path=f"tank[{k}]", fields=(("blown", 1.0),))
        same(stuck_full(bittern, name), bittern.edited((edit,)).surfaced)
    for name, other in zip(names, reversed(names), strict=True):
        same(stuck_empty(bittern, name), stuck_full(bittern, other).state)


def test_another_battery_written_by_hand() -> None:
    text = CRATE.replace(
        'mass = 1467.35\nknown = "weighed"\nx = 620\nz = 40', "mass = 1000\nx = 640\nz = 35"
    )
    assert text != CRATE
    for tanks in ("blown", "full"):
        case = exchanged(crate(), "fore works", mass=1.0, place=(0.64, 0.0, 0.035), tanks=tanks)
        scratch = as_file(text)
        same(case, scratch.surfaced if tanks == "blown" else scratch.full)


def test_another_thing_in_the_wet_displaces_its_own_volume() -> None:
    text = CRATE.replace("mass = 799.8", "mass = 700\nvolume = 200")
    case = exchanged(crate(), "keel lead", mass=0.7, volume=200e-6)
    same(case, as_file(text).surfaced)


def test_lead_left_at_home_written_by_hand() -> None:
    same(left_at_home(crate(), "keel lead"), as_file(without(CRATE, ("lead",))).surfaced)


def test_a_tower_full_of_water_is_a_solid_one_of_water() -> None:
    """A tower of stuff as dense as water, full of it, weighs and displaces as a solid one."""
    skin = f'open_below = true\nthickness = 2\ndensity = "{THICK}"'
    open_below = crate(TOWER.format(skin))
    whole = 100 * 40 * 60 * 0.9991025717180356 / 1000  # g, from the deck to its top
    solid = crate(TOWER.format(f"sealed = true\nmass = {whole}"))
    same(tower_full(open_below, "tower"), solid.surfaced)
    held = 0.096 * 0.036 * 0.058  # inside the walls and the top [m³]
    found = tower_full(open_below, "tower")
    more = found.state.displacement_mass - open_below.surfaced.displacement_mass
    assert more == pytest.approx(999.1 * held, rel=2e-3)


def test_names_that_stand_for_nothing() -> None:
    her = crate()
    for call, name in (
        (stuck_full, "tnak"),
        (stuck_empty, "tnak"),
        (flooded, "cylindre"),
        (tower_full, "towr"),
        (left_at_home, "fore work"),
    ):
        with pytest.raises(AskError, match=f"there is no [a-z]+ '{name}'"):
            call(her, name)
    for mass in (0.0, -1.0, float("nan")):
        with pytest.raises(AskError, match="cannot be"):
            exchanged(her, "fore works", mass=mass)


def test_all_cases_are_told_apart(grebe: Assessment) -> None:
    found = cases(grebe)
    assert len({case_name(case) for case in found}) == len(found)
    kinds = {case.kind for case in found}
    assert {"tank full", "tank empty", "flooded", "tower full", "left at home"} <= kinds
    for case in found:
        assert case.stays_up == (case.spare > 0)
        assert case.out == pytest.approx(max(case.spare, 0.0) / grebe.water.density, abs=1e-7)
