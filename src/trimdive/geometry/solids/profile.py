"""The hull as it is seen from the side and from above: how far out of it a box stands."""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.records import short

BINS = 48  # along the hull [-]
PLANES = 2.0  # so many times as broad as the hull diving planes may be [-]
FLAT = 0.25  # height over breadth below which a thing may be a plane [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Keel, top and half-breadths of a hull along it."""

    __repr__ = short

    aft: float  # its after end [m]
    fore: float  # its fore end [m]
    low: Floats  # lowest point in each bin, shape (BINS,) [m]
    high: Floats  # highest point in each bin, shape (BINS,) [m]
    breadth: Floats  # greatest distance from the middle in each bin, shape (BINS,) [m]

    @property
    def length(self) -> float:
        """Return her length [m]."""
        return self.fore - self.aft

    def _bins(self, aft: float, fore: float) -> slice:
        scale = BINS / self.length
        first = min(max(int((aft - self.aft) * scale), 0), BINS - 1)
        last = min(max(int((fore - self.aft) * scale), first), BINS - 1)
        return slice(first, last + 1)

    def beyond(self, middle: tuple[float, float, float], half: tuple[float, float, float]) -> float:
        """Return how far a box stands out of the hull one way, at the most [m].

        Args:
            middle: Its middle [m].
            half: Half its length, breadth and height; less than nothing for its near side [m].
        """
        x, y, z = middle
        a, b, c = half
        part = self._bins(x - abs(a), x + abs(a))
        return max(
            self.aft - (x - a),
            x + a - self.fore,
            abs(y) + b - float(self.breadth[part].max()),
            float(self.low[part].min()) - (z - c),
            z + c - float(self.high[part].max()),
            0.0,
        )

    def larger(self, size: tuple[float, float, float]) -> float:
        """Return how much larger than the whole hull a thing is one way, as a share [-].

        What is flat and broader than long may be twice as broad as the hull: diving planes are.

        Args:
            size: Its length, breadth and height [m].
        """
        long, broad, high = size
        is_plane = high < FLAT * broad and long < broad
        beam = 2 * float(self.breadth.max()) * (PLANES if is_plane else 1.0)
        tall = float(self.high.max() - self.low.min())
        return max(long / self.length, broad / beam, high / tall, 1.0) - 1.0

    def rise(self, x: float, z: float) -> float:
        """Return how high a point lies between keel and top there, as a share of that height [-].

        Args:
            x: Along the hull [m].
            z: Its height [m].
        """
        low, high = float(self.low[self._bins(x, x)][0]), float(self.high[self._bins(x, x)][0])
        return (z - low) / max(high - low, 1e-9)


@with_mesh(1)
def profile(envelope: Mesh) -> Profile:
    """Return keel, top and half-breadths along a hull.

    Args:
        envelope: Its outside shape.
    """
    corners = envelope.corners
    (aft, _, floor), (fore, _, top) = envelope.bounds
    scale = BINS / float(fore - aft)
    first = np.clip(((corners[..., 0].min(axis=1) - aft) * scale).astype(int), 0, BINS - 1)
    last = np.clip(((corners[..., 0].max(axis=1) - aft) * scale).astype(int), 0, BINS - 1)
    low, high = np.full(BINS, float(top)), np.full(BINS, float(floor))
    breadth = np.zeros(BINS)
    for k in range(BINS):
        here = corners[(first <= k) & (last >= k)]
        if len(here):
            low[k], high[k] = here[..., 2].min(), here[..., 2].max()
            breadth[k] = np.abs(here[..., 1]).max()
    return Profile(aft=float(aft), fore=float(fore), low=low, high=high, breadth=breadth)
