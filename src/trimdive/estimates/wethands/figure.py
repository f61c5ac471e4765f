"""A figure and how far it may be off, and how that carries through products and sums.

First order: relative parts of a product and parts of a sum add as squares. ± holds in 95 cases of
100.

Source: propagation of errors, any text on measurement.
"""

from dataclasses import dataclass
from math import atan, cos, hypot, radians, sqrt, tan

from trimdive.data import row

SCALES = {
    "mm": 1e-3, "mm/m": 1e-3, "mm²/m": 1e-6, "ml": 1e-6, "g": 1e-3, "%": 1e-2, "1": 1.0,
    "°": radians(1.0),
}  # fmt: skip


def usual_of(key: str) -> float:
    """Return a figure of the table ``wet_hands.csv`` in SI; a share as a share.

    >>> usual_of("place-off"), usual_of("usual-filling")
    (0.01, 0.9)
    """
    found = row("wet_hands", key)
    return float(found["value"]) * SCALES[found["unit"]]


@dataclass(frozen=True, slots=True)
class Figure:
    """A value with its ±."""

    value: float  # [SI]
    spread: float  # 95 %, to either side [SI]

    @property
    def share(self) -> float:
        """Return the ± as a share of the value [-]."""
        return self.spread / abs(self.value) if self.value else float("inf")

    def times(self, number: float) -> "Figure":
        """Return so many times the figure.

        Args:
            number: Exact [-].

        >>> Figure(2.0, 0.5).times(-2.0)
        Figure(value=-4.0, spread=1.0)
        """
        return Figure(self.value * number, self.spread * abs(number))

    def plus(self, other: "Figure") -> "Figure":
        """Return the sum with another, of which it knows nothing.

        >>> Figure(1.0, 0.3).plus(Figure(2.0, 0.4))
        Figure(value=3.0, spread=0.5)
        """
        return Figure(self.value + other.value, hypot(self.spread, other.spread))

    def minus(self, other: "Figure") -> "Figure":
        """Return the difference from another, of which it knows nothing."""
        return self.plus(other.times(-1.0))

    def by(self, other: "Figure") -> "Figure":
        """Return the product with another, of which it knows nothing."""
        off = hypot(self.spread * other.value, other.spread * self.value)
        return Figure(self.value * other.value, off)

    def over(self, other: "Figure") -> "Figure":
        """Return this divided by another, of which it knows nothing; the other is not nought."""
        ratio = self.value / other.value
        off = hypot(self.spread, ratio * other.spread) / abs(other.value)
        return Figure(ratio, off)


def tangent(angle: Figure) -> Figure:
    """Return the tangent of an angle."""
    return Figure(tan(angle.value), angle.spread / cos(angle.value) ** 2)


def arc(ratio: Figure) -> Figure:
    """Return the angle of a tangent."""
    return Figure(atan(ratio.value), ratio.spread / (1 + ratio.value**2))


def mean_of(one: Figure, other: Figure) -> Figure:
    """Return the mean of two ways to one figure, the surer counting more.

    >>> mean_of(Figure(1.0, 1.0), Figure(2.0, 1.0)).value
    1.5
    """
    if not one.spread or not other.spread:
        return other if one.spread else one
    a, b = one.spread**-2, other.spread**-2
    return Figure((a * one.value + b * other.value) / (a + b), 1 / sqrt(a + b))


def apart(one: Figure, other: Figure) -> float:
    """Return how far two ways to one figure lie apart, in their common ± [-]."""
    both = hypot(one.spread, other.spread)
    return abs(one.value - other.value) / both if both else float(one.value != other.value)
