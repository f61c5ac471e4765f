"""How odd a thing is by itself: out of the hull, out of its cylinder, heavier than metal.

Told as the balance of sums is: the logarithm of how unlikely it is for a figure that is right.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot, log, pi

from trimdive.boatfile import Cylinder, Part, Tank, extents
from trimdive.findings.balance import surprise
from trimdive.findings.sums import displaced, mass_of, shape_volume
from trimdive.geometry.solids.build import axis_height
from trimdive.geometry.solids.hull import density_of
from trimdive.geometry.solids.profile import Profile

OUT_BAND = 0.001  # how far a part may stand out of the hull before that is odd [m]
FITTING_BAND = 0.05  # of her length: how far deck fittings reach beyond hull and tower [-]
LOW = 0.3  # of the height of the hull there: lead higher than this is odd [-]
LARGE_BAND = 0.05  # how much larger than the hull a thing may be, as a share [-]
ROOM_BAND = 0.01  # how deep what lies in the wet may reach into a cylinder [m]
IN_BAND = 0.002  # how far what lies in a cylinder may stand out of it [m]
HEAVY, HEAVY_BAND = 0.5, 0.3  # share of the water in the hull that one thing weighs, and its band
USUAL = (2000.0, 1.1)  # usual density of what lies in the wet [kg/m³], and its band as a logarithm
INSIDE = (1500.0, 1.0)  # the same of what lies in a cylinder, by its outside
KNOWN = 0.12  # band of a density that the material tells, as a logarithm [-]
FILLS = (0.75, 1.08)  # share of its shape that a solid piece fills [-]
HOLLOW = 0.5  # band of that share where a part fills less, as a logarithm [-]
WALL = (0.04, 0.6)  # usual wall of a tube over its outside diameter, and its band as a logarithm
SHELL = (400.0, 0.9)  # usual mass of a tank for its volume [kg/m³], and its band as a logarithm
TUBE = (1.3, 0.35)  # mass of a cylinder with caps over that of its wall, and its band


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What a thing is held against: the hull, and the cylinders."""

    hull: Profile | None
    vessels: Mapping[str, Cylinder]
    drawn: Mapping[str, float]  # volumes of shapes that are meshes, by path [m³]
    most: float  # that any one thing is likely to weigh [kg]


def _heavy(mass: float, around: Around) -> float:
    """Return how odd it is how heavy a thing is for her [-]."""
    return surprise(max(log(max(mass, 1e-12)) - log(around.most), 0.0) / HEAVY_BAND)


def part_oddity(part: Part, path: str, around: Around) -> float:
    """Return how odd a part, a piece of lead or of foam is [-]."""
    drawn = around.drawn.get(path)
    volume = displaced(part, drawn)
    mass = mass_of(part, volume)
    odd = _placed(part, around) + _heavy(mass, around)
    if part.shape == "tube":
        odd += _off(part.wall / part.diameter, WALL)
    shape = shape_volume(part) or drawn
    shape = shape * (2 if part.pair else 1) if shape else None
    if part.inside:
        if shape and not part.open:
            odd += _off(mass / shape, INSIDE)
        return odd
    if volume > 0 and mass > 0:
        odd += _dense(part, mass / volume)
    if shape and volume > 0:
        odd += _filled(part, volume / shape)
    return odd


def fits(piece: object, drawn: float | None) -> bool:
    """Return whether a part displaces no more than its shape holds.

    Args:
        piece: A part; anything else fits.
        drawn: Volume of its shape, where that is a mesh [m³].
    """
    if not isinstance(piece, Part):
        return True
    shape = shape_volume(piece) or drawn
    whole = displaced(piece, drawn) / (2 if piece.pair else 1)
    return shape is None or whole <= FILLS[1] * shape


def _off(value: float, usual: tuple[float, float]) -> float:
    middle, band = usual
    return surprise(log(max(value, 1e-12) / middle) / band)


def _dense(part: Part, density: float) -> float:
    """Return how odd a density is: against the material's, else against what is usual."""
    known = density_of(part.material, None)
    if known is None:
        return _off(density, USUAL)
    odd = surprise(log((part.density or known) / known) / KNOWN)
    if part.volume is not None or part.hung is not None:
        odd += surprise(max(abs(log(density / known)) - 0.3, 0.0) / KNOWN)
    return odd


def _filled(part: Part, share: float) -> float:
    """Return how odd the share of its shape is that a part displaces."""
    low, high = FILLS
    if part.kind in ("lead", "foam"):
        return surprise(log(share) / KNOWN)
    if share > high:
        return surprise(log(share / high) / KNOWN)
    if part.open:
        return surprise(max(log(0.01 / share), 0.0))
    return surprise(log(share / low) / HOLLOW) if share < low else 0.0


def _placed(part: Part, around: Around) -> float:
    """Return how odd the place of a part is."""
    long, broad, high = (size or 0.0 for size in extents(part))
    place = (part.x, part.y, part.z)
    home = around.vessels.get(part.inside or "")
    if home is not None:
        return surprise(out_of_vessel(home, place, (long, broad, high)) / IN_BAND)
    if around.hull is None:
        return 0.0
    far = around.hull.beyond(place, (long / 2, broad / 2, high / 2))
    odd = around.hull.larger((long, broad, high)) / LARGE_BAND
    if part.through_hull:
        near = around.hull.beyond(place, (-long / 2, -broad / 2, -high / 2))
        band = FITTING_BAND * around.hull.length
        far = surprise(max(far / band - 1.0, 0.0) * 3.0)
        off = max(around.hull.aft - part.x, part.x - around.hull.fore, 0.0)
        far += surprise(max(off / band - 1.0, 0.0) * 6.0)
        return surprise(odd) + far + surprise(near / (0.1 * band))
    odd = surprise(odd) + surprise(far / OUT_BAND)
    if part.kind == "lead":
        odd += surprise(max(around.hull.rise(part.x, part.z) - LOW, 0.0) / LOW)
    if part.pair and broad:
        odd += surprise(max(broad / 2 - abs(part.y), 0.0) / OUT_BAND)
    if part.open or not min(long, broad, high):
        return odd
    return odd + sum(
        _sharing(vessel, place, (long, broad, high)) for vessel in around.vessels.values()
    )


def _sharing(
    vessel: Cylinder, place: tuple[float, float, float], size: tuple[float, float, float]
) -> float:
    """Return how odd it is how deep a box reaches into a cylinder."""
    x, y, z = place
    long, broad, high = size
    along = vessel.length / 2 + long / 2 - abs(x - vessel.x)
    side = abs(abs(y) - abs(vessel.y)) if vessel.pair else abs(y - vessel.y)
    near = hypot(max(side - broad / 2, 0.0), max(abs(z - axis_height(vessel, x)) - high / 2, 0.0))
    return surprise(max(min(along, vessel.outside / 2 - near), 0.0) / ROOM_BAND)


def out_of_vessel(
    home: Cylinder, place: tuple[float, float, float], size: tuple[float, float, float]
) -> float:
    """Return how far a box stands out of the room in a cylinder [m].

    Args:
        home: The cylinder.
        place: Middle of the box [m].
        size: Its length, breadth and height [m].
    """
    x, y, z = place
    long, broad, high = size
    along = abs(x - home.x) + long / 2 - home.length / 2
    side = abs(abs(y) - abs(home.y)) if home.pair else abs(y - home.y)
    across = hypot(side + broad / 2, abs(z - axis_height(home, x)) + high / 2) - home.bore / 2
    return max(along, across, 0.0)


def vessel_oddity(vessel: Cylinder, mass: float, around: Around) -> float:
    """Return how odd a cylinder is: wall, mass, place.

    Args:
        vessel: The cylinder.
        mass: It weighs, as listed [kg].
        around: What it is held against.
    """
    odd = _off(vessel.wall / vessel.outside, WALL) + _heavy(mass, around)
    density = density_of(vessel.material, vessel.density)
    if vessel.bore <= 0:
        return odd + surprise(100.0)
    if density and mass > 0:
        walls = vessel.wall_volume * density * (2 if vessel.pair == "both" else 1)
        odd += _off(mass / walls, TUBE)
    else:
        odd += _off(mass / (pi / 4 * vessel.outside**2 * vessel.length), (350.0, 1.0))
    if around.hull and not vessel.inside:
        half = vessel.outside / 2
        place = (vessel.x, vessel.y, vessel.z)
        odd += surprise(around.hull.beyond(place, (vessel.length / 2, half, half)) / OUT_BAND)
    return odd


def _shell(tank: Tank) -> float:
    """Return how odd it is how heavy a tank is for its size."""
    if not tank.mass or tank.shape == "mesh":
        return 0.0
    long = (tank.stroke if tank.kind == "piston" else tank.length) or 0.0
    area = pi / 4 * tank.bore**2 if tank.shape == "round" else tank.breadth * tank.height
    return _off(tank.mass / (area * long), SHELL) if area * long > 0 else 0.0


def tank_oddity(tank: Tank, around: Around) -> float:
    """Return how odd a tank is: out of its cylinder, or much smaller than it."""
    odd = _shell(tank)
    home = around.vessels.get(tank.inside or "")
    half = ((tank.length or 0.0) / 2, (tank.breadth or tank.bore or 0.0) / 2)
    if home is None:
        if around.hull is None:
            return odd
        high = (tank.height or tank.bore or 0.0) / 2
        far = around.hull.beyond((tank.x, tank.y, tank.z), (half[0], half[1], high))
        return odd + surprise(far / OUT_BAND)
    along = abs(tank.x - home.x) + half[0] - home.length / 2
    odd += surprise(max(along, 0.0) / IN_BAND)
    if tank.shape == "round":
        narrow = log(max(home.bore, 1e-6) / tank.bore)
        odd += surprise(max(-narrow, 0.0) / 0.02) + surprise(max(narrow - 0.4, 0.0) / 0.2)
    return odd + surprise(max(log(max(tank.lost, 1e-3) / 0.2), 0.0) / 0.5)
