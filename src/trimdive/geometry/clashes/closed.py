"""Closed forms: what a circle shares with a rectangle or another circle, and a ball with a ball.

Source: plane and solid geometry: the circle's primitive, the lens of two circles, caps of balls.
"""

from math import acos, asin, copysign, pi, sqrt

Span = tuple[float, float]


def overlap(one: Span, other: Span) -> float:
    """Return the length that two spans have in common [m].

    >>> overlap((0.0, 3.0), (2.0, 5.0)), overlap((0.0, 1.0), (2.0, 3.0))
    (1.0, 0.0)
    """
    return max(min(one[1], other[1]) - max(one[0], other[0]), 0.0)


def _under_arc(radius: float, y: float) -> float:
    """Return the area under the half circle from its middle to y [m²]."""
    y = min(max(y, -radius), radius)
    return (y * sqrt(max(radius**2 - y**2, 0.0)) + radius**2 * asin(y / radius)) / 2


def _below(radius: float, y: Span, z: float) -> float:
    """Return the area between the middle line and z within a circle, over a span of y [m²]."""
    y = max(y[0], -radius), min(y[1], radius)
    if y[1] <= y[0]:
        return 0.0
    half = sqrt(max(radius**2 - z**2, 0.0))  # so far to each side z lies within the circle
    inner = max(y[0], -half), min(y[1], half)
    whole = _under_arc(radius, y[1]) - _under_arc(radius, y[0])
    if inner[1] <= inner[0]:
        return copysign(whole, z)
    arc = whole - _under_arc(radius, inner[1]) + _under_arc(radius, inner[0])
    return z * (inner[1] - inner[0]) + copysign(arc, z)


def circle_and_rectangle(radius: float, y: Span, z: Span) -> float:
    """Return the area that a circle about the origin shares with a rectangle [m²].

    Args:
        radius: Of the circle [m].
        y: The rectangle's span across [m].
        z: Its span upward [m].

    >>> circle_and_rectangle(1.0, (0.0, 2.0), (-2.0, 2.0)) == pi / 2
    True
    """
    return max(_below(radius, y, z[1]) - _below(radius, y, z[0]), 0.0)


def circle_and_circle(one: float, other: float, apart: float) -> float:
    """Return the area that two circles share: a lens [m²].

    Args:
        one: Radius of the one [m].
        other: Radius of the other [m].
        apart: Between their middles [m].

    >>> circle_and_circle(1.0, 2.0, 0.5) == pi, circle_and_circle(1.0, 1.0, 2.0)
    (True, 0.0)
    """
    if apart >= one + other:
        return 0.0
    if apart <= abs(one - other):
        return pi * min(one, other) ** 2
    to_chord = (apart**2 + one**2 - other**2) / (2 * apart)
    return _segment(one, to_chord) + _segment(other, apart - to_chord)


def _segment(radius: float, to_chord: float) -> float:
    """Return the area of a circle beyond a chord so far from its middle [m²]."""
    share = min(max(to_chord / radius, -1.0), 1.0)
    return radius**2 * (acos(share) - share * sqrt(max(1 - share**2, 0.0)))


def ball_and_ball(one: float, other: float, apart: float) -> float:
    """Return the volume that two balls share [m³].

    Args:
        one: Radius of the one [m].
        other: Radius of the other [m].
        apart: Between their middles [m].

    >>> round(ball_and_ball(1.0, 1.0, 0.0) / pi, 6), ball_and_ball(1.0, 1.0, 2.0)
    (1.333333, 0.0)
    """
    if apart >= one + other:
        return 0.0
    if apart <= abs(one - other):
        return 4 / 3 * pi * min(one, other) ** 3
    to_chord = (apart**2 + one**2 - other**2) / (2 * apart)
    caps = ((one, one - to_chord), (other, other - apart + to_chord))
    return sum(pi * high**2 * (radius - high / 3) for radius, high in caps)
