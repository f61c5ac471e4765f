"""Undo the perspective of a photographed plan by points whose places on the sheet are known.

Four points say how the sheet lay before the lens. More points, or lines known to be straight, also
say how the lens bends; then all of it is fitted at once, and what is left over at each point told.

Source:
    Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd edition, 4.1 and 4.4.4
    (homography by singular values, of figures brought to one size first) and 7.4; from memory.
"""

from itertools import combinations

import numpy as np
from scipy.optimize import least_squares

from trimdive.errors import PlanError
from trimdive.geometry.lines import Floats
from trimdive.plans.sheet import MARKS, Lens, Mark, Sheet, refuse_short
from trimdive.records import record

FLAT = 0.01  # least height of a triangle of three points, as a share of the longest side [-]
BENDS = (-0.14, 0.5)  # least: below −4/27 no point is seen in a corner; most by far [-]
LEAST_LINE = 3  # points that a straight line needs [-]


@record
class Photographed:
    """The sheet of a photographed plan, and what is left over at the known points."""

    sheet: Sheet
    left: Floats  # found less known place of each point, shape (n, 2) [m]

    @property
    def rms(self) -> float:
        """Return the root of the mean square of what is left over [m]."""
        return float(np.sqrt((self.left**2).sum(axis=1).mean()))


def photographed(
    pixels: tuple[Mark, ...],
    places: tuple[tuple[float, float], ...],
    size: tuple[int, int],
    *,
    straight: tuple[tuple[Mark, ...], ...] = (),
) -> Photographed:
    """Return the sheet of a photographed plan.

    Args:
        pixels: Known points as they are seen in the picture; four or more.
        places: The same points on the sheet, x to the right and z up [m].
        size: Width and height of the picture in pixels.
        straight: Points along lines known to be straight, three or more each.

    Raises:
        PlanError: Fewer than four points, points upon each other, three of the four on one line,
            or their order differs between picture and sheet.
    """
    _refuse(pixels, places, straight)
    seen, known = np.array(pixels, dtype=np.float64), np.array(places, dtype=np.float64)
    centre = (size[0] / 2.0, size[1] / 2.0)
    reach = float(np.hypot(*centre))
    bend = 0.0
    if straight or len(pixels) > 4:
        lines = [np.array(line, dtype=np.float64) for line in straight]
        bend = _bend(seen, known, lines, Lens(centre=centre, reach=reach))
    lens = Lens(centre=centre, reach=reach, bend=bend)
    flat = lens.straightened(seen)
    sheet = Sheet(matrix=_facing(homography(flat, known), flat), lens=lens)
    return Photographed(sheet=sheet, left=sheet.at(seen) - known)


def homography(seen: Floats, known: Floats) -> Floats:
    """Return the matrix that takes points of one plane to those of another.

    Args:
        seen: Points of the one, shape (n, 2) with n of 4 or more [-].
        known: The same of the other, shape (n, 2) [m].

    Returns:
        Homogeneous, shape (3, 3), exact for four points, by least squares for more [m].
    """
    (a, from_seen), (b, from_known) = _one_size(seen), _one_size(known)
    rows = np.zeros((2 * len(a), 9))
    rows[0::2, 0:2], rows[0::2, 2] = a, 1.0
    rows[1::2, 3:5], rows[1::2, 5] = a, 1.0
    rows[0::2, 6:8], rows[0::2, 8] = -b[:, :1] * a, -b[:, 0]
    rows[1::2, 6:8], rows[1::2, 8] = -b[:, 1:] * a, -b[:, 1]
    least: Floats = np.linalg.svd(rows)[2][-1].reshape(3, 3)
    return np.linalg.inv(from_known) @ least @ from_seen


def _one_size(points: Floats) -> tuple[Floats, Floats]:
    """Return points about their middle, √2 away in the mean, and the matrix that did it."""
    middle = points.mean(axis=0)
    size = float(np.linalg.norm(points - middle, axis=1).mean()) / np.sqrt(2.0)
    matrix = np.array([[1.0, 0.0, -middle[0]], [0.0, 1.0, -middle[1]], [0.0, 0.0, size]]) / size
    return (points - middle) / size, matrix


def _facing(matrix: Floats, seen: Floats) -> Floats:
    """Return the matrix such that the known points lie before the horizon.

    Raises:
        PlanError: Some lie before it and some behind: their order differs.
    """
    depth = seen @ matrix[2, :2] + matrix[2, 2]
    spun = np.linalg.det(matrix) * np.sign(depth[0])
    if (depth * depth[0] <= 0.0).any() or spun > 0.0:
        what = "the known points stand in another order on the sheet than in the picture"
        raise PlanError(what, MARKS, "Mark each at the place whose figures it has.")
    scale = float(np.abs(depth).mean()) * float(np.sign(depth[0]))
    return matrix / scale


def _bend(seen: Floats, known: Floats, lines: list[Floats], lens: Lens) -> float:
    """Return the bend of the lens that leaves least over at points and along lines [-]."""

    def left(bend: Floats) -> Floats:
        own = Lens(centre=lens.centre, reach=lens.reach, bend=float(bend[0]))
        return np.concatenate([_off_points(seen, known, own), *(_off(x, own) for x in lines)])

    fitted = least_squares(left, [0.0], bounds=BENDS, x_scale=0.05)
    return float(fitted.x[0])


def _off_points(seen: Floats, known: Floats, lens: Lens) -> Floats:
    """Return how far the known points are seen from where they would be, in pixels [-]."""
    if len(seen) == 4:
        return np.zeros(0)
    matrix = homography(lens.straightened(seen), known)
    return (Sheet(matrix=matrix, lens=lens).pixels(known) - seen).ravel()


def _off(line: Floats, lens: Lens) -> Floats:
    """Return how far points lie off their straight line, in pixels [-]."""
    flat = lens.straightened(line)
    out = flat - flat.mean(axis=0)
    return out @ np.linalg.svd(out, full_matrices=False)[2][1]


def _refuse(
    pixels: tuple[Mark, ...],
    places: tuple[tuple[float, float], ...],
    straight: tuple[tuple[Mark, ...], ...],
) -> None:
    """Refuse points that do not tell how the sheet lies.

    Raises:
        PlanError: Too few, upon each other, or on one line.
    """
    if len(pixels) != len(places) or len(pixels) < 4:
        what = f"{min(len(pixels), len(places))} points are known, and four are needed"
        raise PlanError(what, MARKS, "Mark four corners and enter the place of each.")
    for start, end in combinations(pixels, 2):
        refuse_short(start, end)
    for start, end in combinations(places, 2):
        if start == end:
            what = f"two known points have one place, {start[0]:g} m, {start[1]:g} m"
            raise PlanError(what, MARKS, "Enter the place of each on the sheet.")
    for points in (pixels, places):
        if not _spread_out(np.array(points, dtype=np.float64)):
            which = "the" if len(pixels) > 4 else "three of these"
            what = f"{which} known points lie on one line"
            raise PlanError(what, MARKS, "Take the four corners of a frame, or of the sheet.")
    for line in straight:
        if len(line) < LEAST_LINE:
            what = f"a straight line has {len(line)} marks"
            raise PlanError(what, MARKS, "Give it three or more, both ends among them.")
        refuse_short(line[0], line[-1])


def _spread_out(points: Floats) -> bool:
    """Return whether four of the points are such that no three of them lie on one line."""
    return any(
        all(_height(points[list(three)]) > FLAT for three in combinations(four, 3))
        for four in combinations(range(len(points)), 4)
    )


def _height(corners: Floats) -> float:
    """Return the height of a triangle as a share of its longest side [-]."""
    a, b = corners[1] - corners[0], corners[2] - corners[0]
    longest = max(float(np.hypot(*side)) for side in (a, b, b - a))
    return abs(float(a[0] * b[1] - a[1] * b[0])) / longest**2 if longest else 0.0
