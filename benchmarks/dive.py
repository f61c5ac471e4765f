"""The dive table beside a general root finder over a general library's cuts.

Theirs finds trim, heel and height at a filling, and the level of the water in each tank by
bracketing, all over manifold3d; it is timed at a few fillings where it converges, and scaled. Both
begin each filling from where she rests one step before.
"""

from time import perf_counter
from typing import Any

import numpy as np

from benchmarks.rest import BITTERN, _below, _solids
from benchmarks.timing import Row, typical
from trimdive.assessment import Assessment, assess
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import tank_room
from trimdive.hydrostatics.equilibrium import Rest, rest

STEPS = 101
FILLINGS = (0.25, 0.45, 0.6)  # where the general route is tried [-]


def _tank_moment(tank: Any, share: float, water: float, n: Floats) -> Floats:
    """Return the first moment of a tank's water, its level found by bracketing."""
    from scipy.optimize import brentq

    vertices = tank.to_mesh64().vert_properties[:, :3]
    heights = vertices @ n
    low, high = float(heights.min()), float(heights.max())

    def missing(level: float) -> float:
        return share * float(tank.trim_by_plane(-n, -level).volume()) - water

    level = brentq(missing, low, high, xtol=1e-9)
    return share * _below([(tank, 1.0)], n, level)[1]


def _theirs(
    boat: Assessment, solids: list[Any], tanks: list[Any], waters: Floats, before: Rest
) -> bool:
    """Return whether the general route converges at this filling, from the rest before it."""
    from scipy.optimize import root

    density, length = boat.floater.density, boat.floater.length
    shares = boat.floater.tanks.shares
    total = boat.masses.mass + density * float(waters.sum())

    def unbalance(x: Floats) -> Floats:
        n = np.array([x[0], x[1], 1.0]) / np.sqrt(1.0 + x[0] ** 2 + x[1] ** 2)
        volume, moment = _below(solids, n, x[2] * length)
        gravity = boat.masses.moment.copy()
        for tank, share, water in zip(tanks, shares, waters, strict=True):
            gravity += density * _tank_moment(tank, share, water, n)
        lever = np.cross(n, moment / volume - gravity / total)
        return np.array([density * volume / total - 1.0, *lever[:2] / length])

    start = np.array([*(before.n[:2] / before.n[2]), before.d / length])
    return bool(root(unbalance, start, tol=1e-9).success)


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else is worth telling."""
    from manifold3d import Manifold, Mesh64

    boat = assess(BITTERN)
    solids = _solids(boat)
    rooms = [tank_room(tank, boat.boat, boat.files) for tank in boat.boat.tanks]
    tanks = [Manifold(Mesh64(m.vertices, m.triangles.astype(np.uint64))) for m in rooms]
    times: list[float] = []
    for filling in FILLINGS:
        before = rest(boat.floater, boat.path.at(filling - 1.0 / (STEPS - 1)))
        start = perf_counter()
        if _theirs(boat, solids, tanks, boat.path.at(filling), before):
            times.append(perf_counter() - start)
    if not times:
        return [], ["The general route converges nowhere on the dive: no ratio."]

    def table(steps: int) -> None:
        at = None
        for share in np.linspace(0.0, 1.0, steps):
            at = rest(boat.floater, boat.path.at(float(share)), start=at)

    table(STEPS)
    row = Row(
        what=f"dive of Bittern, {STEPS} rests",
        beside="root over trims",
        time=typical(table, [STEPS], 9),
        other=STEPS * float(np.mean(times)),
        least=10_000.0,
    )
    return [row.cells], [
        f"The general route converged at {len(times)} of {len(FILLINGS)} fillings of the dive; "
        "its time is scaled from those."
    ]
