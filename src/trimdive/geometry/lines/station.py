"""One section of a hull: a run of points from keel to deck centre, and the lines through it."""

from dataclasses import dataclass

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats

SAME_PLACE = 1e-9  # closer than this, two points are one [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line that runs along the hull, where it meets one section."""

    name: str
    point: int  # index into the points of the section [-]
    sharp: bool  # a knuckle; otherwise the section runs fair through it


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """Half a section; port side, keel first, last point on the centre line."""

    x: float  # place, forward from the aftermost point [m]
    points: Floats  # half-breadth and height, shape (n, 2) [m]
    lines: tuple[Line, ...]
    row: int  # line of the table where it begins

    @property
    def breadth(self) -> float:
        """Return the greatest half-breadth [m]."""
        return float(self.points[:, 0].max())

    @property
    def height(self) -> float:
        """Return the height from lowest to highest point [m]."""
        return float(np.ptp(self.points[:, 1]))

    @property
    def half_area(self) -> float:
        """Return the area of the half section; positive when it runs from keel to deck [m²]."""
        y, z = self.points.T
        return float(np.sum(y * np.roll(z, -1) - z * np.roll(y, -1)) / 2.0)


def station(x: float, pins: list[tuple[float, float, str, bool]], row: int) -> Station:
    """Return a section from its pins, closed straight to the centre line at both ends.

    Args:
        x: Place [m].
        pins: Half-breadth [m], height [m], name of the line through it ('' if none), knuckle.
        row: Line of the table where it begins.
    """
    first, last = pins[0], pins[-1]
    if first[0] > SAME_PLACE:
        pins = [(0.0, first[1], "", False), (*first[:2], first[2] or "keel edge", True), *pins[1:]]
    if last[0] > SAME_PLACE:
        pins = [*pins[:-1], (*last[:2], last[2] or "deck edge", True), (0.0, last[1], "", False)]
    kept: list[tuple[float, float]] = []
    lines: list[Line] = []
    for y, z, name, sharp in pins:
        here = (max(y, 0.0) if y > SAME_PLACE else 0.0, z)
        if not kept or np.hypot(here[0] - kept[-1][0], here[1] - kept[-1][1]) > SAME_PLACE:
            kept.append(here)
        if name:
            lines.append(Line(name=name, point=len(kept) - 1, sharp=sharp))
    return Station(x=x, points=np.array(kept), lines=tuple(lines), row=row)


def fault(section: Station) -> GeometryError | None:
    """Return the error, without its place, for a run of points that is no section, or None."""
    mend = "Give its points from keel to deck in order."
    if (crossing := first_crossing(section.points)) is not None:
        y, z = (f"{value * 1e3:.0f} mm" for value in crossing)
        what = f"the section crosses itself near half-breadth {y}, height {z}"
        return GeometryError(what, "", mend)
    if section.breadth > 0.0 and section.half_area <= 0.0:
        what = "the section runs from deck to keel, or its columns are swapped"
        return GeometryError(what, "", mend)
    return None


def first_crossing(points: Floats) -> Floats | None:
    """Return where a run of points crosses itself, or None.

    Args:
        points: Points in order, shape (n, 2) [m].

    Returns:
        The first crossing, shape (2,) [m].
    """
    a, b = points[:-1], points[1:]
    along = b - a
    first, second = np.triu_indices(len(a), k=2)
    gap = a[second] - a[first]
    span = _cross(along[first], along[second])
    with np.errstate(divide="ignore", invalid="ignore"):
        s = _cross(gap, along[second]) / span
        t = _cross(gap, along[first]) / span
    hit = np.flatnonzero((s > 0.0) & (s < 1.0) & (t > 0.0) & (t < 1.0))
    if not len(hit):
        return None
    return a[first[hit[0]]] + s[hit[0]] * along[first[hit[0]]]


def _cross(a: Floats, b: Floats) -> Floats:
    return a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
