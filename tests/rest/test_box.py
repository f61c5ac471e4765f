"""A floating box against closed forms; the sums are written out beside each check.

Box closed forms (L, B, T): KB = T/2, BM = B²/12T, BM_L = L²/12T. Principles of Naval Architecture,
volume I, 1988, from memory. For a wall-sided body GZ = (GM + BM tan²φ / 2) sin φ is exact until a
deck edge goes under or a bilge comes out.
"""

from math import atan, cos, degrees, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from tests.rest.floaters import NO_WATER, boat_of, box_at

from trimdive.hydrostatics.equilibrium import Floater, rest, state

LENGTH, BREADTH, DRAUGHT, KG, MASS = 1.5, 0.2, 0.1, 0.06, 30.0
GM = 0.05 + 0.2**2 / 1.2 - KG
BM_L = 1.5**2 / 1.2


def crate(x: float = 0.0, y: float = 0.0, kg: float = KG) -> Floater:
    return boat_of([box_at((LENGTH, BREADTH, 0.2))], MASS, (x, y, kg))


def heeling_lever(gm: float, bm: float, heel: float) -> float:
    return (gm + 0.5 * bm * tan(heel) ** 2) * sin(heel)


def test_upright_figures() -> None:
    found = state(crate(), rest(crate(), NO_WATER))
    assert found.draught(0.0) == pytest.approx(DRAUGHT, abs=1e-9)
    assert found.nabla == pytest.approx(0.03, rel=1e-9)
    assert found.kb == pytest.approx(0.05, abs=1e-9)
    assert found.bm_t == pytest.approx(1 / 30, rel=1e-9)
    assert found.bm_l == pytest.approx(BM_L, rel=1e-9)
    assert found.gm_t == pytest.approx(GM, rel=1e-9)
    assert found.gm_l == pytest.approx(0.05 + BM_L - KG, rel=1e-9)
    assert found.waterplane_area == pytest.approx(0.3, rel=1e-9)
    assert found.lcf == pytest.approx(0.0, abs=1e-9)
    assert found.mass_to_sink_1_mm == pytest.approx(0.3, rel=1e-9)
    assert found.moment_to_trim_1_mm == pytest.approx(30 * 1.865e-3 / 1.5, rel=1e-9)
    assert found.moment_to_trim_1_degree == pytest.approx(30 * 1.865 * tan(pi / 180), rel=1e-9)
    assert found.reserve == pytest.approx(0.03, rel=1e-9)


def test_a_kilogram_moved_along_her() -> None:
    """1 kg moved 0.30 m forward: tan of the trim = w d / (M GM_L), 0.30721°, 8.043 mm in all.

    For finite trim of a wall-sided box GM_L grows by BM_L tan²θ / 2, in the sixth figure here.
    """
    found = state(*_let_go(crate(x=1.0 * 0.30 / MASS)))
    assert degrees(found.trim_angle) == pytest.approx(0.30721, abs=1e-5)
    change = found.draught(LENGTH / 2) - found.draught(-LENGTH / 2)
    assert change == pytest.approx(8.043e-3, abs=1e-6)
    assert found.heel == pytest.approx(0.0, abs=1e-9)


def test_a_fifth_of_a_kilogram_moved_across() -> None:
    """0.2 kg moved 0.05 m to starboard: w d / (M GM) gives 0.8185°, for small angles.

    The exact wall-sided lever asks for (GM + BM tan²φ / 2) tan φ = w d / M, 1.5e-4 less.
    """
    lever = 0.2 * 0.05 / MASS
    found = state(*_let_go(crate(y=-lever)))
    assert degrees(found.heel) == pytest.approx(0.8185, abs=2e-4)
    t = tan(found.heel)
    assert (GM + 0.5 / 30 * t * t) * t == pytest.approx(lever, rel=1e-7)


@pytest.mark.parametrize("angle", [2.0, 10.0, 25.0, 40.0])
def test_wall_sided_lever_at_a_fixed_heel(angle: float) -> None:
    """A mass moved out by GZ / cos φ holds her at φ: the lever read back is the formula's."""
    heel = radians(angle)
    lever = heeling_lever(GM, 1 / 30, heel)
    found = state(*_let_go(crate(y=-lever / cos(heel))))
    assert degrees(found.heel) == pytest.approx(angle, abs=1e-6)
    assert found.trim_angle == pytest.approx(0.0, abs=1e-9)


def test_wall_sided_lever_in_trim() -> None:
    """The same law along her, where the least freeboard is far from spent."""
    trim = radians(3.0)
    lever = heeling_lever(0.05 + BM_L - KG, BM_L, trim)
    found = state(*_let_go(crate(x=lever / cos(trim))))
    assert degrees(found.trim_angle) == pytest.approx(3.0, abs=1e-7)


@pytest.mark.parametrize(("gm", "bm"), [(-0.2, 3.0), (-0.05, 3.0), (-0.001, 3.0)])
def test_angle_of_loll(gm: float, bm: float) -> None:
    """Upright she would turn over; she comes to rest at tan φ = √(-2 GM / BM).

    Ship Stability for Masters and Mates gives the formula; 20.060° for GM -0.2, BM 3.
    """
    boat = boat_of([box_at((65.0, 12.0, 8.0))], 65 * 12 * 4 * 1e3, (0, 0, 2 + bm - gm))
    at = rest(boat, NO_WATER)
    found = state(boat, at)
    assert at.stable
    slack = 1e-10 * 65 / (-2 * gm)  # the solver's tolerance on the lever over the stiffness there
    assert abs(tan(found.heel)) == pytest.approx(sqrt(-2 * gm / bm), abs=slack + 1e-9)
    if gm == -0.2:
        assert abs(degrees(found.heel)) == pytest.approx(20.060, abs=5e-4)
    lean = 2 * -gm / cos(found.heel)  # closed form of GM at loll, -2 GM / cos φ
    assert found.gm_t == pytest.approx(lean, rel=1e-5)


def test_not_escaping_tells_of_the_upright_rest_that_does_not_hold() -> None:
    boat = boat_of([box_at((65.0, 12.0, 8.0))], 65 * 12 * 4 * 1e3, (0, 0, 5.2))
    at = rest(boat, NO_WATER, escape=False)
    assert not at.stable
    assert state(boat, at).gm_t == pytest.approx(-0.2, rel=1e-9)
    assert state(boat, at).heel == 0.0


def test_she_leans_to_the_side_of_what_is_off_the_middle() -> None:
    """A mass to port lifts starboard: the sign, by plain sense."""
    to_port = state(*_let_go(crate(y=+1e-3)))
    assert to_port.heel < 0
    assert to_port.draught(0.0) == pytest.approx(DRAUGHT / cos(to_port.heel), abs=1e-3)
    assert to_port.tcg == pytest.approx(1e-3)
    assert atan(1e-3 / GM) == pytest.approx(-to_port.heel, rel=2e-3)


def _let_go(boat: Floater) -> tuple[Floater, object]:
    return boat, rest(boat, NO_WATER)


def test_places_do_not_depend_on_where_she_is_measured_from() -> None:
    """Moving the origin moves only coordinates."""
    near, far = crate(x=0.01, y=0.002), _moved(37.0)
    a, b = state(near, rest(near, NO_WATER)), state(far, rest(far, NO_WATER))
    assert b.trim_angle == pytest.approx(a.trim_angle, abs=1e-9)
    assert b.heel == pytest.approx(a.heel, abs=1e-9)
    assert b.gm_t == pytest.approx(a.gm_t, rel=1e-7)
    assert b.lcb - a.lcb == pytest.approx(37.0, abs=1e-9)
    assert b.draught(37.0) == pytest.approx(a.draught(0.0), abs=1e-9)


def _moved(by: float) -> Floater:
    return boat_of([box_at((LENGTH, BREADTH, 0.2), x=by)], MASS, (by + 0.01, 0.002, KG))


def test_every_way_in_which_a_square_log_could_float() -> None:
    """A log of square section and half the density of water rests only with an edge up.

    Common example, source: any text on floating bodies, from memory. The side is 1: BM upright
    is (1/12)/(1/2) = 1/6, BG 1/4, so that it will not stand on a face; on an edge it does.
    """
    log = boat_of([box_at((3.0, 1.0, 1.0))], 1500.0, (0.0, 0.0, 0.5))
    found = state(log, rest(log, NO_WATER))
    assert abs(degrees(found.heel)) == pytest.approx(45.0, abs=1e-5)
    assert np.isfinite(found.gm_t)
    assert found.gm_t > 0
