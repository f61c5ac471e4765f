"""Level a scanned plan, and undo its stretch, which differs along and up.

Lines known to be level, and lines known to be upright, say how the sheet lies; without upright
ones they are taken square to the level ones. Known lengths along say how long a pixel is along,
those up how long up: one each suffices, of more the best fit is taken and what is left over told.
"""

import numpy as np

from trimdive.errors import PlanError
from trimdive.geometry.lines import Floats
from trimdive.plans.sheet import MARKS, Known, Lens, Mark, Sheet, refuse_no_length, refuse_short
from trimdive.records import record

Line = tuple[Mark, Mark]
SLANT = 0.3  # least share of a known length that must run the way it is known [-]
SQUARE = 0.5  # least sine of the angle between level and upright lines [-]


@record
class Levelled:
    """A levelled sheet, and how well the known lengths go together."""

    sheet: Sheet
    along: float  # length of a pixel along [m]
    up: float  # length of a pixel up [m]
    turn: float  # by which the plan stood turned in the picture, positive clockwise [rad]
    left_along: Floats  # measured less true of each length along, shape (n,) [m]
    left_up: Floats  # the same of each length up, shape (m,) [m]

    @property
    def stretch(self) -> float:
        """Return how much longer a pixel is along than up [-]."""
        return self.along / self.up


def level(
    lines: tuple[Line, ...],
    along: tuple[Known, ...],
    up: tuple[Known, ...],
    *,
    upright: tuple[Line, ...] = (),
    lens: Lens | None = None,
) -> Levelled:
    """Return the sheet of a scanned plan.

    Args:
        lines: Lines known to be level, each from its left end to its right one.
        along: Known lengths along; of each only what runs level counts.
        up: Known lengths up; of each only what runs upright counts.
        upright: Lines known to be upright, each from below to above; none: square to the others.
        lens: Its bend, where one was found.

    Raises:
        PlanError: Marks upon each other, no length, or a length that runs the other way.
    """
    if not lines:
        raise PlanError("no line is known to be level", MARKS, "Mark both ends of the base line.")
    for known, word in ((along, "along"), (up, "up")):
        if not known:
            what = f"no length is known {word}"
            raise PlanError(what, MARKS, "Mark both ends of one and enter its true length.")
    lens = lens or Lens()
    right = _direction(lines, lens)
    above = _direction(upright, lens) if upright else np.array([right[1], -right[0]])
    sine = float(right[1] * above[0] - right[0] * above[1])
    if sine < SQUARE:
        what = "a line marked as upright runs along, or from above to below"
        raise PlanError(what, MARKS, "Mark it from below to above, the level one to the right.")
    to_right = np.array([-above[1], above[0]]) / sine  # nothing along an upright line
    to_top = np.array([right[1], -right[0]]) / sine  # nothing along a level line
    rows: list[Floats] = []
    left: list[Floats] = []
    for known, way in ((along, to_right), (up, to_top)):
        pitch, off = _pitch(known, way, lens)
        rows.append(pitch * way)
        left.append(off)
    matrix = np.zeros((3, 3))
    matrix[:2, :2], matrix[2, 2] = rows, 1.0
    return Levelled(
        sheet=Sheet(matrix=matrix, lens=lens),
        along=float(rows[0] @ right),
        up=float(rows[1] @ above),
        turn=float(np.arctan2(right[1], right[0])),
        left_along=left[0],
        left_up=left[1],
    )


def _direction(lines: tuple[Line, ...], lens: Lens) -> Floats:
    """Return the one direction of some lines, the long ones counting most, shape (2,) [-]."""
    for start, end in lines:
        refuse_short(start, end)
    ways = _ways(lines, lens)
    tensor = ways.T @ ways
    way: Floats = np.linalg.eigh(tensor)[1][:, 1]
    return way if float(way @ ways.sum(axis=0)) > 0.0 else -way


def _ways(lines: tuple[Line, ...], lens: Lens) -> Floats:
    """Return from start to end of each line, shape (n, 2) [-]."""
    ends = lens.straightened(np.array(lines, dtype=np.float64).reshape(-1, 2)).reshape(-1, 2, 2)
    return ends[:, 1] - ends[:, 0]


def _pitch(known: tuple[Known, ...], way: Floats, lens: Lens) -> tuple[float, Floats]:
    """Return the length of a pixel one way by least squares [m], and what is left over [m]."""
    for one in known:
        refuse_short(one.start, one.end)
        refuse_no_length(one.length)
    ways = _ways(tuple((one.start, one.end) for one in known), lens)
    shares = np.abs(ways @ way)
    whole = np.linalg.norm(ways, axis=1)
    if (shares < SLANT * whole).any():
        what = "a known length runs across the way that it was marked for"
        raise PlanError(what, MARKS, "Mark it as a length along or up, whichever it is.")
    lengths = np.array([one.length for one in known])
    pitch = float(lengths @ shares / (shares @ shares))
    return pitch, pitch * shares - lengths
