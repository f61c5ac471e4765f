"""The energy of a floating or hanging boat, its slope and its stiffness, exact for the meshes.

    E(n, d) = M n·G + Σ tanks ρ n·M1_tank - M_all d + ρ (d V - n·M1)

over g, with n the unit vector up in boat axes and n·r = d the water surface. Its stationary
points are the rests; the stiffness about horizontal axes is its second derivative, with
the water in each tank free to find its level.
"""

import numpy as np

from trimdive.bodies.cut import AREA, AREA_MOMENT, AREA_SECOND, MOMENT, VOLUME, WIDTH, cut_raw
from trimdive.bodies.cut import axes_in_plane
from trimdive.bodies.kernel import kernel
from trimdive.lines.mesh import Floats
from trimdive.rest.problem import Floater, Tanks

LEVEL_TOLERANCE = 1e-13  # of the tank's space, on the water in it [-]
FLOAT, HANG = 0, 1  # how she rests: at the surface, or wholly under


@kernel
def tank_level(tanks: Tanks, k: int, water: float, n: Floats, start: float, out: Floats) -> float:
    """Return the height along ``n`` of the water in tank ``k``; ``out`` holds its cut there.

    Newton's method kept between bounds; ``start`` is a first guess [m]. The tank is neither
    empty nor full.
    """
    root = tanks.tree.roots[k : k + 1]
    node = tanks.tree.nodes[root[0]]
    middle = n[0] * node[0] + n[1] * node[1] + n[2] * node[2]
    half = abs(n[0]) * node[3] + abs(n[1]) * node[4] + abs(n[2]) * node[5]
    low, high = middle - half, middle + half
    wanted = water / tanks.shares[k]
    level = min(max(start, low + 0.02 * half), high - 0.02 * half)
    for _ in range(60):
        cut_raw(tanks.tree, root, n, level, out)
        gap = wanted - out[VOLUME]
        if abs(gap) <= LEVEL_TOLERANCE * tanks.volumes[k]:
            break
        if gap > 0:
            low = level
        else:
            high = level
        step = level + gap / out[AREA] if out[AREA] > 0 else low
        level = step if low < step < high else 0.5 * (low + high)
    return level


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
    """Return the energy over g [kg m]; write its slope and stiffness.

    Args:
        boat: What comes to rest.
        waters: Water in each tank, shape (t,) [m³].
        mode: FLOAT, or HANG: wholly under, whatever her weight.
        n: Unit vector up, shape (3,) [-].
        d: Height of the water surface along ``n`` from the tree's centre [m].
        levels: Water levels in the tanks along ``n``: first guess in, result out, shape (t,) [m].
        slope: Out: along forward, port (turning n) and d, shape (3,) [kg m, kg m, kg].
        stiffness: Out: second derivatives in the same order, shape (3, 3).
    """
    tanks = boat.tanks
    rho = boat.density
    out = np.empty(WIDTH)
    forward, port = axes_in_plane(n)
    pull = boat.mass * boat.gravity  # free slope of E with n
    total = boat.mass
    s11 = s12 = s22 = 0.0
    for k in range(len(waters)):
        water = waters[k]
        mass = rho * water
        total += mass
        if water <= 0.0:
            continue
        if tanks.pistons[k] > 0.0:
            share = 0.5 * tanks.strokes[k] * water / (tanks.volumes[k] * tanks.shares[k])
            pull[0] += mass * (tanks.ends[k] + share)
            pull[1] += mass * tanks.centroids[k, 1]
            pull[2] += mass * tanks.centroids[k, 2]
            continue
        if water >= tanks.volumes[k] * tanks.shares[k] * (1.0 - 1e-12):
            pull += mass * tanks.centroids[k]
            continue
        levels[k] = tank_level(tanks, k, water, n, levels[k], out)
        local = rho * tanks.shares[k]
        for i in range(3):
            pull[i] += local * (out[MOMENT + i] + out[VOLUME] * levels[k] * n[i])
        area, u, v = out[AREA], out[AREA_MOMENT], out[AREA_MOMENT + 1]
        if area > 0.0:
            s11 -= local * (out[AREA_SECOND] - u * u / area)
            s12 -= local * (out[AREA_SECOND + 1] - u * v / area)
            s22 -= local * (out[AREA_SECOND + 2] - v * v / area)
    stiffness[:] = 0.0
    if mode == HANG:
        pull -= total * boat.buoyancy
        slope[2] = 0.0
        stiffness[2, 2] = total
        energy = 0.0
    else:
        cut_raw(boat.tree, boat.tree.roots, n, d, out)
        for i in range(3):
            pull[i] -= rho * (out[MOMENT + i] + out[VOLUME] * d * n[i])
        slope[2] = rho * out[VOLUME] - total
        u, v = out[AREA_MOMENT], out[AREA_MOMENT + 1]
        s11 += rho * out[AREA_SECOND]
        s12 += rho * out[AREA_SECOND + 1]
        s22 += rho * out[AREA_SECOND + 2]
        stiffness[0, 2] = stiffness[2, 0] = -rho * u
        stiffness[1, 2] = stiffness[2, 1] = -rho * v
        stiffness[2, 2] = rho * out[AREA]
        energy = d * slope[2]
    along = pull[0] * n[0] + pull[1] * n[1] + pull[2] * n[2]
    slope[0] = pull[0] * forward[0] + pull[1] * forward[1] + pull[2] * forward[2]
    slope[1] = pull[0] * port[0] + pull[1] * port[1] + pull[2] * port[2]
    stiffness[0, 0] = s11 - along
    stiffness[0, 1] = stiffness[1, 0] = s12
    stiffness[1, 1] = s22 - along
    return energy + along
