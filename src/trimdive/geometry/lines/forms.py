"""Round hulls by published formulas; each gives a profile of radii from stern to bow.

Sources: [myring-1976], quoted in [six-freedoms-2001]; [round-bodies-1950] for Series 58;
[suboff-1989] for the SUBOFF bare hull.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.lines.round import SIDES, revolve
from trimdive.records import short

STEPS = 140  # of a profile from end to end [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Radii of a round hull along its axis, stern first."""

    __repr__ = short

    x: Floats  # places, rising, shape (n,) [m]
    r: Floats  # radii, shape (n,) [m]

    def mesh(self, *, axis_z: float = 0.0, sides: int = SIDES) -> Mesh:
        """Return the closed surface about an axis at height ``axis_z`` [m]."""
        return revolve(self.x, self.r, axis_z=axis_z, sides=sides)


def _closer_to_ends(pieces: tuple[float, ...], steps: int) -> Floats:
    """Return places that crowd towards the ends of every piece.

    Args:
        pieces: Ends of the pieces, rising [m].
        steps: About how many steps in all [-].

    Returns:
        Places, each piece's ends among them, shape (n,) [m].
    """
    shares = np.sqrt(np.diff(pieces))
    places = [np.array(pieces[:1])]
    for start, stop, share in zip(pieces[:-1], pieces[1:], shares, strict=True):
        count = max(8, round(steps * share / shares.sum()))
        turn = np.linspace(0.0, np.pi, count + 1)[1:]
        places.append(start + (stop - start) * (1.0 - np.cos(turn)) / 2.0)
        places[-1][-1] = stop
    return np.concatenate(places)


def _from_nose(
    radius: Callable[[Floats], Floats], pieces: list[float], x_aft: float, steps: int
) -> Profile:
    """Return a profile, stern first, of a radius given over distances from the nose."""
    apart = [b for a, b in pairwise(pieces) if b - a > 1e-9]
    aft = _closer_to_ends((pieces[0], *apart), steps)
    r = radius(aft)
    return Profile(x=x_aft + aft[-1] - aft[::-1], r=r[::-1])


def myring(
    *,
    nose: float,
    middle: float,
    tail: float,
    diameter: float,
    power: float,
    tail_angle: float,
    nose_cut: float = 0.0,
    tail_cut: float = 0.0,
    x_aft: float = 0.0,
    steps: int = STEPS,
) -> Profile:
    """Return the profile of a Myring body.

    Nose: r = (d/2)·(1 − ((x − a)/a)²)^(1/n). Tail, s aft of the middle:
    r = d/2 − (3d/(2c²) − tan t/c)·s² + (d/c³ − tan t/c²)·s³.

    Args:
        nose: Whole length a of the nose [m].
        middle: Length b of the middle [m].
        tail: Whole length c of the tail [m].
        diameter: Greatest diameter d [m].
        power: Fullness n of the nose [-].
        tail_angle: Half the angle t at the tip of the tail [rad].
        nose_cut: Length cut off the tip of the nose [m].
        tail_cut: Length cut off the tip of the tail [m].
        x_aft: Place of the after end [m].
        steps: About how many steps from end to end [-].

    Raises:
        GeometryError: A length is not positive, or more is cut off than there is.

    Source:
        [myring-1976], as quoted in [six-freedoms-2001] eq. 2.1 to 2.3.
    """
    if min(nose, tail, diameter, power) <= 0.0 or middle < 0.0:
        raise GeometryError("a length of the Myring body is not positive", "myring", "Mend it.")
    if not (0.0 <= nose_cut < nose and 0.0 <= tail_cut < tail):
        raise GeometryError("more is cut off than there is", "myring", "Cut off less.")

    def radius(x: Floats) -> Floats:
        return _myring_radius(x, (nose, middle, tail), diameter, power, tail_angle)

    ends = [nose_cut, nose, nose + middle, nose + middle + tail - tail_cut]
    return _from_nose(radius, ends, x_aft, steps)


def _myring_radius(
    x: Floats, lengths: tuple[float, float, float], d: float, n: float, tail_angle: float
) -> Floats:
    """Return the radii at distances from the tip of the whole nose."""
    a, b, c = lengths
    ahead = np.maximum(1.0 - (np.minimum(x - a, 0.0) / a) ** 2, 0.0) ** (1.0 / n)
    s = np.clip(x - a - b, 0.0, c)
    slope = np.tan(tail_angle)
    behind = (1.5 * d / c**2 - slope / c) * s**2 - (d / c**3 - slope / c**2) * s**3
    return np.maximum(d / 2.0 * ahead - behind, 0.0) * (x < a + b + c)


def series58_coefficients(
    *, widest: float, nose_radius: float, tail_radius: float, prismatic: float
) -> Floats:
    """Return a₁ … a₆ of (r/D)² = Σ aₙ·(x/L)ⁿ, x from the nose.

    Args:
        widest: Place m of the greatest radius, share of the length [-].
        nose_radius: r₀ = R₀·L/D² [-].
        tail_radius: r₁ = R₁·L/D² [-].
        prismatic: C_P [-].

    Returns:
        Coefficients, shape (6,) [-].

    Raises:
        GeometryError: No body has these numbers.

    Source:
        [round-bodies-1950]; the six conditions from memory.
    """
    if not (0.0 < widest < 1.0 and 0.0 < prismatic < 1.0 and nose_radius >= 0.0 <= tail_radius):
        raise GeometryError("no body has these numbers", "series58", "Use shares from 0 to 1.")
    n = np.arange(1, 7)
    first = (n == 1).astype(float)
    conditions = np.stack(
        [first, widest**n, n * widest ** (n - 1), np.ones(6), -1.0 * n, 4.0 / (n + 1.0)]
    )
    wanted = np.array([2.0 * nose_radius, 0.25, 0.0, 0.0, 2.0 * tail_radius, prismatic])
    return np.linalg.solve(conditions, wanted).astype(np.float64)


def series58(
    *,
    length: float,
    diameter: float,
    widest: float,
    nose_radius: float,
    tail_radius: float,
    prismatic: float,
    x_aft: float = 0.0,
    steps: int = STEPS,
) -> Profile:
    """Return the profile of a polynomial body of Series 58.

    Args:
        length: Length [m].
        diameter: Greatest diameter [m].
        widest: Place of the greatest radius from the nose, share of the length [-].
        nose_radius: r₀ = R₀·L/D² [-].
        tail_radius: r₁ = R₁·L/D² [-].
        prismatic: C_P [-].
        x_aft: Place of the after end [m].
        steps: About how many steps from end to end [-].

    Raises:
        GeometryError: No body has these numbers.

    Source:
        [round-bodies-1950].
    """
    a = series58_coefficients(
        widest=widest, nose_radius=nose_radius, tail_radius=tail_radius, prismatic=prismatic
    )
    inside = np.linspace(0.0, 1.0, 201)[1:-1]
    if min(length, diameter) <= 0.0 or np.any(_square(a, inside) <= 0.0):
        raise GeometryError(
            "with these numbers the body has no thickness in places",
            "series58",
            "Bring the prismatic coefficient nearer to 0.65, or the radii nearer to 0.5 and 0.1.",
        )

    def radius(x: Floats) -> Floats:
        return diameter * np.sqrt(np.maximum(_square(a, x / length), 0.0) * (x < length))

    return _from_nose(radius, [0.0, widest * length, length], x_aft, steps)


def _square(a: Floats, share: Floats) -> Floats:
    """Return (r/D)² at shares of the length."""
    return share * np.polynomial.polynomial.polyval(share, a)


# The SUBOFF bare hull [suboff-1989], lengths in its own feet from the nose.
SUBOFF_BOW, SUBOFF_MIDDLE, SUBOFF_STERN, SUBOFF_END = 10.0 / 3.0, 10.645833, 13.979167, 14.291667
SUBOFF_RADIUS = 5.0 / 6.0
SUBOFF_HUB, SUBOFF_K0, SUBOFF_K1 = 0.1175, 10.0, 44.6244


def suboff(*, length: float, x_aft: float = 0.0, steps: int = STEPS) -> Profile:
    """Return the profile of the DARPA SUBOFF bare hull at any length over all.

    Args:
        length: Length over all [m].
        x_aft: Place of the after end [m].
        steps: About how many steps from end to end [-].

    Raises:
        GeometryError: The length is not positive.

    Source:
        [suboff-1989] table 1 and listing.
    """
    if length <= 0.0:
        raise GeometryError("the length is not positive", "suboff", "Give a length.")
    scale = length / SUBOFF_END

    def radius(x: Floats) -> Floats:
        return scale * suboff_radius(x / scale)

    ends = [0.0, SUBOFF_BOW, SUBOFF_MIDDLE, SUBOFF_STERN, SUBOFF_END]
    return _from_nose(radius, [scale * end for end in ends], x_aft, steps)


def suboff_radius(x: Floats) -> Floats:
    """Return the radii of the SUBOFF bare hull in its own feet.

    Args:
        x: Distances from the nose in feet, shape (n,) [-].

    Returns:
        Radii in feet, shape (n,) [-].
    """
    q = np.clip((SUBOFF_STERN - x) / SUBOFF_BOW, 0.0, None)
    pieces = [x < SUBOFF_BOW, x <= SUBOFF_MIDDLE, x < SUBOFF_STERN]
    u = 0.3 * x - 1.0
    bow = 1.126395101 * x * u**4 + 0.442874707 * x**2 * u**3 + 1.0 - u**4 * (1.2 * x + 1.0)
    cap = 1.0 - ((x - SUBOFF_STERN) / (SUBOFF_END - SUBOFF_STERN)) ** 2
    shapes = [
        np.maximum(bow, 0.0) ** (1.0 / 2.1),
        np.ones_like(x),
        np.sqrt(np.maximum(_suboff_stern(q), 0.0)),
    ]
    return SUBOFF_RADIUS * np.select(pieces, shapes, SUBOFF_HUB * np.sqrt(np.maximum(cap, 0.0)))


def _suboff_stern(q: Floats) -> Floats:
    """Return (r/R)² of the stern; q is 1 where it begins and 0 at its end."""
    h, k0, k1 = SUBOFF_HUB, SUBOFF_K0, SUBOFF_K1
    h2, h_k0 = h * h, h * k0
    return (
        h2
        + h_k0 * q**2
        + (20.0 - 20.0 * h2 - 4.0 * h_k0 - k1 / 3.0) * q**3
        + (-45.0 + 45.0 * h2 + 6.0 * h_k0 + k1) * q**4
        + (36.0 - 36.0 * h2 - 4.0 * h_k0 - k1) * q**5
        + (-10.0 + 10.0 * h2 + h_k0 + k1 / 3.0) * q**6
    )
