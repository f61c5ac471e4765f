"""Reads which water is meant, as a builder types it."""

import difflib
import re

from trimdive.errors import AskError, TrimdiveError
from trimdive.units import read
from trimdive.water import Water, water, waters

FRESH = "pond"  # the water of the table that "fresh" alone means
FIGURE = re.compile(r"[-+−]?\d+(?:[.,]\d+)?\s*[^\d\s,;]+(?:/[a-z]+)?", re.IGNORECASE)
EXAMPLES = 'Write it as "sea", "fresh 6 °C" or "pool 28 °C 3 g/kg".'


def water_of(text: str) -> Water:
    """Return the water named as "sea", "fresh 6 °C" or "pool 28 °C 3 g/kg".

    Raises:
        AskError: There is no such water.
        UnitError: A figure in it is no temperature and no salt.

    >>> water_of("pool 28 °C 3 g/kg").salt
    3.0
    """
    typed = " ".join(text.split())
    names = {"fresh": FRESH, **{name: name for name in waters()}}
    found = [name for name in names if re.match(rf"{name}\b", typed, re.IGNORECASE)]
    if not found:
        raise AskError(f"'{text}' is not a water", "--water", _known_waters(typed))
    name = max(found, key=len)
    base = waters()[names[name]]
    celsius, salt = base.celsius, base.salt
    rest = typed[len(name) :].strip(" ,;")
    if FIGURE.sub("", rest).strip(" ,;"):
        raise AskError(f"'{rest}' after '{name}' is not clear", "--water", EXAMPLES)
    for figure in FIGURE.findall(rest):
        if "/" in figure or "%" in figure or "‰" in figure:
            salt = read(figure, "salt", where="--water")
        else:
            celsius = read(figure, "temperature", where="--water")
    try:
        return water(base.kind, celsius, salt)
    except TrimdiveError as error:
        raise AskError(error.what, "--water", error.mend) from None


def _known_waters(typed: str) -> str:
    near = difflib.get_close_matches(typed.lower(), ["fresh", *waters()], n=1)
    return f"Did you mean '{near[0]}'?" if near else f"Known: fresh, {', '.join(waters())}."
