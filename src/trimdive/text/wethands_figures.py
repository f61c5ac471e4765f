"""Reads the figures that are asked for: angle, small weights, places, the shift test, the tank."""

import re
from collections.abc import Callable

from trimdive.errors import UnitError
from trimdive.estimates.wethands.figure import Figure, usual_of
from trimdive.estimates.wethands.known import Known, Reply
from trimdive.text.wethands_quantities import (
    QUANTITY,
    figure_of,
    fill_size,
    filled,
    fills,
    place_of,
    tilt,
)

AS_DEEP = 0.95  # of her length: with more water she floats free of the bottom [-]


def _degrees(text: str, known: Known) -> Reply:
    angle = tilt(text, known, "degrees")
    return Reply(key="degrees", option="", size=angle, kind="angle", typed=text)


def _heels(text: str, known: Known) -> Reply:
    angle = tilt(text, known, "heels")
    return Reply(key="heels", option="", size=angle, kind="angle", typed=text)


def _depth(text: str, known: Known) -> Reply:
    depth = figure_of(text, "length", "mm", "depth", usual_of("place-off"))
    if depth.value <= 0:
        raise UnitError(f"'{text}' is not a depth", "depth", "Write it as 600 mm.")
    if depth.value >= AS_DEEP * known.length.value:
        what = f"water {text.strip()} is too deep for her to stand on one end"
        raise UnitError(what, "depth", "Measure it again, or leave it out.")
    return Reply(key="depth", option="", size=depth, kind="length", typed=text)


def _balance(text: str, known: Known) -> Reply:
    """Read "120 g at 150 mm from the stern", or "pull 90 g at 100 mm from the bow".

    Raises:
        UnitError: It is neither.
    """
    mend = "Write it as 120 g at 150 mm from the stern."
    is_pull = bool(re.search(r"\b(?:pull|scale|lift|hook)\w*\b", text))
    plain = re.sub(r"\b(?:pulls?|scale|spring|lifts?|hook\w*|reads?|with|a|of)\b", " ", text)
    weight, _, place = plain.strip().partition(" at ")
    if not place:
        raise UnitError(f"'{text}' does not say where", "balance", mend)
    share = usual_of("small-weights-share")
    found = figure_of(weight, "mass", "g", "balance")
    if found.value <= 0:
        raise UnitError(f"'{text}' is not a weight", "balance", mend)
    if not found.spread:
        off = max(usual_of("small-weights-off"), share * found.value)
        found = Figure(found.value, off)
    return Reply(
        key="balance", option="pull" if is_pull else "laid", size=found, kind="mass",
        place=place_of(place, known, "balance"), typed=text,
    )  # fmt: skip


def _place(text: str, known: Known) -> Reply:
    return Reply(key="place", option="", place=place_of(text, known, "place"), typed=text)


def _room(text: str, known: Known) -> Reply:
    return Reply(key="room", option="", place=place_of(text, known, "room"), typed=text)


def _spare(text: str, known: Known) -> Reply:
    """Read how full the tank is at neutral; it stands for the answer to ``filling``."""
    amount = QUANTITY.search(text)
    size, kind = fill_size(amount[0] if amount else text, "spare")
    option = filled(fills(text), size, kind, known)
    return Reply(key="filling", option=option, size=size, kind=kind, typed=text)


def _several(text: str, count: int, where: str, mend: str) -> list[str]:
    """Return the quantities that a text names, parted by commas, x, or words.

    Raises:
        UnitError: They are not so many.
    """
    parts = [
        part for part in re.split(r"\s*(?:;|,(?!\d)|×|\bx\b|\bmoved\b|\bby\b|:)\s*", text) if part
    ]
    if len(parts) != count:
        raise UnitError(f"'{text}' is not {count} figures", where, mend)
    return parts


def _shift(text: str, known: Known) -> Reply:
    """Read "100 g, 300 mm, 8°".

    Raises:
        UnitError: It is not.
    """
    mend = "Write it as 100 g, 300 mm, 8°."
    weight, way, angle = _several(text, 3, "shift", mend)
    turned = figure_of(angle, "angle", "°", "shift", usual_of("angle-off") / 2)
    moved = figure_of(way, "length", "mm", "shift", usual_of("place-off") / 2)
    laid = figure_of(weight, "mass", "g", "shift")
    if not (0 < turned.value < 1.5 and moved.value > 0 and laid.value > 0):
        raise UnitError(f"'{text}' is not such a test", "shift", mend)
    laid = Figure(laid.value, laid.spread or usual_of("mass-off") * laid.value)
    return Reply(
        key="shift", option="", size=laid, kind="mass", way=moved, turned=turned, typed=text
    )


def _slack(text: str, known: Known) -> Reply:
    """Read "400 mm x 90 mm": length and width of the water in the tank.

    Raises:
        UnitError: It is not.
    """
    mend = "Write it as 400 mm x 90 mm."
    long, wide = _several(text, 2, "slack", mend)
    length = figure_of(long, "length", "mm", "slack", usual_of("ends-off"))
    breadth = figure_of(wide, "length", "mm", "slack", usual_of("ends-off"))
    if not (0 < length.value <= known.length.value and 0 < breadth.value <= known.length.value):
        raise UnitError(f"'{text}' does not fit into her", "slack", mend)
    return Reply(key="slack", option="", size=length, kind="length", way=breadth, typed=text)


def _breadth(text: str, known: Known) -> Reply:
    breadth = figure_of(text, "length", "mm", "breadth", usual_of("ends-off"))
    if not 0 < breadth.value <= known.length.value:
        raise UnitError(f"'{text}' cannot be her breadth", "breadth", "Write it as 200 mm.")
    return Reply(key="breadth", option="", size=breadth, kind="length", typed=text)


def _off_line(text: str, known: Known) -> Reply:
    """Read how far she is off her waterline; it stands with the answer to ``ride``."""
    size = figure_of(text, "length", "mm", "rides", usual_of("ends-off") / 2)
    return Reply(key="rides", option="", size=size, kind="length", typed=text)


FIGURES: dict[str, Callable[[str, Known], Reply]] = {
    "degrees": _degrees,
    "heels": _heels,
    "depth": _depth,
    "balance": _balance,
    "place": _place,
    "room": _room,
    "spare": _spare,
    "shift": _shift,
    "slack": _slack,
    "breadth": _breadth,
    "rides": _off_line,
}
