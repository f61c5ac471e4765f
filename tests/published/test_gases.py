"""Gases against the CoolProp library, and the rows that were worked out with it."""

import pytest

from trimdive.data import constant, table
from trimdive.errors import PlantError
from trimdive.plant import amount, bottle_gives, gas, too_weak_at, vapour_pressure
from trimdive.plant.gases import jet_flow, latent_by_slope
from trimdive.plant.water import pressure_at

NAMES = {entry["key"]: entry["locator"] for entry in table("gases")}
LIQUEFIED = [name for name in NAMES if name != "air"]
WATER = 998.2  # kg/m³
COLD = 10.0  # °C


def by_library(wanted: str, one: str, at: float, other: str, also: float, fluid: str) -> float:
    """Return what the library has, which takes seconds to load."""
    from CoolProp import CoolProp

    return float(CoolProp.PropsSI(wanted, one, at, other, also, fluid))


@pytest.mark.parametrize("name", LIQUEFIED)
@pytest.mark.parametrize("celsius", [-10.0, 2.0, 7.3, 15.0, 22.5, 28.9])
def test_pressure_above_the_liquid(name: str, celsius: float) -> None:
    """Between rows too: ln p over 1/T bends so little that 0.1 % holds."""
    answer = by_library("P", "T", celsius + 273.15, "Q", 0, NAMES[name])
    assert vapour_pressure(name, celsius) == pytest.approx(answer, rel=1e-3)


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("CO2", (34.85, 39.70, 45.02, 50.87, 57.29, 64.34, 72.14)),
        ("propane", (4.745, 5.511, 6.366, 7.315, 8.365, 9.521, 10.79)),
        ("isobutane", (1.570, 1.867, 2.206, 2.590, 3.022, 3.507, 4.047)),
        ("n-butane", (1.032, 1.242, 1.485, 1.761, 2.076, 2.433, 2.834)),
        ("R-134a", (2.928, 3.497, 4.146, 4.884, 5.717, 6.654, 7.702)),
        ("R-152a", (2.640, 3.148, 3.728, 4.386, 5.129, 5.964, 6.898)),
        ("R-1234ze(E)", (2.166, 2.593, 3.084, 3.642, 4.273, 4.985, 5.783)),
        ("DME", (2.667, 3.166, 3.733, 4.375, 5.096, 5.902, 6.800)),
    ],
)
def test_the_table_of_check_values(name: str, row: tuple[float, ...]) -> None:
    """0 to 30 °C by 5, bar: half the last digit printed; CO2 at 5 °C is 39.695, printed 39.70."""
    for k, answer in enumerate(row):
        half = 540.0 if answer >= 10 else 52.0
        assert vapour_pressure(name, 5.0 * k) == pytest.approx(answer * 1e5, abs=half)


def test_co2_at_freezing_as_published() -> None:
    """3.4851 MPa at 0 °C, 2.6487 MPa at -10 °C: tables of a university's thermodynamics course."""
    assert vapour_pressure("CO2", 0.0) == pytest.approx(3.4851e6, rel=1e-4)
    assert vapour_pressure("CO2", -10.0) == pytest.approx(2.6487e6, rel=2e-4)


@pytest.mark.parametrize(
    ("depth", "kilopascals", "grams"),
    [
        (1.0, 111.114, {"air": 1.094, "CO2": 1.662, "propane": 1.665, "R-134a": 3.852}),
        (3.0, 130.692, {"air": 1.287, "CO2": 1.955, "propane": 1.959, "R-134a": 4.531}),
        (10.0, 199.215, {"air": 1.961, "CO2": 2.979, "propane": 2.985, "R-134a": 6.907}),
    ],
)
def test_gas_that_fills_a_tank(depth: float, kilopascals: float, grams: dict[str, float]) -> None:
    """0.8 L at 10 °C, worked out apart; four digits, air with 28.97 g/mol for 28.965."""
    pressure = pressure_at(depth, WATER)
    assert pressure == pytest.approx(kilopascals * 1e3, abs=1.0)
    for name, answer in grams.items():
        assert amount(name, 0.8e-3, pressure, COLD) * 1e3 == pytest.approx(answer, abs=7e-4)


@pytest.mark.parametrize("name", [*LIQUEFIED, "air"])
def test_gas_masses_by_its_real_density(name: str) -> None:
    """At 1 m and 15 °C the library's density: the ideal law is up to 4.5 % low (n-butane)."""
    pressure = pressure_at(1.0, WATER)
    real = 0.8e-3 * by_library("D", "T", 288.15, "P", pressure, NAMES[name])
    ours = amount(name, 0.8e-3, pressure, 15.0)
    assert ours == pytest.approx(real, rel=0.045)
    assert ours <= real * 1.001


@pytest.mark.parametrize(("depth", "litres", "share"),
                         [(1, 0.711, 0.89), (3, 0.590, 0.74), (10, 0.352, 0.44)])  # fmt: skip
def test_a_bottle_of_compressed_air(depth: float, litres: float, share: float) -> None:
    """0.1 L at 8 bar above the air's: what it fills, and how much of a 0.8 L tank."""
    found = bottle_gives(1e-4, constant("atmosphere") + 8e5, pressure_at(depth, WATER))
    assert found * 1e3 == pytest.approx(litres, abs=6e-4)
    assert found / 0.8e-3 == pytest.approx(share, abs=6e-3)


def test_butane_in_cold_water_blows_no_deeper_than_this() -> None:
    """1.242 bar at 5 °C: not below about 2.3 m."""
    assert too_weak_at("n-butane", 5.0, WATER) == pytest.approx(2.3, abs=0.06)


def test_beyond_its_range_a_gas_is_refused_with_the_nearest_that_works() -> None:
    with pytest.raises(PlantError, match=r"at 35 °C nothing is known of CO2, and above 31 °C"):
        vapour_pressure("CO2", 35.0)
    with pytest.raises(PlantError, match=r"The nearest that works is -10 °C\."):
        vapour_pressure("propane", -20.0)
    with pytest.raises(PlantError, match="air has no liquid in its bottle"):
        vapour_pressure("air", 10.0)
    with pytest.raises(PlantError, match="there is no gas 'helium'"):
        gas("helium")


@pytest.mark.parametrize("name", LIQUEFIED)
def test_heat_of_boiling_two_ways(name: str) -> None:
    """The table's own slope by Clausius and Clapeyron, the vapour ideal: too high by its p V / R T.

    The library's compressibility of the saturated vapour takes the difference away within 3 %
    (8 % for CO2, whose liquid takes a sixth of the vapour's room there).
    """
    squeeze = by_library("Z", "T", 288.15, "Q", 1, NAMES[name])
    found = latent_by_slope(name, 15.0) * squeeze
    rho = [by_library("D", "T", 288.15, "Q", q, NAMES[name]) for q in (0, 1)]
    assert found * (1 - rho[1] / rho[0]) == pytest.approx(gas(name).evaporation, rel=0.01)


def test_a_jet_of_air_at_the_speed_of_sound() -> None:
    """The flow is C p A 0.0404 / sqrt(T) for air that chokes: the usual shortened formula."""
    found = jet_flow("air", 1e-3, 5e5, 1e5, 20.0)
    assert found == pytest.approx(0.61 * 5e5 * 7.854e-7 * 0.0404 / 293.15**0.5, rel=2e-3)
    assert jet_flow("air", 1e-3, 1e5, 1e5, 20.0) == 0.0
    assert jet_flow("air", 1e-3, 5e5, 2e5, 20.0) == pytest.approx(found)  # choked both times
