"""Righting levers: what she does when leaned over by hand, trim and sinkage left free.

At each heel she is let find her trim and draught; what then holds her there is M g GZ, the slope of
her energy with heel.
"""

import numpy as np

from trimdive.errors import BalanceError
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.kernel import inner, kernel
from trimdive.hydrostatics.equilibrium.energy import FLOAT, HANG, evaluate, whole_mass
from trimdive.hydrostatics.equilibrium.problem import Floater
from trimdive.hydrostatics.equilibrium.solve import FORCE_TOLERANCE, Rest
from trimdive.records import record

MOST_STEPS = 80
LEVER = 1e-9  # of her length: trim is found when the lever left is less [-]


@record
class GzCurve:
    """Righting lever against heel."""

    heel: Floats  # to starboard, shape (n,) [rad]
    gz: Floats  # righting lever, shape (n,) [m]
    trim: Floats  # bow down, shape (n,) [rad]

    @property
    def greatest(self) -> tuple[float, float]:
        """Return the greatest lever [m] and its heel [rad]."""
        k = int(np.argmax(self.gz))
        return float(self.gz[k]), float(self.heel[k])

    @property
    def range(self) -> float:
        """Return the heel up to which she rights herself [rad]; the last heel if all."""
        rights = False
        for k in range(1, len(self.heel)):
            rights = rights or self.gz[k - 1] > 1e-9
            if rights and self.gz[k] <= 0 < self.gz[k - 1]:
                share = self.gz[k - 1] / (self.gz[k - 1] - self.gz[k])
                return float(self.heel[k - 1] + share * (self.heel[k] - self.heel[k - 1]))
        return float(self.heel[-1]) if rights else 0.0

    @property
    def loll(self) -> float:
        """Return the heel at which she lolls [rad]; 0 where she stands upright."""
        if len(self.gz) < 2 or self.gz[1] >= 0:
            return 0.0
        for k in range(1, len(self.heel)):
            if self.gz[k - 1] < 0 <= self.gz[k]:
                share = -self.gz[k - 1] / (self.gz[k] - self.gz[k - 1])
                return float(self.heel[k - 1] + share * (self.heel[k] - self.heel[k - 1]))
        return float(self.heel[-1])


@inner
def _up(heel: float, trim: float) -> Floats:
    """Return the upward unit vector at a heel to starboard and a trim bow up [rad]."""
    n = np.empty(3)
    n[0] = np.sin(trim)
    n[1] = np.cos(trim) * np.sin(heel)
    n[2] = np.cos(trim) * np.cos(heel)
    return n


@kernel
def held(
    boat: Floater,
    waters: Floats,
    mode: int,
    heel: float,
    start: Floats,
    levels: Floats,
) -> tuple[float, bool]:
    """Return GZ at one heel, and whether trim and draught were found.

    ``start`` holds trim (bow up) and d from the tree's centre: first guess in, result out.
    """
    total = whole_mass(boat, waters)
    slope, stiffness = np.empty(3), np.empty((3, 3))
    slope2, stiffness2 = np.empty(3), np.empty((3, 3))
    trim, d = start[0], start[1]
    energy = evaluate(boat, waters, mode, _up(heel, trim), d, levels, slope, stiffness)
    damping = 0.0
    for _ in range(MOST_STEPS):
        if (
            abs(slope[2]) <= FORCE_TOLERANCE * total
            and abs(slope[0]) <= LEVER * boat.length * total
        ):
            start[0], start[1] = trim, d
            return slope[1] / total, True
        size = abs(stiffness[0, 0]) + 1e-12 * total
        a = max(stiffness[0, 0], 1e-3 * size) + damping
        c = max(stiffness[2, 2], 1e-9 * total) + damping
        b = stiffness[0, 2] if a * c > stiffness[0, 2] ** 2 else 0.0
        det = a * c - b * b
        by_trim = -(c * slope[0] - b * slope[2]) / det
        by_d = -(a * slope[2] - b * slope[0]) / det
        share = min(
            1.0, 0.3 / max(abs(by_trim), 1e-300), 0.1 * boat.length / max(abs(by_d), 1e-300)
        )
        trim2, d2 = trim + share * by_trim, d + share * by_d
        energy2 = evaluate(boat, waters, mode, _up(heel, trim2), d2, levels, slope2, stiffness2)
        if energy2 <= energy + 1e-13 * total * boat.length:
            trim, d, energy = trim2, d2, energy2
            slope, slope2 = slope2, slope
            stiffness, stiffness2 = stiffness2, stiffness
            damping *= 0.2
        else:
            damping = max(4.0 * damping, 0.1 * size)
    return slope[1] / total, False


def gz_curve(boat: Floater, at: Rest, heels: Floats) -> GzCurve:
    """Return her righting levers from a state of rest on.

    Args:
        boat: The boat.
        at: Where she rests, nearly upright.
        heels: To starboard, rising from 0, shape (n,) [rad].

    Raises:
        BalanceError: At some heel she finds no trim and draught.
    """
    centre = float(at.n @ boat.tree.centre)
    start = np.array([np.arcsin(at.n[0]), at.d - centre])
    levels = at.levels - centre
    mode = HANG if at.under else FLOAT
    gz, trim = np.empty(len(heels)), np.empty(len(heels))
    for k, heel in enumerate(heels):
        gz[k], found = held(boat, at.waters, mode, float(heel), start, levels)
        if not found:
            what = f"at {np.degrees(heel):.0f}° of heel no trim and draught balance"
            raise BalanceError(what, "righting levers", "Ask for smaller angles of heel.")
        trim[k] = -start[0]
    return GzCurve(heel=heels, gz=gz, trim=trim)
