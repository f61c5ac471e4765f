"""How sure each figure is, to first order, with the share that every source has in it."""

from collections.abc import Sequence
from math import asin, atan, cos
from typing import Protocol

import numpy as np

from trimdive.boatfile import Boat
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import Body
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.surfaces import Files
from trimdive.geometry.solids.tree import planted
from trimdive.hydrostatics.equilibrium import Floater, State
from trimdive.hydrostatics.equilibrium.hydrostatics import upright_bg
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.hydrostatics.weights import Ledger
from trimdive.records import record
from trimdive.uncertainty.loads import Answer, answer, heaved, stance
from trimdive.uncertainty.things import WIDE, Source, Thing, sources, things

UP = np.array([0.0, 0.0, 1.0])
# How far off, and with what weight, besides the middle: exact for the ninth power of a figure.
OUTER, INNER = (2.856970013872806, 0.01125741132772068), (1.355626179974266, 0.2220759220056127)
POINTS = (OUTER, (-OUTER[0], OUTER[1]), INNER, (-INNER[0], INNER[1]))


class Ready(Protocol):
    """A boat with all that is worked out of her."""

    @property
    def boat(self) -> Boat: ...  # noqa: D102
    @property
    def files(self) -> Files: ...  # noqa: D102
    @property
    def bodies(self) -> tuple[Body, ...]: ...  # noqa: D102
    @property
    def masses(self) -> Ledger: ...  # noqa: D102
    @property
    def floater(self) -> Floater: ...  # noqa: D102
    @property
    def waterline(self) -> tuple[Floats, float]: ...  # noqa: D102
    @property
    def surfaced(self) -> State: ...  # noqa: D102
    @property
    def dived(self) -> State: ...  # noqa: D102
    @property
    def lowest(self) -> State: ...  # noqa: D102
    @property
    def full_water(self) -> Floats: ...  # noqa: D102


@record
class Figure:
    """A figure, and how far each source puts it off."""

    key: str  # what is meant, by a short name
    place: str  # the mark, or ""
    kind: str  # of quantity: mass, length, volume or angle
    value: float  # as the boat file has it [kg, m, m³, rad]
    off: Floats  # where each source is off by a standard deviation, shape (s,) [as value]

    @property
    def half(self) -> float:
        """Return how far it may be off, 95 % [kg, m, m³, rad]; an angle by its tangent."""
        half = WIDE * float(np.linalg.norm(self.off))
        return atan(half) if self.kind == "angle" else half


@record
class Uncertainty:
    """How sure she is."""

    things: tuple[Thing, ...]
    sources: tuple[Source, ...]
    figures: tuple[Figure, ...]
    pull: Floats  # weight less buoyancy dived, with her tanks full, shape (s,) [kg]
    moment: Floats  # of that, forward of the origin, shape (s,) [kg m]

    def figure(self, key: str, place: str = "") -> Figure:
        """Return a figure by its short name.

        Raises:
            KeyError: She has none such, as a trim surfaced where she sinks.
        """
        for one in self.figures:
            if (one.key, one.place) == (key, place):
                return one
        raise KeyError(key)


def marks_of(boat: Boat, bodies: tuple[Body, ...]) -> list[tuple[str, float]]:
    """Return where draughts are read: at her marks, else at both ends of her hull."""
    if boat.marks:
        return [(mark.name, mark.x) for mark in boat.marks]
    regions = [body.mesh for body in bodies if body.kind == "region"]
    bounds = [mesh.bounds for mesh in regions or [body.mesh for body in bodies]]
    low, high = min(float(b[0, 0]) for b in bounds), max(float(b[1, 0]) for b in bounds)
    return [("stern", low), ("bow", high)]


def uncertainty(her: Ready) -> Uncertainty:
    """Return how sure every figure of a boat is."""
    boat, floater = her.boat, her.floater
    found = things(boat, her.files, her.bodies, her.masses)
    listed = sources(boat, her.masses, found, floater.tanks.capacities)
    dived = answer(stance(floater, her.dived.rest), found, listed)
    is_dived = not boat.tanks or her.lowest.rest is her.dived.rest
    low = dived if is_dived else answer(stance(floater, her.lowest.rest), found, listed)
    pull, moment = _dived_pull(her, dived, found, listed)
    figures = [
        *_masses(her, found, listed),
        *_need(her, found, listed),
        *_surfaced(her, found, listed),
        *_turned(her.dived if is_dived else her.lowest, low),
        _bg(her, dived),
    ]
    if boat.tanks:
        value = floater.density * (floater.volume - float(her.full_water.sum())) - floater.mass
        figures.append(Figure(key="lift left", place="", kind="mass", value=value, off=-pull))
    return Uncertainty(
        things=found, sources=listed, figures=tuple(figures), pull=pull, moment=moment
    )  # fmt: skip


def _masses(her: Ready, found: Sequence[Thing], listed: Sequence[Source]) -> list[Figure]:
    """Return her mass and its middle along the boat; the water in her tanks does not count."""
    x, mass = float(her.masses.gravity[0]), her.masses.mass
    off = np.array([source.mass for source in listed])
    along = np.array(
        [
            source.mass * found[source.thing].place[0]
            + sum(found[k].mass for k in source.moves) * source.shift[0]
            for source in listed
        ]
    )
    return [
        Figure(key="mass", place="", kind="mass", value=mass, off=off),
        Figure(key="middle", place="", kind="length", value=x, off=(along - x * off) / mass),
    ]


def _dived_pull(
    her: Ready, dived: Answer, found: Sequence[Thing], listed: Sequence[Source]
) -> tuple[Floats, Floats]:
    """Return what each source adds to pull [kg] and its moment [kg m] with her tanks full."""
    rho, full = her.floater.density, her.full_water
    pull = dived.mass - rho * dived.volume
    moment = dived.weight[:, 0] - rho * dived.buoyancy[:, 0]
    up = levels_at(her.floater, full, UP)
    centres = tank_water(her.floater, full, UP, up).centroids[:, 0]
    rest, before = her.dived.rest, her.dived.rest.waters
    was = tank_water(her.floater, before, rest.n, rest.levels).centroids
    for i, source in enumerate(listed):
        k = found[source.thing].tank
        if k >= 0:
            pull[i] += source.room * rho * (full[k] - before[k])
            moment[i] += source.room * rho * (full[k] * centres[k] - before[k] * was[k, 0])
        tanks = [k for j in source.moves if (k := found[j].tank) >= 0]
        moment[i] += rho * sum(full[k] - before[k] for k in tanks) * source.shift[0]
    return pull, moment


def _need(her: Ready, found: Sequence[Thing], listed: Sequence[Source]) -> list[Figure]:
    """Return litres needed and their middle along the boat."""
    n, d = her.waterline
    every = [_above(body, n, d, np.zeros(3)) for thing in found for body in thing.bodies]
    volume, along = np.sum(every, axis=0) if every else (0.0, 0.0)
    if volume <= 0:
        return []
    off = np.stack([_need_off(source, found, n, d) for source in listed])
    middle = along / volume
    to_middle = (off[:, 1] - middle * off[:, 0]) / volume
    return [
        Figure(key="need", place="", kind="volume", value=float(volume), off=off[:, 0]),
        Figure(key="need at", place="", kind="length", value=float(middle), off=to_middle),
    ]


def _need_off(source: Source, found: Sequence[Thing], n: Floats, d: float) -> Floats:
    """Return what a source does to the volume above a plane and its moment, shape (2,) [m³, m⁴].

    What lies just under the plane comes out of it one way and not the other; so the standard
    deviation of a shift is taken by five points of it (Gauss and Hermite), the middle one nothing.

    Args:
        source: What may be off.
        found: What is aboard.
        n: Unit vector up, shape (3,) [-].
        d: Height of the plane along it [m].
    """
    off = np.zeros(2)
    if source.share:
        for body in found[source.thing].bodies:
            off += source.share * _above(body, n, d, np.zeros(3))
    if not source.shift.any():
        return off
    moved = [(k, body) for k in source.moves for body in found[k].bodies if found[k].moves]
    middle = np.sum([_above(body, n, d, np.zeros(3)) for _, body in moved], axis=0)
    seen = np.array(
        [
            np.sum([_above(body, n, d, far * source.shift) for _, body in moved], axis=0) - middle
            for far, _ in POINTS
        ]
    ).reshape(len(POINTS), -1)
    weights = np.array([weight for _, weight in POINTS])
    size = np.sqrt(np.maximum(weights @ seen**2 - (weights @ seen) ** 2, 0.0))
    return off + np.where(seen[0] >= seen[1], size, -size)


def _above(body: Body, n: Floats, d: float, shift: Floats) -> Floats:
    """Return volume above a plane and its moment along the boat, of a body so far off.

    Args:
        body: What displaces.
        n: Unit vector up, shape (3,) [-].
        d: Height of the plane along it [m].
        shift: How far the body is off, shape (3,) [m].

    Returns:
        Shape (2,) [m³, m⁴].
    """
    tree = planted(body.mesh, 1.0)
    top = float(n @ tree.centre) + 10.0 * (1.0 + float(np.ptp(body.mesh.bounds)))
    whole, below = cut(tree, n, top), cut(tree, n, d - float(n @ shift))
    volume = whole.volume - below.volume
    along = float(whole.moment[0] - below.moment[0]) + float(shift[0]) * volume
    return body.share * np.array([volume, along])


def trim_of(turn: Floats, n: Floats) -> Floats:
    """Return the trim, bow down, of turns of ``n``, shape (s,) [rad].

    Args:
        turn: Shape (s, 3) [-].
        n: Unit vector up, shape (3,) [-].
    """
    return -turn[:, 0] / cos(asin(max(-1.0, min(1.0, float(n[0])))))


def heel_of(turn: Floats, n: Floats) -> Floats:
    """Return the heel, to starboard, of turns of ``n``, shape (s,) [rad].

    Args:
        turn: Shape (s, 3) [-].
        n: Unit vector up, shape (3,) [-].
    """
    return (turn[:, 1] * n[2] - turn[:, 2] * n[1]) / float(n[1] ** 2 + n[2] ** 2)


def draught_of(one: Answer, state: State, x: float) -> Floats:
    """Return the draught at a place along the boat, shape (s,) [m].

    Args:
        one: What each source does to her.
        state: How she lies.
        x: The place [m].
    """
    n = state.rest.n
    return (one.rise - one.turn[:, 0] * x - one.turn[:, 2] * state.draught(x)) / float(n[2])


def _surfaced(her: Ready, found: Sequence[Thing], listed: Sequence[Source]) -> list[Figure]:
    """Return draughts, trim, heel and GM on the surface; nothing where she does not float."""
    state = her.surfaced
    if state.rest.under or not state.rest.stable:
        return []
    one = answer(stance(her.floater, state.rest), found, listed)
    n = state.rest.n
    marks = [
        Figure(
            key="draught", place=name, kind="length", value=state.draught(x),
            off=draught_of(one, state, x),
        )
        for name, x in marks_of(her.boat, her.bodies)
        if state.has_draughts
    ]  # fmt: skip
    return [
        *marks,
        Figure(
            key="trim surfaced", place="", kind="angle", value=state.trim_angle,
            off=trim_of(one.turn, n),
        ),
        Figure(
            key="heel surfaced", place="", kind="angle", value=state.heel, off=heel_of(one.turn, n)
        ),
        Figure(key="gm", place="", kind="length", value=state.gm_t, off=_gm_off(her, one)),
    ]  # fmt: skip


def _gm_off(her: Ready, one: Answer) -> Floats:
    """Return what each source does to GM, shape (s,) [m], widened where it falls faster.

    What comes out of the water as she rises stiffens her much, one way only. That she may be
    stiffer is no harm, so that only how far GM may fall counts.
    """
    middle = her.floater.tree.centre
    far = WIDE * float(np.linalg.norm(one.rise - one.turn @ middle))
    local = 1e-2 * far
    slope = abs(heaved(her.floater, her.surfaced.rest, local) - her.surfaced.gm_t) / local
    worst = max(
        her.surfaced.gm_t - heaved(her.floater, her.surfaced.rest, sign * far)
        for sign in (1.0, -1.0)
    )
    wide = WIDE * float(np.linalg.norm(one.gm_t))
    more = max(worst - slope * far, 0.0)
    return one.gm_t * (1.0 + more / wide if wide > 0 else 1.0)


def _turned(state: State, one: Answer) -> list[Figure]:
    """Return trim and heel as she lies low: dived, or with her tanks full where she will not."""
    n = state.rest.n
    return [
        Figure(
            key="trim dived", place="", kind="angle", value=state.trim_angle,
            off=trim_of(one.turn, n),
        ),
        Figure(
            key="heel dived", place="", kind="angle", value=state.heel, off=heel_of(one.turn, n)
        ),
    ]  # fmt: skip


def _bg(her: Ready, one: Answer) -> Figure:
    """Return BG dived and upright, at the filling at which she is neutral or nearest to it."""
    state, floater = her.dived, her.floater
    waters = state.rest.waters
    up = tank_water(floater, waters, UP, levels_at(floater, waters, UP))
    total = state.displacement_mass
    g = (floater.mass * (floater.gravity + floater.tree.centre) + floater.density * up.moment)[2]
    g /= total
    b = float(floater.buoyancy[2] + floater.tree.centre[2])
    lifted = (one.buoyancy[:, 2] - b * one.volume) / floater.volume
    off = lifted - (one.weight[:, 2] - g * one.mass) / total
    return Figure(key="bg", place="", kind="length", value=upright_bg(floater, waters), off=off)
