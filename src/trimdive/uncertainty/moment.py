"""How sure the three figures of one moment are: trim, weight less buoyancy, BG; to first order.

Trim and BG follow from what each source does to her as she lies there; weight less buoyancy is
that of all of her, with as much water in her tanks as at that moment, wherever she floats.
"""

from collections.abc import Sequence
from math import atan

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium import Floater, State
from trimdive.records import record
from trimdive.uncertainty.figures import Ready, trim_of
from trimdive.uncertainty.loads import Answer, answer, stance
from trimdive.uncertainty.things import WIDE, Source, Thing, sources, things


@record
class Halves:
    """How far the figures of one moment may be off, 95 %."""

    trim: float  # by its tangent [rad]
    excess: float  # weight less buoyancy, wholly under [kg]
    bg: float  # [m]


@record
class Moment:
    """What each source does to the figures of one moment where it is off by one σ."""

    things: tuple[Thing, ...]
    sources: tuple[Source, ...]
    trim: Floats  # by its tangent, shape (s,) [rad]
    excess: Floats  # weight less buoyancy, wholly under, shape (s,) [kg]
    bg: Floats  # shape (s,) [m]

    @property
    def halves(self) -> Halves:
        """Return how far the figures may be off."""
        return Halves(trim=atan(_wide(self.trim)), excess=_wide(self.excess), bg=_wide(self.bg))


def halves(her: Ready, state: State) -> Halves:
    """Return how far trim, weight less buoyancy and BG of a boat at rest may be off.

    Args:
        her: The boat.
        state: How she lies.
    """
    return moment(her, state).halves


def moment(her: Ready, state: State) -> Moment:
    """Return what each source does to trim, weight less buoyancy and BG of a boat at rest.

    Args:
        her: The boat.
        state: How she lies.
    """
    floater = her.floater
    found = things(her.boat, her.files, her.bodies, her.masses)
    listed = sources(her.boat, her.masses, found, floater.tanks.capacities)
    one = answer(stance(floater, state.rest), found, listed)
    excess = np.array([_excess(floater, state, found, source) for source in listed])
    return Moment(
        things=tuple(found), sources=tuple(listed), trim=trim_of(one.turn, state.rest.n),
        excess=excess, bg=_bg(floater, state, one),
    )  # fmt: skip


def _wide(off: Floats) -> float:
    """Return how far a figure may be off, 95 %, from what each source does, shape (s,)."""
    return WIDE * float(np.linalg.norm(off))


def _excess(floater: Floater, state: State, found: Sequence[Thing], source: Source) -> float:
    """Return what a source adds to weight less buoyancy, wholly under [kg]."""
    thing, off = found[source.thing], source.mass
    off -= floater.density * source.share * thing.volume
    if thing.tank >= 0:
        off += floater.density * source.room * float(state.rest.waters[thing.tank])
    return off


def _bg(floater: Floater, state: State, one: Answer) -> Floats:
    """Return what each source adds to B over G along the plumb line, shape (s,) [m].

    Turning changes it in no first order, since B and G stand on one plumb line. Afloat she sinks
    until she displaces what she weighs, by water at the height of the surface.
    """
    rest = state.rest
    n, total = rest.n, state.displacement_mass
    g = float(n @ np.array([state.lcg, state.tcg, state.kg]))
    b = g + state.bg
    volume = floater.volume if rest.under else state.nabla
    rises = one.buoyancy @ n - b * one.volume
    if not rest.under:
        rises = rises + (one.mass / floater.density - one.volume) * (rest.d - b)
    return rises / volume - (one.weight @ n - g * one.mass) / total
