"""Cylinders: how the ways in which one gives way are called, and what a leak test says."""

from typing import TYPE_CHECKING

from trimdive.bench.leaks import HOUR

if TYPE_CHECKING:
    from trimdive.vessels.strength import Part

WAYS = {"crushed": "wall crushed", "folded": "tube buckles between its ends"}
MILLILITRES = HOUR * 1e6  # an hour, in a cubic metre a second


def part_name(one: "Part") -> str:
    """Return what of a cylinder gives way."""
    return way_name(one.way, one.cap)


def way_name(way: str, cap: str) -> str:
    """Return what of a cylinder gives way, by how it does, and the name of a cap."""
    return WAYS.get(way, cap)


def leak_words(water: float, most: float, limit: float) -> str:
    """Return what comes in by a leak test.

    Args:
        water: At the depth she is for [m³/s].
        most: The same with all that is unsure counted against it [m³/s].
        limit: More than this is a leak [m³/s].
    """
    about, high = water * MILLILITRES, most * MILLILITRES
    if water > limit:
        allowed = limit * MILLILITRES
        return f"about {about:.0f} ml an hour at her depth, more than {allowed:.0f}: find it"
    if most > limit:
        return (
            f"about {about:.1f} ml an hour at her depth, and at most {high:.0f} by this gauge: "
            "leave it longer for a better figure"
        )
    return f"about {about:.1f} ml an hour at her depth, at most {high:.1f}"
