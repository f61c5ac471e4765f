"""What each reading should be of a boat, by the full solver, and how it hangs on all that is off.

Source: inclining, w d = M GM tan(angle), in any text on ship stability; levers for two scales.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import sin, tan

import numpy as np

from trimdive.boatfile import Boat
from trimdive.boatfile.tub import Reading
from trimdive.data import row
from trimdive.errors import BalanceError
from trimdive.fact import Fact, fact
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.hull import density_of
from trimdive.hydrostatics.equilibrium import Floater, Rest, State, rest, state, tank_waters
from trimdive.hydrostatics.equilibrium.floater import least_filling, most_filling
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.trials.readings.repeats import Averaged
from trimdive.trials.readings.today import Listed
from trimdive.uncertainty import Thing, changed, changed_things, reading_half
from trimdive.uncertainty.figures import heel_of, trim_of
from trimdive.uncertainty.loads import Answer, answer, stance
from trimdive.units import read
from trimdive.water import water

UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One figure that was read."""

    group: int  # the reading that it is of, by its number
    what: Fact  # what it is
    kind: str  # of quantity: length, mass, angle or volume
    read: float  # [m, kg, rad or m³]
    half: float  # how far that may be off, 95 % [as read]


@dataclass(frozen=True, kw_only=True)
class Off:
    """A boat with some things off, and each state in which she was read."""

    her: Listed
    off: Floats  # how far each source is off, in standard deviations, shape (s,) [-]

    @cached_property
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        return changed(self.her.floater, self.her.things, self.her.sources, self.off)

    @cached_property
    def things(self) -> tuple[Thing, ...]:
        """What is aboard."""
        return changed_things(self.her.things, self.her.sources, self.off)

    @cached_property
    def _states(self) -> dict[object, tuple[Floater, Rest]]:
        return {}

    @cached_property
    def _answers(self) -> dict[object, Answer]:
        return {}

    def ready(self, one: Reading) -> tuple[Floater, Floats]:
        """Return her in the water of a reading, and the water in her tanks, shape (t,) [m³]."""
        boat = self.floater._replace(density=density_in(self.her.boat, one))
        filled = one.filled
        share = filled if filled in ("blown", "full") else read(filled, "percent", None)
        return boat, tank_waters(self.her.boat, boat.tanks, share)

    def lies(self, one: Reading, moment: tuple[float, float] = (0.0, 0.0)) -> State:
        """Return how she lies when a reading is taken.

        Args:
            one: The reading.
            moment: Of a weight that was moved, forward and to port [kg m].

        Raises:
            BalanceError: She sinks where she should float.
        """
        key = (one.is_dived, one.filled, density_in(self.her.boat, one), moment)
        if key not in self._states:
            boat, waters = self.ready(one)
            shift = np.array([moment[0], moment[1], 0.0]) / boat.mass
            boat = boat._replace(gravity=boat.gravity + shift)
            found = rest(boat, waters, hanging=one.is_dived)
            if found.under and not one.is_dived:
                what = f"by the list she sinks with tanks {one.filled}, {found.excess:.2f} kg heavy"
                mend = "See that all foam and cylinders are in the list, and weigh what is guessed."
                raise BalanceError(what, "tub", mend)
            self._states[key] = (boat, found)
        return state(*self._states[key])

    def answer(self, one: Reading, *, level: bool = False) -> Answer:
        """Return what each source does to her when a reading is taken.

        Args:
            one: The reading.
            level: She is held level by hand or by scales.
        """
        key = (one.is_dived, one.filled, density_in(self.her.boat, one), level)
        if key not in self._answers:
            boat, waters = self.ready(one)
            found = self.lies(one).rest
            if level:
                found = replace(found, n=UP, levels=levels_at(boat, waters, UP))
            self._answers[key] = answer(stance(boat, found), self.things, self.her.sources)
        return self._answers[key]


def density_in(boat: Boat, one: Reading) -> float:
    """Return the density of the water in which a reading was taken [kg/m³]."""
    own = boat.water
    kind = one.water or own.kind
    usual_salt = own.salt if kind == own.kind else (35.0 if kind == "sea" else 0.0)
    celsius = own.temperature if one.temperature is None else one.temperature
    return water(kind, celsius, usual_salt if one.salt is None else one.salt).density


def pulls(her: Off, one: Reading) -> tuple[float, float]:
    """Return what two scales read that hold her level under water, aft and fore [kg]."""
    boat, waters = her.ready(one)
    inside = tank_water(boat, waters, UP, levels_at(boat, waters, UP))
    centre = boat.tree.centre
    force = boat.mass + boat.density * (inside.volume - boat.volume)
    moment = boat.mass * (boat.gravity + centre) + boat.density * (
        inside.moment - boat.volume * (boat.buoyancy + centre)
    )
    return _by_levers(force, float(moment[0]), one)


def _by_levers(force: float, moment: float, one: Reading) -> tuple[float, float]:
    """Return the pulls at two places that hold a force and its moment [kg].

    Args:
        force: [kg].
        moment: About the origin, forward [kg m].
        one: For its two places.
    """
    x_aft, x_fore = float(one.x_aft or 0.0), float(one.x_fore or 0.0)
    fore = (moment - x_aft * force) / (x_fore - x_aft)
    return force - fore, fore


def pulled(one: Reading, density: float) -> float:
    """Return how much of itself a moved or laid weight pulls where it lies [-].

    Args:
        one: The reading, for the material and whether it is wet.
        density: Of the water [kg/m³].
    """
    wet = one.is_dived if one.wet is None else one.wet
    own = density_of(one.of, None)
    return 1.0 - density / own if wet and own else 1.0


def turned(her: Off, one: Reading) -> float:
    """Return how far she turns when a weight is moved, the mean of both ways [rad]."""
    boat, _ = her.ready(one)
    moment = float(one.moved or 0.0) * float(one.by or 0.0) * pulled(one, boat.density)
    across = one.way == "across"
    ways = [(0.0, -moment), (0.0, moment)] if across else [(moment, 0.0), (-moment, 0.0)]
    there, back = (her.lies(one, way) for way in ways)
    if across:
        return (there.heel - back.heel) / 2
    return (there.trim_angle - back.trim_angle) / 2


def places(boat: Boat, one: Reading) -> tuple[float, float]:
    """Return where a draught was read, along and to port [m]."""
    x = one.x
    if x is None:
        x = next(mark.x for mark in boat.marks if mark.name == one.at)
    sign = {"port": 1.0, "starboard": -1.0, None: 0.0}[one.side]
    return x, sign * float(one.y or 0.0)


def predicted(her: Off, one: Reading) -> list[float]:
    """Return what a reading should be, one figure or two [m, kg, rad or m³].

    Raises:
        BalanceError: She does not lie as she did when it was read.
    """
    if one.kind in ("pull", "laid"):
        sign = 1.0 if one.kind == "pull" else -1.0  # what is laid on deck makes up for her lift
        return [sign * value for value in pulls(her, one)]
    if one.kind == "shift":
        return [turned(her, one)]
    if one.kind == "mass":
        return [her.floater.mass]
    if one.kind == "litres":
        return [_litres(her, one)]
    at = her.lies(one)
    if one.kind in ("tips", "leans"):
        return [at.trim_angle if one.kind == "tips" else at.heel]
    x, y = places(her.her.boat, one)
    draught = at.draught(x) - float(at.rest.n[1]) * y / float(at.rest.n[2])
    return [draught if one.kind == "draught" else float(one.edge or 0.0) - draught]


def _litres(her: Off, one: Reading) -> float:
    """Return what comes out of a tank from full to blown [m³]."""
    k = [tank.name for tank in her.her.boat.tanks].index(str(one.tank))
    tank, room = her.her.boat.tanks[k], float(her.floater.tanks.capacities[k])
    return room * (most_filling(tank, room) - least_filling(tank, room))


def slopes(her: Off, one: Reading) -> list[Floats]:
    """Return what each source does to a reading, shape (s,) each [m, kg, rad or m³]."""
    sources, boat = her.her.sources, her.her.boat
    if one.kind in ("pull", "laid"):
        found, rho = her.answer(one, level=True), density_in(boat, one)
        force = found.mass - rho * found.volume
        moment = found.weight[:, 0] - rho * found.buoyancy[:, 0]
        x_aft, x_fore = float(one.x_aft or 0.0), float(one.x_fore or 0.0)
        fore = (moment - x_aft * force) / (x_fore - x_aft)
        sign = 1.0 if one.kind == "pull" else -1.0
        return [sign * (force - fore), sign * fore]
    if one.kind == "mass":
        return [np.array([source.mass for source in sources])]
    if one.kind == "litres":
        k = [tank.name for tank in boat.tanks].index(str(one.tank))
        room = her.floater.tanks.capacities[k]
        return [np.array([room * s.room * (her.things[s.thing].tank == k) for s in sources])]
    at, found = her.lies(one), her.answer(one)
    n = at.rest.n
    if one.kind == "shift":
        gm, off = (at.gm_t, found.gm_t) if one.way == "across" else (at.gm_l, found.gm_l)
        angle = turned(her, one)
        return [-sin(2 * angle) / 2 * (off / gm + found.mass / at.displacement_mass)]
    if one.kind in ("tips", "leans"):
        return [trim_of(found.turn, n) if one.kind == "tips" else heel_of(found.turn, n)]
    x, y = places(boat, one)
    depth = at.draught(x) - float(n[1]) * y / float(n[2])
    turn = found.turn
    draught = (found.rise - turn[:, 0] * x - turn[:, 1] * y - turn[:, 2] * depth) / float(n[2])
    return [draught if one.kind == "draught" else -draught]


def rows_of(her: Off, groups: Sequence[Averaged]) -> list[Row]:
    """Return every figure that was read, with what it is of and its ±."""
    return [row for k, group in enumerate(groups) for row in _rows(her, k, group)]


def _rows(her: Off, k: int, group: Averaged) -> list[Row]:
    """Return the figures of one reading."""
    one, boat = group.one, her.her.boat
    if one.kind in ("draught", "freeboard"):
        value = float(getattr(one, one.kind))
        at = one.at or float(one.x or 0.0)
        what = fact("row-height", of=one.kind, at=at, side=one.side)
        return [_row(k, what, "length", value, group.half)]
    if one.kind == "pull":
        values = (float(one.pull_aft or 0.0), float(one.pull_fore or 0.0))
        return _two(k, one, values, group.half)
    if one.kind == "laid":
        share = pulled(one.model_copy(update={"dived": True}), density_in(boat, one))
        values = (share * float(one.laid_aft or 0.0), share * float(one.laid_fore or 0.0))
        return _two(k, one, values, (group.half**2 + _hangs(her, one) ** 2) ** 0.5)
    if one.kind == "shift":
        what = fact("row-shift", way=one.way, dived=one.is_dived)
        return [_row(k, what, "angle", abs(float(one.angle or 0.0)), _angle_half(one, group.half))]
    if one.kind == "mass":
        what, kind = fact("row-mass"), "mass"
    elif one.kind == "litres":
        what, kind = fact("row-litres", tank=str(one.tank)), "volume"
    else:
        what, kind = fact("row-lies", of=one.kind, dived=one.is_dived, filled=one.filled), "angle"
    return [_row(k, what, kind, float(getattr(one, one.kind)), group.half)]


def _row(k: int, what: Fact, kind: str, value: float, half: float) -> Row:
    return Row(group=k, what=what, kind=kind, read=value, half=half)


def _two(k: int, one: Reading, values: tuple[float, float], half: float) -> list[Row]:
    """Return what two scales read, or weights laid on deck as they pull [kg]."""
    ends = (float(one.x_aft or 0.0), float(one.x_fore or 0.0))
    return [
        _row(k, fact("row-pull", laid=one.kind == "laid", x=x), "mass", value, half)
        for x, value in zip(ends, values, strict=True)
    ]


def _hangs(her: Off, one: Reading) -> float:
    """Return what her hanging not quite level makes of weights laid on deck, 95 % [kg]."""
    at = her.lies(one)
    apart = abs(float(one.x_fore or 0.0) - float(one.x_aft or 0.0))
    return at.displacement_mass * max(at.gm_l, 0.0) * tan(reading_half("hangs")) / apart


def _angle_half(one: Reading, half: float) -> float:
    """Return how far the angle of a shift test may be off, weight and way counted, 95 % [rad]."""
    entry = row("readings", "shift")
    by_weight = read(f"{entry['value']} {entry['unit']}", "percent", None)
    return (half**2 + (by_weight * abs(float(one.angle or 0.0))) ** 2) ** 0.5


def inclined(weight: float, far: float, angle: float, mass: float) -> float:
    """Return GM, or BG dived, from a weight that was moved across: w d / (M tan angle) [m].

    Args:
        weight: That was moved, as it pulls where it lies [kg].
        far: How far [m].
        angle: To which she turned [rad].
        mass: Of all of her [kg].

    >>> from math import atan
    >>> round(inclined(25e3, 15.0, atan(0.2 / 4.0), 8e6), 4)
    0.9375
    """
    return weight * far / (mass * tan(angle))
