"""What is asked of water beyond the published tables: its laws, its names, its limits."""

import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trimdive.errors import WaterError
from trimdive.water import KINDS, density, viscosity, water, waters

TEMPERATURES = st.floats(0.0, 40.0)
SALTS = {"sea": st.floats(0.0, 41.0), "pool": st.floats(0.0, 9.0)}


@pytest.mark.parametrize("kind", ["sea", "pool"])
@given(celsius=TEMPERATURES, data=st.data())
def test_salt_makes_water_heavier_and_thicker(
    kind: str, celsius: float, data: st.DataObject
) -> None:
    salt = data.draw(SALTS[kind])
    # Sea salt and common salt add 0.6 to 0.9 kg/m³ a g/kg at any of these temperatures: the
    # tables of TEOS-10 and of the electrolyte model.
    assert 0.6 < density(kind, celsius, salt + 1.0) - density(kind, celsius, salt) < 0.9
    assert viscosity(kind, celsius, salt + 1.0) > viscosity(kind, celsius, salt)


@given(celsius=st.floats(4.1, 39.0))
def test_warm_water_is_lighter_and_thinner(celsius: float) -> None:
    assert density("fresh", celsius + 1.0) < density("fresh", celsius)
    assert viscosity("fresh", celsius + 1.0) < viscosity("fresh", celsius)


@given(celsius=TEMPERATURES)
def test_without_salt_all_kinds_agree(celsius: float) -> None:
    # The fresh formula and TEOS-10 at no salt lie within 0.0015 kg/m³ of each other to 40 °C.
    fresh = density("fresh", celsius)
    assert density("sea", celsius, 0.0) == pytest.approx(fresh, abs=0.0015, rel=0)
    assert density("pool", celsius, 0.0) == fresh


@pytest.mark.parametrize(
    ("kind", "celsius", "salt", "said"),
    [
        ("salt", 15.0, 35.0, "water.kind: 'salt' is no kind of water. Write one of: fresh"),
        ("fresh", -0.1, 0.0, "water.temperature: -0.1 °C is outside 0 to 40 °C"),
        ("sea", 40.1, 35.0, "water.temperature: 40.1 °C is outside 0 to 40 °C"),
        ("fresh", float("nan"), 0.0, "water.temperature: nan °C is outside 0 to 40 °C"),
        ("sea", 15.0, -1.0, "water.salt: -1 g/kg of salt is outside 0 to 42 g/kg"),
        ("sea", 15.0, 42.1, "water.salt: 42.1 g/kg of salt is outside 0 to 42 g/kg"),
        ("sea", 15.0, float("nan"), "water.salt: nan g/kg of salt is outside 0 to 42 g/kg"),
        ("pool", 27.0, 10.1, "water.salt: 10.1 g/kg of salt is outside 0 to 10 g/kg"),
        ("fresh", 15.0, 35.0, "water.salt: fresh water with 35 g/kg of salt"),
    ],
)
def test_outside_the_sources(kind: str, celsius: float, salt: float, said: str) -> None:
    for answer in (density, viscosity, water):
        with pytest.raises(WaterError) as trouble:
            answer(kind, celsius, salt)
        assert str(trouble.value).startswith(said)


def test_at_the_very_limits_there_is_an_answer() -> None:
    # 999.84 kg/m³: the freezing point of fresh water in any handbook (from memory).
    assert density("fresh", 0.0) == pytest.approx(999.84, abs=0.005)
    assert density("sea", 40.0, 42.0) > density("sea", 40.0, 41.9)
    assert density("pool", 40.0, 10.0) > density("pool", 40.0, 9.9)


def test_named_waters_span_what_a_boat_meets() -> None:
    known = waters()
    assert {entry.kind for entry in known.values()} == set(KINDS)
    for entry in known.values():
        assert entry == water(entry.kind, entry.celsius, entry.salt)
    # Fresh to sea at one temperature asks for about 2.7 % more mass (common practice, no source).
    assert known["sea"].density / known["pond"].density == pytest.approx(1.027, abs=0.0005)
    # A pond warmed from 4 to 22 °C makes 30 kg heavier by some 66 g (the tables above it).
    gain = 30.0 * (1.0 - known["warm pond"].density / known["cold pond"].density)
    assert gain == pytest.approx(0.066, abs=0.001)


def test_fresh_water_needs_no_library_of_the_sea() -> None:
    program = (
        "import sys; from trimdive.water import density; density('fresh', 15.0); "
        "sys.exit('gsw' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
