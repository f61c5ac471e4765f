"""What bulkheads in a tank do, by geometry: the tank cut into bays and the boat let go again.

The formula divides the free surface's loss by the square of the number of bays. That holds for a
level surface of even breadth parted into equal bays; here each bay has its own water and its own
level, so that it also tells where the formula is off. And where one tank is so long that it must
be parted anyway: two tanks of half the length lose as little, and can level her as well.

Source: ordinary naval architecture, i / ∇ / n²; the geometry is the tank's own.
"""

from dataclasses import dataclass
from math import atan2, ceil, sqrt
from typing import Literal, Protocol

import numpy as np

from trimdive.ballast.dive.changed import tank_numbered
from trimdive.ballast.dive.table import Moment
from trimdive.boatfile import Boat
from trimdive.errors import AskError
from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.solids.build import tank_room
from trimdive.geometry.solids.cut import axes_in_plane, cut
from trimdive.geometry.solids.moments import centroid
from trimdive.geometry.solids.solids import Plane, carved
from trimdive.geometry.solids.surfaces import Files
from trimdive.geometry.solids.tree import forest, plant
from trimdive.hydrostatics.equilibrium import Floater, Rest, State, rest, state
from trimdive.hydrostatics.equilibrium.hydrostatics import upright_bg
from trimdive.hydrostatics.equilibrium.solve import levels_at

Bulkheads = Literal["across", "along"]  # across: bays one behind another; along: side by side
UP = np.array([0.0, 0.0, 1.0])
SLACK = 1e-9  # nearer to empty or full than this share a tank has no free surface [-]
KEEP = 0.5  # of BG that slack water may take lengthways before a tank should be parted [-]
FILLINGS = 40  # at which a tank's free surface is looked at [-]


class Fitted(Protocol):
    """A boat with her tanks."""

    @property
    def boat(self) -> Boat:
        """Her boat file."""
        ...

    @property
    def files(self) -> Files:
        """What lies beside it."""
        ...

    @property
    def floater(self) -> Floater:
        """The boat ready to be let go."""
        ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """One tank parted into bays, at the moment of the dive at which its slack water hurts most."""

    tank: str
    count: int  # bays [-]
    bulkheads: Bulkheads
    filling: float  # share of all water, at that moment [-]
    full: float  # how full the tank is then [-]
    lost: float  # off GM by its slack water, undivided, by geometry [m]
    left: float  # the same with the bays, by geometry [m]
    formula: float  # the same by the formula, lost over count² [m]
    before: State
    after: State


@dataclass(frozen=True, slots=True, kw_only=True)
class TwoTanks:
    """Whether she is better off with two tanks in one's place, dived and level."""

    tank: str
    full: float  # how full it is when its slack water takes most [-]
    lost: float  # off BG lengthways, by geometry [m]
    bg: float  # B above G at her neutral filling, slack water not taken off [m]
    bays: int  # fewest that leave half of BG; 0 where none can, as B is not above G [-]
    levels: float  # angle by bow or stern that two halves filled unlike could level [rad]

    @property
    def better(self) -> bool:
        """Return whether it should be two tanks: it has to be parted, and she is stiff without."""
        return self.bays > 1


def _open_tank(boat: Boat, name: str) -> int:
    """Return the number of a tank whose water has a surface.

    Raises:
        AskError: There is no such tank, or a piston holds its water.
    """
    k = tank_numbered(boat, name)
    if boat.tanks[k].kind == "piston":
        what = "a piston's water has no free surface to part"
        raise AskError(what, name, "Leave it as it is.")
    return k


def bays_of(room: Mesh, count: int, bulkheads: Bulkheads, name: str) -> list[Mesh]:
    """Return the room of a tank in equal lengths, or breadths.

    Raises:
        AskError: There is not one bay, or there are more than 50.
    """
    if not 1 <= count <= 50:
        raise AskError(f"{count} bays cannot be", name, "Give 1 to 50.")
    axis = 0 if bulkheads == "across" else 1
    low, high = room.bounds[:, axis]
    edges = np.linspace(low, high, count + 1)
    up = (1.0, 0.0, 0.0) if axis == 0 else (0.0, 1.0, 0.0)
    down = (-up[0], -up[1], 0.0)
    found: list[Mesh] = []
    for i in range(count):
        planes: list[Plane] = []
        planes += [(down, -float(edges[i]))] if i else []
        planes += [(up, float(edges[i + 1]))] if i < count - 1 else []
        found.append(carved(room, planes, [], name))
    return found


def divided(her: Fitted, tank: str, count: int, bulkheads: Bulkheads) -> tuple[Floater, Floats]:
    """Return her with a tank in bays, and each bay's share of its room, shape (count,) [-].

    The bays stand last among the tanks.

    Raises:
        AskError: There is no such tank, it is a piston's, or the bays cannot be.
    """
    k = _open_tank(her.boat, tank)
    ready = her.floater
    old, centre = ready.tanks, ready.tree.centre
    rooms = [tank_room(one, her.boat, her.files) for one in her.boat.tanks]
    bays = bays_of(rooms.pop(k), count, bulkheads, tank)
    sizes = np.array([volume(bay) for bay in bays])
    places = np.stack([centroid(bay) - centre for bay in bays])
    tanks = old._replace(
        tree=forest([plant(room, 1.0, centre) for room in (*rooms, *bays)]),
        volumes=np.append(np.delete(old.volumes, k), sizes),
        centroids=np.vstack([np.delete(old.centroids, k, axis=0), places]),
        shares=np.append(np.delete(old.shares, k), np.full(count, old.shares[k])),
        pistons=np.append(np.delete(old.pistons, k), np.zeros(count)),
        ends=np.append(np.delete(old.ends, k), np.zeros(count)),
        strokes=np.append(np.delete(old.strokes, k), np.zeros(count)),
    )
    return ready._replace(tanks=tanks), sizes / sizes.sum()


def _surface(boat: Floater, k: int, water: float, n: Floats, level: float) -> Floats:
    """Return the second moments of one tank's slack surface about its middle, shape (3, 3) [m⁴]."""
    tanks = boat.tanks
    capacity = tanks.capacities[k]
    if not SLACK * capacity < water < (1 - SLACK) * capacity:
        return np.zeros((3, 3))
    one = cut(tanks.tree._replace(roots=tanks.tree.roots[k : k + 1]), n, level)
    middle = one.area_moment / one.area
    return np.asarray(tanks.shares[k] * (one.area_second - one.area * np.outer(middle, middle)))


def _lost(boat: Floater, at: Rest, numbers: range, bulkheads: Bulkheads) -> float:
    """Return what the slack water of some tanks takes off GM [m]."""
    forward, port = axes_in_plane(at.n)
    way = forward if bulkheads == "across" else port
    total = sum(
        (_surface(boat, k, float(at.waters[k]), at.n, float(at.levels[k])) for k in numbers),
        np.zeros((3, 3)),
    )
    return float(way @ total @ way) / (boat.mass / boat.density + float(at.waters.sum()))


def parted(
    her: Fitted,
    moments: tuple[Moment, ...],
    tank: str,
    count: int,
    bulkheads: Bulkheads = "across",
) -> Parted:
    """Return what bays in a tank do at the worst moment of a dive.

    The worst is the least GM_L for bays one behind another, the least GM_T for bays side by side,
    among the moments at which that tank is slack.

    Args:
        her: The boat.
        moments: Of the dive.
        tank: Its name.
        count: Bays [-].
        bulkheads: Which way they stand.

    Raises:
        AskError: There is no such tank, it is a piston's, it is never slack in these
            moments, or the bays cannot be.
        BalanceError: With the bays she finds no rest.
    """
    ready, shares = divided(her, tank, count, bulkheads)
    k = tank_numbered(her.boat, tank)
    capacity = float(her.floater.tanks.capacities[k])
    slack = [m for m in moments if SLACK < m.state.rest.waters[k] / capacity < 1 - SLACK]
    if not slack:
        raise AskError("it is never part full on this way", tank, "Fill it step by step.")
    worst = min(slack, key=lambda m: m.state.gm_l if bulkheads == "across" else m.state.gm_t)
    at = worst.state.rest
    waters = np.append(np.delete(at.waters, k), at.waters[k] * shares)
    then = rest(ready, waters, n=at.n, hanging=at.under)
    lost = _lost(her.floater, at, range(k, k + 1), bulkheads)
    return Parted(
        tank=tank,
        count=count,
        bulkheads=bulkheads,
        filling=worst.filling,
        full=float(at.waters[k]) / capacity,
        lost=lost,
        left=_lost(ready, then, range(len(waters) - count, len(waters)), bulkheads),
        formula=lost / count**2,
        before=worst.state,
        after=state(ready, then),
    )


def two_tanks(her: Fitted, tank: str, neutral: Floats) -> TwoTanks:
    """Return whether she is better off with two tanks in one's place.

    Args:
        her: The boat.
        tank: Its name.
        neutral: Water in each tank when she is neutral, shape (t,) [m³].

    Raises:
        AskError: There is no such tank, or it is a piston's.
    """
    k = _open_tank(her.boat, tank)
    boat = her.floater
    capacity = float(boat.tanks.capacities[k])
    bg = upright_bg(boat, neutral)
    found: list[tuple[float, float]] = []
    for full in np.linspace(0.0, 1.0, FILLINGS + 1)[1:-1]:
        waters = neutral.copy()
        waters[k] = full * capacity
        level = float(levels_at(boat, waters, UP)[k])
        second = _surface(boat, k, float(waters[k]), UP, level)
        found.append((float(second[0, 0]) / boat.volume, float(full)))
    lost, full = max(found)
    halves = bays_of(tank_room(her.boat.tanks[k], her.boat, her.files), 2, "across", tank)
    arm = abs(float(centroid(halves[1])[0] - centroid(halves[0])[0])) / 2
    turn = boat.density * capacity / 2 * arm
    return TwoTanks(
        tank=tank,
        full=full,
        lost=lost,
        bg=bg,
        bays=max(1, ceil(sqrt(lost / (KEEP * bg)) - 1e-9)) if bg > 0 else 0,
        levels=atan2(turn, boat.density * boat.volume * bg) if bg > 0 else 0.0,
    )
