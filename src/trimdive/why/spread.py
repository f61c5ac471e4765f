"""How sure a figure is: its ±, and what most of it comes from."""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.fact import Fact, fact

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.uncertainty import Figure, Uncertainty

MOST = 3  # sources told by name
WORTH_TELLING = 0.05  # share of the whole that a source must have to be told [-]
NOT_KNOWN = fact("spread-not-known")
EXACT = fact("spread-as-values")


def spread_of(her: "Assessment", key: str, place: str = "") -> Fact:
    """Return how sure a figure is.

    Args:
        her: The boat.
        key: The figure's short name among those whose spread is worked out.
        place: The mark, or "".
    """
    try:
        figure = her.uncertainty.figure(key, place)
    except KeyError:
        return NOT_KNOWN
    return fact(
        "spread-within", half=figure.half, quantity=figure.kind, most=_most(her.uncertainty, figure)
    )


def _most(uncertainty: "Uncertainty", figure: "Figure") -> tuple[tuple[str, str], ...]:
    """Return what most of a figure's spread comes from: what of which thing, largest first."""
    part = figure.off**2
    whole = float(part.sum())
    if whole <= 0:
        return ()
    order = np.argsort(-part)[:MOST]
    return tuple(
        (source.what, uncertainty.things[source.thing].name)
        for source, share in ((uncertainty.sources[k], float(part[k]) / whole) for k in order)
        if share >= WORTH_TELLING
    )
