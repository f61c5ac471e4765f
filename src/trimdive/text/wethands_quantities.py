"""Quantities as a builder types them at the tub: figures with their ±, places, angles, fillings."""

import re
from math import asin, cos, pi

from trimdive.errors import UnitError
from trimdive.estimates.wethands.figure import Figure, usual_of
from trimdive.estimates.wethands.known import Known
from trimdive.estimates.wethands.likely import FILLINGS
from trimdive.units import read

BOW = r"(?:bows?|nose|fore end|front|stem|head)"
STERN = r"(?:stern|tail|aft end|after end|back)"
QUANTITY = re.compile(
    r"(?:(?<!\S)[-−]\s*)?[\d½¼¾⅓⅔⅛][\d.,/ ½¼¾⅓⅔⅛]*\s*(?:°|\"|'|%|[a-zµ³²]+\b)", re.IGNORECASE
)
SPREAD = re.compile(r"\s*(?:±|\+/-|\+-)\s*")
PLACE = re.compile(rf"(?P<at>.+?)\s*(?:from|off)\s+(?:the\s+)?(?P<end>{BOW}|{STERN})\s*$")


def figure_of(text: str, kind: str, unit: str | None, where: str, off: float = 0.0) -> Figure:
    """Return a quantity as typed, with a ± where one is typed after it.

    Args:
        text: As "12°" or "12° ± 2°".
        kind: What it must be.
        unit: Of a bare number, if there is a usual one.
        where: What to call the place in an error.
        off: How far it may be off where nothing is typed [SI].

    Raises:
        UnitError: It is no such quantity.
    """
    value, *spread = SPREAD.split(text.strip(), maxsplit=1)
    found = read(value, kind, unit, where)
    if not spread:
        return Figure(found, off)
    if spread[0].strip().endswith("%") and kind != "percent":
        return Figure(found, abs(found) * read(spread[0], "percent", "%", where))
    own = unit or value.strip().lstrip("0123456789.,/ ") or None
    return Figure(found, abs(read(spread[0], kind, own, where)))


def place_of(text: str, known: Known, where: str) -> Figure:
    """Return a place from the stern, typed as "210 mm from the bow" [m].

    Raises:
        UnitError: It is none, names no end, or is beyond her ends.
    """
    found = PLACE.fullmatch(text.strip().lower())
    if not found:
        what = f"'{text}' does not say from which end"
        raise UnitError(what, where, "Write it as 210 mm from the bow.")
    at = figure_of(found["at"], "length", None, where, usual_of("place-off"))
    if not 0 <= at.value <= known.length.value:
        what = f"'{text}' is beyond her ends: she is {known.length.value:g} m long"
        raise UnitError(what, where, "Check the unit, and enter it again.")
    is_bow = re.match(BOW, found["end"])
    return Figure(known.length.value - at.value, at.spread) if is_bow else at


def tilt(typed: str, known: Known, key: str) -> Figure:
    """Return an angle typed as such, or as how much lower one end is [rad].

    Raises:
        UnitError: It is neither, or she would stand on end.
    """
    try:
        angle = figure_of(typed, "angle", "°", key, usual_of("angle-off"))
    except UnitError:
        lower = figure_of(typed, "length", None, key, usual_of("ends-off"))
        if lower.value >= known.length.value:
            what = f"'{typed.strip()}' is more than her length"
            raise UnitError(what, key, "Check the unit, and enter it again.") from None
        turned = asin(lower.value / known.length.value)
        return Figure(turned, lower.spread / known.length.value / cos(turned))
    if not 0 <= angle.value < pi / 2:
        raise UnitError(f"'{typed.strip()}' cannot be the angle", key, "Write one from 0 to 90°.")
    return angle


def fill_size(typed: str, key: str) -> tuple[Figure, str]:
    """Return how full a tank is, or the mass by which she is off with it full.

    Raises:
        UnitError: It is neither, or a tank cannot be so full.
    """
    if "%" in typed or "per" in typed:
        found = figure_of(typed, "percent", "%", key, 0.01)
        if not 0 < found.value <= 1:
            what = f"a tank cannot be {typed.strip()} full"
            raise UnitError(what, key, "Write a share from 0 to 100 %.")
        return found, "percent"
    return figure_of(typed, "mass", None, key, usual_of("small-weights-off")), "mass"


def fills(text: str) -> str:
    """Return how full the tank is at neutral, from words or from a figure."""
    if re.search(r"\b(?:never|stays up|will not|won't|light)\b", text):
        return "never"
    if re.search(r"\d\s*(?:%|per ?cent)", text):
        return "nearly"  # the figure decides
    if re.search(r"\b(?:early|much less|half|little)\b", text):
        return "early"
    if re.search(r"\b(?:not quite|nearly|almost|heavy|sinks)\b", text):
        return "nearly"
    return "quite" if re.search(r"\b(?:quite|full|brim)\b", text) else ""


def filled(option: str, size: Figure, kind: str, known: Known) -> str:
    """Return how full the tank is at neutral, from a share or from what she is heavy when full."""
    if kind == "mass":
        share = size.value / (known.water * known.tank.value)
        full = 1 + share if option == "never" else 1 - share
    else:
        full = size.value
    return next((name for edge, name in FILLINGS if full < edge), "never")
