"""Volume, waterplane and metacentric radius of a hull whose sections stand upright."""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.mesh import Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Waterline:
    """A waterline along the hull."""

    height: float  # at x = 0, above the keel line [m]
    slope: float = 0.0  # how fast it rises going forward [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """What a hull encloses, and what of it lies under a waterline."""

    envelope: float  # volume of the whole outside shape [m³]
    nabla: float  # volume below the waterline [m³]
    waterplane: float  # area of the waterplane [m²]
    bm_t: float  # transverse metacentric radius [m]

    @property
    def row(self) -> Floats:
        """Return the four figures, shape (4,) [-]."""
        return np.array([self.envelope, self.nabla, self.waterplane, self.bm_t])


def figures(net: Floats, waterline: Waterline) -> Figures:
    """Return what a hull encloses and displaces.

    Args:
        net: Points of the port half, stern first, keel first, shape (k, m, 3) [m].
        waterline: Where the water stands.

    Source:
        closed form for sections of straight pieces, trapezoids along the hull.
    """
    x, y, z = net[:, 0, 0], net[..., 1], net[..., 2]
    level = (waterline.height + waterline.slope * x)[:, None]
    whole = _strips(y, z, np.full_like(level, np.inf))
    under = _strips(y, z, level)
    breadth = _breadths(y, z, level)
    nabla = float(2.0 * np.trapezoid(under, x))
    i_t = float(np.trapezoid(2.0 / 3.0 * breadth**3, x))
    return Figures(
        envelope=float(2.0 * np.trapezoid(whole, x)),
        nabla=nabla,
        waterplane=float(2.0 * np.trapezoid(breadth, x)),
        bm_t=i_t / nabla if nabla > 0.0 else 0.0,
    )


def _strips(y: Floats, z: Floats, level: Floats) -> Floats:
    """Return the area of each half section below a level, shape (k,) [m²]."""
    low, high = np.minimum(z, level), np.diff(np.minimum(z, level), axis=1)
    rise = np.diff(z, axis=1)
    steep = np.where(np.abs(rise) < 1e-15, 1.0, rise)
    start = y[:, :-1] + np.diff(y, axis=1) * np.where(
        rise == 0.0, 0.0, (low[:, :-1] - z[:, :-1]) / steep
    )
    stop = y[:, :-1] + np.diff(y, axis=1) * np.where(
        rise == 0.0, 1.0, (low[:, 1:] - z[:, :-1]) / steep
    )
    return ((start + stop) / 2.0 * high).sum(axis=1)


def _breadths(y: Floats, z: Floats, level: Floats) -> Floats:
    """Return the half-breadth of each section at a level, shape (k,) [m]."""
    above = z > level
    turn = np.diff(above.astype(np.int64), axis=1)
    rise = np.diff(z, axis=1)
    share = (level - z[:, :-1]) / np.where(turn == 0, 1.0, rise)
    crossing = y[:, :-1] + np.diff(y, axis=1) * share
    return np.where(turn == 0, 0.0, turn * crossing).sum(axis=1)
