"""The dive: every moment from blown to full and back, each rest followed from the one before.

Where the rest that she follows ends she flops to another: that is a jump, with a filling and an
angle, found by halving; it is no point of a curve, and on the way up it lies elsewhere. Steps are
halved too where she tips or stiffens fast, and where a region goes under.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import acos

import numpy as np

from trimdive.dive.path import Path
from trimdive.lines.mesh import Floats
from trimdive.rest import Floater, Rest, State, rest, state

TURN = 0.02  # a step in which she turns more than this is halved [rad]
STIFFEN = 0.0006  # and so is one in which GM changes by more than this [m]
FINEST = 2.0e-4  # steps are not halved below this share of the water [-]
JUMP = 0.035  # turning more than this within the finest step is a jump [rad]
MOST = 400  # moments in a table; then steps stay as they are [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """One moment of the dive."""

    filling: float  # share of the water that comes in [-]
    state: State


@dataclass(frozen=True, slots=True, kw_only=True)
class Jump:
    """Where the rest that she follows ends and she flops to another."""

    filling: float  # [-]
    before: State
    after: State
    angle: float  # that she turns through [rad]


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something that happens on the way."""

    filling: float  # [-]
    what: str  # "tower goes under", "forward tank full"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dive:
    """The way down or up."""

    moments: tuple[Moment, ...]  # in the order in which they are passed
    jumps: tuple[Jump, ...]
    events: tuple[Event, ...]

    @property
    def least_gm(self) -> Moment:
        """Return the moment at which she is least stiff across."""
        return min(self.moments, key=lambda moment: moment.state.gm_t)

    @property
    def largest_trim(self) -> Moment:
        """Return the moment at which she tips most."""
        return max(self.moments, key=lambda moment: abs(moment.state.trim_angle))

    @property
    def largest_heel(self) -> Moment:
        """Return the moment at which she leans most."""
        return max(self.moments, key=lambda moment: abs(moment.state.heel))


@dataclass(slots=True)
class _Walk:
    """A dive in the making."""

    boat: Floater
    path: Path
    tops: dict[str, Floats]  # corners of each region, shape (n, 3) [m]
    moments: list[Moment]
    jumps: list[Jump]

    def rest(self, filling: float, start: Rest | None) -> Moment:
        """Return the moment at a filling, followed from a rest nearby."""
        found = rest(self.boat, self.path.at(filling), start=start)
        return Moment(filling=filling, state=state(self.boat, found))

    def under(self, one: Moment) -> frozenset[str]:
        """Return which regions are wholly under, and whether she is."""
        at = one.state.rest
        gone = {name for name, corners in self.tops.items() if (corners @ at.n).max() <= at.d}
        return frozenset(gone | ({"she"} if at.under else set()))

    def step(self, before: Moment, after: Moment) -> None:
        """Add the moments after one up to and with another, halving where much happens."""
        size = abs(after.filling - before.filling)
        turn = _turn(before.state.rest.n, after.state.rest.n)
        much = (
            turn > TURN
            or abs(after.state.gm_t - before.state.gm_t) > STIFFEN
            or self.under(before) != self.under(after)
        )
        if not much or size <= FINEST or len(self.moments) >= MOST:
            if size <= FINEST and turn > JUMP:
                self.jumps.append(
                    Jump(
                        filling=before.filling,
                        before=before.state,
                        after=after.state,
                        angle=turn,
                    )
                )
            self.moments.append(after)
            return
        middle = self.rest((before.filling + after.filling) / 2, before.state.rest)
        self.step(before, middle)
        last = self.moments[-1]
        self.step(last, self.rest(after.filling, last.state.rest))


def _turn(one: Floats, other: Floats) -> float:
    """Return the angle between two upward vectors [rad]."""
    return acos(max(-1.0, min(1.0, float(one @ other))))


def dive(
    boat: Floater,
    path: Path,
    tops: dict[str, Floats],
    *,
    steps: int = 50,
    up: bool = False,
    names: tuple[str, ...] = (),
) -> Dive:
    """Return every moment of the dive, or of the way up.

    Args:
        boat: The boat.
        path: The planned way of filling.
        tops: Corners of each region of the hull, by name, shape (n, 3) [m].
        steps: Even steps before any is halved [-].
        up: From full to blown instead.
        names: Of the tanks, for events.

    Raises:
        BalanceError: She finds no rest somewhere on the way.
    """
    even = np.linspace(0.0, 1.0, steps + 1)
    fillings = np.unique(np.concatenate([even, path.shares]))
    fillings = fillings[::-1] if up else fillings
    walk = _Walk(boat, path, tops, [], [])
    walk.moments.append(walk.rest(float(fillings[0]), None))
    for filling in fillings[1:]:
        last = walk.moments[-1]
        walk.step(last, walk.rest(float(filling), last.state.rest))
    return Dive(
        moments=tuple(walk.moments),
        jumps=tuple(walk.jumps),
        events=tuple(_events(walk, path, names)),
    )


def _events(walk: _Walk, path: Path, names: tuple[str, ...]) -> list[Event]:
    """Return what happens on the way, in order."""
    found: list[Event] = []
    for before, after in pairwise(walk.moments):
        gone, come = walk.under(after) - walk.under(before), walk.under(before) - walk.under(after)
        at = after.filling
        found += [Event(filling=at, what=f"{name} goes under") for name in sorted(gone)]
        found += [Event(filling=at, what=f"{name} breaks the surface") for name in sorted(come)]
    for k, name in enumerate(names):
        column = path.waters[:, k]
        first = int(np.argmax(column >= column[-1] - 1e-12))
        found.append(Event(filling=float(path.shares[first]), what=f"{name} full"))
    return sorted(found, key=lambda event: event.filling)
