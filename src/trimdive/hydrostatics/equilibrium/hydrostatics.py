"""Every figure that is told of a boat at rest.

Symbols are those of the ITTC list; heights are from the keel line along the boat's own z axis
where she is nearly level, trim and heel are told in words where they are shown.
"""

from math import asin, atan2, pi, tan

import numpy as np

from trimdive.data import constant
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
from trimdive.geometry.solids.section import contact_length
from trimdive.hydrostatics.equilibrium.problem import Floater
from trimdive.hydrostatics.equilibrium.solve import Rest, levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.records import record

STEEPEST = 0.7  # least part of the vertical along her own height for draughts to be told: 45° [-]

# Where the sums of a boat at rest stand.
NABLA, CENTRE, PLANE, FLOTATION, SECOND, WATER, SURFACES, SUMS = 0, 1, 4, 5, 6, 8, 11, 13
SURFACE_TENSION = constant("surface-tension") / constant("gravity")  # of clean water [kg/m]


@record
class State:
    """A boat at rest, in figures."""

    rest: Rest
    displacement_mass: float  # boat and tank water [kg]
    nabla: float  # displaced volume [m³]
    trim_angle: float  # bow down [rad]
    heel: float  # to starboard [rad]
    kb: float  # centre of buoyancy above the keel line [m]
    kg: float  # centre of gravity with tank water, above the keel line [m]
    lcb: float  # centre of buoyancy, forward of the origin [m]
    lcg: float  # centre of gravity with tank water, forward of the origin [m]
    tcg: float  # centre of gravity to port [m]
    bg: float  # B above G along the vertical [m]
    waterplane_area: float  # [m²]
    lcf: float  # centre of the waterplane forward of the origin [m]
    bm_t: float  # of the waterplane [m]
    bm_l: float  # of the waterplane [m]
    free_surface_t: float  # taken off GM_T by slack tanks [m]
    free_surface_l: float  # taken off GM_L by slack tanks [m]
    gm_t: float  # stiffness in heel over weight, free surfaces taken off [m]
    gm_l: float  # stiffness in trim over weight, free surfaces taken off [m]
    mass_to_sink_1_mm: float  # [kg/mm]
    moment_to_trim_1_mm: float  # over her length [kg m/mm]
    moment_to_trim_1_degree: float  # [kg m]
    reserve: float  # volume still out of the water [m³]

    @property
    def has_draughts(self) -> bool:
        """Return whether the water's height above the keel line means anything as she lies."""
        return not self.rest.under and bool(self.rest.n[2] > STEEPEST)

    @property
    def posture(self) -> str:
        """Return how she lies: upright, on end, on her side or upside down."""
        along, across, up = (float(part) for part in self.rest.n)
        if abs(up) > STEEPEST:
            return "upright" if up > 0 else "upside down"
        return "on end" if abs(along) >= abs(across) else "on her side"

    @property
    def water_at(self) -> float:
        """Return where the water crosses the keel line of a boat on end, from the origin [m]."""
        return float(self.rest.d / self.rest.n[0])

    def draught(self, x: float) -> float:
        """Return the height of the water above the keel line at a place along the boat [m].

        As a mark on the hull reads: up the hull, square to the keel line, on the middle line.
        """
        return float((self.rest.d - self.rest.n[0] * x) / self.rest.n[2])


def attitude(n: Floats) -> tuple[float, float]:
    """Return trim angle (bow down) and heel (to starboard) for the upward unit vector [rad].

    >>> attitude(np.array([0.0, 0.0, 1.0]))
    (0.0, 0.0)
    """
    return -asin(max(-1.0, min(1.0, float(n[0])))) + 0.0, atan2(float(n[1]), float(n[2]))


def state(boat: Floater, at: Rest) -> State:
    """Return every figure of a boat at rest."""
    n = at.n
    total = boat.mass + boat.density * float(at.waters.sum())
    displaced = total / boat.density
    sums = _sums(boat, n, at.d, at.under, at.waters, at.levels)
    b, nabla, area = sums[CENTRE : CENTRE + 3], float(sums[NABLA]), float(sums[PLANE])
    g = boat.mass * (boat.gravity + boat.tree.centre) + boat.density * sums[WATER : WATER + 3]
    g /= total
    trim_angle, heel = attitude(n)
    gm_t, gm_l = float(at.stiffness[1, 1]) / total, float(at.stiffness[0, 0]) / total
    return State(
        rest=at,
        displacement_mass=total,
        nabla=nabla,
        trim_angle=trim_angle,
        heel=heel,
        kb=float(b[2]),
        kg=float(g[2]),
        lcb=float(b[0]),
        lcg=float(g[0]),
        tcg=float(g[1]),
        bg=float(n @ (b - g)),
        waterplane_area=area,
        lcf=float(sums[FLOTATION]),
        bm_t=float(sums[SECOND + 1]) / displaced,
        bm_l=float(sums[SECOND]) / displaced,
        free_surface_t=float(sums[SURFACES + 1]) / displaced,
        free_surface_l=float(sums[SURFACES]) / displaced,
        gm_t=gm_t,
        gm_l=gm_l,
        mass_to_sink_1_mm=boat.density * area * 1e-3,
        moment_to_trim_1_mm=total * gm_l * 1e-3 / boat.length,
        moment_to_trim_1_degree=total * gm_l * tan(pi / 180),
        reserve=boat.volume - nabla,
    )


@inner
def _plane(out: Floats) -> tuple[float, float, float, float]:
    """Return a surface's middle and second moments about it, along forward and along port."""
    area = out[AREA]
    if area <= 0.0:
        return 0.0, 0.0, 0.0, 0.0
    u, v = out[AREA_MOMENT] / area, out[AREA_MOMENT + 1] / area
    return u, v, out[AREA_SECOND] - area * u * u, out[AREA_SECOND + 2] - area * v * v


@kernel
def _sums(
    boat: Floater, n: Floats, d: float, under: bool, waters: Floats, levels: Floats
) -> Floats:
    """Return what is summed up of a boat at rest, from the origin.

    Args:
        boat: The boat.
        n: Unit vector up, shape (3,) [-].
        d: Height of the water along ``n`` from the origin [m].
        under: She is wholly under.
        waters: Water in each tank, shape (t,) [m³].
        levels: Its level along ``n`` from the origin, shape (t,) [m].

    Returns:
        By the names above: displaced volume and its centre, waterplane area, the place of its
        centre along x, its second moments along forward and port, the tank water's first moment,
        and the slack surfaces' second moments, shape (SUMS,) [m, by powers].
    """
    sums, out, centre = np.zeros(SUMS), np.empty(WIDTH), boat.tree.centre
    forward, port = axes_in_plane(n)
    height = n[0] * centre[0] + n[1] * centre[1] + n[2] * centre[2]
    sums[NABLA] = boat.volume
    for i in range(3):
        sums[CENTRE + i] = boat.buoyancy[i] + centre[i]
    sums[FLOTATION] = sums[CENTRE]
    if not under:
        local = d - height
        cut_raw(boat.tree, boat.tree.roots, n, local, out)
        sums[NABLA], sums[PLANE] = out[VOLUME], out[AREA]
        for i in range(3):
            sums[CENTRE + i] = out[MOMENT + i] / out[VOLUME] + local * n[i] + centre[i]
        u, v, sums[SECOND], sums[SECOND + 1] = _plane(out)
        sums[FLOTATION] = centre[0] + local * n[0] + u * forward[0] + v * port[0]
        if out[AREA] <= 0.0:
            sums[FLOTATION] = sums[CENTRE]
    for k in range(len(waters)):
        _add_water(boat, k, waters[k], levels[k] - height, n, out, sums)
    return sums


@inner
def _add_water(
    boat: Floater, k: int, water: float, local: float, n: Floats, out: Floats, sums: Floats
) -> None:
    """Add the water in tank ``k``, its level ``local`` from the tree's centre [m], to the sums."""
    tanks, centre = boat.tanks, boat.tree.centre
    capacity = tanks.volumes[k] * tanks.shares[k]
    slack = tanks.pistons[k] == 0.0 and 0.0 < water < capacity * (1.0 - 1e-12)
    if slack:
        cut_raw(tanks.tree, tanks.tree.roots[k : k + 1], n, local, out)
        _, _, along, across = _plane(out)
        sums[SURFACES] += tanks.shares[k] * along
        sums[SURFACES + 1] += tanks.shares[k] * across
    for i in range(3):
        place = tanks.centroids[k, i]
        if slack:
            place = out[MOMENT + i] / out[VOLUME] + local * n[i]
        elif i == 0 and tanks.pistons[k] > 0.0:
            place = tanks.ends[k] + 0.5 * tanks.strokes[k] * water / capacity
        sums[WATER + i] += water * (place + centre[i])


def film_pull(boat: Floater, at: Rest) -> float:
    """Return how hard surface tension pulls the wetted skin down, at most [kg].

    All edges of the waterplane count, both faces of each skin; dirt and detergent take up to
    two thirds of it away.

    Source:
        [water-surface-tension-2014], by the table of constants.
    """
    return 0.0 if at.under else SURFACE_TENSION * contact_length(boat.tree, at.n, at.d)


def upright_bg(boat: Floater, waters: Floats) -> float:
    """Return B above G with the boat held upright and wholly under [m].

    Args:
        boat: The boat.
        waters: Water in each tank, shape (t,) [m³].
    """
    up = np.array([0.0, 0.0, 1.0])
    water = tank_water(boat, waters, up, levels_at(boat, waters, up))
    total = boat.mass + boat.density * water.volume
    moment = boat.mass * (boat.gravity + boat.tree.centre) + boat.density * water.moment
    return float((boat.buoyancy + boat.tree.centre - moment / total)[2])
