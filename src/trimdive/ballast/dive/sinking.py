"""How fast she sinks or rises for what she is too heavy or too light, and how she is stopped.

Level and wholly under she is a flat plate of her plan form: drag ½ ρ C_D A v² with C_D = 1.
What must be stopped is more than she weighs: the flood water in her moves with her, and so does
some of the water around, as much as her outside shape displaces (a circular section's).

Sources: C_D = 1: common practice, no source. Added mass of a circle moving across its axis, one
times the water it displaces: potential flow [memory].
"""

from dataclasses import dataclass
from math import copysign, sqrt

import numpy as np
from numpy.typing import NDArray

from trimdive.data import row
from trimdive.errors import BalanceError
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.solids.hull import Hull
from trimdive.hydrostatics.equilibrium import Floater

FLAT_PLATE = 1.0  # drag coefficient over the plan area [-]
ADDED = 1.0  # added mass over the water that the outside shape displaces [-]
BLOW_TIME = 60.0  # to empty tanks whose rates nobody tells: common practice, no source [s]
LONGEST = 600.0  # a stop that takes longer is none [s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Heave:
    """What moves when she sinks or rises, level and wholly under."""

    plan_area: float  # of her outside shape, seen from above [m²]
    dry: float  # mass of boat and tank water [kg]
    flood: float  # water inside the hull that moves with her [kg]
    added: float  # water around her that moves with her [kg]
    density: float  # of the water [kg/m³]

    @property
    def moving(self) -> float:
        """Return all that must be stopped [kg]."""
        return self.dry + self.flood + self.added


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """How she is stopped once the tanks begin to be blown."""

    speed: float  # at which she sank when it began [m/s]
    time: float  # from then until she stands [s]
    depth: float  # that she goes deeper meanwhile [m]
    blown: float  # water blown by then [m³]


def gravity() -> float:
    """Return the standard acceleration of free fall [m/s²]."""
    return float(row("constants", "gravity")["value"])


def plan_area(outside: Mesh) -> float:
    """Return the area of a closed shape seen from above [m²]; what overhangs counts again."""
    a, b, c = np.moveaxis(outside.corners, 1, 0)
    return float(np.abs(np.cross(b - a, c - a)[:, 2]).sum() / 4)


def heave(boat: Floater, hull: Hull, water: float) -> Heave:
    """Return what moves when she sinks or rises.

    Args:
        boat: The boat.
        hull: Her hull.
        water: In her tanks [m³].
    """
    outside = volume(hull.envelope)
    return Heave(
        plan_area=plan_area(hull.envelope),
        dry=boat.mass + boat.density * water,
        flood=boat.density * max(outside - boat.volume, 0.0),
        added=ADDED * boat.density * outside,
        density=boat.density,
    )


def speed(excess: float, area: float, density: float, drag: float = FLAT_PLATE) -> float:
    """Return how fast she sinks in the end [m/s]; negative where she rises.

    Args:
        excess: Weight less buoyancy [kg].
        area: Seen from above [m²].
        density: Of the water [kg/m³].
        drag: Coefficient over that area [-].

    Raises:
        BalanceError: There is no area.

    >>> round(speed(0.050, 0.4, 999.1), 3)
    0.05
    """
    if area <= 0 or density <= 0 or drag <= 0:
        raise BalanceError(
            f"a plan area of {area:g} m² holds nothing up", "sinking", "Give the hull a breadth."
        )
    return copysign(sqrt(2 * abs(excess) * gravity() / (density * drag * area)), excess)


def stop(
    moves: Heave,
    *,
    excess: float,
    rate: float,
    room: float,
    start: float | None = None,
    compressibility: float = 0.0,
) -> Stop:
    """Return how she is stopped when her tanks are blown at an even rate.

    Args:
        moves: What moves.
        excess: Weight less buoyancy as it begins [kg].
        rate: At which water is blown out [m³/s].
        room: Water that can be blown out [m³].
        start: Speed at which she sinks then; left out, as fast as that excess makes her [m/s].
        compressibility: What she gains with each metre deeper [kg/m].

    Raises:
        BalanceError: Blown to the last she stays too heavy, or nothing is blown.
    """
    first = max(speed(excess, moves.plan_area, moves.density), 0.0) if start is None else start
    if first <= 0:
        return Stop(speed=max(first, 0.0), time=0.0, depth=0.0, blown=0.0)
    short = excess - moves.density * room
    if rate <= 0 or short >= 0:
        what = (
            "nothing is blown out"
            if rate <= 0
            else f"blown to the last she is {short * 1e3:.0f} g too heavy to stop"
        )
        raise BalanceError(what, "stopping", "Give the tanks more room, or take lead out of her.")
    return _stopped(moves, excess, rate, room, first, compressibility)


def _stopped(
    moves: Heave, excess: float, rate: float, room: float, first: float, compressibility: float
) -> Stop:
    """Return how she is stopped, by following depth and speed in time."""
    from scipy.integrate import solve_ivp  # slow to import, and only asked for here

    g, drag = gravity(), 0.5 * moves.density * FLAT_PLATE * moves.plan_area

    def slope(t: float, at: NDArray[np.float64]) -> list[float]:
        heavy = excess + compressibility * at[0] - moves.density * min(rate * t, room)
        return [at[1], (heavy * g - drag * at[1] * abs(at[1])) / moves.moving]

    def stands(_: float, at: NDArray[np.float64]) -> float:
        return float(at[1])

    stands.terminal = True  # pyright: ignore[reportFunctionMemberAccess] - as scipy asks
    found = solve_ivp(
        slope, (0.0, LONGEST), [0.0, first], events=stands, rtol=1e-9, atol=1e-12, max_step=1.0
    )
    if not len(found.t_events[0]):
        what = f"she still sinks after {LONGEST:.0f} s"
        raise BalanceError(what, "stopping", "Blow faster, or make less of her soft.")
    time = float(found.t_events[0][0])
    depth = float(found.y_events[0][0][0])
    return Stop(speed=first, time=time, depth=depth, blown=min(rate * time, room))
