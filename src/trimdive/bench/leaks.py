"""Leak tests: what a gauge and a thermometer tell of water coming in at depth.

The air in a cylinder keeps its amount unless it leaks: p V / T. What is missing, at the pressure
across the wall in the test, gives how wide the leak is; at depth water comes in through it, driven
by the pressure there, so much slower as water is thicker than air.

Sources: the ideal gas law; laminar flow through a narrow way (Hagen-Poiseuille), by which a volume
of flow goes with the pressure across over the viscosity.
"""

import datetime
from dataclasses import dataclass
from math import inf

from trimdive.boatfile import Boat
from trimdive.boatfile.bench import LeakTest
from trimdive.data import constant
from trimdive.vessels.strength import safety

HOUR = 3600.0  # [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Leak:
    """What one leak test tells."""

    cylinder: str
    date: datetime.date
    after: str  # what had been opened before it
    lost: float  # of the air's amount; below zero where more is in it than before [-]
    unsure: float  # what gauge and weather leave unsure of that [-]
    air_out: float  # through the leak, at the test's own pressure [m³/s]
    water_in: float  # at the depth she is for [m³/s]
    most: float  # the same with all that is unsure counted against it [m³/s]
    limit: float  # more than this coming in is a leak [m³/s]

    @property
    def passes(self) -> bool:
        """Return whether no more comes in than is allowed."""
        return self.water_in <= self.limit


def leaks(
    boat: Boat, airs: dict[str, float], depth: float, density: float, viscosity: float
) -> tuple[Leak, ...]:
    """Return what every leak test tells, the latest of each cylinder last.

    Args:
        boat: The boat.
        airs: Free air of each cylinder by its name [m³].
        depth: That she is for [m].
        density: Of the water [kg/m³].
        viscosity: Of the water, ν [m²/s].
    """
    ordered = sorted(boat.leak_tests, key=lambda test: test.date)
    return tuple(
        leak(test, test.air or airs[test.cylinder], depth, density, viscosity) for test in ordered
    )


def leak(test: LeakTest, air: float, depth: float, density: float, viscosity: float) -> Leak:
    """Return what a leak test tells.

    Args:
        test: As it was read.
        air: Free air in the cylinder [m³].
        depth: That she is for [m].
        density: Of the water [kg/m³].
        viscosity: Of the water, ν [m²/s].
    """
    usual = constant("atmosphere")
    start_air = test.barometer_start or usual
    end_air = test.barometer_end or start_air
    start = (start_air + test.gauge_start) / _kelvin(test.celsius_start)
    end = (end_air + test.gauge_end) / _kelvin(test.celsius_end)
    way = 1.0 if test.gauge_start > 0 else -1.0
    lost = way * (start - end) / start
    unsure = safety("leak-noise") * 1e3 / (start_air + test.gauge_start)
    across = abs(test.gauge_start + test.gauge_end) / 2 or abs(test.gauge_start)
    flow = air / test.time  # if all of it went
    met = constant("gravity") * density * depth
    thick = constant("air-viscosity") / (viscosity * density)
    per = flow * (start_air + test.gauge_start) / max(start_air, 1.0) * met / across * thick
    water, most = max(lost, 0.0) * per, max(lost + unsure, 0.0) * per
    return Leak(
        cylinder=test.cylinder,
        date=test.date,
        after=test.after,
        lost=lost,
        unsure=unsure,
        air_out=max(lost, 0.0) * flow,
        water_in=water,
        most=most,
        limit=safety("leak-limit") * 1e-6 / HOUR,
    )


def _kelvin(celsius: float) -> float:
    return celsius + constant("zero-celsius")


def latest(found: tuple[Leak, ...], cylinder: str) -> Leak | None:
    """Return the latest leak test of a cylinder."""
    return next((one for one in reversed(found) if one.cylinder == cylinder), None)


def longest(test: Leak) -> float:
    """Return how long a quarter of a litre takes to come in [s]; endless where nothing does."""
    return 0.25e-3 / test.water_in if test.water_in > 0 else inf
