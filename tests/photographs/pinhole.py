"""A boat afloat as a pinhole with a lens sees her: nothing of it is the program's own.

The camera is a 3 by 4 matrix K [R | -R C] (any text on projective geometry; from memory), its lens
one radial term r (1 + k r²) about the place where it looks, r = 1 half the picture's diagonal away.
The water's edge is cut out of the triangles one by one, by similar triangles.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, kw_only=True)
class Pinhole:
    """A camera."""

    at: Floats  # where it stands [m]
    ahead: Floats  # where it looks, of length 1 [-]
    roll: float  # [rad]
    focal: float  # in pixels
    size: tuple[int, int]
    looks: tuple[float, float] = (0.0, 0.0)  # from the middle of the picture, in pixels
    bend: float = 0.0

    @property
    def turn(self) -> Floats:
        """Return right, down and ahead."""
        right = np.cross(self.ahead, UP)
        right /= np.linalg.norm(right)
        down = np.cross(self.ahead, right)
        c, s = np.cos(self.roll), np.sin(self.roll)
        return np.stack([c * right + s * down, c * down - s * right, self.ahead])

    def sees(self, places: Floats) -> Floats:
        """Return pixels of places, shape (n, 2)."""
        centre = np.array(self.size) / 2.0 + self.looks
        k = np.array([[self.focal, 0.0, centre[0]], [0.0, self.focal, centre[1]], [0.0, 0.0, 1.0]])
        matrix = k @ np.column_stack([self.turn, -self.turn @ self.at])
        seen = np.column_stack([places, np.ones(len(places))]) @ matrix.T
        flat = seen[:, :2] / seen[:, 2:] - centre
        r = np.linalg.norm(flat, axis=1, keepdims=True) / (np.hypot(*self.size) / 2.0)
        return centre + flat * (1.0 + self.bend * r**2)


def pinhole(
    about: Floats, around: float, above: float, far: float, fill: float, length: float,
    size: tuple[int, int] = (4000, 3000), roll: float = 0.0, aside: Floats | None = None,
    looks: tuple[float, float] = (0.0, 0.0), bend: float = 0.0,
) -> Pinhole:  # fmt: skip
    """Return a camera that stands around a place and sees a length over a share of its picture."""
    way = np.array([np.cos(above) * np.cos(around), np.cos(above) * np.sin(around), np.sin(above)])
    ahead = -far * way + (np.zeros(3) if aside is None else aside)
    return Pinhole(
        at=about + far * way, ahead=ahead / np.linalg.norm(ahead), roll=roll,
        focal=fill * size[0] * far / length, size=size, looks=looks, bend=bend,
    )  # fmt: skip


def plane_of(draught: float, trim: float, heel: float, x: float) -> tuple[Floats, float]:
    """Return the water n·r = d by a draught at x, trim bow down, heel to starboard [rad]."""
    n = np.array([-np.sin(trim), np.cos(trim) * np.sin(heel), np.cos(trim) * np.cos(heel)])
    return n, float(n[0] * x + n[2] * draught)


def waters_edge(corners: Floats, n: Floats, d: float) -> tuple[Floats, Floats]:
    """Return points where water cuts triangles, and what is outward there, shape (k, 3) each.

    Args:
        corners: Of triangles, anticlockwise from outside, shape (m, 3, 3) [m].
        n: Upwards, of length 1.
        d: Height of the water along it [m].
    """
    points: list[Floats] = []
    outward: list[Floats] = []
    height = corners @ n - d
    for triangle, h in zip(corners, height, strict=True):
        if h.min() >= 0.0 or h.max() < 0.0:
            continue
        ends = []
        for one, other in ((0, 1), (1, 2), (2, 0)):
            if (h[one] >= 0.0) != (h[other] >= 0.0):
                share = h[one] / (h[one] - h[other])
                ends.append(triangle[one] + share * (triangle[other] - triangle[one]))
        normal = np.cross(triangle[1] - triangle[0], triangle[2] - triangle[0])
        for share in (0.1, 0.3, 0.5, 0.7, 0.9):
            points.append(ends[0] + share * (ends[1] - ends[0]))
            outward.append(normal / max(np.linalg.norm(normal), 1e-30))
    return np.array(points), np.array(outward)


def seen_edge(camera: Pinhole, corners: Floats, n: Floats, d: float) -> Floats:
    """Return points of the water's edge that face a camera and lie outmost there, shape (k, 3)."""
    points, outward = waters_edge(corners, n, d)
    level = outward - np.outer(outward @ n, n)
    level /= np.maximum(np.linalg.norm(level, axis=1, keepdims=True), 1e-30)
    way = camera.at - points
    way /= np.linalg.norm(way, axis=1, keepdims=True)
    faces = (level * way).sum(axis=1) > 0.1
    return points[faces]
