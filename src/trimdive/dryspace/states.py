"""Pressure in a dry space in every state: tanks full and blown, in the sun, and both at once.

Gas or a battery that vents is not bounded: a valve or a cap that lifts is the answer, no figure.

Sources: the laws beside this file.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from trimdive.data import constant
from trimdive.dryspace.laws import drawn, pressure, warmed
from trimdive.dryspace.space import DrySpace, Taker
from trimdive.units import write

NONE = 0.5  # a pressure below this is that of the air [Pa]
SMALL = 1e-9  # water that is told from none [m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """Pressure inside in one state."""

    key: str  # "tank full", "tank emptied", "cold", "sun", "tank full in the sun"
    says: str  # the state, in words
    pressure: float  # above the air's; below zero a vacuum [Pa]
    why: str  # how it comes about
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
    many = "tanks" if len(space.takers) > 1 else "tank"
    short = any(one.full - full[one.tank] > SMALL for one in space.takers)
    as_full = f"{many} as full as {'they get' if many == 'tanks' else 'it gets'}"
    filled = as_full if short else f"{many} full"
    found = [
        _state(space, "tank full", filled, full, outside, is_warm=False),
        _state(space, "tank emptied", f"{many} emptied", blown, outside, is_warm=False),
        _state(space, "sun", "in the sun", closed, outside, is_warm=True),
    ]
    if not space.takers:
        found = [_state(space, "cold", "in the water", {}, outside, is_warm=False), found[-1]]
    elif _moved(space, full):
        both = _state(space, "tank full in the sun", f"{filled}, in the sun", full, outside,
                      is_warm=True)  # fmt: skip
        found.append(both)
    return tuple(one for one in found if abs(one.pressure) > NONE)


def _moved(space: DrySpace, waters: Mapping[str, float]) -> bool:
    """Return whether a tank holds another water than when the space was closed."""
    return any(abs(waters[one.tank] - one.closed) > SMALL for one in space.takers)


def _state(
    space: DrySpace,
    key: str,
    says: str,
    waters: Mapping[str, float],
    outside: float | None,
    *,
    is_warm: bool,
) -> Inside:
    """Return the pressure in a dry space with this water in its tanks [m³]."""
    celsius = space.hottest if is_warm else space.celsius
    now = absolute(space, waters, celsius, outside)
    return Inside(
        key=key, says=says, pressure=now - constant("atmosphere"),
        why="; ".join(_why(space, waters, celsius)), is_warm=is_warm,
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


def _why(space: DrySpace, waters: Mapping[str, float], celsius: float) -> list[str]:
    """Return how a pressure comes about, in parts of a sentence."""
    found: list[str] = []
    takers = [one for one in space.takers if not one.is_bag]
    moved = sum(waters[one.tank] - one.closed for one in takers)
    if abs(moved) > SMALL:
        left = space.air - space.closed_water
        one, many = ("takes", "take") if moved > 0 else ("gives back", "give back")
        does = one if len(takers) == 1 else many
        found.append(f"{_who(takers)} {does} {_litres(abs(moved))} of {_litres(left)} of air")
    bags = [one for one in space.takers if one.is_bag]
    if (out := sum(one.closed - waters[one.tank] for one in bags)) > SMALL:
        found.append(f"the bag takes {_litres(out)} out of {_litres(space.air)} of air")
    if celsius != space.closed_celsius:
        found.append(f"closed at {space.closed_celsius:g} °C, {celsius:g} °C now")
    return found


def _who(takers: list[Taker]) -> str:
    name = "piston" if all(one.kind == "piston" for one in takers) else "tank"
    return f"the {name}" if len(takers) == 1 else f"{len(takers)} {name}s"


def _litres(value: float) -> str:
    return write(value, "volume", "L", 2)
