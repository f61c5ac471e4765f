"""Two moves with foam and lead: across the waterline, and in pairs below it.

Foam that crosses the waterline changes how she rides and leaves her as she is when dived, but for
a little BG. Lead low and foam high in pairs raise BG and change nothing else.
"""

from dataclasses import dataclass

from trimdive.ballast.need.cures import Pairing, pair_for_bg
from trimdive.boatfile import Boat
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import Body
from trimdive.geometry.solids.hull import density_of

FOAM = "XPS foam"
LEAD_HEIGHT = 0.01  # of new lead above the keel line where there is none aboard [m]
UNDER = 0.02  # foam just under the waterline has its middle so far below it [m]
NEAR = 0.005  # a stand-in sphere this close to the waterline is near it [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Crossing:
    """Foam moved up from just under the waterline to just above it."""

    volume: float  # of the foam [m³]
    sinks: float  # how much deeper she rides [m]
    gain: float  # in BG dived [m]


def foam_across(
    volume: float, waterplane: float, dived_mass: float, density: float
) -> Crossing | None:
    """Return what foam moved up across the waterline does; None where she has no waterplane.

    What it held up, the waterplane must now hold; wholly under, it only lies higher than before.

    Args:
        volume: Of the foam [m³].
        waterplane: Area of the waterplane on the surface [m²].
        dived_mass: Her displacement dived [kg].
        density: Of the water [kg/m³].
    """
    if waterplane <= 0:
        return None
    foam = density_of(FOAM, None) or 0.0
    gain = (density - foam) * volume * 2 * UNDER / dived_mass
    return Crossing(volume=volume, sinks=volume / waterplane, gain=gain)


def pair_on_board(
    gain: float, boat: Boat, waterline: tuple[Floats, float], afloat: tuple[float, float, float]
) -> Pairing:
    """Return the lead on the keel and the foam under the waterline that raise BG by ``gain``.

    Args:
        gain: In BG [m].
        boat: Her lead shows how low lead can lie.
        waterline: The plane meant: n, and d [m].
        afloat: Displacement dived [kg], BG before [m], density of the water [kg/m³].
    """
    mass, bg, density = afloat
    n, d = waterline
    low = min((piece.z for piece in boat.lead), default=LEAD_HEIGHT)
    high = float(d / n[2]) - UNDER
    lead, foam = density_of("lead", None) or 0.0, density_of(FOAM, None) or 0.0
    return pair_for_bg(gain, (mass, bg), (low, high), (density, lead, foam))


def stand_ins(
    boat: Boat, bodies: tuple[Body, ...], waterline: tuple[Floats, float]
) -> tuple[Body, ...]:
    """Return the spheres that stand for parts without a shape where the waterline is near.

    Args:
        boat: Tells which parts have no shape.
        bodies: Everything that displaces.
        waterline: The plane meant: n, and d [m].
    """
    lists = (("part", boat.parts), ("lead", boat.lead), ("foam", boat.foam))
    bare = {
        f"{kind}[{i}]"
        for kind, pieces in lists
        for i, piece in enumerate(pieces, 1)
        if piece.shape == "point"
    }
    n, d = waterline
    return tuple(
        body
        for body in bodies
        if body.path in bare
        and float((body.mesh.vertices @ n).min()) - NEAR < d
        and float((body.mesh.vertices @ n).max()) + NEAR > d
    )
