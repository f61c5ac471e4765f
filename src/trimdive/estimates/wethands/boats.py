"""The boats that she may be: some hundreds for each cause, all by the same plain physics.

Each has the mass, tank and length told, one cause that ails it and a little of everything else, as
every boat has. What each would show in every test is worked out; answers then tell which of them
are still likely. The draw begins at the same seed each time, so that the same answers give the
same boats.

Sources: the laws of ``physics``; how large a fault usually is: common practice, no source.
"""

from dataclasses import dataclass

import numpy as np
from numpy.random import Generator, default_rng
from numpy.typing import NDArray

from trimdive.data import table
from trimdive.estimates.wethands.figure import Figure, usual_of
from trimdive.estimates.wethands.known import Known

Floats = NDArray[np.float64]
EACH = 300  # boats for each cause
SEED = 20  # of the draw
TIPPED = (2.5, 35.0)  # by how much a fault tips her dived, least and most [°]


@dataclass(frozen=True, slots=True, kw_only=True)
class Boats:
    """Hidden figures of the boats that she may be, one entry each, shape (n,)."""

    cause: NDArray[np.int64]  # which one ails it, in the order of the table [-]
    bg: Floats  # [m]
    weight: Floats  # moment of weight, dived and afloat, bow down [kg m]
    above: Floats  # moment of tank water and volume above the waterline, dived only [kg m]
    bubble: Floats  # moment of trapped air, dived only, until rocked [kg m]
    slack: Floats  # what slack water takes off BG [m]
    heap: Floats  # moment of the tank water when it has all run to one end [kg m]
    need: Floats  # how full the tank must be to be neutral, without trapped air [-]
    air: Floats  # trapped air, as a share of the tank [-]
    stiff: Floats  # GM lengthways afloat [m]
    rides: Floats  # lower than the waterline meant, afloat [m]
    heels: Floats  # afloat, to starboard [rad]
    hangs: Floats  # dived, to starboard [rad]
    closed: NDArray[np.bool_]  # foam or closed air above the waterline at the end that rises [-]
    under_way: NDArray[np.bool_]  # tips only under way [-]


def causes() -> tuple[str, ...]:
    """Return the keys of all causes, in the order of the table."""
    return tuple(entry["key"] for entry in table("wet_causes"))


def prior() -> Floats:
    """Return how likely each cause is before anything is asked, shape (c,) [-]."""
    weights = np.array([float(entry["weight"]) for entry in table("wet_causes")])
    return weights / weights.sum()


def boats(known: Known) -> Boats:
    """Return the boats that she may be before any answer.

    Args:
        known: Her mass, tank, length, and BG where told.
    """
    rng = default_rng(SEED)
    names = causes()
    cause = np.repeat(np.arange(len(names)), EACH)
    drawn = _usual(known, rng, cause)
    for k, name in enumerate(names):
        _ail(drawn, name, cause == k, known, rng)
    return drawn


def _drawn(rng: Generator, of: Figure, count: int) -> Floats:
    """Return draws of a figure, shape (n,); never below a tenth of it."""
    found = rng.normal(of.value, of.spread / 1.96, count)
    return np.maximum(found, of.value / 10)


def _usual(known: Known, rng: Generator, cause: NDArray[np.int64]) -> Boats:
    """Return boats with only a little wrong with each."""
    n = cause.size
    bg = _drawn(rng, known.bg_or_guess, n)
    times = np.log(usual_of("stiff-afloat-times")) / 1.96
    turn = known.dived.value * bg * np.radians(1.0)  # that tips each by a degree
    return Boats(
        cause=cause,
        bg=bg,
        weight=rng.normal(0.0, 0.4, n) * turn,
        above=rng.normal(0.0, 0.5, n) * turn,
        bubble=rng.normal(0.0, 0.2, n) * turn,
        slack=rng.uniform(0.0, 0.4, n) * bg,
        heap=np.zeros(n),
        need=rng.normal(usual_of("usual-filling"), usual_of("usual-filling-off") / 1.96, n),
        air=np.abs(rng.normal(0.0, 0.004, n)),
        stiff=usual_of("stiff-afloat") * known.length.value * np.exp(rng.normal(0.0, times, n)),
        rides=rng.normal(0.0, 1e-3, n),
        heels=np.radians(rng.normal(0.0, 0.4, n)),
        hangs=np.radians(rng.normal(0.0, 0.4, n)),
        closed=rng.uniform(size=n) < 0.12,
        under_way=np.zeros(n, dtype=bool),
    )


def _ail(on: Boats, name: str, these: NDArray[np.bool_], known: Known, rng: Generator) -> None:
    """Give one cause to some of the boats, in place."""
    n = int(these.sum())
    side = np.where(rng.uniform(size=n) < 0.5, -1.0, 1.0)
    tips = np.tan(np.radians(rng.uniform(*TIPPED, n)))
    turn = side * tips * known.dived.value * on.bg[these]
    if name == "weight":
        on.weight[these] = turn
    elif name == "tank":
        on.above[these] = turn
    elif name == "foam":
        _foam(on, these, turn, known, rng)
    elif name == "air":
        _air(on, these, side, known, rng)
    elif name == "slack":
        _slack(on, these, known, rng)
    else:
        _plain(on, name, these, side, rng)


def _foam(on: Boats, these: NDArray[np.bool_], turn: Floats, known: Known, rng: Generator) -> None:
    """Add foam above the waterline at one end: it tips her dived, and costs tank."""
    arm = rng.uniform(0.25, 0.45, turn.size) * known.length.value
    on.above[these] += turn
    on.need[these] += np.abs(turn) / arm / (known.water * known.tank.value)
    on.closed[these] = True


def _air(on: Boats, these: NDArray[np.bool_], side: Floats, known: Known, rng: Generator) -> None:
    """Add trapped air somewhere along her."""
    air = rng.uniform(0.03, 0.20, side.size)
    arm = side * rng.uniform(0.05, 0.42, side.size) * known.length.value
    on.air[these] = air
    on.bubble[these] = air * known.tank.value * known.water * arm


def _slack(on: Boats, these: NDArray[np.bool_], known: Known, rng: Generator) -> None:
    """Let the water run lengthways in a long tank."""
    n = int(these.sum())
    long = rng.uniform(0.12, 0.35, n) * known.length.value
    filling = np.clip(on.need[these], 0.0, 1.0)
    on.slack[these] = rng.uniform(1.0, 3.0, n) * on.bg[these]
    on.heap[these] = known.water * known.tank.value * filling * (1 - filling) * long / 2


def _plain(on: Boats, name: str, these: NDArray[np.bool_], side: Floats, rng: Generator) -> None:
    """Give one of the causes that take no moment lengthways."""
    n = side.size
    if name == "tank small":
        on.need[these] = rng.uniform(1.02, 1.25, n)
    elif name == "tank large":
        on.need[these] = rng.uniform(0.35, 0.70, n)
    elif name == "side weight":
        on.heels[these] = side * np.radians(rng.uniform(3.0, 10.0, n))
        on.hangs[these] = on.heels[these] * rng.uniform(0.7, 1.5, n)
    elif name == "side foam":
        on.hangs[these] = side * np.radians(rng.uniform(4.0, 15.0, n))
    elif name in ("low", "high"):
        on.rides[these] = (1 if name == "low" else -1) * rng.uniform(5e-3, 15e-3, n)
    elif name == "under way":
        on.under_way[these] = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Shows:
    """What each boat shows in every test, shape (n,)."""

    hung: Floats  # bow down, dived, neutral [rad]
    full: Floats  # the same with the tank quite full [rad]
    rocked: Floats  # the same, neutral, once rocked [rad]
    afloat: Floats  # bow lower than stern, tank empty [m]
    filling: Floats  # how full the tank is when neutral [-]
    rocked_filling: Floats  # the same once rocked [-]
    stays: NDArray[np.bool_]  # pushed to the other end she stays there [-]


def shows(known: Known, on: Boats) -> Shows:
    """Return what boats show.

    Args:
        known: Her mass, tank and length.
        on: The boats.
    """
    mass = known.dived.value
    steady = on.weight + on.above
    afloat = on.weight / (known.mass.value * on.stiff)
    return Shows(
        hung=_hung(on, steady + on.bubble, mass),
        full=np.arctan((steady + on.bubble) / (mass * on.bg)),
        rocked=_hung(on, steady, mass),
        afloat=known.length.value * np.sin(np.arctan(afloat)),
        filling=on.need + on.air,
        rocked_filling=on.need,
        stays=on.slack > 0.95 * on.bg,
    )


def _hung(on: Boats, moment: Floats, mass: float) -> Floats:
    """Return the angle with slack water: softer, or all of it at one end once BG is used up."""
    left = on.bg - on.slack
    is_soft = left < 0.05 * on.bg
    soft = np.where(is_soft, on.bg, left)
    run = np.where(is_soft, np.sign(moment) * on.heap, 0.0)
    return np.arctan((moment + run) / (mass * soft))
