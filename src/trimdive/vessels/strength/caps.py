"""What a flat round end cap bears, its holes counted, and how far it sags.

A cap that lies on a ring is nearly supported: most stressed in its middle. One that is glued or
screwed stiffly all round is nearly clamped: most stressed at its edge. Holes are allowed for by a
marked rule, see ``at_hole``.

Sources: [plates-and-shells], [stress-and-strain] plates of uniform thickness.
"""

from dataclasses import dataclass
from math import isfinite
from typing import Literal, get_args

from trimdive.errors import GeometryError
from trimdive.fact import Fact, fact
from trimdive.vessels.strength.material import Material, safety

Edge = Literal["supported", "clamped"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A round hole in a cap: for a shaft, a rod, a wire."""

    out: float  # of its middle from the middle of the cap [m]
    across: float  # diameter [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cap:
    """A flat round end cap."""

    name: str
    across: float  # diameter of the circle on which it is held [m]
    thickness: float  # its least, under grooves too [m]
    edge: Edge
    holes: tuple[Hole, ...]


def cap(
    name: str,
    across: float,
    thickness: float,
    edge: str = "supported",
    holes: tuple[Hole, ...] = (),
    of: str = "",
) -> Cap:
    """Return a cap whose measures make sense.

    Args:
        name: What the builder calls it.
        across: Diameter of the circle on which it is held [m].
        thickness: Its least thickness [m].
        edge: ``supported`` or ``clamped``.
        holes: Holes through it.
        of: Name of its cylinder, for an error.

    Raises:
        GeometryError: A measure is not above zero, a hole lies outside or the holes leave nothing.
    """
    where = f"{of}, {name}" if of else name
    for what, value in (("diameter", across), ("thickness", thickness)):
        if not (isfinite(value) and value > 0):
            said = f"its {what} is {value * 1e3:g} mm"
            raise GeometryError(said, where, "Give a number above 0.")
    for hole in holes:
        if not (hole.across > 0 and hole.out >= 0 and hole.out + hole.across / 2 < across / 2):
            said = (
                f"a hole of {hole.across * 1e3:g} mm, {hole.out * 1e3:g} mm out, is not within it"
            )
            mend = f"Keep holes within {across * 500:g} mm of the middle."
            raise GeometryError(said, where, mend)
    if sum(hole.across for hole in holes) >= across:
        raise GeometryError("its holes together are as wide as it", where, "Make them fewer.")
    for known in get_args(Edge):
        if edge == known:
            return Cap(name=name, across=across, thickness=thickness, edge=known, holes=holes)
    said = f"an edge cannot be '{edge}'"
    raise GeometryError(said, where, f"Write one of: {', '.join(get_args(Edge))}.")


def stresses(shape: Cap, poisson: float, out: float, pressure: float) -> tuple[float, float]:
    """Return the bending stress at the face, along the radius and around, as in a plate unholed.

    Supported: σ_r = 3p(3+ν)(a²-r²)/8t², σ_t = 3p((3+ν)a² - (1+3ν)r²)/8t². Clamped: with (1+ν)a²
    instead of (3+ν)a², and (3+ν)r², (1+3ν)r² taken off.

    Args:
        shape: The cap.
        poisson: Poisson's ratio [-].
        out: Place, from the middle [m].
        pressure: Outside less inside [Pa].

    Returns:
        Along the radius and around; below zero where the other face is pulled [Pa].

    Source:
        [plates-and-shells] circular plates, uniform load.
    """
    radius = shape.across / 2
    first = (3 if shape.edge == "supported" else 1) + poisson
    scale = 3 * pressure / (8 * shape.thickness**2)
    along = scale * (first * radius**2 - (3 + poisson) * out**2)
    around = scale * (first * radius**2 - (1 + 3 * poisson) * out**2)
    return along, around


def plain_stress(shape: Cap, poisson: float, pressure: float) -> float:
    """Return the greatest stress of the cap without its holes [Pa].

    Supported 3(3+ν)/8 p (a/t)² in the middle; clamped 3/4 p (a/t)² at the edge.

    Args:
        shape: The cap.
        poisson: Poisson's ratio [-].
        pressure: Outside less inside [Pa].

    Source:
        [plates-and-shells].
    """
    places = (0.0, shape.across / 2)
    return max(abs(stress) for out in places for stress in stresses(shape, poisson, out, pressure))


def at_hole(shape: Cap, poisson: float, hole: Hole, pressure: float) -> float:
    """Return the stress at the rim of a hole [Pa].

    The rule: a small round hole where the plate is bent σ1 and σ2 has 3 σ1 - σ2 at its rim, as in a
    stretched sheet: twice the stress in the middle of a plate. What the other holes take of a
    diameter of the cap is taken off the plate that carries (common practice, no source).

    Args:
        shape: The cap.
        poisson: Poisson's ratio [-].
        hole: One of its holes.
        pressure: Outside less inside [Pa].

    Limits:
        On the safe side for one hole in the middle of a supported plate, of any size; a collar or a
        pressed-in bush helps and is not counted.

    Source:
        The rim of a hole in a sheet under two pulls, closed form; [plates-and-shells] for a plate.
    """
    first, second = stresses(shape, poisson, hole.out, pressure)
    rim = max(abs(3 * first - second), abs(3 * second - first))
    others = sum(other.across for other in shape.holes) - hole.across
    return rim / (1 - others / shape.across)


def cap_stress(shape: Cap, poisson: float, pressure: float) -> float:
    """Return the greatest stress of a cap, at its holes too [Pa].

    Args:
        shape: The cap.
        poisson: Poisson's ratio [-].
        pressure: Outside less inside [Pa].
    """
    holes = [at_hole(shape, poisson, hole, pressure) for hole in shape.holes]
    return max([plain_stress(shape, poisson, pressure), *holes])


def sag(shape: Cap, modulus: float, poisson: float, pressure: float) -> float:
    """Return how far the middle of a cap sags, its holes not counted [m].

    Clamped p a⁴/64 D with D = E t³/12 (1-ν²); supported (5+ν)/(1+ν) times that.

    Args:
        shape: The cap.
        modulus: Of elasticity [Pa].
        poisson: Poisson's ratio [-].
        pressure: Outside less inside [Pa].

    Source:
        [plates-and-shells].
    """
    stiffness = modulus * shape.thickness**3 / (12 * (1 - poisson**2))
    clamped = pressure * (shape.across / 2) ** 4 / (64 * stiffness)
    return clamped * ((5 + poisson) / (1 + poisson) if shape.edge == "supported" else 1.0)


def cap_yields_at(shape: Cap, material: Material) -> float:
    """Return the pressure at which a cap reaches what its material bears [Pa]."""
    return material.limit / cap_stress(shape, material.poisson, 1.0)


def cap_doubts(shape: Cap, material: Material, pressure: float) -> tuple[Fact, ...]:
    """Return what the thin-plate formulas do not cover here.

    Args:
        shape: The cap.
        material: What it is made of.
        pressure: Up to which it is used [Pa].
    """
    found: list[Fact] = []
    if shape.across / 2 / shape.thickness < safety("plate-slender"):
        found.append(fact("cap-thick", cap=shape.name))
    if (
        sag(shape, material.modulus, material.poisson, pressure)
        > safety("plate-bend") * shape.thickness
    ):
        found.append(fact("cap-sags", cap=shape.name))
    return tuple(found)
