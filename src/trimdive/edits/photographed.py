"""Writes what photographs tell into the text of a boat file, as readings; earlier ones make way."""

from collections.abc import Collection

import numpy as np

from trimdive.boatfile import Boat, append, remove
from trimdive.trials.photographs import Lies
from trimdive.units import factor_of

FINE = 1e-4  # lengths are written to this or finer [m]
LEAST_OUT = 1e-3  # so near the middle line a draught is read on it [m]
ANGLE = 2  # decimals of an angle that are written
LEAST = np.deg2rad(0.01)  # a spread is never written as zero [rad]


def with_photographed(
    text: str, boat: Boat, lies: Lies, names: tuple[str, ...], date: str, tanks: str
) -> str:
    """Return the text with the readings that photographs come to.

    Args:
        text: Text of the boat file.
        boat: The boat as it is read from it.
        lies: How she lies by them.
        names: What the photographs are called.
        date: When they were taken, as 2026-05-17.
        tanks: How full her tanks were, as it was typed; "" for blown.

    Raises:
        TrimdiveError: The text cannot be read.
    """
    for number in reversed(earlier(boat, names)):
        text = remove(text, f"reading[{number}]")
    for fields in readings(boat, lies):
        also = {"tanks": tanks} if tanks else {}
        row = {"date": date, **fields, **also, "photos": list(names)}
        text = append(text, "reading", row)
    return text


def earlier(boat: Boat, names: Collection[str]) -> list[int]:
    """Return numbers of readings that follow from photographs, from one; past ones stay."""
    return [
        number
        for number, one in enumerate(boat.readings, 1)
        if not one.past and set(one.photos) & set(names)
    ]


def readings(boat: Boat, lies: Lies) -> list[dict[str, str]]:
    """Return the fields of the readings: a draught, the trim, and the heel where it is told."""
    x, y = lies.surest
    low, high = 0.0, boat.length or np.inf
    x = float(np.clip(x, low, high))
    height, half = lies.height(x, y)
    draught = {
        "draught": _length(boat, height),
        "x": _length(boat, boat.along(x)),
        "spread": _length(boat, half),
    }
    if abs(y) >= LEAST_OUT:
        draught |= {
            "side": "port" if y > 0.0 else "starboard",
            "y": _length(boat, abs(y)),
        }
    found = [draught, {"tips": _angle(lies.trim[0]), "spread": _angle(max(lies.trim[1], LEAST))}]
    if lies.tells_heel:
        found.append({"leans": _angle(lies.heel[0]), "spread": _angle(max(lies.heel[1], LEAST))})
    return found


def _length(boat: Boat, length: float) -> str:
    """Return a length as it is written, in her own unit, to a tenth of a millimetre."""
    factor = factor_of(boat.units.shown("length"), "length")
    return boat.units.write(length, "length", max(int(np.ceil(np.log10(factor / FINE))), 0))


def _angle(angle: float) -> str:
    """Return an angle as it is written, to hundredths of a degree."""
    return f"{np.rad2deg(angle):.{ANGLE}f}°"
