"""The planned way from blown to full: how much water is in each tank at each moment.

A path is a row of states of all tanks; between two of them every tank fills evenly. Its measure
is the share of all the water that comes in.
"""

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from trimdive.boatfile import Boat
from trimdive.errors import BoatError
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium import Tanks, tank_waters
from trimdive.records import record


@record
class Path:
    """States of all tanks in the order in which they are passed."""

    waters: Floats  # water in each tank at each state, shape (k, t) [m³]
    shares: Floats  # of all the water that comes in, at each state, shape (k,) [-]

    def at(self, share: float) -> Floats:
        """Return the water in each tank when this share has come in [-], shape (t,) [m³]."""
        columns = [np.interp(share, self.shares, column) for column in self.waters.T]
        return np.array(columns)


def _path(states: list[Floats]) -> Path:
    """Return the path through these states, without those that change nothing."""
    kept = [states[0]]
    kept += [b for a, b in pairwise(states) if np.abs(b - a).max() > 1e-12]
    waters = np.stack(kept)
    taken = waters.sum(axis=1) - waters[0].sum()
    whole = taken[-1] if taken[-1] > 0 else 1.0
    return Path(waters=waters, shares=taken / whole)


def _turn(state: Floats, goal: Floats, turn: NDArray[np.bool_], rates: Floats) -> list[Floats]:
    """Return the states at which, one after another, the tanks of one turn are full.

    Args:
        state: Water in each tank before, shape (t,) [m³].
        goal: Water in each when full, shape (t,) [m³].
        turn: Which tanks fill in this turn, shape (t,) [-].
        rates: How fast each fills; only their proportion matters, shape (t,) [m³/s].
    """
    times = np.where(turn, (goal - state) / rates, 0.0)
    return [
        np.where(turn, np.minimum(state + rates * t, goal), state)
        for t in sorted(set(times[turn].tolist()))
        if t > 0
    ]


def planned(boat: Boat, tanks: Tanks) -> Path:
    """Return the way in which she is planned to fill.

    Tanks of one ``order`` fill together: at their own rates where all of them tell one, else each
    the same share of its room; the next order waits. A table of fillings goes before that.

    Raises:
        BoatError: The table makes a tank emptier than before.
    """
    low, high = tank_waters(boat, tanks, "blown"), tank_waters(boat, tanks, "full")
    states = [low]
    names = [tank.name for tank in boat.tanks]
    for i, step in enumerate(boat.fills, 1):
        state = states[-1].copy()
        for name, filling in step.levels.items():
            k = names.index(name)
            state[k] = np.clip(filling * tanks.capacities[k], low[k], high[k])
            if state[k] < states[-1][k] - 1e-12:
                what = f"{name} would be emptier than before"
                raise BoatError(what, f"fill[{i}]", "Write fillings that only grow.")
        states.append(state)
    given = np.array([tank.rate or 0.0 for tank in boat.tanks])
    for order in sorted({tank.order for tank in boat.tanks}):
        turn = np.array([tank.order == order for tank in boat.tanks])
        own = bool((given[turn] > 0).all())
        rates = np.where(turn, given if own else high - states[-1], 1.0)
        states += _turn(states[-1], high, turn, np.maximum(rates, 1e-15))
    return _path(states)
