"""The most that a quantity of each kind may be aboard a model boat.

Sources: data/bounds.csv, row by row.
"""

from functools import cache

from trimdive.data import row
from trimdive.errors import UnitError
from trimdive.units.reading import read
from trimdive.units.writing import write

REACH = {  # kinds with bounds of their own, and what kind of quantity each is
    "full-size length": "length",
    "full-size mass": "mass",
    "depth of water": "length",
}
WHOSE = {
    "full-size length": "any ship has",
    "full-size mass": "any ship has",
    "depth of water": "any sea has",
}


@cache
def most(kind: str) -> float:
    """Return the most [SI] that a quantity of a kind may be, above nought or below.

    >>> most("mass"), most("full-size length")
    (10000.0, 1000.0)
    """
    entry = row("bounds", kind)
    if kind == "ratio":
        return float(entry["most"])
    return read(f"{entry['most']} {entry['unit']}", REACH.get(kind, kind))


def within(value: float, kind: str, text: str, where: str = "") -> float:
    """Return an SI value that a model boat, or anything aboard, can have.

    Args:
        value: What was read [SI; °C for a temperature, g/kg for salt].
        kind: What it is: "length", "mass", "full-size length", ...
        text: As it was typed.
        where: What to call the place in an error.

    Raises:
        UnitError: It is more, above nought or below.

    >>> within(0.85, "length", "850 mm")
    0.85
    """
    limit = most(kind)
    if abs(value) <= limit:
        return value
    edge = write(limit, REACH.get(kind, kind), row("bounds", kind)["unit"], 0)
    what = f"'{text}' is more than {WHOSE.get(kind, 'a model boat can have')}"
    mend = f"Write at most {edge}; are figure and unit right?"
    raise UnitError(what, where or kind, mend)
