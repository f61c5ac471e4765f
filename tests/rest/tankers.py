"""Boats with tanks for the tests of coming to rest."""

import numpy as np
from tests.rest.floaters import boat_of, box_at, round_at

from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium import Floater


def tanker(y: float = 0.004) -> tuple[Floater, Floats]:
    """Return an odd boat: two hulls' worth of bodies, two slack tanks, G off the middle."""
    bodies = [round_at(0.14, 1.0), box_at((0.3, 0.05, 0.1), x=0.1, y=0.01, keel=0.1)]
    rooms = [box_at((0.2, 0.06, 0.06), x=x, keel=0.03) for x in (-0.25, 0.2)]
    boat = boat_of(bodies, 13.0, (0.01, y, 0.055), rooms=rooms)
    return boat, np.array([0.2e-3, 0.5e-3])
