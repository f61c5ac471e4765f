"""What a kit must cover, and how near pieces in pockets come to it.

Pull is weight less buoyancy; moments are taken about the tank water, so that what is lacking in
pull may be made up by the tank.
"""

from dataclasses import dataclass, replace
from itertools import product

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines.mesh import Floats

Ints = NDArray[np.int64]
TROUBLE = 0.1  # of a band, for each piece that is put in [-]
FAR = 10.0  # what lies beyond a band counts so much more [-]
NEAR = 1e-9  # of a band, that counts as within it [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """What is to be covered."""

    pulls: Floats  # weight less buoyancy wanted in each combination, shape (c,) [kg]
    moments: Floats  # of it about the tank water, forward, shape (c,) [kg m]
    arms: Floats  # of the pockets, forward of the tank water, shape (p,) [m]
    lead: Floats  # what a kilogram of lead pulls in each, shape (c,) [-]
    foam: Floats  # what a cubic metre of foam lifts in each, shape (c,) [kg/m³]
    pull_band: float  # how far off the pull may be [kg]
    moment_band: float  # how far off the moment may be [kg m]
    lead_step: float  # [kg]
    foam_step: float  # [m³]
    foam_mass: float  # of a cubic metre of foam [kg/m³]

    @property
    def count(self) -> int:
        """Return how many combinations there are."""
        return len(self.pulls)

    @property
    def largest(self) -> float:
        """Return more than any one piece need pull [kg]."""
        arm = max(float(np.ptp(self.arms)), 1e-9)
        return float(np.abs(self.pulls).max() + np.abs(self.moments).max() / arm) + self.pull_band


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """A kit and where its pieces lie in each combination."""

    lead: Floats  # mass of each piece, largest first, shape (n,) [kg]
    foam: Floats  # volume of each piece, largest first, shape (k,) [m³]
    lies: Ints  # pocket of each piece in each combination, -1 for none, shape (c, n + k)
    proven: bool  # no fewer pieces do, and no lighter ones of so many

    @property
    def pieces(self) -> int:
        """Return how many pieces there are."""
        return len(self.lead) + len(self.foam)


def pulls_of(task: Task, lead: Floats, foam: Floats) -> Floats:
    """Return what each piece pulls in each combination, shape (c, n + k) [kg].

    Args:
        task: What is to be covered.
        lead: Mass of each piece, shape (n,) [kg].
        foam: Volume of each piece, shape (k,) [m³].
    """
    return np.hstack([np.outer(task.lead, lead), -np.outer(task.foam, foam)])


def errors(task: Task, lead: Floats, foam: Floats, lies: Ints) -> Floats:
    """Return how far off pull and moment are in each combination, shape (c, 2) [kg, kg m].

    Args:
        task: What is to be covered.
        lead: Mass of each piece, shape (n,) [kg].
        foam: Volume of each piece, shape (k,) [m³].
        lies: Pocket of each piece, -1 for none, shape (c, n + k).
    """
    pulls = np.where(lies >= 0, pulls_of(task, lead, foam), 0.0)
    turns = pulls * task.arms[np.maximum(lies, 0)]
    return np.stack([pulls.sum(1) - task.pulls, turns.sum(1) - task.moments], axis=1)


def nearest(task: Task, lead: Floats, foam: Floats) -> tuple[Ints, Floats]:
    """Return for each combination where the pieces best lie, and the error that is left.

    The error is the larger of both in their bands, shape (c,) [-]. Within the bands a piece more
    must take a tenth of the band off to be worth the trouble.

    Args:
        task: What is to be covered.
        lead: Mass of each piece, shape (n,) [kg].
        foam: Volume of each piece, shape (k,) [m³].
    """
    count = len(lead) + len(foam)
    ways = np.array(list(product(range(-1, len(task.arms)), repeat=count)), dtype=np.int64)
    ways = ways.reshape(len(ways), count)  # where there is no piece there is one way
    arms = np.where(ways >= 0, task.arms[np.maximum(ways, 0)], 0.0)
    pulls = pulls_of(task, lead, foam)
    lies = np.empty((task.count, count), dtype=np.int64)
    worst = np.empty(task.count)
    for c in range(task.count):
        pull = (ways >= 0) @ pulls[c] - task.pulls[c]
        turn = arms @ pulls[c] - task.moments[c]
        off = np.maximum(np.abs(pull) / task.pull_band, np.abs(turn) / task.moment_band)
        score = off + TROUBLE * (ways >= 0).sum(1) + np.where(off > 1 + NEAR, FAR, 0.0)
        best = int(np.argmin(np.round(score, 9)))
        lies[c], worst[c] = ways[best], off[best]
    return lies, worst


def lacking(task: Task) -> Task:
    """Return the task without the combinations that are right with no piece at all."""
    off = np.abs(task.pulls) > task.pull_band * (1 + NEAR)
    off |= np.abs(task.moments) > task.moment_band * (1 + NEAR)
    return replace(
        task, pulls=task.pulls[off], moments=task.moments[off], lead=task.lead[off],
        foam=task.foam[off],
    )  # fmt: skip
