"""The dive: every moment from blown to full and back, each rest followed from the one before.

Where the rest that she follows ends she flops to another: that is a jump, with a filling and an
angle, found by halving; it is no point of a curve, and on the way up it lies elsewhere. Steps are
halved too where she tips or stiffens fast, and where a region goes under.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import acos
from typing import Literal

import numpy as np

from trimdive.ballast.dive.path import Path
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium import Floater, Rest, State, rest, state
from trimdive.records import record

TURN = 0.02  # a step in which she turns more than this is halved [rad]
STIFFEN = 0.0006  # and so is one in which GM changes by more than this [m]
FINEST = 2.0e-4  # steps are not halved below this share of the water [-]
JUMP = 0.035  # turning more than this within the finest step is a jump [rad]
MOST = 400  # moments in a table; then steps stay as they are [-]


@record
class Moment:
    """One moment of the dive."""

    filling: float  # share of the water that comes in [-]
    state: State


@record
class Jump:
    """Where the rest that she follows ends and she flops to another."""

    filling: float  # [-]
    before: State
    after: State
    angle: float  # that she turns through [rad]


Happens = Literal["under", "out", "full"]  # goes under, breaks the surface, tank full
WHOLE = ""  # stands for all of her among the names of regions


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something that happens on the way."""

    filling: float  # [-]
    kind: Happens
    name: str  # of the region or tank; "" where it is all of her


@record
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
        """Return the moment of her largest trim while some of her is out of the water."""
        afloat = [moment for moment in self.moments if not moment.state.rest.under]
        return max(afloat or self.moments, key=lambda moment: abs(moment.state.trim_angle))

    @property
    def largest_heel(self) -> Moment:
        """Return the moment at which she leans most."""
        return max(self.moments, key=lambda moment: abs(moment.state.heel))


def even_moments(boat: Floater, path: Path, steps: int) -> tuple[Moment, ...]:
    """Return even moments from blown to full, each rest followed from the one before.

    Args:
        boat: The boat.
        path: Water in each tank by the share of all that comes in.
        steps: How many [-].
    """
    at: Rest | None = None
    moments: list[Moment] = []
    for k in range(steps + 1):
        at = rest(boat, path.at(k / steps), start=at)
        moments.append(Moment(filling=k / steps, state=state(boat, at)))
    return tuple(moments)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tops:
    """Corners of all regions, by which it is seen what of her is under."""

    names: tuple[str, ...]
    corners: Floats  # shape (n, 3) [m]
    starts: tuple[int, ...]  # where each region's corners begin

    def under(self, at: Rest) -> frozenset[str]:
        """Return which regions are wholly under, and whether she is."""
        found = {WHOLE} if at.under else set[str]()
        if self.names:
            tops = np.maximum.reduceat(self.corners @ at.n, self.starts) <= at.d
            found |= {name for name, gone in zip(self.names, tops, strict=True) if gone}
        return frozenset(found)


def _tops(corners: dict[str, Floats]) -> _Tops:
    figures = {name: points for name, points in corners.items() if len(points)}
    sizes = [len(points) for points in figures.values()]
    return _Tops(
        names=tuple(figures),
        corners=np.concatenate(list(figures.values())) if figures else np.zeros((0, 3)),
        starts=tuple(int(start) for start in np.cumsum([0, *sizes])[:-1]),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Point:
    """A moment in the making: its figures are worked out once it is kept."""

    filling: float  # [-]
    rest: Rest
    under: frozenset[str]
    figures: State | None  # its figures, where they are known already


@dataclass(slots=True)
class _Walk:
    """A dive in the making."""

    boat: Floater
    path: Path
    tops: _Tops
    known: dict[float, State]  # by filling [-], as ``_key`` has it
    points: list[_Point]
    jumps: list[tuple[_Point, _Point, float]]  # before, after, and the angle between [rad]

    def rest(self, filling: float, start: Rest | None) -> _Point:
        """Return the moment at a filling, followed from a rest nearby.

        A rest known at that filling is taken where it lies beside the one nearby: two rests that
        hold and are so near are of one way.
        """
        figures = self.known.get(_key(filling))
        if figures is None or start is None or not _is_beside(figures.rest, start):
            figures, found = None, rest(self.boat, self.path.at(filling), start=start)
        else:
            found = figures.rest
        return _Point(filling=filling, rest=found, under=self.tops.under(found), figures=figures)

    def again(self, point: _Point, start: Rest) -> _Point:
        """Return a moment followed from another rest than it was, itself where that is beside."""
        return point if _is_beside(point.rest, start) else self.rest(point.filling, start)

    def gm_t(self, point: _Point) -> float:
        """Return GM across at a moment [m]."""
        mass = self.boat.mass + self.boat.density * float(point.rest.waters.sum())
        return float(point.rest.stiffness[1, 1]) / mass

    def step(self, before: _Point, after: _Point) -> None:
        """Add the moments after one up to and with another, halving where much happens."""
        size = abs(after.filling - before.filling)
        turn = _turn(before.rest.n, after.rest.n)
        much = (
            turn > TURN
            or abs(self.gm_t(after) - self.gm_t(before)) > STIFFEN
            or before.under != after.under
        )
        if not much or size <= FINEST or len(self.points) >= MOST:
            if size <= FINEST and turn > JUMP:
                self.jumps.append((before, after, turn))
            self.points.append(after)
            return
        middle = self.rest((before.filling + after.filling) / 2, before.rest)
        self.step(before, middle)
        last = self.points[-1]
        self.step(last, self.again(after, last.rest))

    def moments(self) -> tuple[tuple[Moment, ...], tuple[Jump, ...]]:
        """Return what was passed, in figures."""
        states = {id(p): p.figures or state(self.boat, p.rest) for p in self.points}
        moments = [Moment(filling=p.filling, state=states[id(p)]) for p in self.points]
        jumps = [
            Jump(
                filling=before.filling,
                before=states[id(before)],
                after=states[id(after)],
                angle=angle,
            )
            for before, after, angle in self.jumps
        ]
        return tuple(moments), tuple(jumps)


def _key(filling: float) -> float:
    """Return a filling by which one that is known is found."""
    return round(filling, 12)


def _is_beside(one: Rest, other: Rest) -> bool:
    """Return whether two rests hold and lie so near each other that they are of one way."""
    return one.stable and other.stable and _turn(one.n, other.n) <= TURN


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
    known: Sequence[Moment] = (),
) -> Dive:
    """Return every moment of the dive, or of the way up.

    Args:
        boat: The boat.
        path: The planned way of filling.
        tops: Corners of each region of the hull, by name, shape (n, 3) [m].
        steps: Even steps before any is halved [-].
        up: From full to blown instead.
        names: Of the tanks, for events.
        known: Moments of this boat on this path that are worked out already; taken where this
            way passes them.

    Raises:
        BalanceError: She finds no rest somewhere on the way.
    """
    even = np.linspace(0.0, 1.0, steps + 1)
    fillings = np.unique(np.concatenate([even, path.shares]))
    fillings = fillings[::-1] if up else fillings
    worked_out = {_key(moment.filling): moment.state for moment in known}
    walk = _Walk(boat, path, _tops(tops), worked_out, [], [])
    walk.points.append(walk.rest(float(fillings[0]), None))
    for filling in fillings[1:]:
        last = walk.points[-1]
        walk.step(last, walk.rest(float(filling), last.rest))
    moments, jumps = walk.moments()
    return Dive(moments=moments, jumps=jumps, events=tuple(_events(walk, path, names)))


def _events(walk: _Walk, path: Path, names: tuple[str, ...]) -> list[Event]:
    """Return what happens on the way, in order."""
    found: list[Event] = []
    for before, after in pairwise(walk.points):
        gone, come = after.under - before.under, before.under - after.under
        at, order = after.filling, (WHOLE, *walk.tops.names)
        found += [Event(filling=at, kind="under", name=name) for name in order if name in gone]
        found += [Event(filling=at, kind="out", name=name) for name in order if name in come]
    for k, name in enumerate(names):
        column = path.waters[:, k]
        first = int(np.argmax(column >= column[-1] - 1e-12))
        found.append(Event(filling=float(path.shares[first]), kind="full", name=name))
    return sorted(found, key=lambda event: event.filling)
