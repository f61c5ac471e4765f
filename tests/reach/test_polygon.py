"""What tanks cover together: plane figures by hand."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimdive.assessment import Assessment
from trimdive.ballast.reach import Wanted, apart, reach


def line(mass: float, arm: float) -> np.ndarray:
    """Return the reach of a tank whose water lies at one place."""
    return np.array([[0.0, 0.0], [mass, mass * arm]])


def test_one_tank_is_a_line() -> None:
    found = reach([line(2.0, 0.5)])
    assert found.corners == pytest.approx(np.array([[0.0, 0.0], [2.0, 1.0]]))
    assert apart(found, Wanted(name="on it", mass=1.0, moment=0.5)) == (0.0, 0.0)
    assert apart(found, Wanted(name="off it", mass=1.0, moment=0.7)) == pytest.approx((0.0, 0.2))


def test_two_tanks_are_a_parallelogram() -> None:
    """1 kg at 0.5 m forward and 2 kg at 0.25 m aft: corners by adding them one by one."""
    found = reach([line(1.0, 0.5), line(2.0, -0.25)])
    wanted = {(0.0, 0.0), (2.0, -0.5), (3.0, 0.0), (1.0, 0.5)}
    assert {(round(m, 9), round(q, 9) + 0.0) for m, q in found.corners} == wanted
    inside = Wanted(name="inside", mass=1.5, moment=0.1)
    assert apart(found, inside) == (0.0, 0.0)
    beyond = Wanted(name="too much", mass=3.4, moment=0.0)
    assert apart(found, beyond) == pytest.approx((0.4, 0.0))


@given(
    tanks=st.lists(st.tuples(st.floats(0.1, 3.0), st.floats(-1.0, 1.0)), min_size=1, max_size=4),
    fillings=st.lists(st.floats(0.0, 1.0), min_size=4, max_size=4),
)
def test_every_filling_lies_inside(tanks: list[tuple[float, float]], fillings: list[float]) -> None:
    found = reach([line(mass, arm) for mass, arm in tanks])
    mass = sum(f * m for f, (m, _) in zip(fillings, tanks, strict=False))
    moment = sum(f * m * arm for f, (m, arm) in zip(fillings, tanks, strict=False))
    lacking = apart(found, Wanted(name="x", mass=mass, moment=moment))
    assert lacking == pytest.approx((0.0, 0.0), abs=1e-9)


def test_the_demo_boats_cover_themselves_but_not_the_sea(bittern: Assessment) -> None:
    by_name = {one.name: apart(bittern.reach, one) for one in bittern.wanted}
    assert by_name["as she is"][0] == 0.0
    assert by_name["sea"][0] > 0.3


def test_as_she_is_is_the_neutral_filling(bittern: Assessment) -> None:
    """The water that makes her neutral, by the litres: two ways to one figure."""
    here = next(one for one in bittern.wanted if one.name == "as she is")
    room = float(bittern.floater.tanks.capacities.sum())
    assert here.mass == pytest.approx(bittern.neutral * room * bittern.water.density, rel=1e-9)
