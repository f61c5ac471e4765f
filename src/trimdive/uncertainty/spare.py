"""Adjustable weight to keep at hand at two places, so that both together do in 95 cases in 100.

What she may be too heavy and too heavy by the bow, dived with tanks full, is made good by a weight
at each place; each of the two is a sum of all that may be off, so that they vary together.

Source: levers; the normal distribution of two that vary together.
"""

from dataclasses import dataclass
from functools import cache
from math import pi, sqrt

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.uncertainty.things import WIDE

CERTAIN = 0.95  # how often both weights are to do [-]
ALIKE = 0.999  # two that vary together as closely as this are one [-]
NODES = 200  # at which one of two is looked at [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """Weight to keep at hand at two places; as much may have to go in as may have to come out."""

    x_aft: float  # [m]
    x_fore: float  # [m]
    aft: float  # weight less buoyancy, 95 % for both together [kg]
    fore: float  # [kg]


def spare(pull: Floats, moment: Floats, x_aft: float, x_fore: float) -> Spare:
    """Return what to keep at hand at two places.

    Args:
        pull: Weight less buoyancy that each source adds, shape (s,) [kg].
        moment: Its moment forward of the origin, shape (s,) [kg m].
        x_aft: The after place [m].
        x_fore: The fore place [m].
    """
    fore = -(moment - x_aft * pull) / (x_fore - x_aft)
    aft = -pull - fore
    sizes = float(np.linalg.norm(aft)), float(np.linalg.norm(fore))
    both = float(aft @ fore) / max(sizes[0] * sizes[1], 1e-300)
    wide = _wide(both)
    return Spare(x_aft=x_aft, x_fore=x_fore, aft=wide * sizes[0], fore=wide * sizes[1])


def _wide(together: float) -> float:
    """Return how many standard deviations of each hold both in 95 cases in 100 [-].

    Args:
        together: How the two vary together, -1 to 1 [-].
    """
    if abs(together) >= ALIKE:
        return WIDE
    low, high = WIDE, 2.5
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if _held(middle, together) < CERTAIN else (low, middle)
    return high


@cache
def _nodes() -> tuple[Floats, Floats]:
    """Return where one of two is looked at between -1 and 1, and what each place counts [-]."""
    nodes, weights = np.polynomial.legendre.leggauss(NODES)
    return nodes, weights


def _held(k: float, together: float) -> float:
    """Return how often two normal figures both lie within k standard deviations [-].

    Args:
        k: Standard deviations to either side [-].
        together: How the two vary together, between -1 and 1 [-].
    """
    from scipy.special import ndtr  # a tenth of a second to load, needed by tub alone

    nodes, weights = _nodes()
    one = k * nodes
    alone = sqrt(1.0 - together**2)
    other = ndtr((k - together * one) / alone) - ndtr((-k - together * one) / alone)
    return k * float(weights @ (np.exp(-(one**2) / 2) / sqrt(2 * pi) * other))
