"""What tube: the sizes that are sold and bear a depth, with mass, lift and the lead to sink them.

Sources: data/tube_stock.csv; strength of each by the folder strength.
"""

from dataclasses import dataclass
from math import pi

from trimdive.errors import StrengthError
from trimdive.geometry.solids.hull import density_of
from trimdive.vessels.strength import Strength, material, safety, stock, strength, tube
from trimdive.vessels.strength.caps import cap

LEAD = density_of("lead", None) or 0.0  # [kg/m³]
NEAR = 0.35  # a bore wider than this is another tube [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A tube that is sold, as a cylinder of the length asked for."""

    name: str
    material: str
    size: str
    outside: float  # [m]
    wall: float  # [m]
    bore: float  # [m]
    bears: Strength
    mass: float  # of the tube with both caps of its material [kg]
    lift: float  # water pushed aside, less that mass [kg]
    lead: float  # that sinks it, under water [kg]
    status: str  # published, a maker's list, a web page, or from memory
    does: bool  # it bears the depth


def what_tube(
    inside: float, depth: float, made_of: str, length: float, density: float
) -> tuple[Offer, ...]:
    """Return the tubes that are sold with a bore, those first that bear the depth, then by size.

    Args:
        inside: Least inside diameter [m].
        depth: She is for [m].
        made_of: Material, by its name; "" for any.
        length: Of the cylinder over its caps [m].
        density: Of the water [kg/m³].

    Raises:
        StrengthError: Nothing of that material and size is known.
    """
    if not (inside > 0 and depth >= 0 and length > 0):
        raise StrengthError("a measure is not above zero", "the tube", "Give numbers above 0.")
    known = sorted({one.material for one in stock()})
    if made_of and made_of not in known:
        what = f"no tube of '{made_of}' is in the table"
        raise StrengthError(what, "the tube", f"Write one of: {', '.join(known)}.")
    wide = [one for one in stock() if made_of in ("", one.material) and one.bore >= inside]
    near = [one for one in wide if one.bore <= inside * (1 + NEAR)]
    if not near:
        largest = max(
            (one for one in stock() if made_of in ("", one.material)), key=lambda o: o.bore
        )
        least = min(wide, key=lambda one: one.bore, default=largest)
        what = f"no tube with a bore of {inside * 1e3:.0f} to {inside * (1 + NEAR) * 1e3:.0f} mm"
        mend = f"The nearest is {least.size}, {least.bore * 1e3:.1f} mm inside."
        raise StrengthError(what, "the tube", mend)
    found = [
        _offer(one.name, one.material, one.size, (one.outside, one.wall, length), density, depth,
               one.status)
        for one in near
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda one: (not one.does, one.lift < 0, one.bore, one.mass)))


def _offer(
    name: str,
    of: str,
    size: str,
    measures: tuple[float, float, float],
    density: float,
    depth: float,
    status: str,
) -> Offer:
    outside, wall, length = measures
    made_of, thick = material(of), safety("cap-thickness") * outside
    shape = tube(outside, wall, max(length - 2 * thick, wall), where=size)
    plate = cap("caps", shape.bore, thick)
    bears = strength(shape, made_of, [(plate, made_of)], density)
    heavy = density_of(of, None) or 0.0
    walls = pi / 4 * (outside**2 - shape.bore**2) * length + pi / 2 * shape.bore**2 * thick
    mass = heavy * walls
    lift = density * pi / 4 * outside**2 * length - mass
    return Offer(
        name=name,
        material=of,
        size=size,
        outside=outside,
        wall=wall,
        bore=shape.bore,
        bears=bears,
        mass=mass,
        lift=lift,
        lead=lift / (1 - density / LEAD),
        status=status,
        does=bears.depth >= depth,
    )
