"""The dive as it is shown: curves that hang together, and what happens on the way."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import BalanceError

if TYPE_CHECKING:
    from trimdive.assess import Assessment
    from trimdive.dive import Dive, Event, Moment
    from trimdive.rest import State

LEANING = 0.009  # leaning less than this nobody asks whether she stands upright [rad]
PROBE = 0.01  # small heel at which her righting lever upright is looked at [rad]
SAME = 1e-9  # fillings closer than this are one [-]
ENDINGS = {
    " goes under": " go under",
    " breaks the surface": " break the surface",
    " full": " full",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """Moments that hang together on one curve."""

    moments: tuple["Moment", ...]
    upright: bool  # whether she would stand upright, were she put so


@dataclass(frozen=True, slots=True, kw_only=True)
class Happening:
    """Everything that happens at one filling, in words."""

    filling: float  # share of the water that comes in [-]
    moment: "Moment"
    what: str


def how_full(her: "Assessment", state: "State") -> float:
    """Return how full her tanks are together, of their whole room [-]."""
    room = float(her.floater.tanks.capacities.sum())
    return float(state.rest.waters.sum()) / room if room else 0.0


def outer_marks(her: "Assessment") -> tuple[tuple[str, float], tuple[str, float]]:
    """Return name and place of her aftermost and foremost mark, or of her ends [m]."""
    marks = sorted((mark.x, mark.name) for mark in her.boat.marks)
    if len(marks) > 1:
        return (marks[0][1], marks[0][0]), (marks[-1][1], marks[-1][0])
    bounds = [body.mesh.bounds[:, 0] for body in her.bodies]
    low, high = min(float(low) for low, _ in bounds), max(float(high) for _, high in bounds)
    return ("stern", low), ("bow", high)


def stands_upright(her: "Assessment", state: "State") -> bool:
    """Return whether she stands upright, or would but for a list: her lever grows with heel."""
    if abs(state.heel) < LEANING:
        return True
    try:
        levers = her.gz(state, np.array([0.0, PROBE])).gz
    except BalanceError:
        return False
    return bool(levers[1] > levers[0])


def runs(her: "Assessment", way: "Dive") -> list[Run]:
    """Return the way as curves, broken where she jumps and where she will not stand upright."""
    found: list[Run] = []
    jumps = {jump.filling for jump in way.jumps}
    held: list[Moment] = []
    stood = True
    for moment in way.moments:
        stands = stands_upright(her, moment.state)
        if held and (held[-1].filling in jumps or stands != stood):
            found.append(Run(moments=tuple(held), upright=stood))
            held = []
        held.append(moment)
        stood = stands
    return [*found, Run(moments=tuple(held), upright=stood)]


def bands(her: "Assessment", pieces: Sequence[Run]) -> Iterator[tuple[float, float]]:
    """Yield from where to where [-, how full] she will not stand upright."""
    low: list[tuple[float, float]] = []
    for piece in pieces:
        if not piece.upright:
            ends = [how_full(her, piece.moments[k].state) for k in (0, -1)]
            low.append((min(ends), max(ends)))
    low.sort()
    while low:
        start, end = low.pop(0)
        while low and low[0][0] <= end + 0.01:
            end = max(end, low.pop(0)[1])
        yield start, end


def named(names: Sequence[str]) -> str:
    """Return names in a sentence.

    >>> named(["bow", "middle", "stern"])
    'bow, middle and stern'
    """
    return " and ".join([", ".join(names[:-1]), names[-1]] if len(names) > 1 else names)


def _merged(events: Sequence["Event"]) -> str:
    """Return all that happens at one filling, in a few words."""
    texts: list[str] = []
    left = [event.what for event in events]
    for ending, many in ENDINGS.items():
        names = [what.removesuffix(ending) for what in left if what.endswith(ending)]
        whole = [name for name in names if name == "she"]
        some = [name for name in names if name != "she"]
        if some:
            texts.append(named(some) + (many if len(some) > 1 else ending))
        texts += [f"all of her{ending}" if ending == " goes under" else f"she{ending}"] * len(whole)
    return "; ".join(texts)


def happenings(way: "Dive", *, up: bool = False) -> list[Happening]:
    """Return what happens on the way, in its order; on the way up no tank becomes full."""
    events = [event for event in way.events if not (up and event.what.endswith(" full"))]
    ordered = sorted(events, key=lambda event: -event.filling if up else event.filling)
    found: list[Happening] = []
    for filling, several in groupby(ordered, key=lambda event: round(event.filling / SAME) * SAME):
        moment = min(way.moments, key=lambda one: abs(one.filling - filling))
        found.append(Happening(filling=moment.filling, moment=moment, what=_merged([*several])))
    return found


def tips_most(way: "Dive") -> "Moment":
    """Return the moment at which she tips most while some of her is out of the water."""
    afloat = [moment for moment in way.moments if not moment.state.rest.under]
    return max(afloat or way.moments, key=lambda moment: abs(moment.state.trim_angle))
