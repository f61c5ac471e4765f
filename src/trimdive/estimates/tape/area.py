"""Area of skin above the waterline from girths, and how far the gaps between them leave it open.

A fair curve runs through the girths; where the hull swells or tapers the skin slopes, and its
area grows with the slope as it does on a round body whose half girth is a half circle. Beyond
the outermost readings the girth falls off to the end.
"""

from dataclasses import dataclass
from math import pi

import numpy as np

from trimdive.estimates.tape.readings import figure
from trimdive.geometry.lines.curves import fair_slopes, on_curve
from trimdive.geometry.lines.mesh import Floats

SLIM = (
    0.25  # an outermost girth below this share of the next says nothing of the fullness there [-]
)
FINE = 24  # steps between two girths [-]
END_MIDDLE = 0.42  # centre of an end from its reading, of the way to the end: 1/3 sharp, 1/2 bluff


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """Area of a skin, and its first moment about the stern."""

    area: float  # [m²]
    moment: float  # [m³]


def under_curve(x: Floats, g: Floats, slope_share: float = 1.0) -> Area:
    """Return the area of skin between the first girth and the last.

    Args:
        x: Places, rising, shape (n,) [m].
        g: Girths, shape (n,) [m].
        slope_share: Share of the allowance for slope that is taken [-].
    """
    steps = np.interp(np.arange(FINE * (len(x) - 1) + 1) / FINE, np.arange(len(x)), x)
    curve = on_curve(x, g, fair_slopes(x, g), steps)
    dx, dg = np.diff(steps), np.diff(curve)
    along = dx + slope_share * (np.hypot(dx, dg / pi) - dx)
    pieces = (curve[:-1] + curve[1:]) / 2 * along
    return Area(area=float(pieces.sum()), moment=float(pieces @ (steps[:-1] + steps[1:]) / 2))


def ends(x: Floats, g: Floats, length: float, share: float) -> Area:
    """Return the area of skin between the outermost girths and the ends of the hull.

    Args:
        x: Places, rising, shape (n,) [m].
        g: Girths, shape (n,) [m].
        length: Of the hull [m].
        share: Mean girth there as a share of the outermost [-].
    """
    aft, fore = x[0] * g[0] * share, (length - x[-1]) * g[-1] * share
    at_aft, at_fore = x[0] * (1 - END_MIDDLE), x[-1] + END_MIDDLE * (length - x[-1])
    return Area(area=float(aft + fore), moment=float(aft * at_aft + fore * at_fore))


def gaps(x: Floats, g: Floats) -> tuple[Floats, float]:
    """Return what each inner girth adds to the area, and how far the gaps leave the area open.

    Without one girth a gap is twice as wide. The error of a curve through points falls at least
    with the square of the gap, so each gap is now open by at most a quarter of what that girth
    adds; the gaps err each in its own way. A polygon through the girths shows the same from the
    other side: the truth seldom lies beyond it.

    Args:
        x: Places, rising, shape (n,) [m].
        g: Girths, shape (n,) [m].

    Returns:
        Differences, shape (n - 2,) [m²]; 95 % spread of the area [m²].
    """
    whole = under_curve(x, g).area
    without = np.array(
        [under_curve(np.delete(x, i), np.delete(g, i)).area for i in range(1, len(x) - 1)]
    )
    adds = whole - without
    polygon = float(np.trapezoid(g, x))
    flat = under_curve(x, g, 0.0).area
    return adds, max(float(np.linalg.norm(adds)) / 2, abs(flat - polygon))


def tapers(x: Floats, g: Floats) -> tuple[float, float]:
    """Return how far the outermost gaps leave the area open aft and forward, 95 % [m²].

    Where the outermost reading is next to nothing, the hull may come to it sharp or bluff.

    Args:
        x: Places, rising, shape (n,) [m].
        g: Girths, shape (n,) [m].
    """
    off = figure("end-share-off")
    aft = off * g[1] * (x[1] - x[0]) if g[0] < SLIM * g[1] else 0.0
    fore = off * g[-2] * (x[-1] - x[-2]) if g[-1] < SLIM * g[-2] else 0.0
    return float(aft), float(fore)


def enclosed(breadth: Floats, girth: Floats) -> tuple[Floats, Floats]:
    """Return the area of sections above the waterline, and how far each is open.

    Of all sections with this breadth and girth a flat-topped one with upright sides holds little
    and an arc of a circle holds the most.

    Args:
        breadth: At the waterline, shape (n,) [m].
        girth: Over the deck, shape (n,) [m].

    Returns:
        Areas, shape (n,) [m²]; spreads, shape (n,) [m²].
    """
    box = breadth * np.maximum(girth - breadth, 0.0) / 2
    arc = np.array([_arc(b, g) for b, g in zip(breadth, girth, strict=True)])
    return (box + arc) / 2, np.abs(arc - box) / 2


def _arc(breadth: float, girth: float) -> float:
    """Return the area between an arc of a circle and its chord [m²]; Dido's problem."""
    if girth <= breadth or girth <= 0:
        return 0.0
    low, high = 1e-6, pi
    for _ in range(60):  # half the angle at the centre: sin(a) / a = breadth / girth
        a = (low + high) / 2
        low, high = (a, high) if np.sin(a) / a > breadth / girth else (low, a)
    radius = girth / (2 * low)
    return float(radius**2 * (low - np.sin(low) * np.cos(low)))
