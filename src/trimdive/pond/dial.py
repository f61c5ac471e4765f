"""The table behind the water dial: density by temperature and salt, and what each density asks for.

The card reads it between its rows, straight; how far that is off is worked out here, cell by cell.
"""

from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from trimdive.ballast.depth import as_lead, pull_for
from trimdive.geometry.lines.mesh import Floats
from trimdive.pond.today import Today, today
from trimdive.water import density

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

CELSIUS = tuple(float(c) for c in np.arange(0.0, 40.01, 0.5))  # [°C]
SALTS: dict[str, tuple[float, ...]] = {  # [g/kg]
    "fresh": (0.0,),
    "pool": (0.0, 10.0),  # straight between these: one slope
    "sea": tuple(float(s) for s in range(43)),
}
ROUNDED = 5e-4  # densities are kept in thousandths [kg/m³]
LIGHTEST, HEAVIEST, STEP = 990.0, 1036.0, 1.0  # densities that the dial knows [kg/m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Densities of one kind of water."""

    kind: str
    salts: tuple[float, ...]  # [g/kg]
    densities: Floats  # a row a temperature, a column a salt, shape (t, s) [kg/m³]
    off: float  # the most that reading between the rows is off [kg/m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Dial:
    """Everything that the dial reads from."""

    celsius: tuple[float, ...]  # [°C]
    grids: tuple[Grid, ...]
    rows: tuple[Today, ...]  # by density, evenly
    off: float  # the most that the lead is off by reading between the rows [kg]


@cache
def grid(kind: str) -> Grid:
    """Return densities of a kind of water, and how far reading between them is off."""
    salts = SALTS[kind]
    table = np.array([[density(kind, c, s) for s in salts] for c in CELSIUS])
    off = 0.0
    for i in range(len(CELSIUS) - 1):
        warm = (CELSIUS[i] + CELSIUS[i + 1]) / 2
        for j in range(max(len(salts) - 1, 1)):
            corners = table[i : i + 2, j : j + 2]
            salt = float(np.mean(salts[j : j + 2]))
            off = max(off, abs(float(corners.mean()) - density(kind, warm, salt)))
    return Grid(kind=kind, salts=salts, densities=table, off=off)


def dial(her: "Assessment") -> Dial:
    """Return the table of a boat."""
    steps = round((HEAVIEST - LIGHTEST) / STEP)
    rows = tuple(today(her, LIGHTEST + k * STEP) for k in range(steps + 1))
    grids = tuple(grid(kind) for kind in SALTS)
    return Dial(celsius=CELSIUS, grids=grids, rows=rows, off=_off(her, grids, rows))


def _off(her: "Assessment", grids: tuple[Grid, ...], rows: tuple[Today, ...]) -> float:
    """Return the most that the lead is off [kg]: by the density read, and between two rows of it.

    A density that is off by so much is worth that share of her mass; the lead bends so little that
    it is off most halfway between two rows.
    """
    by_density = (max(one.off for one in grids) + ROUNDED) * her.floater.mass / LIGHTEST
    inner = [
        abs((low.lead + high.lead) / 2 - today_lead(her, (low.density + high.density) / 2))
        for low, high in pairwise(rows)
    ]
    return by_density + max(inner)


def today_lead(her: "Assessment", there: float) -> float:
    """Return the lead to add alone [kg].

    Args:
        her: The boat.
        there: Density of the other water [kg/m³].
    """
    boat = her.floater
    return max(
        as_lead(pull_for(boat.mass, boat.density, there), there), -her.masses.of_kind("lead")
    )
