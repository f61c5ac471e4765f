"""Pressure in a dry space in every state: tanks full and blown, in the sun, and both at once.

Gas or a battery that vents is not bounded: a valve or a cap that lifts is the answer, no figure.

Sources: the laws beside this file.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from trimdive.data import constant
from trimdive.fact import Fact, fact
from trimdive.vessels.dryspace.laws import drawn, pressure, warmed
from trimdive.vessels.dryspace.space import DrySpace, Taker

NONE = 0.5  # a pressure below this is that of the air [Pa]
SMALL = 1e-9  # water that is told from none [m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """Pressure inside in one state."""

    key: str  # "tank full", "tank emptied", "cold", "sun", "tank full, sun"
    state: Fact  # the same with what is so of its tanks
    pressure: float  # above the air's; below zero a vacuum [Pa]
    why: Fact  # how it comes about
    is_warm: bool  # whether it is in the sun, and not in the water


Reached = Mapping[str, tuple[float, float]]  # by tank: water blown, and full [m³]


def insides(
    space: DrySpace, reached: Reached | None = None, outside: float | None = None
) -> tuple[Inside, ...]:
    """Return the pressure in a dry space in every state that differs from the air's.

    Args:
        space: The dry space.
        reached: Water that plants leave in a tank, and bring into it; left out, blown and full.
        outside: Absolute pressure around bags; None: the air's [Pa].

    Raises:
        BoatError: The tanks take all of its air.
    """
    ends = {one.tank: (reached or {}).get(one.tank, (one.blown, one.full)) for one in space.takers}
    closed = {one.tank: one.closed for one in space.takers}
    blown = {tank: low for tank, (low, _) in ends.items()}
    full = {tank: high for tank, (_, high) in ends.items()}
    many = len(space.takers) > 1
    is_short = any(one.full - full[one.tank] > SMALL for one in space.takers)
    filled = fact("tanks-filled", many=many, is_short=is_short)
    sun = fact("in-the-sun")
    found = [
        _state(space, "tank full", filled, full, outside, is_warm=False),
        _state(space, "tank emptied", fact("tanks-emptied", many=many), blown, outside,
               is_warm=False),
        _state(space, "sun", sun, closed, outside, is_warm=True),
    ]  # fmt: skip
    if not space.takers:
        cold = fact("in-the-water")
        found = [_state(space, "cold", cold, {}, outside, is_warm=False), found[-1]]
    elif _moved(space, full):
        both = fact("both-at-once", first=filled, second=sun)
        found.append(_state(space, "tank full, sun", both, full, outside, is_warm=True))
    return tuple(one for one in found if abs(one.pressure) > NONE)


def _moved(space: DrySpace, waters: Mapping[str, float]) -> bool:
    """Return whether a tank holds another water than when the space was closed."""
    return any(abs(waters[one.tank] - one.closed) > SMALL for one in space.takers)


def _state(
    space: DrySpace,
    key: str,
    state: Fact,
    waters: Mapping[str, float],
    outside: float | None,
    *,
    is_warm: bool,
) -> Inside:
    """Return the pressure in a dry space with this water in its tanks [m³]."""
    celsius = space.hottest if is_warm else space.celsius
    now = absolute(space, waters, celsius, outside)
    return Inside(
        key=key, state=state, pressure=now - constant("atmosphere"),
        why=fact("pressed-by", parts=tuple(_why(space, waters, celsius))), is_warm=is_warm,
    )  # fmt: skip


def absolute(
    space: DrySpace, waters: Mapping[str, float], celsius: float, outside: float | None = None
) -> float:
    """Return the absolute pressure in a dry space [Pa].

    Args:
        space: The dry space.
        waters: Water in each tank that works in it, by its name [m³].
        celsius: Temperature in it [°C].
        outside: Absolute pressure around bags; None: the air's [Pa].

    Raises:
        BoatError: The tanks take all of its air.
    """
    warm = warmed(space.closed_celsius, celsius)
    now = sum(waters[one.tank] for one in space.takers if not one.is_bag)
    cold = pressure(space.air, now, space.closed_water)
    bags = [one for one in space.takers if one.is_bag]
    if not bags:
        return cold * warm
    around = constant("atmosphere") if outside is None else outside
    kept = sum(bag_pressure(one, waters[one.tank], around) * one.size(waters[one.tank])
               for one in bags)  # fmt: skip
    then = sum(one.size(one.closed) for one in bags)
    return warm * drawn(space.air - now, space.air - space.closed_water, kept, then)


def bag_pressure(taker: Taker, water: float, outside: float) -> float:
    """Return the absolute pressure in a bag: what is around it, and what stretches it [Pa].

    Args:
        taker: The bag.
        water: In its tank [m³].
        outside: Absolute pressure around it [Pa].
    """
    return outside + taker.stretch * taker.size(water) / taker.room


def _why(space: DrySpace, waters: Mapping[str, float], celsius: float) -> Iterator[Fact]:
    """Yield how a pressure comes about."""
    takers = [one for one in space.takers if not one.is_bag]
    moved = sum(waters[one.tank] - one.closed for one in takers)
    if abs(moved) > SMALL:
        yield fact(
            "air-room-taken", takers=len(takers), moved=moved,
            are_pistons=all(one.kind == "piston" for one in takers),
            left=space.air - space.closed_water,
        )  # fmt: skip
    bags = [one for one in space.takers if one.is_bag]
    if (out := sum(one.closed - waters[one.tank] for one in bags)) > SMALL:
        yield fact("bag-takes-air", out=out, air=space.air)
    if celsius != space.closed_celsius:
        yield fact("closed-at", closed=space.closed_celsius, now=celsius)
