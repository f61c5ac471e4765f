"""What seals a shaft, a push-rod or a wire through a cap: what it bears, how it rubs, in a vacuum.

Source: data/shaft_seals.csv, row by row; most of it is common practice or from memory.
"""

from dataclasses import dataclass
from functools import cache

from trimdive.data import standing, table
from trimdive.units import read

SHAFT = 1e-3  # rubbing is told for a millimetre of shaft [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class ShaftSeal:
    """One kind of seal for what goes through a cap."""

    key: str
    name: str
    moves: str  # what may move in it
    bears: float  # pressure from outside [Pa]
    rubs_each: float  # for a millimetre of shaft [N]
    fastest: float  # how fast a shaft's surface may go in it [m/s]
    vacuum: str  # what a vacuum inside does to it
    note: str
    status: str  # "from memory" or "common practice, no source"

    def rubs(self, shaft: float) -> float:
        """Return about how hard it rubs on a shaft [N].

        Args:
            shaft: Diameter [m].
        """
        return self.rubs_each * shaft / SHAFT


@cache
def shaft_seals() -> dict[str, ShaftSeal]:
    """Return every kind of the table by its key."""
    return {
        row["key"]: ShaftSeal(
            key=row["key"],
            name=row["name"],
            moves=row["moves"],
            bears=read(f"{row['pressure']} {row['unit']}", "pressure"),
            rubs_each=float(row["rubs"]),
            fastest=float(row["speed"]),
            vacuum=row["vacuum"],
            note=row["note"],
            status=standing(row),
        )
        for row in table("shaft_seals")
    }
