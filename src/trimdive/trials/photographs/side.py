"""The outside of the hull as a camera sees it: half-breadths by place and height, the water's edge.

Half-breadths are read off the mesh once, at stations that lie closer towards both ends; between
them they are interpolated. The water's edge is where the plane z = a + b (x − middle) + c y meets
them: the outline of the waterplane, closed at both ends.
"""

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines import Floats
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.solids.section import segments
from trimdive.records import record

STATIONS, HEIGHTS = 121, 121  # at which half-breadths are read [-]
EDGE = 1e-5  # stations and heights keep off the very ends by this share [-]
TURNS = 4  # in which the height of the water at the skin settles; heel makes it wait [-]
ROUND = np.array([0.0, 0.25, 0.5, 0.75])  # of a half-breadth: an end is round between stations [-]
NEAR = 0.05  # a point so far above the skin's top edge, as a share of her height, is on it [-]


@record
class Side:
    """Half-breadths of one hull, alike on both sides."""

    x: Floats  # stations, shape (s,) [m]
    z: Floats  # heights, shape (h,) [m]
    half: Floats  # half-breadths, 0 where there is no hull, shape (s, h) [m]
    bounds: Floats  # least and greatest corner, shape (2, 3) [m]
    top: tuple[float, float, float]  # her highest place [m]

    @property
    def middle(self) -> float:
        """Return the middle of her length [m]."""
        return float(self.bounds[:, 0].mean())

    @property
    def length(self) -> float:
        """Return her length [m]."""
        return float(self.bounds[1, 0] - self.bounds[0, 0])

    @property
    def height(self) -> float:
        """Return how high she is [m]."""
        return float(self.bounds[1, 2] - self.bounds[0, 2])

    def breadth_at(self, rows: NDArray[np.int64], height: Floats) -> Floats:
        """Return half-breadths at stations and heights, shape of ``height`` [m].

        Args:
            rows: Numbers of the stations, shape (n,) [-].
            height: Heights at them, shape (n,) [m].
        """
        step = float(self.z[1] - self.z[0])
        at = np.clip((height - self.z[0]) / step, 0.0, len(self.z) - 1.001)
        low = at.astype(np.int64)
        share = at - low
        return (1.0 - share) * self.half[rows, low] + share * self.half[rows, low + 1]

    def out(self, x: float, z: float) -> float:
        """Return the half-breadth of the skin at a place; 0 where there is none near [m].

        Args:
            x: Place along her [m].
            z: Height [m].
        """
        right = int(np.clip(np.searchsorted(self.x, x), 1, len(self.x) - 1))
        share = float(np.clip((x - self.x[right - 1]) / np.diff(self.x)[right - 1], 0.0, 1.0))
        column = (1.0 - share) * self.half[right - 1] + share * self.half[right]
        found = float(np.interp(z, self.z, column))
        if found > 0.0 or not (held := np.flatnonzero(column > 0.0)).size:
            return found
        top = int(held[-1])
        return float(column[top]) if self.z[top] <= z <= self.z[top] + NEAR * self.height else 0.0

    def outline(self, plane: Floats, wider: float = 0.0) -> Floats:
        """Return the water's edge on her, anticlockwise from aft on starboard, shape (n, 3) [m].

        Args:
            plane: Height of the water amidships [m], its slopes forward and to port, shape (3,).
            wider: By how much she is wider on each side than her lines [m].
        """
        rows = np.arange(len(self.x))
        level = plane[0] + plane[1] * (self.x - self.middle)
        sides: list[Floats] = []
        for side in (-1.0, 1.0):
            half = self.breadth_at(rows, level)
            for _ in range(TURNS if plane[2] else 0):
                half = self.breadth_at(rows, level + side * plane[2] * half)
            x, out = self._to_ends(half)
            y = side * (out + wider * (out > 0.0))
            height = plane[0] + plane[1] * (x - self.middle) + plane[2] * y
            sides.append(np.stack([x, y, height], axis=1))
        return np.concatenate([sides[0], sides[1][::-1]])

    def _to_ends(self, half: Floats) -> tuple[Floats, Floats]:
        """Return stations and half-breadths of the water's edge to its ends, shape (n,) [m].

        Between the last station that it reaches and the next its end is taken as round. Stations
        that it does not reach lie at its end, so that there are always as many.
        """
        there = np.flatnonzero(half > 0.0)
        x, out = self.x.copy(), half.copy()
        if len(there) < 2:
            whole = np.full(len(x) + 2 * len(ROUND), self.middle)
            return whole, np.zeros(len(whole))
        first, last = int(there[0]), int(there[-1])
        aft = _round_end(x[first], x[first + 1], out[first], out[first + 1], x[max(first - 1, 0)])
        after = x[min(last + 1, len(x) - 1)]
        fore = _round_end(x[last], x[last - 1], out[last], out[last - 1], after)
        before, beyond = np.full(first, aft[0][0]), np.full(len(x) - last - 1, fore[0][0])
        none = (np.full(len(before), aft[1][0]), np.full(len(beyond), fore[1][0]))
        inner = slice(first, last + 1)
        return (
            np.concatenate([before, aft[0], x[inner], fore[0][::-1], beyond]),
            np.concatenate([none[0], aft[1], out[inner], fore[1][::-1], none[1]]),
        )


def _round_end(
    last: float, inner: float, half: float, larger: float, beyond: float
) -> tuple[Floats, Floats]:
    """Return stations and half-breadths beyond the last one, to an end that is round [m].

    Args:
        last: The last station that the line reaches [m].
        inner: The one before it [m].
        half: Half-breadth at the last [m].
        larger: At the one before [m].
        beyond: The next, which it does not reach; the last itself where there is none [m].
    """
    if beyond == last:
        return np.full(len(ROUND), last), np.full(len(ROUND), half)
    reach = abs(beyond - last)
    grows = (larger**2 - half**2) / abs(inner - last)
    far = min(half**2 / grows, reach) if grows > 0.0 else reach
    way = np.sign(beyond - last)
    return last + way * far * (1.0 - ROUND**2), half * ROUND


@with_mesh(1)
def side_of(envelope: Mesh) -> Side:
    """Return the half-breadths of a hull.

    Args:
        envelope: Its outside, all regions together.
    """
    low, high = envelope.bounds
    turn = np.linspace(0.0, np.pi, STATIONS)
    share = EDGE + (1.0 - 2.0 * EDGE) * (0.5 - 0.5 * np.cos(turn))
    x = low[0] + share * (high[0] - low[0])
    z = np.linspace(low[2], high[2], HEIGHTS)
    triangles = envelope.corners
    least, most = triangles[:, :, 0].min(axis=1), triangles[:, :, 0].max(axis=1)
    forward = np.array([1.0, 0.0, 0.0])
    half = np.zeros((STATIONS, HEIGHTS))
    for row, at in enumerate(x):
        lines = segments(triangles[(least <= at) & (most >= at)], forward, float(at))
        half[row] = _widest(lines[:, :, 1], lines[:, :, 2], z)
    top = envelope.vertices[envelope.vertices[:, 2] >= high[2] - 1e-6]
    place = (float(top[:, 0].mean()), 0.0, float(high[2]))
    return Side(x=x, z=z, half=half, bounds=np.stack([low, high]), top=place)


def _widest(y: Floats, up: Floats, z: Floats) -> Floats:
    """Return the greatest distance from the middle line at heights of one section, shape (h,) [m].

    Args:
        y: Ends of the pieces of line of the section, shape (k, 2) [m].
        up: Heights of these, shape (k, 2) [m].
        z: Heights that are asked for, shape (h,) [m].
    """
    if not len(y):
        return np.zeros(len(z))
    rise = up[:, 1] - up[:, 0]
    share = (z[:, None] - up[:, 0]) / np.where(rise == 0.0, 1.0, rise)
    there = (share >= 0.0) & (share <= 1.0) & (rise != 0.0)
    place = np.abs(y[:, 0] + share * (y[:, 1] - y[:, 0]))
    return np.where(there, place, 0.0).max(axis=1)
