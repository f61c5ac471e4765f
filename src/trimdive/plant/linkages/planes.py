"""What water does to a plane or a rudder that is turned.

Sources: slope of lift of short planes [lifting-surfaces-1958], from memory; the places of its
centre are common practice, no source.
"""

from math import pi, sqrt

from trimdive.errors import LinkageError

MOST_LIFT = 1.1  # coefficient at which a short plane stalls: from memory [-]
CENTRES = (0.25, 0.40)  # of the lift, in the chord: at small angles, and stalled [-]


def lift_slope(aspect: float) -> float:
    """Return the slope of lift with angle of a short plane that is not swept [1/rad].

    Args:
        aspect: Span squared over area [-].

    Raises:
        LinkageError: It has no span.

    Source:
        [lifting-surfaces-1958]: 1.8 pi A / (1.8 + sqrt(A² + 4)).

    >>> round(lift_slope(2.0), 2)
    2.44
    """
    if not aspect > 0:
        raise LinkageError(
            f"a plane of aspect {aspect:g}", "linkage", "Give area and span above 0."
        )
    return 1.8 * pi * aspect / (1.8 + sqrt(aspect**2 + 4))


def plane_force(density: float, speed: float, area: float, span: float, angle: float) -> float:
    """Return the force on a plane turned by an angle, at most as it stalls [N].

    Args:
        density: Of the water [kg/m³].
        speed: Through the water [m/s].
        area: Of the plane [m²].
        span: Of the plane [m].
        angle: By which it is turned [rad].

    Source:
        Half rho v² S C_L.
    """
    lift = min(lift_slope(span**2 / area) * abs(angle), MOST_LIFT)
    return 0.5 * density * speed**2 * area * lift


def stock_moment(force: float, chord: float, stock: float) -> float:
    """Return the largest moment about the stock [N m].

    Args:
        force: On the plane [N].
        chord: Mean, of the plane [m].
        stock: Where the stock lies in the chord, from its leading edge [-].
    """
    return force * chord * max(abs(stock - centre) for centre in CENTRES)
