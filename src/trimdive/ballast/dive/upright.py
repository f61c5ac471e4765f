"""Where on the way down or up she will not stand upright, and by how much she lolls there."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from trimdive.ballast.dive.table import Dive, Moment
from trimdive.errors import BalanceError
from trimdive.fact import Fact, fact
from trimdive.hydrostatics.equilibrium import Floater, State
from trimdive.hydrostatics.equilibrium.heeled import gz_curve
from trimdive.hydrostatics.equilibrium.named import how_full

LEANING = 0.009  # at less heel than this nobody asks whether she stands upright [rad]
PROBE = 0.01  # small heel at which her righting lever upright is looked at [rad]
OVER = 1.57  # heeled by more than this she has turned over [rad]
CLOSE = 0.01  # bands nearer than this are one [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Moments that hang together on one curve."""

    moments: tuple[Moment, ...]
    upright: bool  # whether she would stand upright, were she put so
    gm: float  # the least that rights her there, were she put upright [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Loll:
    """A stretch of the way on which she will not stand upright."""

    first: float  # how full her tanks are where it begins, of their whole room [-]
    last: float  # and where it ends [-]
    heel: float  # the largest on it, to either side [rad]
    gm: float  # the least that rights her on it, were she put upright: below zero [m]

    @property
    def does(self) -> Fact:
        """Return what she does there: how far she lolls, or that she turns over."""
        return fact("turns-over") if self.heel > OVER else fact("lolls", heel=self.heel)


def stands_upright(boat: Floater, state: State) -> bool:
    """Return whether she stands upright, or would but for a list: her lever grows with heel."""
    return upright_gm(boat, state) > 0 or abs(state.heel) < LEANING


def upright_gm(boat: Floater, state: State) -> float:
    """Return her GM were she put upright [m]; 0 where she finds no rest so.

    Where she lies upright that is her own; else it is the slope of her levers there.
    """
    if abs(state.heel) < LEANING:
        return state.gm_t
    try:
        levers = gz_curve(boat, state.rest, np.array([0.0, PROBE])).gz
    except BalanceError:
        return 0.0
    return float(levers[1] - levers[0]) / PROBE


def runs(boat: Floater, way: Dive) -> list[Run]:
    """Return the way as curves, broken where she jumps and where she will not stand upright."""
    found: list[Run] = []
    jumps = {jump.filling for jump in way.jumps}
    held: list[Moment] = []
    stood, least = True, inf
    for moment in way.moments:
        gm = upright_gm(boat, moment.state)
        stands = gm > 0 or abs(moment.state.heel) < LEANING
        if held and (held[-1].filling in jumps or stands != stood):
            found.append(Run(moments=tuple(held), upright=stood, gm=least))
            held, least = [], inf
        held.append(moment)
        stood, least = stands, min(least, gm)
    return [*found, Run(moments=tuple(held), upright=stood, gm=least)]


def lolls(boat: Floater, pieces: Sequence[Run]) -> Iterator[Loll]:
    """Yield where she will not stand upright, from the emptiest on."""
    low = sorted(
        (_loll(boat, piece) for piece in pieces if not piece.upright), key=lambda one: one.first
    )
    while low:
        one = low.pop(0)
        while low and low[0].first <= one.last + CLOSE:
            other = low.pop(0)
            one = Loll(
                first=one.first,
                last=max(one.last, other.last),
                heel=max(one.heel, other.heel),
                gm=min(one.gm, other.gm),
            )
        yield one


def _loll(boat: Floater, piece: Run) -> Loll:
    fillings = [how_full(boat, piece.moments[k].state.rest.waters) for k in (0, -1)]
    heel = max(abs(moment.state.heel) for moment in piece.moments)
    return Loll(first=min(fillings), last=max(fillings), heel=heel, gm=piece.gm)
