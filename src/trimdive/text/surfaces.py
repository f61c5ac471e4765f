"""What the tanks' free surfaces take, by the handbook's formula."""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.hydrostatics.equilibrium import State

UP = np.array([0.0, 0.0, 1.0])


def level_surface(her: "Assessment", state: "State") -> tuple[float, float]:
    """Return i/∇ across and along of the tanks' water with her upright and level [m].

    The handbook's formula, beside ``free_surface_t`` at the attitude that she really has.
    """
    waters = state.rest.waters
    if not len(waters):
        return 0.0, 0.0
    surfaces = tank_water(her.floater, waters, UP, levels_at(her.floater, waters, UP)).surfaces
    displaced = state.displacement_mass / her.floater.density
    return float(surfaces[1, 1]) / displaced, float(surfaces[0, 0]) / displaced
