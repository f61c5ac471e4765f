"""Does she come home when the power goes: from what depth, and with how much to spare.

Sources: the water that is left by itself (``lost``), her lift and what depth takes of it.
"""

from collections.abc import Callable
from dataclasses import dataclass

from trimdive.plant.fill import fullest
from trimdive.plant.lost import unpowered
from trimdive.plant.system import System

DEEPEST, STEP = 20.0, 0.1  # as far as depths are looked at, and how finely [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """What a boat lifts, and how depth takes it."""

    empty: float  # with no water in any tank, at the surface [kg]
    other: float  # water in tanks that no plant serves, dived [m³]
    density: float  # of the water [kg/m³]
    heavier: Callable[[float], float]  # by how much she is heavier [kg] at a depth [m]

    def left(self, water: float, depth: float) -> float:
        """Return the lift that is left; below 0 she sinks [kg].

        Args:
            water: In all tanks that plants serve [m³].
            depth: Of the boat [m].
        """
        return self.empty - self.density * (water + self.other) - self.heavier(depth)


@dataclass(frozen=True, slots=True, kw_only=True)
class Home:
    """What she does when the power of her plant goes while she is dived."""

    depth: float  # looked at [m]
    water: float  # left in her tanks at that depth, in the end [m³]
    reserve: float  # lift left there; below 0 she sinks [kg]
    on_top: float  # lift left just under the surface, left to itself; below 0 she sinks [kg]
    squeezed: float  # by how much depth makes her heavier there [kg]
    before: float  # lift left there as the power goes [kg]
    from_depth: float  # deepest from which she comes up by herself, up to ``DEEPEST`` [m]

    @property
    def comes_up(self) -> bool:
        """Return whether she comes up by herself from the depth looked at."""
        return self.reserve > 0


def home(systems: tuple[System, ...], lift: Lift, depth: float) -> Home:
    """Return what she does when the power of all plants goes while she is dived as planned.

    Args:
        systems: Her plants.
        lift: What she lifts.
        depth: At which it happens [m].
    """
    dived = [min(one.neutral, fullest(one)) for one in systems]

    def left(deep: float) -> tuple[float, float]:
        water = sum(unpowered(one, held, deep) for one, held in zip(systems, dived, strict=True))
        return water, lift.left(water, deep)

    water, reserve = left(depth)
    reach = 0.0
    for k in range(round(DEEPEST / STEP) + 1):
        if left(k * STEP)[1] <= 0:
            break
        reach = k * STEP
    return Home(
        depth=depth,
        water=water,
        reserve=reserve,
        on_top=left(0.0)[1],
        squeezed=lift.heavier(depth) - lift.heavier(0.0),
        before=lift.left(sum(dived), depth),
        from_depth=reach,
    )
