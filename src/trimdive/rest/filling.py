"""The way from blown to full: how much water is in each tank at each moment of the dive."""

import numpy as np

from trimdive.boatfile import Boat
from trimdive.lines.mesh import Floats
from trimdive.rest.floater import tank_waters
from trimdive.rest.problem import Tanks


def waters_on_the_way(boat: Boat, tanks: Tanks, share: float) -> Floats:
    """Return the water in each tank when this share of all that fits has come in, shape (t,) [m³].

    Tanks of one ``order`` fill together, each at its own rate; the next order waits for them.

    Args:
        boat: The boat.
        tanks: Her tanks.
        share: Of the water between blown and full [-].
    """
    low, high = tank_waters(boat, tanks, "blown"), tank_waters(boat, tanks, "full")
    waters = low.copy()
    left = share * float((high - low).sum())
    for order in sorted({tank.order for tank in boat.tanks}):
        turn = np.array([tank.order == order for tank in boat.tanks])
        room = float((high - low)[turn].sum())
        part = min(max(left / room, 0.0), 1.0) if room > 0 else 0.0
        waters[turn] += part * (high - low)[turn]
        left -= part * room
    return waters
