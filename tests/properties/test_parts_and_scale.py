"""Laws that hold for any boat: parts sum to the whole, lengths scale, water closes the sum."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.rest.crate import CRATE, crate
from tests.rest.floaters import UP, boat_of, box_at, round_at

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.moments import above
from trimdive.hydrostatics.equilibrium import rest, state

sizes = st.floats(0.02, 0.4)
FEW = settings(max_examples=25, derandomize=True)


@FEW
@given(st.lists(st.tuples(sizes, sizes, sizes), min_size=1, max_size=5), st.floats(-0.1, 0.5))
def test_parts_sum_to_the_whole(boxes: list[tuple[float, float, float]], height: float) -> None:
    """Volume below any plane of all bodies together is the sum of each alone."""
    bodies = [box_at(size, x=0.3 * k, keel=0.02 * k) for k, size in enumerate(boxes)]
    whole = boat_of(bodies, 1.0, (0, 0, 0))
    n = np.array([0.1, -0.2, 0.97])
    n /= np.linalg.norm(n)
    together = cut(whole.tree, n, height)
    alone = [cut(boat_of([body], 1.0, (0, 0, 0)).tree, n, height) for body in bodies]
    assert together.volume == pytest.approx(sum(one.volume for one in alone), abs=1e-12)
    assert together.area == pytest.approx(sum(one.area for one in alone), abs=1e-12)
    assert together.moment == pytest.approx(sum(one.moment for one in alone), abs=1e-12)


@FEW
@given(st.floats(0.2, 20.0), st.floats(0.2, 0.9), st.floats(-0.02, 0.02))
def test_scaled_boats_lie_alike(scale: float, share: float, off: float) -> None:
    """All lengths times λ, masses times λ³: angles stay, GM and draught times λ."""

    def at(s: float):
        bodies = [round_at(0.16 * s, 1.0 * s, sides=24), box_at((0.2 * s, 0.05 * s, 0.2 * s))]
        mass = share * 20.0 * s**3
        boat = boat_of(bodies, mass, (off * s, 0.3 * off * s, 0.05 * s))
        return state(boat, rest(boat, np.zeros(0)))

    one, other = at(1.0), at(scale)
    assert other.trim_angle == pytest.approx(one.trim_angle, abs=2e-6)
    assert other.heel == pytest.approx(one.heel, abs=2e-6)
    assert other.nabla == pytest.approx(one.nabla * scale**3, rel=1e-7)
    assert other.waterplane_area == pytest.approx(one.waterplane_area * scale**2, rel=1e-4)
    assert other.gm_t == pytest.approx(one.gm_t * scale, rel=1e-4, abs=1e-7)


@pytest.mark.parametrize("scale", [0.5, 3.0])
def test_a_scaled_boat_file_has_scaled_volumes(scale: float) -> None:
    """Every length of the crate times λ: her volumes, need and tank room times λ³."""
    small, large = crate(), Assessment(boat=parse(_scaled(scale)), files={})
    assert large.floater.volume == pytest.approx(small.floater.volume * scale**3, rel=1e-6)
    assert large.need.volume == pytest.approx(small.need.volume * scale**3, rel=1e-6)
    assert large.need.fitted == pytest.approx(small.need.fitted * scale**3, rel=1e-6)
    assert large.masses.mass == pytest.approx(small.masses.mass * scale**3, rel=1e-6)
    assert large.surfaced.gm_t == pytest.approx(small.surfaced.gm_t * scale, rel=1e-4)
    assert large.bg == pytest.approx(small.bg * scale, rel=1e-5)
    assert large.dived.displacement_mass == pytest.approx(
        small.dived.displacement_mass * scale**3, rel=1e-6
    )


def _scaled(scale: float) -> str:
    """Return the crate's text with every length times λ and every mass times λ³."""
    lines = []
    for line in CRATE.splitlines():
        key, _, value = line.partition(" = ")
        try:
            number = float(value)
        except ValueError:
            lines.append(line)
            continue
        if key != "format":
            number *= scale**3 if key == "mass" else scale
            line = f"{key} = {number:.12g}"
        lines.append(line)
    return "\n".join(lines)


@pytest.mark.parametrize("name", ["bittern", "grebe", "bittern-as-bought", "grebe-as-bought"])
def test_shares_of_the_need_are_the_whole_volume_above(
    name: str, demo_boats: dict[str, Assessment]
) -> None:
    """Thing by thing or all at once by the one tree: the same litres above the waterline."""
    boat = demo_boats[name]
    n, d = boat.waterline
    whole = boat.floater.volume - cut(boat.floater.tree, n, d).volume
    assert boat.need.volume == pytest.approx(whole, rel=1e-9)
    assert boat.need.volume == pytest.approx(sum(s.volume for s in boat.need.shares), rel=1e-12)
    assert sum(body.volume for body in boat.bodies) == pytest.approx(boat.floater.volume, rel=1e-9)


@pytest.mark.parametrize("name", ["bittern", "grebe", "bittern-as-bought", "grebe-as-bought"])
def test_surfaced_and_dived_hang_together(name: str, demo_boats: dict[str, Assessment]) -> None:
    """M_d BG = M_s (KB - KG) + ρ V_above (z_above - z_water), from moments about the keel.

    V_above is what is above the water as she floats held upright; so much water goes in. Where
    the tanks cannot hold it (as bought) the sum is made as if they could, at their own height.
    """
    boat = demo_boats[name]
    assert boat.blown_water.sum() == 0
    rho, floater, dry = boat.water.density, boat.floater, boat.masses
    level = _level(boat)
    below = cut(floater.tree, UP, level)
    upper = [above(body, UP, level) for body in boat.bodies]
    water = rho * sum(one.volume for one in upper)
    z_above = sum(one.moment[2] for one in upper) / sum(one.volume for one in upper)
    z_water = boat.need.water_place[2]
    kb, kg = below.moment[2] / below.volume, dry.gravity[2]
    right = dry.mass * (kb - kg) + water * (z_above - z_water)
    dived_kg = (dry.moment[2] + water * z_water) / (dry.mass + water)
    dived_kb = (floater.buoyancy + floater.tree.centre)[2]
    assert (dry.mass + water) * (dived_kb - dived_kg) == pytest.approx(right, rel=1e-7)
    if name in ("bittern", "grebe"):  # the same from what is told of her in each state
        s = boat.surfaced
        answer = s.displacement_mass * (s.kb - s.kg)
        answer += rho * boat.need.volume * (boat.need.place[2] - boat.need.water_place[2])
        assert boat.dived.displacement_mass * boat.bg == pytest.approx(answer, rel=5e-3)


def _level(boat: Assessment) -> float:
    """Return the height at which she displaces her weight, held upright [m]."""
    wanted = boat.masses.mass / boat.water.density
    low, high = -1.0, 1.0
    for _ in range(60):
        d = (low + high) / 2
        low, high = (d, high) if cut(boat.floater.tree, UP, d).volume < wanted else (low, d)
    return low
