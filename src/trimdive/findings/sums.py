"""What each thing adds to the sums that must balance, in closed form: fast enough to try thousands.

Above the waterline counts the share of a thing's height; the full solver has the last word.
"""

from collections.abc import Callable
from math import pi

import numpy as np

from trimdive.boatfile import Cylinder, Part, extents
from trimdive.boatfile.piece import HUNG_DENSITY
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.hull import density_of

# Where each sum stands: mass and its moments, volume and its moments, that above the waterline.
MASS, MX, MY, MZ, VOLUME, VX, VY, VZ, ABOVE, AX, COUNT = range(11)
Height = Callable[[float], float]  # of the waterline at a place along the boat [m]


def shape_volume(part: Part) -> float | None:
    """Return the volume of one piece's shape [m³]; None for a point or a mesh."""
    match part.shape:
        case "box":
            return part.length * part.breadth * part.height
        case "cylinder":
            return pi / 4 * part.diameter**2 * part.length
        case "tube":
            bore = max(part.diameter - 2 * part.wall, 0.0)
            return pi / 4 * (part.diameter**2 - bore**2) * part.length
        case "sphere":
            return pi / 6 * part.diameter**3
        case _:
            return None


def displaced(part: Part, drawn: float | None) -> float:
    """Return what a part displaces in all [m³], as bodies are made: measured, by mass, by shape.

    Args:
        part: A part, a piece of lead or of foam.
        drawn: Volume of its shape, where that is a mesh [m³].
    """
    count = 2 if part.pair == "each" else 1
    density = density_of(part.material, part.density)
    if part.inside:
        return 0.0
    if part.volume is not None:
        return part.volume * count
    if part.hung is not None and part.mass is not None:
        return (part.mass - part.hung) / HUNG_DENSITY * count
    if part.mass is not None and density is not None:
        return part.mass / density * count
    return (shape_volume(part) or drawn or 0.0) * (2 if part.pair else 1)


def mass_of(part: Part, volume: float) -> float:
    """Return what a part weighs in all [kg].

    Args:
        part: A part, a piece of lead or of foam.
        volume: What it displaces in all [m³].
    """
    if part.mass is not None:
        return part.mass * (2 if part.pair == "each" else 1)
    return (density_of(part.material, part.density) or 0.0) * volume


def part_sums(part: Part, drawn: float | None, line: Height) -> Floats:
    """Return what a part adds to the sums, shape (COUNT,)."""
    volume = displaced(part, drawn)
    high = extents(part)[2] or (6 * volume / pi) ** (1 / 3)
    y = 0.0 if part.pair else part.y
    return thing_sums(mass_of(part, volume), volume, (part.x, y, part.z), high, line)


def vessel_sums(vessel: Cylinder, mass: float, line: Height) -> Floats:
    """Return what a cylinder adds to the sums, shape (COUNT,)."""
    volume = 0.0 if vessel.inside else pi / 4 * vessel.outside**2 * vessel.length
    if vessel.pair:
        volume *= 2
    place = (vessel.x, 0.0 if vessel.pair else vessel.y, vessel.z)
    return thing_sums(mass, volume, place, vessel.outside, line)


def thing_sums(
    mass: float, volume: float, place: tuple[float, float, float], high: float, line: Height
) -> Floats:
    """Return what an upright-sided thing adds to the sums, shape (COUNT,).

    Args:
        mass: It weighs [kg].
        volume: It displaces [m³].
        place: Its middle [m].
        high: Its height [m].
        line: Height of the waterline along the boat.
    """
    x, y, z = place
    share = (z + high / 2 - line(x)) / high if high > 0 else float(z > line(x))
    share = min(max(share, 0.0), 1.0)
    above = share * volume
    lever = np.array([x, y, z])
    return np.array([mass, *(mass * lever), volume, *(volume * lever), above, above * x])
