"""The energy of a floating or hanging boat, its slope and its stiffness, exact for the meshes.

    E(n, d) = M n·G + Σ tanks ρ n·M1_tank - M_all d + ρ (d V - n·M1)

over g, with n the unit vector up in boat axes and n·r = d the water surface. Its stationary
points are the rests; the stiffness about horizontal axes is its second derivative, with
the water in each tank free to find its level.
"""

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.cut import (
    AREA,
    AREA_MOMENT,
    AREA_SECOND,
    MOMENT,
    VOLUME,
    WIDTH,
    axes_in_plane,
    cut_raw,
)
from trimdive.geometry.solids.kernel import inner, kernel
from trimdive.geometry.solids.tree import Links, Tree, span
from trimdive.hydrostatics.equilibrium.problem import Floater, Tanks

LEVEL_TOLERANCE = 1e-13  # of the tank's space, on the water in it [-]
FULL = 1.0 - 1e-12  # of its capacity: from here on a tank counts as full [-]
FLOAT, HANG = 0, 1  # how she rests: at the surface, or wholly under


@kernel
def level_for(
    tree: Tree,
    roots: Links,
    volume: float,
    n: Floats,
    bounds: tuple[float, float, float],
    close: float,
    out: Floats,
) -> float:
    """Return the height along ``n`` of the plane with this volume of the bodies below it.

    Newton's method kept between bounds; ``out`` holds the cut there.

    Args:
        tree: Bodies.
        roots: Those that count [-].
        volume: Wanted below the plane [m³].
        n: Unit vector up, shape (3,) [-].
        bounds: Lowest and highest height, and a first guess, from the tree's centre [m].
        close: How near to that volume is near enough [m³].
        out: Room for the cut, shape (WIDTH,) [m, by powers].
    """
    low, high, level = bounds
    for _ in range(200):
        cut_raw(tree, roots, n, level, out)
        gap = volume - out[VOLUME]
        if abs(gap) <= close:
            break
        if gap > 0:
            low = level
        else:
            high = level
        step = level + gap / out[AREA] if out[AREA] > 0 else low
        level = step if low < step < high else 0.5 * (low + high)
    return level


@inner
def tank_level(tanks: Tanks, k: int, water: float, n: Floats, start: float, out: Floats) -> float:
    """Return the height along ``n`` of the water in tank ``k``; ``out`` holds its cut there.

    Args:
        tanks: The tanks.
        k: Which of them; it is neither empty nor full [-].
        water: In it [m³].
        n: Unit vector up, shape (3,) [-].
        start: A first guess from the tree's centre [m].
        out: Room for the cut, shape (WIDTH,) [m, by powers].
    """
    low, high = span(tanks.tree, k, n)
    edge = 0.01 * (high - low)
    first = min(max(start, low + edge), high - edge)
    root = tanks.tree.roots[k : k + 1]
    close = LEVEL_TOLERANCE * tanks.volumes[k]
    wanted = water / tanks.shares[k]
    return level_for(tanks.tree, root, wanted, n, (low, high, first), close, out)


@inner
def whole_mass(boat: Floater, waters: Floats) -> float:
    """Return what she weighs with this water in her tanks [kg]."""
    water = 0.0
    for k in range(len(waters)):
        water += waters[k]
    return boat.mass + boat.density * water


@inner
def _add_second(out: Floats, factor: float, share: float, stiffness: Floats) -> None:
    """Add a surface's second moments times ``factor``.

    A ``share`` of 1/area takes them about its middle; of 0 about the point d n.
    """
    u, v = out[AREA_MOMENT], out[AREA_MOMENT + 1]
    mixed = factor * (out[AREA_SECOND + 1] - u * v * share)
    stiffness[0, 0] += factor * (out[AREA_SECOND] - u * u * share)
    stiffness[1, 1] += factor * (out[AREA_SECOND + 2] - v * v * share)
    stiffness[0, 1] += mixed
    stiffness[1, 0] += mixed


@inner
def _add_tank(
    boat: Floater, k: int, water: float, n: Floats, levels: Floats, pull: Floats, stiffness: Floats
) -> None:
    """Add the water in tank ``k`` to the pull; take its free surface off the stiffness."""
    tanks, mass = boat.tanks, boat.density * water
    capacity = tanks.volumes[k] * tanks.shares[k]
    if tanks.pistons[k] > 0.0:
        pull[0] += mass * (tanks.ends[k] + 0.5 * tanks.strokes[k] * water / capacity)
        pull[1] += mass * tanks.centroids[k, 1]
        pull[2] += mass * tanks.centroids[k, 2]
    elif water >= capacity * FULL:
        for i in range(3):
            pull[i] += mass * tanks.centroids[k, i]
    elif water > 0.0:
        out = np.empty(WIDTH)
        levels[k] = tank_level(tanks, k, water, n, levels[k], out)
        local = boat.density * tanks.shares[k]
        for i in range(3):
            pull[i] += local * (out[MOMENT + i] + out[VOLUME] * levels[k] * n[i])
        _add_second(out, -local, 1.0 / out[AREA] if out[AREA] > 0.0 else 0.0, stiffness)


@inner
def _add_hull(
    boat: Floater, n: Floats, d: float, total: float, pull: Floats, slope: Floats, stiffness: Floats
) -> float:
    """Add what the water outside does; return its part of the energy less n·pull [kg m]."""
    out = np.empty(WIDTH)
    cut_raw(boat.tree, boat.tree.roots, n, d, out)
    rho = boat.density
    for i in range(3):
        pull[i] -= rho * (out[MOMENT + i] + out[VOLUME] * d * n[i])
    _add_second(out, rho, 0.0, stiffness)
    for i in range(2):
        stiffness[i, 2] = stiffness[2, i] = -rho * out[AREA_MOMENT + i]
    stiffness[2, 2] = rho * out[AREA]
    slope[2] = rho * out[VOLUME] - total
    return d * slope[2]


@kernel
def evaluate(
    boat: Floater,
    waters: Floats,
    mode: int,
    n: Floats,
    d: float,
    levels: Floats,
    slope: Floats,
    stiffness: Floats,
) -> float:
    """Return the energy over g [kg m]; write its slope and stiffness, exact also on end.

    Args:
        boat: What comes to rest.
        waters: Water in each tank, shape (t,) [m³].
        mode: FLOAT, or HANG: wholly under, whatever her weight [-].
        n: Unit vector up, shape (3,) [-].
        d: Height of the water surface along ``n`` from the tree's centre [m].
        levels: Water levels in the tanks along ``n``: first guess in, result out, shape (t,) [m].
        slope: Out: along forward, port (turning n) and d, shape (3,) [kg m, kg m, kg].
        stiffness: Out: second derivatives in that order, shape (3, 3) [kg m, kg, kg/m].
    """
    forward, port = axes_in_plane(n)
    pull = np.empty(3)  # slope of E with n, before n is held to unit length
    for i in range(3):
        pull[i] = boat.mass * boat.gravity[i]
    total = whole_mass(boat, waters)
    stiffness[:] = 0.0
    for k in range(len(waters)):
        _add_tank(boat, k, waters[k], n, levels, pull, stiffness)
    if mode == HANG:
        for i in range(3):
            pull[i] -= total * boat.buoyancy[i]
        slope[2], stiffness[2, 2] = 0.0, total
        energy = 0.0
    else:
        energy = _add_hull(boat, n, d, total, pull, slope, stiffness)
    along = pull[0] * n[0] + pull[1] * n[1] + pull[2] * n[2]
    slope[0] = pull[0] * forward[0] + pull[1] * forward[1] + pull[2] * forward[2]
    slope[1] = pull[0] * port[0] + pull[1] * port[1] + pull[2] * port[2]
    stiffness[0, 0] -= along
    stiffness[1, 1] -= along
    return energy + along
