"""The loft: from a table of lines to the closed surface of the hull.

Sections are made fair first (girth), then the lines along the hull are run fair through them.
Both use the same batten (curves). Lengthwise it is laid along the surface rather than along x,
so that a blunt bow comes out round.
"""

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.curves import End, fair_slopes, on_curve, shared_out, steps_between
from trimdive.geometry.lines.doubts import doubts
from trimdive.geometry.lines.girth import girth, line_places, lines_in_order, round_steps, spread
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.lines.round import revolve
from trimdive.geometry.lines.sheet import closed_hull
from trimdive.geometry.lines.station import fault
from trimdive.geometry.lines.table import LinesTable

ALONG = 96  # steps from stern to bow [-]
AROUND = 52  # steps from keel to deck centre [-]
ROUND_BELOW = 0.75  # an end whose breadth grows as a lesser power of the distance is round [-]


def loft(
    table: LinesTable, *, along: int = ALONG, around: int = AROUND, axis_z: float | None = None
) -> Mesh:
    """Return the closed surface of a hull, the same on port and starboard.

    Args:
        table: Lines of the hull.
        along: About how many steps lengthwise [-].
        around: About how many steps from keel to deck centre [-].
        axis_z: Height of the axis of a round hull whose table gives none [m].

    Raises:
        GeometryError: A section crosses itself, knuckles cross, or nothing is enclosed.

    Source:
        common practice, no source: sections first, then lines through them.
    """
    if table.layout == "radii":
        return _loft_round(table, along, around, axis_z)
    _check_body(table)
    stations = sorted(table.stations, key=lambda section: section.x)
    girths = [girth(section) for section in stations]
    lines = lines_in_order(stations, table.name)
    places = line_places(stations, girths, lines)
    steps = round_steps(girths, places, around)
    half = np.stack([spread(g, at, steps) for g, at in zip(girths, places, strict=True)])
    return closed_hull(lengthwise(np.array([s.x for s in stations]), half, along))


def _check_body(table: LinesTable) -> None:
    """Say so when a section is no section, with the figure that was likely meant."""
    for section in table.stations:
        if wrong := fault(section):
            raise _no_section(table, section.row, wrong)
    if not any(section.half_area > 0.0 for section in table.stations):
        raise GeometryError(
            "these sections enclose nothing", table.name, "Look at the columns of half-breadths."
        )


def _no_section(table: LinesTable, line: int, wrong: GeometryError) -> GeometryError:
    """Return the error for a section that is none, with the figure that was likely meant."""
    doubted, mend = next(iter(doubts(table)), None), wrong.mend
    if doubted and doubted.likely:
        mend = f"In {doubted.where} {doubted.found} is likely meant as {doubted.likely}."
    return GeometryError(wrong.what, f"{table.name}:{line}", mend)


def _loft_round(table: LinesTable, along: int, around: int, axis_z: float | None) -> Mesh:
    """Return a round hull from its radii."""
    stations = sorted(table.stations, key=lambda section: section.x)
    x = np.array([section.x for section in stations])
    low_high = np.array([(s.points[0, 1], s.points[-1, 1]) for s in stations])
    half = np.stack([np.ptp(low_high, axis=1) / 2.0, low_high.mean(axis=1)], axis=1)[:, None, :]
    if axis_z is not None and table.column("axis") is None:
        half[..., 1] = axis_z
    grid = lengthwise(x, half, along)
    return revolve(grid[:, 0, 0], grid[:, 0, 1], axis_z=grid[:, 0, 2], sides=2 * around)


def lengthwise(x: Floats, half: Floats, along: int) -> Floats:
    """Return points on the fair lines along the hull, in sections that stay upright.

    Args:
        x: Places of the stations, rising, shape (n,) [m].
        half: Half-breadth and height of matching points, shape (n, m, 2) [m].
        along: About how many steps from end to end [-].

    Returns:
        Points of the port half, stern first, keel first, shape (k, m, 3) [m].
    """
    moved = np.linalg.norm(np.diff(half, axis=0), axis=2).max(axis=1)
    t = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(x), moved))])
    stern, bow = _end(x, half), _end(x[::-1], half[::-1])
    slope = np.stack(
        [
            fair_slopes(t, half[..., 0], stern[1], bow[1]),
            fair_slopes(t, half[..., 1], stern[2], bow[2]),
        ],
        axis=2,
    )
    fine = steps_between(t, shared_out(np.diff(t), along, 2))
    forward = on_curve(t, x, fair_slopes(t, x, stern[0], bow[0]), fine)
    yz = on_curve(t, half, slope, fine)
    grid = np.concatenate([np.broadcast_to(forward[:, None, None], (*yz.shape[:2], 1)), yz], axis=2)
    grid[..., 1] = np.maximum(grid[..., 1], 0.0)
    return grid


def _end(x: Floats, half: Floats) -> tuple[End, End, End]:
    """Return how x, half-breadths and heights end at the first of these stations.

    A round end meets its own mirror image there: at a point x is even and the rest odd, at an
    edge x and heights are even and the half-breadths odd. Other ends are left free.
    """
    middle = half[0].mean(axis=0)
    is_point = float(np.ptp(half[0], axis=0).max()) < 1e-9
    if not is_point and float(half[0, :, 0].max()) > 1e-9:
        return "free", "free", "free"
    if is_point:
        width = np.linalg.norm(half[1:3] - middle, axis=2).max(axis=1)
    else:
        width = half[1:3, :, 0].max(axis=1)
    if len(x) < 3 or width.min() <= 0.0:
        return "free", "free", "free"
    power = np.log(width[1] / width[0]) / np.log((x[2] - x[0]) / (x[1] - x[0]))
    if power >= ROUND_BELOW:
        return "free", "free", "free"
    return "level", "straight", "straight" if is_point else "level"
