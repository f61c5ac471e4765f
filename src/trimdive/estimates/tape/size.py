"""How large a boat of a length usually is: mass, litres, cylinder, motor, battery, by a table.

Source: common practice, no source.
"""

from dataclasses import dataclass

import numpy as np

from trimdive.data import table
from trimdive.estimates.tape.readings import Kind

DRY = (1.7, 2.0, 2.4)  # a dry hull weighs so many times a wet one of its length [-]
NAMES = ("mass", "litres", "cylinder", "power", "volts", "charge", "reserve")


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """A figure as it usually is, with how low and how high it may well be."""

    usual: float  # [kg, L, m, W, V, Ah]
    low: float  # [as above]
    high: float  # [as above]

    def by(self, low: float, usual: float, high: float) -> "Band":
        """Return the band of so many times as much.

        Args:
            low: Factor of the low figure [-].
            usual: Factor of the usual figure [-].
            high: Factor of the high figure [-].
        """
        return Band(usual=self.usual * usual, low=self.low * low, high=self.high * high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """What a boat of some length and kind usually has."""

    mass: Band  # lifted out, drained [kg]
    litres: Band  # ballast water [L]
    cylinder: Band  # outside diameter [m]
    power: Band  # of the motor in use [W]
    volts: Band  # of the battery [V]
    charge: Band  # of the battery [Ah]
    reserve: Band  # lift left with tanks full [kg]


def size_of(length: float, kind: Kind) -> Size:
    """Return what a boat of some length and kind usually has.

    The table's bands are joined by straight lines in logarithms through their middles.

    Args:
        length: Over all [m].
        kind: Wet or dry hull.
    """
    rows = table("sizes")
    middles = np.array([np.sqrt(float(r["length"]) * float(r["length_most"])) for r in rows])
    bands = {name: _band(name, np.log(middles), float(np.log(length))) for name in NAMES}
    if kind == "dry":
        bands["mass"] = bands["mass"].by(*DRY)
        bands["litres"] = bands["litres"].by(2.0, 4.0, 8.0)
    return Size(**bands)


def _band(name: str, middles: np.ndarray, at: float) -> Band:
    rows = table("sizes")
    low, high = (
        _straight(middles, np.log([float(r[f"{name}_{end}"]) for r in rows]), at)
        for end in ("low", "high")
    )
    return Band(
        usual=float(np.exp((low + high) / 2)), low=float(np.exp(low)), high=float(np.exp(high))
    )


def _straight(x: np.ndarray, y: np.ndarray, at: float) -> float:
    """Return the straight line between points, carried on beyond the first and the last."""
    k = int(np.clip(np.searchsorted(x, at), 1, len(x) - 1))
    return float(y[k - 1] + (y[k] - y[k - 1]) * (at - x[k - 1]) / (x[k] - x[k - 1]))
