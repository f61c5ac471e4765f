"""What water alone covers, from the boat itself: mass and moment that her tanks can make."""

import numpy as np

from trimdive.ballast.reach.polygon import Reach, reach
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium import Floater
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water

UP = np.array([0.0, 0.0, 1.0])
CURVE = 9  # fillings of each tank from which its reach is drawn [-]


def covered(boat: Floater, waters: tuple[Floats, Floats], midships: float) -> Reach:
    """Return mass and moment that the tanks can make.

    Args:
        boat: The boat.
        waters: In each tank blown, and full, each of shape (t,) [m³].
        midships: Middle of the hull, about which moments are taken [m].
    """
    low, high = waters
    water = [low + share * (high - low) for share in np.linspace(0.0, 1.0, CURVE)]
    places = [tank_water(boat, w, UP, levels_at(boat, w, UP)).centroids[:, 0] for w in water]
    masses = boat.density * np.stack(water)
    moments = masses * (np.stack(places) - midships)
    return reach([np.stack(pair, axis=1) for pair in zip(masses.T, moments.T, strict=True)])
