"""What is taken where nothing is told, and noted as such.

Sources: data/plant_usual.csv, row by row.
"""

from functools import cache

from trimdive.data import row
from trimdive.fact import Fact, fact
from trimdive.units import read

KINDS = {
    "L/min": "flow",
    "ml": "volume",
    "bar": "pressure",
    "mbar": "pressure",
    "V": "voltage",
    "A": "current",
    "%": "percent",
    "rpm": "speed of turning",
    "N m": "torque",
    "N": "force",
    "mm": "length",
    "mm²": "area",
    "g": "mass",
    "kg/m³": "density",
    "m/s": "speed",
}
PLAIN = ("1", "J/K")  # units that are SI already


@cache
def usual(key: str) -> float:
    """Return a usual figure [SI].

    >>> usual("pump-head")
    100000.0
    """
    entry = row("plant_usual", key)
    if entry["unit"] in PLAIN:
        return float(entry["value"])
    return read(f"{entry['value']} {entry['unit']}", KINDS[entry["unit"]])


class Taking:
    """Takes what is told or what is usual, and remembers which was taken."""

    def __init__(self) -> None:
        """Begin with nothing taken."""
        self.assumed: list[Fact] = []

    def __call__(self, given: float | None, key: str) -> float:
        """Return what is told, or what is usual.

        Args:
            given: As the boat file has it, or None [SI].
            key: Of the usual figure.
        """
        if given is not None:
            return given
        self.note(fact("usual-taken", key=key))
        return usual(key)

    def note(self, taken: Fact) -> None:
        """Remember something else that was taken for granted."""
        if taken not in self.assumed:
            self.assumed.append(taken)
