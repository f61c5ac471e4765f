"""A quick search for sizes of pieces that cover everything: small steps from many beginnings.

It proves nothing; what it finds is checked, and bounds what is left to prove.
"""

from itertools import product

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.placing.kit.task import NEAR, Task

SEED = 11  # of the beginnings; the same task gives the same pieces
BEGIN = 6  # beginnings [-]
ROUNDS = 30  # rounds of small steps from each [-]
TRIES = (1, 2, 5, 10, 20, 50)  # steps by which a size is changed [-]


class _Ways:
    """Every way in which so many pieces may lie, and what that makes of their sizes."""

    def __init__(self, task: Task, n_lead: int, n_foam: int) -> None:
        """Set up the ways and what a step of each piece pulls."""
        count = n_lead + n_foam
        ways = np.array(list(product(range(-1, len(task.arms)), repeat=count)))
        self.task = task
        self.used = (ways >= 0).astype(float)
        self.arms = np.where(ways >= 0, task.arms[np.maximum(ways, 0)], 0.0)
        lead = np.outer(task.lead * task.lead_step, np.ones(n_lead))
        foam = np.outer(-task.foam * task.foam_step, np.ones(n_foam))
        self.each = np.hstack([lead, foam])  # shape (c, n) [kg]

    def beyond(self, steps: Floats) -> Floats:
        """Return how far beyond its band each combination is at best, shape (c,) [-]."""
        task = self.task
        pulls = (self.each * steps).T
        off = np.abs(self.used @ pulls - task.pulls) / task.pull_band
        np.maximum(off, np.abs(self.arms @ pulls - task.moments) / task.moment_band, out=off)
        return np.maximum(off.min(axis=0) - 1 - NEAR, 0.0)


def searched(task: Task, n_lead: int, n_foam: int) -> tuple[Floats, Floats] | None:
    """Return sizes of lead [kg] and foam [m³] that cover everything, or None where none is found.

    Args:
        task: What is to be covered.
        n_lead: Pieces of lead [-].
        n_foam: Pieces of foam [-].
    """
    ways, rng = _Ways(task, n_lead, n_foam), np.random.default_rng(SEED)
    best: Floats | None = None
    for _ in range(BEGIN):
        steps = _descended(ways, _begun(task, n_lead, n_foam, rng))
        if not ways.beyond(steps).any():
            steps = _lightened(ways, steps)
            mass = _mass(task, steps, n_lead)
            if best is None or mass < _mass(task, best, n_lead):
                best = steps
    if best is None:
        return None
    lead, foam = -np.sort(-best[:n_lead]), -np.sort(-best[n_lead:])
    return lead * task.lead_step, foam * task.foam_step


def _mass(task: Task, steps: Floats, n_lead: int) -> float:
    foam = task.foam_mass * task.foam_step
    return float(steps[:n_lead].sum() * task.lead_step + steps[n_lead:].sum() * foam)


def _begun(task: Task, n_lead: int, n_foam: int, rng: np.random.Generator) -> Floats:
    """Return sizes to begin with, in steps: what is wanted somewhere, or a share of it."""
    wanted = np.abs(task.pulls)
    turned = np.abs(task.moments) / max(float(np.ptp(task.arms)) / 2, 1e-9)
    some = np.concatenate([wanted, turned])
    drawn = rng.choice(some, n_lead + n_foam) * rng.choice([0.25, 0.5, 1.0], n_lead + n_foam)
    pull = float(task.lead.mean()) * task.lead_step
    lift = float(task.foam.mean()) * task.foam_step
    steps = drawn / np.concatenate([np.full(n_lead, pull), np.full(n_foam, lift)])
    return np.maximum(np.round(steps), 1.0)


def _descended(ways: _Ways, steps: Floats) -> Floats:
    """Return sizes from which no small step leads nearer."""
    now = float(ways.beyond(steps).sum())
    for _ in range(ROUNDS):
        if now == 0:
            break
        before = now
        for k, change in product(range(len(steps)), (*TRIES, *(-one for one in TRIES))):
            trial = steps.copy()
            trial[k] = max(trial[k] + change, 1.0)
            beyond = float(ways.beyond(trial).sum())
            if beyond < now:
                steps, now = trial, beyond
        if now == before:
            break
    return steps


def _lightened(ways: _Ways, steps: Floats) -> Floats:
    """Return sizes none of which can be less by a step or more, all else as it is."""
    for k, change in product(range(len(steps)), TRIES[::-1]):
        while steps[k] > change:
            trial = steps.copy()
            trial[k] -= change
            if ways.beyond(trial).any():
                break
            steps = trial
    return steps
