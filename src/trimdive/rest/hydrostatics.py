"""Every figure that is told of a boat at rest.

Symbols are those of the ITTC list; heights are from the keel line along the boat's own z axis
where she is nearly level, trim and heel are told in words where they are shown.
"""

from dataclasses import dataclass
from math import asin, atan2, pi, tan

import numpy as np

from trimdive.bodies.cut import axes_in_plane, cut
from trimdive.bodies.section import contact_length
from trimdive.data import constant
from trimdive.lines.mesh import Floats
from trimdive.rest.problem import Floater
from trimdive.rest.solve import Rest, levels_at
from trimdive.rest.tankwater import tank_cuts, tank_water

SURFACE_TENSION = constant("surface-tension") / constant("gravity")  # of clean water [kg/m]


@dataclass(frozen=True, slots=True, kw_only=True)
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

    def draught(self, x: float) -> float:
        """Return the height of the water above the keel line at a place along the boat [m]."""
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
    forward, port = axes_in_plane(n)
    total = boat.mass + boat.density * float(at.waters.sum())
    displaced = total / boat.density
    nabla, b, plane = _displaced(boat, at)
    tanks = tank_cuts(boat, at)
    g = (boat.mass * (boat.gravity + boat.tree.centre) + boat.density * tanks.moment) / total
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
        waterplane_area=plane.area,
        lcf=float(plane.centre[0]),
        bm_t=float(port @ plane.second @ port) / displaced,
        bm_l=float(forward @ plane.second @ forward) / displaced,
        free_surface_t=float(port @ tanks.surfaces @ port) / displaced,
        free_surface_l=float(forward @ tanks.surfaces @ forward) / displaced,
        gm_t=gm_t,
        gm_l=gm_l,
        mass_to_sink_1_mm=boat.density * plane.area * 1e-3,
        moment_to_trim_1_mm=total * gm_l * 1e-3 / boat.length,
        moment_to_trim_1_degree=total * gm_l * tan(pi / 180),
        reserve=boat.volume - nabla,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Waterplane:
    """The area in which the water surface cuts her."""

    area: float  # [m²]
    centre: Floats  # shape (3,) [m]
    second: Floats  # second moments about the centre, shape (3, 3) [m⁴]


def _displaced(boat: Floater, at: Rest) -> tuple[float, Floats, Waterplane]:
    """Return displaced volume [m³], its centre [m] and the waterplane."""
    if at.under:
        b = boat.buoyancy + boat.tree.centre
        return boat.volume, b, Waterplane(area=0.0, centre=b, second=np.zeros((3, 3)))
    water = cut(boat.tree, at.n, at.d)
    b = water.moment / water.volume
    if water.area <= 0:
        return water.volume, b, Waterplane(area=0.0, centre=b, second=np.zeros((3, 3)))
    f = water.area_moment / water.area
    second = water.area_second - water.area * np.outer(f, f)
    return water.volume, b, Waterplane(area=water.area, centre=f, second=second)


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
