"""Wholly under: BM is 0, GM = BG both ways, and the righting moment is W BG sin φ at any angle.

Principles of Naval Architecture, from memory; the identity between the two states is derived below.
"""

from math import atan, degrees, radians, sin

import numpy as np
import pytest
from tests.rest.floaters import NO_WATER, UP, boat_of, box_at, round_at

from trimdive.geometry.solids.cut import axes_in_plane
from trimdive.hydrostatics.equilibrium import Floater, rest, state
from trimdive.hydrostatics.equilibrium.energy import HANG, evaluate


def hung(x: float = 0.0, y: float = 0.0, bg: float = 0.012, mass: float = 20.0) -> Floater:
    """Return a neutral round boat with G this far under B."""
    body = round_at(0.16, mass / 1000 / (np.pi * 0.08**2))
    return boat_of([body], mass, (x, y, 0.08 - bg))


def test_gm_is_bg_in_both_directions() -> None:
    found = state(hung(), rest(hung(), NO_WATER))
    assert found.rest.under
    assert found.rest.stable
    assert found.bg == pytest.approx(0.012, abs=1e-9)
    assert found.gm_t == pytest.approx(0.012, abs=1e-9)
    assert found.gm_l == pytest.approx(0.012, abs=1e-9)
    assert found.bm_t == 0.0
    assert found.waterplane_area == 0.0
    assert found.reserve == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("angle", [1.0, 20.0, 75.0, 90.0, 150.0])
@pytest.mark.parametrize("way", [0, 1])
def test_righting_moment_at_a_fixed_angle(angle: float, way: int) -> None:
    """The slope of the energy against turning, held at φ, is W BG sin φ over g."""
    boat, turn = hung(), radians(angle)
    n = (
        np.array([-sin(turn), 0.0, np.cos(turn)])
        if way
        else np.array([0.0, sin(turn), np.cos(turn)])
    )
    slope, stiffness = np.empty(3), np.empty((3, 3))
    evaluate(boat, NO_WATER, HANG, n, 0.0, np.zeros(0), slope, stiffness)
    moment = np.linalg.norm(slope[:2])
    assert moment == pytest.approx(20 * 0.012 * sin(turn), rel=1e-7, abs=1e-9)
    forward, port = axes_in_plane(n)
    back = -(slope[0] * forward + slope[1] * port)  # downhill
    if angle < 170:
        assert back @ UP > 0


def test_a_shifted_mass_dived() -> None:
    """Lean by w d / (M BG): 0.1 kg moved 60 mm across 20 kg with 12 mm is 1.4321°."""
    lever = 0.1 * 0.06 / 20
    found = state(*_let_go(hung(y=-lever)))
    assert degrees(found.heel) == pytest.approx(1.4321, abs=5e-5)
    found = state(*_let_go(hung(x=lever)))
    assert degrees(found.trim_angle) == pytest.approx(1.4321, abs=5e-5)


@pytest.mark.parametrize(
    ("grams", "arm", "mass", "bg", "printed"),
    [(10, 1.0, 30, 0.015, 1.3), (10, 0.45, 4, 0.008, 8.0)],
)
def test_ten_grams_at_the_end(
    grams: int, arm: float, mass: float, bg: float, printed: float
) -> None:
    """Ten grams at 1 m on 30 kg with 15 mm are 1.3°, at 0.45 m on 4 kg with 8 mm 8°.

    Derived: tan = m arm / (M BG). Common practice prints the angles so.
    """
    found = state(*_let_go(hung(x=grams / 1000 * arm / mass, bg=bg, mass=mass)))
    assert degrees(found.trim_angle) == pytest.approx(printed, abs=0.05)


def test_tank_off_the_middle_tips_her_twelve_degrees() -> None:
    """50 mm with 1.9 kg of water in 30 kg with 15 mm of BG: atan(95 / 450) = 11.92°, some 12°."""
    body = box_at((1.5, 0.2, 0.1))
    room = box_at((0.19, 0.1, 0.1), x=0.05)  # 1.9 L, full: it has no surface
    kg = (30 * (0.05 - 0.015) - 1.9 * 0.05) / 28.1
    boat = boat_of([body], 28.1, (0, 0, kg), rooms=[room])
    found = state(boat, rest(boat, np.array([1.9e-3])))
    assert found.rest.under
    assert degrees(found.trim_angle) == pytest.approx(degrees(atan(95 / 450)), abs=1e-4)
    assert round(degrees(found.trim_angle)) == 12


@pytest.mark.parametrize("draught", [0.04, 0.08, 0.11, 0.15])
def test_round_section_is_as_stiff_surfaced_as_dived(draught: float) -> None:
    """For circular sections KM = R at every draught: surfaced GM = R - KG, dived BG the same.

    A polygon of 720 sides stands for the circle: its radius is 6e-6 of itself too large.
    """
    radius, kg = 0.08, 0.055
    body = round_at(2 * radius, 1.2)
    h = radius - draught
    area = radius**2 * np.arccos(h / radius) - h * np.sqrt(radius**2 - h**2)
    boat = boat_of([body], 1000 * 1.2 * area, (0, 0, kg))
    found = state(boat, rest(boat, NO_WATER))
    assert found.draught(0.0) == pytest.approx(draught, abs=2e-6)
    assert found.gm_t == pytest.approx(radius - kg, abs=4e-6)
    assert found.kb + found.bm_t == pytest.approx(radius, abs=4e-6)
    dived = state(boat, rest(boat, NO_WATER, hanging=True))
    assert dived.gm_t == pytest.approx(radius - kg, abs=1e-7)


def test_gm_goes_over_into_bg_without_a_step() -> None:
    """Just before the last of her goes under GM is what it is just after, but for a last sliver."""
    boat = boat_of([round_at(0.16, 1.2, sides=64)], 24.0, (0, 0, 0.06))
    near = boat._replace(mass=boat.volume * 1000 - 1e-4)
    over = boat._replace(mass=boat.volume * 1000 + 1e-4)
    a, b = state(near, rest(near, NO_WATER)), state(over, rest(over, NO_WATER))
    assert not a.rest.under
    assert b.rest.under
    assert a.gm_t == pytest.approx(b.gm_t, abs=2e-5)


def test_both_states_hang_together() -> None:
    """M_d BG = M_s (KB - KG) + ρ V_above (z_above - z_water), derived from moments about the keel.

    Dived: ρ V z_B - M_d z_G; surfaced: ρ V_below z_below - M_s z_s; V z_B = V_below z_below +
    V_above z_above and M_d z_G = M_s z_s + m z_water with m = ρ V_above.
    """
    hull, tower = box_at((1.0, 0.2, 0.1)), box_at((0.2, 0.05, 0.08), keel=0.1)
    room = box_at((0.2, 0.05, 0.08), keel=0.01)
    boat = boat_of([hull, tower], 20.0, (0, 0, 0.04), rooms=[room])
    dry, full = np.zeros(1), np.array([0.8e-3])
    up, under = state(boat, rest(boat, dry)), state(boat, rest(boat, full))
    assert under.rest.under
    assert up.draught(0.0) == pytest.approx(0.1, abs=1e-9)
    right = 20 * (up.kb - up.kg) + 0.8 * (0.14 - 0.05)
    assert 20.8 * under.bg == pytest.approx(right, rel=1e-8)


def _let_go(boat: Floater) -> tuple[Floater, object]:
    return boat, rest(boat, NO_WATER)
