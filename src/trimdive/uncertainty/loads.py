"""What each thing adds to slope and stiffness of a boat at rest, and what that does to her.

Her energy is a sum over all that weighs and displaces, so that a thing which is a little off adds
a little to slope and stiffness; the exact stiffness then tells how far she turns and sinks. No
rest is sought anew.

Source: the theorem of implicit functions, on the energy in rest/energy.py.
"""

from collections.abc import Sequence

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import Body
from trimdive.geometry.solids.cut import axes_in_plane, cut
from trimdive.geometry.solids.tree import planted
from trimdive.hydrostatics.equilibrium import Floater, Rest
from trimdive.hydrostatics.equilibrium.energy import FLOAT, HANG, evaluate
from trimdive.hydrostatics.equilibrium.solve import reduced
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.records import record
from trimdive.uncertainty.things import Source, Thing

LOADS = 9  # slope 3, then stiffness: forward², forward·port, port², forward·d, port·d, d²
STEP = 1e-4  # by which she is turned [rad] and sunk [m] to see how her stiffness changes
SMALL = 1e-9  # m; a thing shifted by less stays where it is


@record
class Stance:
    """A boat at rest, ready to be asked what a small change does to her."""

    boat: Floater
    rest: Rest
    forward: Floats  # level, shape (3,) [-]
    port: Floats  # level, shape (3,) [-]
    stiffness: Floats  # along forward, port and d, shape (3, 3) [kg m, kg, kg/m]
    growth: Floats  # how that changes along the three, shape (3, 3, 3) [by its parts]
    total: float  # boat and tank water [kg]
    waters: Floats  # centre of the water in each tank, shape (t, 3) [m]


@record
class Answer:
    """What each source does to a boat at rest, where it is off by one standard deviation."""

    turn: Floats  # of n, the unit vector up, shape (s, 3) [-]
    rise: Floats  # of the water surface along n, from the origin, shape (s,) [m]
    gm_t: Floats  # shape (s,) [m]
    gm_l: Floats  # shape (s,) [m]
    mass: Floats  # of boat and tank water, shape (s,) [kg]
    weight: Floats  # its first moment about the origin, shape (s, 3) [kg m]
    volume: Floats  # under water, by itself, she staying as she lies, shape (s,) [m³]
    buoyancy: Floats  # its first moment about the origin, shape (s, 3) [m⁴]


def stance(boat: Floater, rest: Rest) -> Stance:
    """Return a boat at rest, ready to be asked."""
    forward, port = axes_in_plane(rest.n)
    levels = rest.levels - float(rest.n @ boat.tree.centre)
    mode = HANG if rest.under else FLOAT
    d = rest.d - float(rest.n @ boat.tree.centre)

    def at(step: Floats) -> Floats:
        turned = rest.n + step[0] * forward + step[1] * port
        turned /= np.linalg.norm(turned)
        slope, stiffness = np.empty(3), np.empty((3, 3))
        evaluate(boat, rest.waters, mode, turned, d + step[2], levels.copy(), slope, stiffness)
        return stiffness

    steps = STEP * np.eye(3)
    water = tank_water(boat, rest.waters, rest.n, rest.levels)
    return Stance(
        boat=boat,
        rest=rest,
        forward=forward,
        port=port,
        stiffness=at(np.zeros(3)),
        growth=np.stack([(at(step) - at(-step)) / (2 * STEP) for step in steps]),
        total=boat.mass + boat.density * float(rest.waters.sum()),
        waters=water.centroids,
    )


def heaved(boat: Floater, rest: Rest, far: float) -> float:
    """Return GM_T with the water so much higher on her than at rest, she turned no way [m].

    Args:
        boat: The boat.
        rest: How she lies.
        far: How much higher [m].
    """
    slope, stiffness = np.empty(3), np.empty((3, 3))
    low = float(rest.n @ boat.tree.centre)
    levels = rest.levels - low
    evaluate(boat, rest.waters, FLOAT, rest.n, rest.d - low + far, levels, slope, stiffness)
    total = boat.mass + boat.density * float(rest.waters.sum())
    return float(_gm(stiffness[None], np.array([total]))[0, 1])


def _weight(at: Stance, mass: float, moment: Floats) -> Floats:
    """Return the load of a mass.

    Args:
        at: The boat at rest.
        mass: That is added [kg].
        moment: Its first moment about the tree's centre, shape (3,) [kg m].
    """
    pull = moment - mass * at.boat.buoyancy if at.rest.under else moment
    load = np.zeros(LOADS)
    load[:3] = at.forward @ pull, at.port @ pull, -mass
    load[3] = load[5] = -float(at.rest.n @ pull)
    if at.rest.under:
        load[2], load[8] = 0.0, mass
    return load


def _body(at: Stance, body: Body, shift: Floats) -> tuple[Floats, float, Floats]:
    """Return a body's load as it displaces, its volume under water and the moment of that.

    Args:
        at: The boat at rest.
        body: What displaces.
        shift: How far it lies off, shape (3,) [m].

    Returns:
        Load, shape (9,); volume [m³]; first moment about the origin, shape (3,) [m⁴].
    """
    n, centre, rho = at.rest.n, at.boat.tree.centre, at.boat.density
    away = centre - shift  # the tree's centre as the body sees it
    below = cut(planted(body.mesh, 1.0), n, at.rest.d - float(n @ shift))
    volume = body.share * below.volume
    moment = body.share * (below.moment - below.volume * away)  # about the tree's centre
    load = np.zeros(LOADS)
    if at.rest.under:
        pull = -(at.total / at.boat.volume) * (moment - volume * at.boat.buoyancy)
        load[:2] = at.forward @ pull, at.port @ pull
        load[3] = load[5] = -float(n @ pull)
        return load, volume, moment + volume * centre
    f, p = at.forward, at.port
    first = body.share * (below.area_moment - below.area * away)
    both = np.outer(away, below.area_moment)
    second = below.area_second - both - both.T + below.area * np.outer(away, away)
    second = body.share * second
    load[:3] = -rho * (f @ moment), -rho * (p @ moment), rho * volume
    along = rho * float(n @ moment)
    load[3] = rho * float(f @ second @ f) + along
    load[4] = rho * float(f @ second @ p)
    load[5] = rho * float(p @ second @ p) + along
    load[6:] = -rho * (f @ first), -rho * (p @ first), rho * body.share * below.area
    return load, volume, moment + volume * centre


def _tank(at: Stance, k: int) -> tuple[Floats, float, Floats]:
    """Return the load of the water in a tank, its mass and its moment about the origin."""
    boat, alone = at.boat, np.zeros(len(at.rest.waters))
    alone[k] = at.rest.waters[k]
    mass = boat.density * float(alone[k])
    load = _weight(at, mass, mass * (at.waters[k] - boat.tree.centre))
    surface = tank_water(boat, alone, at.rest.n, at.rest.levels).surfaces
    load[3] -= boat.density * float(at.forward @ surface @ at.forward)
    load[4] -= boat.density * float(at.forward @ surface @ at.port)
    load[5] -= boat.density * float(at.port @ surface @ at.port)
    return load, mass, mass * at.waters[k]


def load_of(at: Stance, thing: Thing) -> Floats:
    """Return what a thing adds to slope and stiffness as it is, shape (9,).

    The order is slope along forward, port and d, then stiffness row by row of its upper half.
    """
    load = _weight(at, thing.mass, thing.mass * (thing.place - at.boat.tree.centre))
    load += sum((_body(at, body, np.zeros(3))[0] for body in thing.bodies), np.zeros(LOADS))
    return load + _tank(at, thing.tank)[0] if thing.tank >= 0 else load


def _change(at: Stance, found: Sequence[Thing], source: Source) -> tuple[Floats, Floats]:
    """Return the load of a source by one standard deviation, and what it weighs and displaces.

    Returns:
        Load, shape (9,); mass, its moment, volume under water, its moment, shape (8,) [kg, kg m,
        m³, m⁴].
    """
    thing, sums = found[source.thing], np.zeros(8)
    sums[0], sums[1:4] = source.mass, source.mass * thing.place
    load = _weight(at, source.mass, sums[1:4] - source.mass * at.boat.tree.centre)
    for body in thing.bodies if source.share else ():
        part, volume, where = _body(at, body, np.zeros(3))
        load += source.share * part
        sums[4:] += source.share * np.array([volume, *where])
    if thing.tank >= 0:
        part, mass, where = _tank(at, thing.tank)
        sums[:4] += source.room * np.array([mass, *where])
        load += source.room * part
    if np.abs(source.shift).max() > SMALL:
        for k in source.moves:
            part, more = _shifted(at, found[k], source.shift)
            load, sums = load + part, sums + more
    return load, sums


def _shifted(at: Stance, thing: Thing, shift: Floats) -> tuple[Floats, Floats]:
    """Return the load of a thing's shift, with the water in its tank, and its sums.

    Args:
        at: The boat at rest.
        thing: What lies off.
        shift: How far, shape (3,) [m].

    Returns:
        As for a source: shapes (9,) and (8,).
    """
    sums, load = np.zeros(8), np.zeros(LOADS)
    mass = thing.mass
    if thing.tank >= 0:
        mass += at.boat.density * float(at.rest.waters[thing.tank])
    sums[1:4] = mass * shift
    load += _weight(at, 0.0, mass * shift)
    for body in thing.bodies if thing.moves else ():
        high, low = _body(at, body, shift), _body(at, body, -shift)
        load += 0.5 * (high[0] - low[0])
        sums[4:] += 0.5 * np.array([high[1] - low[1], *(high[2] - low[2])])
    return load, sums


def _symmetric(loads: Floats) -> Floats:
    """Return the stiffness that each load adds, shape (s, 3, 3)."""
    return loads[:, [3, 4, 6, 4, 5, 7, 6, 7, 8]].reshape(-1, 3, 3)


def _gm(stiffness: Floats, total: Floats) -> Floats:
    """Return GM_L and GM_T, heave free, of boats of each stiffness and mass, shape (s, 2) [m]."""
    kept = np.array([reduced(one) for one in stiffness]).reshape(-1, 2, 2)
    return np.diagonal(kept, axis1=1, axis2=2) / total[:, None]


def answer(at: Stance, found: Sequence[Thing], listed: Sequence[Source]) -> Answer:
    """Return what each source does to a boat at rest.

    Args:
        at: The boat at rest.
        found: What is aboard.
        listed: What may be off.
    """
    loads, sums = np.zeros((len(listed), LOADS)), np.zeros((len(listed), 8))
    for i, source in enumerate(listed):
        loads[i], sums[i] = _change(at, found, source)
    moved = -np.linalg.solve(at.stiffness, loads[:, :3].T).T
    turn = moved[:, :2] @ np.stack([at.forward, at.port])
    stiffer = (_symmetric(loads) + np.tensordot(moved, at.growth, axes=1)) / 2
    heavier = sums[:, 0] / 2
    gm = _gm(at.stiffness + stiffer, at.total + heavier)
    gm -= _gm(at.stiffness - stiffer, at.total - heavier)
    return Answer(
        turn=turn, rise=moved[:, 2] + turn @ at.boat.tree.centre, gm_l=gm[:, 0], gm_t=gm[:, 1],
        mass=sums[:, 0], weight=sums[:, 1:4], volume=sums[:, 4], buoyancy=sums[:, 5:],
    )  # fmt: skip
