"""Gas that blows a tank: pressure above its liquid, mass for a blow, blows a bottle, the cold.

Sources: data/gases.csv and gas_vapour.csv [coolprop-2014]; ideal gas law; Boyle's law.
"""

from dataclasses import dataclass
from functools import cache
from math import exp, log, pi, sqrt

import numpy as np

from trimdive.data import constant, row, table
from trimdive.errors import PlantError
from trimdive.geometry.lines.mesh import Floats
from trimdive.plant.water import DISCHARGE


@dataclass(frozen=True, slots=True, kw_only=True)
class Gas:
    """A gas that can blow a tank."""

    name: str
    molar_mass: float  # [kg/mol]
    critical: float  # above this temperature it is liquid no more [°C]
    heats_ratio: float  # of its heats at even pressure and even volume [-]
    evaporation: float  # heat that a kilogram takes as it boils, 0 of air [J/kg]
    liquid_heat: float  # heat that a kilogram of its liquid gives for each degree [J/kg/K]
    burns: bool
    note: str

    @property
    def liquefied(self) -> bool:
        """Return whether its bottle holds a liquid."""
        return self.evaporation > 0


@cache
def gas(name: str) -> Gas:
    """Return a gas of the table.

    Raises:
        PlantError: There is no such gas.
    """
    known = [entry["key"] for entry in table("gases")]
    if name not in known:
        raise PlantError(f"there is no gas '{name}'", "gas", f"Known: {', '.join(known)}.")
    entry = row("gases", name)
    return Gas(
        name=name,
        molar_mass=float(entry["molar_mass"]),
        critical=float(entry["critical"]),
        heats_ratio=float(entry["heats_ratio"]),
        evaporation=float(entry["evaporation"]),
        liquid_heat=float(entry["liquid_heat"]),
        burns=entry["burns"] == "yes",
        note=entry["note"],
    )


@cache
def _vapour(name: str) -> tuple[Floats, Floats]:
    """Return 1/T and ln p of the table of a gas, T rising: shape (n,) each [1/K] [-]."""
    rows = [entry for entry in table("gas_vapour") if entry["gas"] == name]
    kelvin = np.array([float(entry["celsius"]) for entry in rows]) + constant("zero-celsius")
    return -1.0 / kelvin, np.log([float(entry["pressure"]) for entry in rows])


def span(name: str) -> tuple[float, float]:
    """Return the coldest and the warmest temperature of a liquefied gas's table [°C]."""
    found, zero = _vapour(name)[0], constant("zero-celsius")
    return round(-1.0 / float(found[0]) - zero, 6), round(-1.0 / float(found[-1]) - zero, 6)


def vapour_pressure(name: str, celsius: float) -> float:
    """Return the pressure of a gas above its own liquid [Pa, absolute].

    Args:
        name: Of the gas.
        celsius: Temperature of the bottle [°C].

    Raises:
        PlantError: It has no liquid there, or the table does not reach so far.

    Source:
        [coolprop-2014]; ln p over 1/T is nearly straight, straight lines between rows.
    """
    one = gas(name)
    if not one.liquefied:
        what = f"{name} has no liquid in its bottle"
        raise PlantError(what, "store", "Tell the bottle's volume and pressure.")
    low, high = span(name)
    if not low <= celsius <= high:
        near = low if celsius < low else high
        what = f"at {celsius:g} °C nothing is known of {name}"
        if celsius > one.critical:
            what += f", and above {one.critical:.0f} °C it is liquid no more"
        raise PlantError(what, "temperature", f"The nearest that works is {near:g} °C.")
    return boiling_pressure(name, celsius)


def boiling_pressure(name: str, celsius: float) -> float:
    """Return the pressure above a liquid that boils itself cold [Pa], held at the table's ends.

    Args:
        name: Of the gas.
        celsius: Temperature of the bottle [°C].
    """
    at = -1.0 / (celsius + constant("zero-celsius"))
    return exp(float(np.interp(at, *_vapour(name))))


def amount(name: str, volume: float, pressure: float, celsius: float) -> float:
    """Return the mass of gas that fills a room: p V M / R T [kg].

    Args:
        name: Of the gas.
        volume: Of the room [m³].
        pressure: In it, absolute [Pa].
        celsius: Temperature in it [°C].

    Source:
        Ideal gas law; [codata-2018].
    """
    kelvin = celsius + constant("zero-celsius")
    return pressure * volume * gas(name).molar_mass / (constant("gas-constant") * kelvin)


def bottle_gives(volume: float, pressure: float, against: float) -> float:
    """Return the room that a bottle of compressed gas fills at a pressure [m³].

    Args:
        volume: Of the bottle [m³].
        pressure: In it, absolute [Pa].
        against: In the room, absolute [Pa].

    Source:
        Boyle's law.

    >>> round(bottle_gives(1e-4, 101325 + 8e5, 111114) * 1e3, 3)
    0.711
    """
    return max(volume * (pressure - against) / against, 0.0)


def jet_flow(name: str, bore: float, pressure: float, against: float, celsius: float) -> float:
    """Return how much gas a jet lets through [kg/s]; at most as fast as sound.

    Args:
        name: Of the gas.
        bore: Of the jet [m].
        pressure: Before it, absolute [Pa].
        against: Behind it, absolute [Pa].
        celsius: Temperature before it [°C].

    Source:
        One-dimensional flow of an ideal gas through a nozzle, closed form; a sharp edge's
        discharge.
    """
    if pressure <= against:
        return 0.0
    one = gas(name)
    ratio, g = against / pressure, one.heats_ratio
    least = (2 / (g + 1)) ** (g / (g - 1))
    r = max(ratio, least)
    kelvin = celsius + constant("zero-celsius")
    speed = 2 * g / (g - 1) * one.molar_mass / (constant("gas-constant") * kelvin)
    flux = pressure * sqrt(max(speed * (r ** (2 / g) - r ** ((g + 1) / g)), 0.0))
    return DISCHARGE * pi / 4 * bore**2 * flux


def too_weak_at(name: str, celsius: float, density: float) -> float:
    """Return the depth from which the gas of a bottle blows no more [m]; 0: nowhere.

    Args:
        name: Of the gas.
        celsius: Temperature of the bottle [°C].
        density: Of the water [kg/m³].

    Raises:
        PlantError: The table of the gas does not reach so far.
    """
    over = vapour_pressure(name, celsius) - constant("atmosphere")
    return max(over, 0.0) / (density * constant("gravity"))


def latent_by_slope(name: str, celsius: float) -> float:
    """Return the heat of boiling from the slope of the table, the vapour ideal [J/kg].

    Args:
        name: Of the gas.
        celsius: Temperature [°C].

    Source:
        Clausius and Clapeyron.
    """
    kelvin = celsius + constant("zero-celsius")
    step = 1.0
    slope = log(boiling_pressure(name, celsius + step) / boiling_pressure(name, celsius - step)) / (
        2 * step
    )
    return constant("gas-constant") / gas(name).molar_mass * kelvin**2 * slope
