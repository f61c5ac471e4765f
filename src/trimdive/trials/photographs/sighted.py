"""One photograph from its marks to how she lies, and what further points would make it surer."""

import numpy as np

from trimdive.boatfile import Boat
from trimdive.errors import PlanError
from trimdive.geometry.lines import Floats
from trimdive.plans.marks import Marks
from trimdive.records import record
from trimdive.trials.photographs.camera import ABOVE, AROUND, SIZE, Frame, seen
from trimdive.trials.photographs.fitted import Sight, by_points, fitted, with_spots
from trimdive.trials.photographs.marked import refuse_off_her, view_of
from trimdive.trials.photographs.problem import View
from trimdive.trials.photographs.side import Side
from trimdive.trials.photographs.together import TOLD
from trimdive.uncertainty import WIDE

OPEN = (0.05, np.deg2rad(3.0))  # draught, as a share of her height, and trim that are told no more
GAINS = 0.8  # a further point must leave no more than this of the spread [-]
KEPT_OFF = 0.05  # of her length: a point nearer to one that is marked is no further one [-]


@record
class Further:
    """A further point that would make it surer."""

    what: str  # "top", "foremost", "aftmost" or "side"
    x: float  # [m]
    z: float  # [m]
    half: float  # ± of the draught amidships with it, 95 % [m]
    was: float  # without it [m]


@record
class Sighted:
    """One photograph."""

    view: View
    sight: Sight
    further: tuple[Further, ...]  # the most telling first

    @property
    def half(self) -> float:
        """Return the ± of the draught amidships, as it is told, 95 % [m]."""
        return half_of(self.sight.spread)

    @property
    def rms(self) -> float:
        """Return how far the clicks lie from the water as found, in pixels [-]."""
        return float(np.sqrt((self.sight.left**2).mean()))

    @property
    def worth(self) -> float:
        """Return what a pixel is worth at her [m]."""
        return float(np.exp(-self.sight.camera[SIZE]))

    @property
    def above(self) -> float:
        """Return how high above the water the camera stood, seen from her [rad]."""
        around, own = self.sight.camera[AROUND], self.sight.camera[ABOVE]
        rise = self.sight.plane[1] * np.cos(around) + self.sight.plane[2] * np.sin(around)
        return float(own - np.arctan(rise))

    @property
    def amiss(self) -> int:
        """Return the point that lies farthest off its place as entered, from zero."""
        return int(np.argmax(self.sight.amiss))


def half_of(spread: Floats) -> float:
    """Return the ± of the draught amidships, on the side that is seen if no heel is told, 95 % [m].

    Args:
        spread: Covariance of the water's plane, shape (3, 3) [m].
    """
    square = float(spread[0, 0])
    if float(np.sqrt(spread[2, 2])) > TOLD:
        square -= float(spread[0, 2] ** 2 / spread[2, 2])
    return WIDE * float(np.sqrt(square))


def sighted(marks: Marks, size: tuple[int, int], focal: float, boat: Boat, side: Side) -> Sighted:
    """Return how she lies by one photograph.

    Args:
        marks: What was marked and typed.
        size: Width and height of the picture in pixels.
        focal: Focal length in pixels, 0 where the file does not say it [-].
        boat: For her units, and the end that is measured from.
        side: Her hull.

    Raises:
        TrimdiveError: Marks are missing or cannot be, or leave open how she lies.
    """
    view = view_of(marks, size, focal, boat, side)
    if len(view.around) == 1:
        refuse_off_her(view, by_points(view, view.around[0]), boat)
    sight = fitted(view)
    found = Sighted(view=view, sight=sight, further=_further(view, sight))
    if found.half > WIDE * OPEN[0] * side.height or np.sqrt(sight.spread[1, 1]) > OPEN[1]:
        far = boat.units.write(found.half, "length")
        what = f"the points leave the water open by {far} up and down"
        mend = "Mark one more, far from the others: at her other end, or up on her tower."
        raise PlanError(what, "point-1", mend)
    return found


def _further(view: View, sight: Sight) -> tuple[Further, ...]:
    """Return points of her that would make the draught surer, the most telling first."""
    was = half_of(sight.spread)
    found: list[Further] = []
    for what, place in _places(view, sight):
        taken = [np.linalg.norm(np.subtract(one.place, place)) for one in view.spots]
        if min(taken) < KEPT_OFF * view.side.length or not _is_in(view.frame, sight, place):
            continue
        half = half_of(with_spots(view, sight, [place]))
        if half < GAINS * was:
            found.append(Further(what=what, x=place[0], z=place[2], half=half, was=was))
    return tuple(sorted(found, key=lambda one: one.half))


def _places(view: View, sight: Sight) -> list[tuple[str, tuple[float, float, float]]]:
    """Return places on her that a builder finds easily."""
    side = view.side
    level = float(sight.plane[0])
    high = (level + float(side.bounds[1, 2])) / 2.0
    toward = float(np.sign(np.sin(view.around[0]))) if abs(np.sin(view.around[0])) > 0.5 else 1.0
    column = side.half[len(side.x) // 2]
    deck = float(side.z[np.flatnonzero(column > 0.0)[-1]]) if column.any() else high
    up = min((level + deck) / 2.0, deck)
    return [
        ("top", side.top),
        ("foremost", (float(side.bounds[1, 0]), 0.0, level)),
        ("aftmost", (float(side.bounds[0, 0]), 0.0, level)),
        ("side", (side.middle, toward * side.out(side.middle, up), up)),
    ]


def _is_in(frame: Frame, sight: Sight, place: tuple[float, float, float]) -> bool:
    """Return whether a place is seen in the picture."""
    x, y = seen(frame, sight.camera, np.array([place]))[0].tolist()
    return 0.0 <= x < frame.size[0] and 0.0 <= y < frame.size[1]
