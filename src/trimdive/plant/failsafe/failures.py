"""Where she ends up when something fails: every failure in every state, by the full solver.

Each square is a rest in still water, not the way to it: the tanks as the failsafe, the plant and
whoever stands ashore leave them. Motors are stopped. Empty is a square for which no action is
set.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from trimdive.ballast.depth import Compressibility
from trimdive.ballast.dive.whatif import without
from trimdive.boatfile import Boat
from trimdive.boatfile.plant import Action
from trimdive.errors import BoatError
from trimdive.fact import Fact, fact
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium import Floater, rest, state, tank_waters
from trimdive.plant import System, battery_of, emptied, system, systems, unpowered, usual
from trimdive.plant.failsafe.lifting import Made, depth_meant, planned, soft
from trimdive.records import record

Failure = Literal[
    "signal lost", "battery low", "leak", "too deep", "plant dead", "servo stuck"
]  # fmt: skip
Start = Literal["surfaced", "half way", "dived"]
Ends = Literal["on top", "hovering", "under", "not entered"]
HOVERS = 2e-4  # of her mass: less lift than a scale can tell brings nobody up: 1 g in 5 kg [-]
FAILURES: tuple[Failure, ...] = (
    "signal lost",
    "battery low",
    "leak",
    "too deep",
    "plant dead",
    "servo stuck",
)
STARTS: tuple[Start, ...] = ("surfaced", "half way", "dived")
FIELDS = {
    "signal lost": "signal_lost",
    "battery low": "battery_low",
    "leak": "leak",
    "too deep": "too_deep",
}


@record
class Square:
    """One failure in one state."""

    failure: Failure
    start: Start
    does: Fact  # what is done, or not
    ends: Ends
    depth: float  # at which it happens [m]
    grams: float  # lift left as she ends; below 0 she lies on the bottom, about 0 she hovers [kg]
    deep: float  # lift left as she begins to rise, at that depth [kg]
    trim_angle: float  # bow down [rad]
    heel: float  # to starboard [rad]
    water: float  # left in her tanks [m³]

    @property
    def ending(self) -> Fact:
        """Return where she ends up, in what attitude and with how much lift."""
        return fact(
            "she-ends", ends=self.ends, grams=self.grams, deep=self.deep, depth=self.depth,
            trim=self.trim_angle, heel=self.heel,
        )  # fmt: skip

    @property
    def is_entered(self) -> bool:
        """Return whether an action is set."""
        return self.ends != "not entered"


@record
class FailureTable:
    """Every failure in every state."""

    depth: float  # that she is dived at [m]
    squares: tuple[Square, ...]

    def at(self, failure: Failure, start: Start) -> Square:
        """Return one square."""
        return next(one for one in self.squares if (one.failure, one.start) == (failure, start))

    @property
    def empty(self) -> tuple[Square, ...]:
        """Return the squares for which no action is set."""
        return tuple(one for one in self.squares if not one.is_entered)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Her:
    """A boat with her plants, for every square."""

    made: Made
    plants: tuple[System, ...]
    weak: tuple[System, ...]  # at the voltage at which a battery counts as empty
    ready: Floater
    lightened: Floater  # with the weight dropped
    depth: float  # [m]
    soft: Compressibility

    @property
    def boat(self) -> Boat:
        """Return her boat file."""
        return self.made.boat

    def left(self, ready: Floater, waters: Floats, depth: float) -> float:
        """Return the lift left; below 0 she sinks [kg].

        Args:
            ready: Her as she is then.
            waters: In each tank, shape (t,) [m³].
            depth: Of her [m].
        """
        lifts = ready.density * (ready.volume - float(waters.sum())) - ready.mass
        return lifts - self.soft.heavier(depth)


def failures(her: Made) -> FailureTable | None:
    """Return where she ends up in every failure; None where she has no plant or no tanks.

    Args:
        her: The boat.

    Raises:
        PlantError: A plant cannot be run.
        BalanceError: She finds no rest in one of them.
    """
    boat = her.boat
    if not boat.plants or not boat.tanks:
        return None
    drops = boat.failsafe.drops if boat.failsafe else None
    ready = _Her(
        made=her,
        plants=systems(her),
        weak=tuple(_weak(her, one.name) for one in boat.plants),
        ready=her.floater,
        lightened=without(her, drops)[2] if drops else her.floater,
        depth=depth_meant(boat),
        soft=soft(her, boat.plants),
    )
    squares = tuple(_square(ready, failure, start) for failure in FAILURES for start in STARTS)
    return FailureTable(depth=ready.depth, squares=squares)


def _weak(her: Made, name: str) -> System:
    """Return a plant at the voltage at which its battery counts as empty."""
    plant = next(one for one in her.boat.plants if one.name == name)
    battery = battery_of(her.boat, plant)
    own = system(her, plant).volts
    low = battery.low if battery and battery.low else usual("battery-low") * own
    return system(her, plant, low)


def _start(her: _Her, start: Start) -> tuple[Floats, float]:
    """Return the water in each tank as it fails, shape (t,) [m³], and her depth [m]."""
    blown = tank_waters(her.boat, her.ready.tanks, "blown")
    dived = planned(her.made)
    if start == "dived":
        return dived, her.depth
    return (blown if start == "surfaced" else (blown + dived) / 2), 0.0


def _numbers(her: _Her, plant: System) -> list[int]:
    """Return which tanks a plant serves, counted from 0."""
    return [k for k, tank in enumerate(her.boat.tanks) if tank.name in plant.tanks]


def _with(her: _Her, waters: Floats, plant: System, total: float) -> Floats:
    """Return the water in each tank with so much [m³] in those of one plant, shape (t,) [m³]."""
    held, which = waters.copy(), _numbers(her, plant)
    rooms = her.ready.tanks.capacities[which]
    held[which] = total * rooms / rooms.sum()
    return held


def _emptied(
    her: _Her,
    plants: tuple[System, ...],
    waters: Floats,
    depth: float,
    stuck: str = "",
) -> tuple[Floats, tuple[str, ...]]:
    """Return the water in each tank when all are emptied, shape (t,) [m³], and what was not.

    Args:
        her: The boat.
        plants: Her plants as they are then.
        waters: In each tank as it begins, shape (t,) [m³].
        depth: Of the tanks [m].
        stuck: Name of the plant that does nothing.
    """
    failed: list[str] = []
    for one in plants:
        held = float(waters[_numbers(her, one)].sum())
        if one.name == stuck:
            failed.append(one.name)
            continue
        try:
            left, is_done = emptied(one, depth, held)
        except BoatError:
            failed.append(one.name)
            continue
        waters = _with(her, waters, one, left)
        if not is_done:
            failed.append(one.name)
    return waters, tuple(failed)


def _come_up(
    her: _Her,
    ready: Floater,
    plants: tuple[System, ...],
    waters: Floats,
    depth: float,
    stuck: str = "",
) -> tuple[Floats, Fact]:
    """Return the water in each tank once she has come up, or not, and what is done."""
    if np.allclose(waters, tank_waters(her.boat, her.ready.tanks, "blown")):
        return waters, fact("empty-already")
    waters, failed = _emptied(her, plants, waters, depth, stuck)
    if depth > 0 and failed and her.left(ready, waters, depth) > 0:
        waters, failed = _emptied(her, plants, waters, 0.0, stuck)
    if not failed:
        return waters, fact("all-emptied")
    if len(failed) == len(plants):
        return waters, fact("none-emptied")
    return waters, fact("some-emptied", failed=failed)


def _leaking(her: _Her) -> Iterator[Floater]:
    """Yield her with water leaked into each of her cylinders."""
    ready = her.ready
    wet = usual("leak") * ready.mass
    for cylinder in her.boat.cylinders:
        at = np.array([cylinder.x, cylinder.y, cylinder.z - cylinder.bore / 2]) - ready.tree.centre
        gravity = (ready.mass * ready.gravity + wet * at) / (ready.mass + wet)
        yield ready._replace(mass=ready.mass + wet, gravity=gravity)
    if not her.boat.cylinders:
        yield ready._replace(mass=ready.mass + wet)


def _done(
    her: _Her, ready: Floater, action: Action, plants: tuple[System, ...], start: Start
) -> tuple[Floater, Floats, Fact]:
    """Return her, the water in each tank and what is done, once an action has ended."""
    waters, depth = _start(her, start)
    if action == "come up":
        return (ready, *_come_up(her, ready, plants, waters, depth))
    if action == "drop weight":
        lost = her.ready.mass - her.lightened.mass
        lighter = ready._replace(
            mass=ready.mass - lost,
            volume=ready.volume - her.ready.volume + her.lightened.volume,
            gravity=her.lightened.gravity,
            tree=her.lightened.tree,
            buoyancy=her.lightened.buoyancy,
        )
        return lighter, waters, fact("weight-dropped", mass=lost)
    return ready, waters, fact("nothing-done")


def _square(her: _Her, failure: Failure, start: Start) -> Square:
    """Return one square."""
    waters, depth = _start(her, start)
    if failure == "plant dead":
        return _dead(her, start)
    if failure == "servo stuck":
        return _stuck(her, start)
    if failure == "too deep" and start != "dived":
        return _ended(her, her.ready, waters, failure, start, fact("not-too-deep"))
    failsafe = her.boat.failsafe
    action: Action | None = getattr(failsafe, FIELDS[failure]) if failsafe else None
    if action is None:
        return _not_entered(failure, start, depth, float(waters.sum()))
    plants = her.weak if failure == "battery low" else her.plants
    waits = failsafe.after if failsafe and start != "surfaced" and action != "stay" else None
    cases = _leaking(her) if failure == "leak" else iter((her.ready,))
    found = [
        _ended(her, after, left, failure, start, _after(does, waits))
        for ready in cases
        for after, left, does in (_done(her, ready, action, plants, start),)
    ]
    return min(found, key=lambda one: (one.grams > 0, -abs(one.trim_angle)))


def _after(does: Fact, waits: float | None) -> Fact:
    """Return what is done, begun after a wait [s]."""
    return fact("begun-after", does=does, waits=waits) if waits else does


def _dead(her: _Her, start: Start) -> Square:
    """Return her with no power in her plant; a failsafe of its own battery drops its weight."""
    waters, depth = _start(her, start)
    for one in her.plants:
        held = float(waters[_numbers(her, one)].sum())
        waters = _with(her, waters, one, unpowered(one, held, depth))
    failsafe = her.boat.failsafe
    ready, does = her.ready, fact("without-power")
    if start == "dived" and failsafe and failsafe.own_battery and failsafe.drops:
        ready = her.lightened
        does = fact("failsafe-drops", mass=her.ready.mass - ready.mass)
    return _ended(her, ready, waters, "plant dead", start, does)


def _stuck(her: _Her, start: Start) -> Square:
    """Return the worst of her with the valve servo of one plant stuck, or that of her planes."""
    waters, depth = _start(her, start)
    valved = {plant.name for plant in her.boat.plants if plant.valve or plant.kind == "gas"}
    found: list[Square] = []
    for name in [one.name for one in her.plants if one.name in valved] or [""]:
        left, does = _come_up(her, her.ready, her.plants, waters, depth, name)
        stuck = fact("planes-stuck", does=does)
        if name:
            stuck = fact("valve-stuck", name=name, does=does)
        found.append(_ended(her, her.ready, left, "servo stuck", start, stuck))
    return min(found, key=lambda one: one.grams)


def _not_entered(failure: Failure, start: Start, depth: float, water: float) -> Square:
    """Return a square for which no action is set."""
    return Square(
        failure=failure, start=start, does=fact("no-action-set"), ends="not entered", depth=depth,
        grams=0.0, deep=0.0, trim_angle=0.0, heel=0.0, water=water,
    )  # fmt: skip


def _ended(
    her: _Her, ready: Floater, waters: Floats, failure: Failure, start: Start, does: Fact
) -> Square:
    """Return where she ends up with this water in her tanks, shape (t,) [m³]."""
    depth = _start(her, start)[1]
    deep = her.left(ready, waters, depth)
    hovers = depth > 0 and abs(deep) <= HOVERS * ready.mass
    stays = hovers or deep <= 0
    at = state(ready, rest(ready, waters, hanging=stays))
    ends: Ends = "hovering" if hovers else "under" if stays else "on top"
    grams = deep if stays else her.left(ready, waters, 0.0)
    return Square(
        failure=failure, start=start, does=does, ends=ends, depth=depth, grams=grams, deep=deep,
        trim_angle=at.trim_angle, heel=at.heel, water=float(waters.sum()),
    )  # fmt: skip
