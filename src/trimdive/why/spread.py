"""How sure a figure is: its ±, and what most of it comes from."""

from typing import TYPE_CHECKING, Literal

import numpy as np

from trimdive.fact import Fact, fact
from trimdive.uncertainty.moment import moment

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.geometry.lines.mesh import Floats
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.uncertainty import Uncertainty
    from trimdive.uncertainty.moment import Moment

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
    most = _most(her.uncertainty, figure.off)
    return fact("spread-within", half=figure.half, quantity=figure.kind, most=most)


def spread_now(her: "Assessment", at: "State", which: Literal["trim", "excess", "bg"]) -> Fact:
    """Return how sure one of the three figures of a moment is, as the page says beside it.

    Args:
        her: The boat.
        at: How she lies.
        which: Of the figures.
    """
    kind = {"trim": "angle", "excess": "mass", "bg": "length"}[which]
    found = moment(her, at)
    half, most = getattr(found.halves, which), _most(found, getattr(found, which))
    return fact("spread-within", half=half, quantity=kind, most=most)


def _most(uncertainty: "Uncertainty | Moment", off: "Floats") -> tuple[tuple[str, str], ...]:
    """Return what most of a figure's spread comes from: what of which thing, largest first.

    Args:
        uncertainty: The sources, and the things that they are of.
        off: What each source does to the figure, shape (s,) [its unit].
    """
    part = off**2
    whole = float(part.sum())
    if whole <= 0:
        return ()
    order = np.argsort(-part)[:MOST]
    return tuple(
        (source.what, uncertainty.things[source.thing].name)
        for source, share in ((uncertainty.sources[k], float(part[k]) / whole) for k in order)
        if share >= WORTH_TELLING
    )
