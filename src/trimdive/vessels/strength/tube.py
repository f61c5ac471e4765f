"""At what pressure from outside the wall of a tube gives way: crushed, or folded in lobes.

The collapse between stiff ends is von Mises' of 1929 for pressure on the wall and on the ends,
least over the number of lobes, within 0.4 % of the full shell theory for the tubes that builders
use. The single formula of 1934 is kept for comparison only: for thick plastic tubes it promises up
to 12 % too much.

Sources: [von-mises-1929], [windenburg-trilling-1934], [elastic-stability].
"""

from dataclasses import dataclass
from math import isfinite, pi, sqrt

from trimdive.errors import GeometryError
from trimdive.vessels.strength.material import safety

MOST_LOBES = 200  # beyond this many, walls are foil


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """A round tube between stiff ends."""

    outside: float  # diameter [m]
    wall: float  # its thinnest, where it was measured [m]
    between: float  # length between the caps or rings that hold it round [m]
    out_of_round: float  # how far its radius departs from the mean [m]

    @property
    def radius(self) -> float:
        """Return the radius to the middle of the wall [m]."""
        return (self.outside - self.wall) / 2

    @property
    def bore(self) -> float:
        """Return the inside diameter [m]."""
        return self.outside - 2 * self.wall


@dataclass(frozen=True, slots=True, kw_only=True)
class Collapse:
    """How a tube folds."""

    pressure: float  # [Pa]
    lobes: int  # waves around


def tube(
    outside: float, wall: float, between: float, out_of_round: float | None = None, where: str = ""
) -> Tube:
    """Return a tube whose measures make sense.

    Args:
        outside: Outside diameter [m].
        wall: Wall [m].
        between: Length between what holds it round [m].
        out_of_round: Radius less mean radius, at most [m]; None takes the usual share of
            ``safety.csv``; see ``roundness``.
        where: What the builder calls it, for messages.

    Raises:
        GeometryError: A measure is not above zero, or the wall leaves no bore.
    """
    place = where or "tube"
    for name, value in (("outside diameter", outside), ("wall", wall), ("length", between)):
        if not (isfinite(value) and value > 0):
            what = f"its {name} is {value * 1e3:g} mm"
            raise GeometryError(what, place, "Give a number above 0.")
    if wall >= outside / 2:
        what = f"a wall of {wall * 1e3:g} mm leaves no bore in {outside * 1e3:g} mm"
        raise GeometryError(what, place, f"Make the wall less than {outside * 500:g} mm.")
    usual = safety("out-of-round") * (outside - wall) / 2
    departs = usual if out_of_round is None else out_of_round
    if not 0 <= departs < outside / 10:
        what = f"{departs * 1e3:g} mm out of round"
        raise GeometryError(what, place, f"Give 0 to {outside * 100:g} mm.")
    return Tube(outside=outside, wall=wall, between=between, out_of_round=departs)


def roundness(largest: float, smallest: float) -> float:
    """Return how far a radius departs from the mean, from the largest and smallest diameter [m].

    An oval has radius R + w cos 2θ, so its diameters differ by 4 w.

    Args:
        largest: Outside diameter where it is largest [m].
        smallest: Across that [m].

    Raises:
        GeometryError: The smallest is larger, or not above zero.
    """
    if not 0 < smallest <= largest:
        what = f"largest {largest * 1e3:g} mm, smallest {smallest * 1e3:g} mm"
        raise GeometryError(what, "roundness", "Give the larger diameter first, both above 0.")
    return (largest - smallest) / 4


def hoop_stress(shape: Tube, pressure: float) -> float:
    """Return the stress around the bore, thick-walled: σ = 2 p Ro² / (Ro² - Ri²).

    Args:
        shape: The tube.
        pressure: Outside less inside [Pa].

    Returns:
        Compression at the bore, where it is greatest [Pa].

    Source:
        Lamé, closed form; [stress-and-strain].
    """
    outer, inner = shape.outside / 2, shape.bore / 2
    return 2 * pressure * outer**2 / (outer**2 - inner**2)


def yields_at(shape: Tube, limit: float) -> float:
    """Return the pressure at which the bore reaches a stress [Pa].

    Args:
        shape: The tube.
        limit: What the wall bears [Pa].
    """
    return limit / hoop_stress(shape, 1.0)


def long_tube(shape: Tube, modulus: float, poisson: float) -> float:
    """Return the pressure that flattens a tube without help from its ends: E t³ / (4 (1-ν²) R³).

    Args:
        shape: The tube; its length does not matter.
        modulus: Of elasticity [Pa].
        poisson: Poisson's ratio [-].

    Source:
        [stress-and-strain] table 35, case 19a.
    """
    return modulus * shape.wall**3 / (4 * (1 - poisson**2) * shape.radius**3)


def buckling_pressure(shape: Tube, modulus: float, poisson: float, lobes: int) -> float:
    """Return the pressure that folds a tube into so many lobes [Pa].

    p = {(E t/R) / (n²/λ² + 1)² + E t³ (n² - 1 + λ²)² / (12 R³ (1-ν²))} / (n² - 1 + λ²/2) with
    λ = π R/L.

    Args:
        shape: The tube.
        modulus: Of elasticity [Pa].
        poisson: Poisson's ratio [-].
        lobes: Waves around, 2 or more.

    Limits:
        Elastic, round, ends held round but free to turn, pressure on wall and ends.

    Source:
        [von-mises-1929], from memory.
    """
    radius, wall = shape.radius, shape.wall
    along = (pi * radius / shape.between) ** 2
    around = lobes**2
    stretching = modulus * wall / radius / (around / along + 1) ** 2
    bending = modulus * wall**3 / (12 * radius**3 * (1 - poisson**2)) * (around - 1 + along) ** 2
    return (stretching + bending) / (around - 1 + along / 2)


def collapse(shape: Tube, modulus: float, poisson: float) -> Collapse:
    """Return the least pressure that folds a tube, and into how many lobes.

    Never below that of a tube without ends.

    Args:
        shape: The tube.
        modulus: Of elasticity [Pa].
        poisson: Poisson's ratio [-].

    Source:
        [von-mises-1929], from memory; least over the number of lobes.
    """
    pressures = [buckling_pressure(shape, modulus, poisson, n) for n in range(2, MOST_LOBES + 1)]
    least = min(pressures)
    return Collapse(
        pressure=max(least, long_tube(shape, modulus, poisson)), lobes=2 + pressures.index(least)
    )


def single_formula(shape: Tube, modulus: float, poisson: float) -> float | None:
    """Return the collapse pressure by the well-known single formula, for comparison only [Pa].

    p = 2.42 E (t/D)^2.5 / ((1-ν²)^0.75 (L/D - 0.45 √(t/D))), D to the middle of the wall.

    Args:
        shape: The tube.
        modulus: Of elasticity [Pa].
        poisson: Poisson's ratio [-].

    Returns:
        The pressure; None for a tube so short that the formula ends.

    Source:
        [windenburg-trilling-1934], from memory.
    """
    thin = shape.wall / (2 * shape.radius)
    length = shape.between / (2 * shape.radius) - 0.45 * sqrt(thin)
    if length <= 0:
        return None
    return 2.42 * modulus * thin**2.5 / ((1 - poisson**2) ** 0.75 * length)


def knocked_down(shape: Tube, perfect: float, limit: float) -> float:
    """Return the pressure at which a tube that is out of round first reaches its limit [Pa].

    The smaller root of p² - [σ/m + (1 + 6 m n) p_c] p + σ p_c/m = 0, m = R/t, n = w/R: the pressure
    bends the oval further, the more the nearer it is to collapse.

    Args:
        shape: The tube.
        perfect: At which it would fold if it were round, p_c [Pa].
        limit: What the wall bears [Pa].

    Source:
        [elastic-stability], from memory.
    """
    slender = shape.radius / shape.wall
    bent = 6 * slender * shape.out_of_round / shape.radius
    both = limit / slender + (1 + bent) * perfect
    product = limit * perfect / slender
    return 2 * product / (both + sqrt(max(both**2 - 4 * product, 0.0)))
