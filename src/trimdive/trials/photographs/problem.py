"""What is known of one photograph of the boat afloat, and what is left over of it by a camera.

Unknown are the camera (place, turn, focal length, where its lens looks and how that bends), the
plane of the water, how much wider the hull is than her lines, and the true places of the points
that were marked. What is known of them beforehand is common practice, no source: a camera held by
hand beside a tub, about square to her, somewhat above the water, about level; a boat about upright.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines import Floats
from trimdive.plans.sheet import Mark
from trimdive.trials.photographs.camera import (
    ABOVE,
    AROUND,
    BEND,
    DOWN,
    FAR,
    LENGTHS,
    PAN,
    RIGHT,
    ROLL,
    SIZE,
    TILT,
    Frame,
    seen,
)
from trimdive.trials.photographs.edge import nearest_pieces, off_edge
from trimdive.trials.photographs.side import Side

PLANE = slice(LENGTHS, LENGTHS + 3)  # where the plane of the water stands among the unknowns
HEIGHT, TRIM, HEEL, WIDER = LENGTHS, LENGTHS + 1, LENGTHS + 2, LENGTHS + 3
OWN = LENGTHS + 4  # unknowns before the places of points
USUAL = {  # what is known beforehand: the middle, and the standard deviation
    ABOVE: (np.deg2rad(8.0), np.deg2rad(12.0)),
    ROLL: (0.0, np.deg2rad(6.0)),
    RIGHT: (0.0, 0.03),
    DOWN: (0.0, 0.03),
    BEND: (0.0, 0.03),
    PAN: (0.0, 0.4),
    TILT: (0.0, 0.4),
    TRIM: (0.0, np.tan(np.deg2rad(10.0))),
    HEEL: (0.0, np.tan(np.deg2rad(5.0))),
}
ASKEW = np.deg2rad(20.0)  # how far from square the camera stands, standard deviation [rad]
DISTANCE = (2.5, 0.8)  # of the camera in lengths of the boat, and its spread as a logarithm [-]
FOCAL = (1.2, 0.7)  # focal length as a share of the longer side, and its spread as a logarithm [-]
STATED = 0.05  # spread of a focal length that the file states, as a logarithm [-]
STEP = 1e-6  # by which camera and points are moved for slopes, in their own units [-]
# The same of the water and the skin: more than stations make of the hull's ends.
COARSE = {HEIGHT: 1e-3, TRIM: 2e-3, HEEL: 1e-2, WIDER: 5e-4}


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A point of her whose place is known, and where it is seen."""

    at: Mark  # in the picture
    place: tuple[float, float, float]  # on her [m]
    off: tuple[float, float, float]  # standard deviation of it, each way [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """All that is known of one picture."""

    frame: Frame
    spots: tuple[Spot, ...]
    clicks: Floats  # along the water's edge, shape (n, 2) [-]
    side: Side
    around: tuple[float, ...]  # from where she may be seen, from ahead to port [rad]
    focal: float  # focal length in pixels, 0 where the file does not state it [-]
    skin: float  # standard deviation of her half-breadth [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """What is left over of a picture, each by its spread, and its slopes."""

    view: View
    around: float  # from where she is taken to be seen, from ahead to port [rad]
    edges: Floats  # standard deviation of each click of the edge, in pixels, shape (n,) [-]
    click: float  # the same of a click at a point [-]

    @property
    def usual(self) -> tuple[Floats, Floats]:
        """Return middle and spread of every unknown beforehand, shape (14 + 3 m,)."""
        middle, spread = np.zeros(OWN), np.full(OWN, np.inf)
        for at, (mean, off) in USUAL.items():
            middle[at], spread[at] = mean, off
        middle[AROUND], spread[AROUND] = self.around, ASKEW
        middle[FAR], spread[FAR] = np.log(DISTANCE[0] * self.view.side.length), DISTANCE[1]
        middle[HEIGHT], spread[HEIGHT] = self.view.side.bounds[:, 2].mean(), self.view.side.height
        spread[WIDER] = self.view.skin
        places = np.array([one.place for one in self.view.spots]).ravel()
        offs = np.array([one.off for one in self.view.spots]).ravel()
        return np.concatenate([middle, places]), np.concatenate([spread, offs])

    @property
    def focal(self) -> tuple[float, float]:
        """Return the logarithm of the focal length beforehand, and its spread [-]."""
        if self.view.focal > 0.0:
            return float(np.log(self.view.focal)), STATED
        return float(np.log(FOCAL[0] * max(self.view.frame.size))), FOCAL[1]

    def outline(self, found: Floats) -> Floats:
        """Return the water's edge on her, shape (k, 3) [m]."""
        return self.view.side.outline(found[PLANE], float(found[WIDER]))

    def pieces(self, found: Floats, outline: Floats) -> NDArray[np.int64]:
        """Return which piece of the water's edge lies nearest to each click, shape (n,)."""
        return nearest_pieces(self.view.frame, found[:LENGTHS], outline, self.view.clicks)

    def edge(self, found: Floats, outline: Floats, pieces: NDArray[np.int64]) -> Floats:
        """Return how far clicks are seen from those pieces, to either side, shape (n,) [-]."""
        return off_edge(self.view.frame, found[:LENGTHS], outline, self.view.clicks, pieces)

    def off(self, found: Floats) -> Floats:
        """Return how far clicks are seen from the water's edge, to either side, shape (n,) [-]."""
        outline = self.outline(found)
        return self.edge(found, outline, self.pieces(found, outline))

    def points(self, found: Floats) -> Floats:
        """Return how far points are seen from where they were clicked, shape (m, 2) [-]."""
        at = np.array([one.at for one in self.view.spots])
        return seen(self.view.frame, found[:LENGTHS], found[OWN:].reshape(-1, 3)) - at

    def left(self, found: Floats) -> Floats:
        """Return all that is left over: clicks, points, then what was known beforehand."""
        middle, spread = self.usual
        focal, loose = self.focal
        known = (found - middle) / spread
        stated = (found[SIZE] + found[FAR] - focal) / loose
        edge = self.off(found) / self.edges
        return np.concatenate([edge, self.points(found).ravel() / self.click, known, [stated]])

    def slopes(self, found: Floats) -> Floats:
        """Return how what is left over grows with every unknown, shape (r, 14 + 3 m)."""
        edges, points = len(self.view.clicks), 2 * len(self.view.spots)
        slopes = np.zeros((edges + points + len(found) + 1, len(found)))
        outline = self.outline(found)
        pieces = self.pieces(found, outline)
        edge, off = self.edge(found, outline, pieces), self.points(found)
        for at in range(LENGTHS):
            after = found.copy()
            after[at] += STEP
            grows = np.concatenate(
                [self.edge(after, outline, pieces) - edge, (self.points(after) - off).ravel()]
            )
            slopes[: edges + points, at] = grows / STEP
        for at, step in COARSE.items():
            two: list[Floats] = []
            for way in (step, -step):
                moved = found.copy()
                moved[at] += way
                two.append(self.edge(moved, self.outline(moved), pieces))
            slopes[:edges, at] = (two[0] - two[1]) / (2.0 * step)
        for axis in range(3):
            after = found.copy()
            after[OWN + axis :: 3] += STEP
            grows = (self.points(after) - off) / STEP
            for number, row in enumerate(grows):
                first = edges + 2 * number
                slopes[first : first + 2, OWN + 3 * number + axis] = row
        slopes[:edges] /= self.edges[:, None]
        slopes[edges : edges + points] /= self.click
        slopes[edges + points : -1] = np.diag(1.0 / self.usual[1])
        slopes[-1, [SIZE, FAR]] = 1.0 / self.focal[1]
        return slopes
