"""Ship Stability for Masters and Mates: worked examples, pages as printed.

Each example is turned into a floating body for which its formula is exact (a box, or a round
section), let go, and read back. Masses in tonnes become kilograms; sea water is 1025 kg/m³.
"""

from math import cos, degrees, pi, radians, sin, sqrt, tan

import numpy as np
import pytest
from tests.rest.floaters import NO_WATER, boat_of, box_at, round_at

from trimdive.hydrostatics.equilibrium import rest, state

SEA = 1025.0


def lever_at(heel: float, boat_size: tuple[float, float, float], mass: float, kg: float) -> float:
    """Return GZ [m] at a fixed heel: found by moving G out until she lies at just that angle."""
    low, high = 0.0, 1.0
    for _ in range(60):
        out = (low + high) / 2
        boat = boat_of([box_at(boat_size)], mass, (0.0, -out, kg), density=SEA)
        low, high = (out, high) if state(boat, rest(boat, NO_WATER)).heel < heel else (low, out)
    return out * cos(heel)


def test_example_1_page_130_wall_sided_lever() -> None:
    """6000 t, KB 3, KM 6, KG 5.5, 25°: GZ 0.35 m, moment 2100 t m (unrounded 0.34915, 2094.9).

    A box with KB 3 and BM 3 is 6 deep and √216 broad. The book rounds GZ before it multiplies.
    """
    breadth = sqrt(3 * 12 * 6)
    mass = 6e6
    length = mass / SEA / breadth / 6
    gz = lever_at(radians(25), (length, breadth, 14.0), mass, 5.5)
    assert gz == pytest.approx(0.35, abs=5e-3)
    assert gz == pytest.approx(0.34915, abs=5e-6)
    assert gz * 6000 == pytest.approx(2100, abs=6)  # the book's own rounding of GZ: 5 t m


@pytest.mark.parametrize(
    ("angle", "gz", "moment", "digit"), [(5, 0.0872, 278.9, 8e-4), (25, 0.56046, 1792.4, 5e-6)]
)
def test_example_2_page_130_box(angle: float, gz: float, moment: float, digit: float) -> None:
    """Box 65 × 12 × 8 m at 4 m, KG 4: W 3198 t, KB 2, BM 3, GM 1.

    At 5° the book takes GM sin φ alone; the wall-sided term adds 1.1 % (0.0010 m) and we are right
    to have it: 0.08816. At 25° the figure is the formula's, not printed there.
    """
    size, mass = (65.0, 12.0, 8.0), 65 * 12 * 4 * SEA
    assert mass == pytest.approx(3198e3)
    boat = boat_of([box_at(size)], mass, (0, 0, 4), density=SEA)
    found = state(boat, rest(boat, NO_WATER))
    assert (found.kb, found.bm_t, found.gm_t) == pytest.approx((2, 3, 1), abs=1e-8)
    heel = radians(angle)
    ours = lever_at(heel, size, mass, 4.0)
    if angle == 5:
        assert ours - gz == pytest.approx(1.5 * tan(heel) ** 2 * sin(heel), abs=5e-5)
    assert ours == pytest.approx(gz, abs=digit + (1.1e-3 if angle == 5 else 0))
    assert ours * 3198 == pytest.approx(moment, rel=1e-4 if angle == 25 else 1.2e-2)


def test_pages_228_229_angle_of_loll() -> None:
    """Formula tan φ = √(-2 GM / BM): GM -0.2 and BM 3 give 20.060°."""
    boat = boat_of([box_at((65.0, 12.0, 8.0))], 65 * 12 * 4 * SEA, (0, 0, 5.2), density=SEA)
    heel = state(boat, rest(boat, NO_WATER)).heel
    assert abs(degrees(heel)) == pytest.approx(20.060, abs=5e-4)


@pytest.mark.parametrize("divisions", [1, 2, 3])
def test_pages_193_195_free_surface(divisions: int) -> None:
    """8153.75 t, KM 8, KG 7.5; a tank 15 × 10 × 2 m of sea water pumped to half.

    W 8000 t, solid KG 7.61531, free surface 0.16016, fluid KG 7.77547, GM 0.22453; with n
    divisions along her the loss is a n²-th of it. The data are printed there, the result is the
    formula's. The tank stands on the keel; a box with KM 8 carries it.
    """
    draught, bm = 6.0, 5.0
    breadth = sqrt(12 * draught * bm)
    length = 8e6 / SEA / breadth / draught
    sides = [(k + 0.5) * 10 / divisions - 5 for k in range(divisions)]
    rooms = [box_at((15.0, 10 / divisions, 2.0), y=y) for y in sides]
    half = 15 * 10 * 1.0
    assert (8153.75e3 * 7.5 - half * SEA * 1.5) / 8e6 == pytest.approx(7.61531, abs=5e-6)
    dry = 8e6 - half * SEA
    kg = (8153.75e3 * 7.5 - 2 * half * SEA * 1.0) / dry  # without any water in the tank
    hull = box_at((length, breadth, 12.0))
    boat = boat_of([hull], dry, (0, 0, kg), rooms=rooms, density=SEA)
    found = state(boat, rest(boat, np.full(divisions, half / divisions)))
    assert found.kb + found.bm_t == pytest.approx(8.0, abs=1e-7)
    assert found.kg == pytest.approx(7.61531, abs=5e-6)
    loss = 0.16016 / divisions**2
    assert found.free_surface_t == pytest.approx(loss, abs=5e-6)
    assert found.kg + found.free_surface_t == pytest.approx(7.61531 + loss, abs=1e-5)
    if divisions == 1:
        assert found.gm_t == pytest.approx(0.22453, abs=5e-6)


def test_pages_116_117_list() -> None:
    """KM 8.70, KG 7.35, G 0.035 m to starboard: list atan(0.03529 / 1.3535) = 1.494°.

    For a round section KM is the radius at any heel, so that the formula is exact.
    """
    radius = 8.70
    body = round_at(2 * radius, 100.0, sides=1440)
    mass = 0.5 * pi * radius**2 * 100 * SEA
    boat = boat_of([body], mass, (0.0, -0.03529, radius - 1.3535), density=SEA)
    found = state(boat, rest(boat, NO_WATER))
    assert degrees(found.heel) == pytest.approx(1.494, abs=5e-4)
    assert found.gm_t == pytest.approx(1.3535, rel=1e-3)
