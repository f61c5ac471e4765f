"""Tubes and pipes that are sold, as the table has them; what is bought differs and is measured.

Sources: data/tube_stock.csv, row by row.
"""

from dataclasses import dataclass
from functools import cache

from trimdive.data import table
from trimdive.units import read


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A tube that is sold."""

    name: str
    material: str
    series: str  # standard or range
    size: str  # as it is asked for
    outside: float  # diameter [m]
    wall: float  # [m]
    status: str  # published, a maker's list, a web page, or from memory
    note: str

    @property
    def bore(self) -> float:
        """Return the inside diameter [m]."""
        return self.outside - 2 * self.wall


@cache
def stock() -> tuple[Stock, ...]:
    """Return every tube of ``tube_stock.csv``, in its order."""
    return tuple(
        Stock(
            name=entry["key"],
            material=entry["material"],
            series=entry["series"],
            size=entry["size"],
            outside=read(f"{entry['outside']} {entry['unit']}", "length"),
            wall=read(f"{entry['wall']} {entry['unit']}", "length"),
            status=entry["status"],
            note=entry["note"],
        )
        for entry in table("tube_stock")
    )
