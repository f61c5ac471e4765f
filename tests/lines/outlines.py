"""Hulls measured at a few places, as a builder would, for the tests of outlines."""

from collections.abc import Callable, Iterable

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines.outline import Finish, Outline, Pins
from trimdive.geometry.lines.outline_sections import Section
from trimdive.geometry.lines.outline_spread import Band

Floats = NDArray[np.float64]
NO_FLAT: Pins = ((0.0, 0.0),)
HALFWAY: Pins = ((0.0, 0.5),)


def pins(x: Iterable[float], figures: Iterable[float]) -> Pins:
    """Return a line through figures at places."""
    return tuple((float(a), float(b)) for a, b in zip(x, figures, strict=True))


def closer_to_ends(length: float, count: int) -> Floats:
    """Return places that crowd towards both ends, as a careful builder picks them."""
    return length / 2.0 * (1.0 - np.cos(np.linspace(0.0, np.pi, count)))


def round_hull(
    radius: Callable[[float], float],
    x: Floats,
    axis: float,
    *,
    bow: Finish = "not entered",
) -> Outline:
    """Return a round hull whose keel and deck were measured at some places."""
    r = np.array([radius(float(place)) for place in x])
    sections = tuple(Section(x=float(place), shape="round") for place in x[[0, len(x) // 2, -1]])
    return Outline(
        keel=pins(x, axis - r),
        deck=pins(x, axis + r),
        half=pins(x, r),
        widest=HALFWAY,
        deck_half=NO_FLAT,
        sections=sections,
        bow=bow,
    )


def holds(band: Band, truth: float) -> bool:
    """Return whether the truth lies in a band."""
    return abs(band.value - truth) <= band.spread
