"""How sure a figure is, in a sentence: its ±, and what most of it comes from."""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.rest.named import listed
from trimdive.units import write

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.sure import Figure, Sure

ANY = 0.4  # rad; an angle that may be off by more than this may be any
MOST = 3  # sources told by name
WORTH_TELLING = 0.05  # share of the whole that a source must have to be told [-]
WHATS = {
    "mass": "the mass of {}",
    "volume": "the volume of {}",
    "along": "where {} lies along her",
    "across": "where {} lies across her",
    "height": "how high {} lies",
    "litres": "what {} holds",
}
NOT_TOLD = "Its ± is not worked out; it is as sure as the values put in."
EXACT = "As sure as the values put in."


def sureness(her: "Assessment", key: str, place: str = "") -> str:
    """Return how sure a figure is.

    Args:
        her: The boat.
        key: The figure's short name among those whose spread is worked out.
        place: The mark, or "".
    """
    try:
        figure = her.sure.figure(key, place)
    except KeyError:
        return NOT_TOLD
    if figure.kind == "angle" and figure.half > ANY:
        start = "It may come out at any angle"
    else:
        start = f"± {_half(her, figure)} in 95 cases of 100"
    most = _most(her.sure, figure)
    return f"{start}. Most of that is {most}." if most else f"{start}."


def _half(her: "Assessment", figure: "Figure") -> str:
    if figure.kind == "angle":
        return write(figure.half, "angle", "°", 1)
    return her.boat.units.write(figure.half, figure.kind)


def _most(sure: "Sure", figure: "Figure") -> str:
    """Return what most of a figure's spread comes from, in words."""
    part = figure.off**2
    whole = float(part.sum())
    if whole <= 0:
        return ""
    order = np.argsort(-part)[:MOST]
    told = [
        WHATS[source.what].format(sure.things[source.thing].name)
        for source, share in ((sure.sources[k], float(part[k]) / whole) for k in order)
        if share >= WORTH_TELLING
    ]
    return listed(told) if told else ""
