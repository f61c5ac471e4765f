"""Pictures of one state taken together: how she lies, with spreads, and the readings it comes to.

Each picture counts by what it tells: the inverse of its covariance, which for one figure is 1 over
its spread squared. What two pictures share (the places of their points, the creep of the water up a
wetted skin) is not made smaller by taking more of them.

Readings are written such that none is told twice: a draught at the place where it is sure whatever
the trim, the trim, and the heel where the pictures tell it. Where they do not, the draught is read
on the side that was seen, so far from the middle that a heel makes nothing of it.
"""

from collections.abc import Sequence

import numpy as np
from scipy.stats import chi2

from trimdive.geometry.lines import Floats
from trimdive.records import record
from trimdive.trials.photographs.fitted import SURE, Sight
from trimdive.trials.photographs.problem import HEEL, USUAL
from trimdive.uncertainty import WIDE, reading_half

TOLD = np.deg2rad(1.0)  # a heel with a larger standard deviation is not written [rad]
PRIOR = np.diag([0.0, 0.0, USUAL[HEEL][1] ** -2])  # what is known of the plane beforehand


@record
class Lies:
    """How she lies by her pictures."""

    plane: Floats  # height amidships, slopes forward and to port, shape (3,) [m]
    spread: Floats  # its covariance, shape (3, 3)
    middle: float  # amidships [m]
    agree: bool  # whether the pictures go together
    apart: Floats  # how far each picture's draught lies from what they say together, shape (k,) [m]

    def draught(self, x: float) -> tuple[float, float]:
        """Return the draught and its ±, 95 %: on the side that is seen where no heel is told [m].

        Args:
            x: Place along her [m].
        """
        return self.height(x, self.out(x))

    def height(self, x: float, y: float) -> tuple[float, float]:
        """Return the height of the water at a place and its ±, 95 %, with the creep [m]."""
        row = np.array([1.0, x - self.middle, y])
        half = WIDE * float(np.sqrt(row @ self.spread @ row))
        return float(row @ self.plane), float(np.hypot(half, reading_half("creep")))

    @property
    def trim(self) -> tuple[float, float]:
        """Return the trim, bow down, and its ±, 95 % [rad]."""
        up = np.array([-self.plane[1], -self.plane[2], 1.0])
        angle = float(np.arcsin(-up[0] / np.linalg.norm(up)))
        return angle, WIDE * float(np.sqrt(self.spread[1, 1]))

    @property
    def heel(self) -> tuple[float, float]:
        """Return the heel, to starboard, and its ±, 95 % [rad]."""
        return -float(np.arctan(self.plane[2])), WIDE * float(np.sqrt(self.spread[2, 2]))

    @property
    def tells_heel(self) -> bool:
        """Return whether the heel is told, and not only taken to be small."""
        return float(np.sqrt(self.spread[2, 2])) <= TOLD

    def out(self, x: float) -> float:
        """Return how far to port of the middle line a heel makes nothing of the draught [m].

        Args:
            x: Place along her [m].
        """
        if self.tells_heel:
            return 0.0
        row = np.array([1.0, x - self.middle])
        return -float(row @ self.spread[:2, 2] / self.spread[2, 2])

    @property
    def surest(self) -> tuple[float, float]:
        """Return where the draught hangs on no trim, and on no heel that is not told [m]."""
        if self.tells_heel:
            x = -self.spread[0, 1] / self.spread[1, 1]
            return self.middle + float(x), 0.0
        x, y = np.linalg.solve(self.spread[1:, 1:], -self.spread[0, 1:]).tolist()
        return self.middle + x, y


def together(sights: Sequence[Sight], middle: float) -> Lies:
    """Return how she lies by one picture or several of one state.

    Args:
        sights: What each tells.
        middle: Amidships [m].
    """
    weights = [np.linalg.inv(one.spread) - PRIOR for one in sights]
    whole = np.linalg.inv(sum(weights, start=PRIOR.copy()))
    shares = [whole @ one for one in weights]
    plane = whole @ np.sum([np.linalg.solve(one.spread, one.plane) for one in sights], axis=0)
    pairs = list(zip(shares, sights, strict=True))
    own = np.sum([share @ one.noise @ share.T for share, one in pairs], axis=0)
    common = np.sum([share @ (one.spread - one.noise) for share, one in pairs], axis=0)
    known = whole @ PRIOR @ whole
    spread = np.asarray(own + (common + common.T) / 2.0 + known, dtype=np.float64)
    spread = spread if len(sights) > 1 else sights[0].spread
    off = [one.plane - plane for one in sights]
    square = float(sum(d @ w @ d for d, w in zip(off, weights, strict=True)))
    free = 3 * (len(sights) - 1)
    agree = free == 0 or square <= float(chi2.ppf(SURE, free))
    return Lies(
        plane=plane if len(sights) > 1 else sights[0].plane,
        spread=spread if agree else spread * square / free,
        middle=middle,
        agree=agree,
        apart=np.array([d[0] for d in off]),
    )
