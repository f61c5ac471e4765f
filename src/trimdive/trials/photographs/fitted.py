"""What one photograph of the boat afloat tells: the water's plane in her own axes, and how surely.

All that is unknown is found at once as what makes clicks, points and what is known beforehand
likeliest (least squares, each by its spread); how surely follows from the same normal equations.
Where clicks lie farther apart than a pixel, their spread is taken from what is left over.

Source:
    Triggs, McLauchlan, Hartley and Fitzgibbon, Bundle adjustment: a modern synthesis, 2000 (all
    unknowns at once, normal equations); from memory.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
from scipy.optimize import least_squares
from scipy.stats import chi2

from trimdive.geometry.lines import Floats
from trimdive.records import record
from trimdive.trials.photographs.camera import (
    ABOVE,
    AROUND,
    FAR,
    LENGTHS,
    PAN,
    SIZE,
    TILT,
    axes,
    seen,
)
from trimdive.trials.photographs.edge import drawn_edge
from trimdive.trials.photographs.problem import (
    FOCAL,
    HEIGHT,
    OWN,
    PLANE,
    STEP,
    Problem,
    View,
)

CLICK = 1.0  # standard deviation of a click, in pixels [-]
WORTH = 2.0  # of what is known of a click's spread beforehand, as so many clicks more [-]
LEAST_CLICK = 0.25  # no hand is finer, in pixels [-]
GOOD = 1.0  # left over of each, squared, with which no other start is tried [-]
LEAST_STARTS = 2  # from which it is looked for at least [-]
SLOPED = 0.5  # how far lines are off, each place for itself, as a share of the skin's spread [-]
ROUNDS = 2  # in which the spread of clicks settles
SURE = 0.95  # beyond which it is said that things do not go together [-]
ABOVES = np.deg2rad([4.0, 15.0])  # how high above her a camera is looked for first [rad]
TRIMS = np.tan(np.deg2rad([0.0, 2.0, -2.0, 5.0, -5.0]))  # slopes of the water that are tried [-]
HEELS = np.tan(np.deg2rad([0.0, 5.0, -5.0]))  # the same across [-]
LEVELS = 25  # heights at which the water is looked for first [-]


@record
class Sight:
    """The water's plane by one picture."""

    plane: Floats  # height amidships, slopes forward and to port, shape (3,) [m]
    spread: Floats  # its covariance, shape (3, 3)
    noise: Floats  # the part of it that another picture of the same points does not share
    camera: Floats  # shape (10,) [-]
    click: float  # standard deviation of a click, as it was found, in pixels [-]
    left: Floats  # how far each click of the edge lies from the water as found, shape (n,) [-]
    amiss: Floats  # how far points lie off their places, in their spreads, shape (m,) [-]
    pixel: float  # what a pixel is worth at her [m]
    misfit: float  # chi-square over what it should be [-]
    agrees: bool  # whether that may be chance
    drawn: Floats  # the water's edge as found, in pixels, shape (k, 2) [-]
    normal: Floats  # normal equations of camera and water, shape (14, 14)


def fitted(view: View) -> Sight:
    """Return the water's plane by one picture.

    Args:
        view: What was marked on it, and what is known.
    """
    best: tuple[float, Problem, Floats] | None = None
    enough = GOOD * (len(view.clicks) + 2 * len(view.spots))
    for number, (problem, found) in enumerate(_starts(view), 1):
        for _ in range(ROUNDS):
            problem = _weighed(problem, found, CLICK)
            found = _solved(problem, found)
        plain = replace(problem, edges=np.full(len(view.clicks), CLICK))
        cost = float((plain.left(found) ** 2).sum())
        if best is None or cost < best[0]:
            best = cost, problem, found
        if best[0] < enough and number >= LEAST_STARTS:
            break
    if best is None:
        raise AssertionError("a picture is looked at from nowhere")
    _, problem, found = best
    for _ in range(ROUNDS):
        problem = _weighed(problem, found, _click(problem, found))
        found = _solved(problem, found)
    return _sight(problem, found)


def _weighed(problem: Problem, found: Floats, click: float) -> Problem:
    """Return the problem with clicks by their spreads: of the hand, and of lines that lie sloping.

    Where the skin slopes into the water, as on a deck that is just awash, lines that are off a
    little move the water's edge by much.
    """
    grows = problem.slopes(found)[: len(problem.edges), HEIGHT] * problem.edges
    upright = np.exp(found[SIZE])
    excess = np.sqrt(np.maximum(grows**2 - upright**2, 0.0))
    edges = np.hypot(click, SLOPED * problem.view.skin * excess)
    return replace(problem, edges=edges, click=click)


def _starts(view: View) -> Iterator[tuple[Problem, Floats]]:
    """Yield where looking for the water begins: a camera by the points alone, then a plane.

    Planes are tried on a grid; of those with one trim the nearest to the clicks is taken.
    """
    edges = np.full(len(view.clicks), CLICK)
    for around in view.around:
        for above in ABOVES:
            problem = Problem(view=view, around=around, edges=edges, click=CLICK)
            found = by_points(view, around, float(above))
            tried: list[tuple[float, Floats]] = []
            for trim in TRIMS:
                near = [_near(problem, found, plane) for plane in _planes(view, float(trim))]
                tried.append(min(near, key=lambda one: one[0]))
            for _, begun in sorted(tried, key=lambda one: one[0]):
                yield problem, begun


def by_points(view: View, around: float, above: float = float(ABOVES[0])) -> Floats:
    """Return the camera as the points alone have it, and all else as it is taken to be.

    Args:
        view: The picture.
        around: From where she is seen, from ahead to port [rad].
        above: How high above her the camera is looked for first [rad].
    """
    bare = replace(view, clicks=np.zeros((0, 2)))
    alone = Problem(view=bare, around=around, edges=np.zeros(0), click=CLICK)
    return _solved(alone, _start(view, around, above))


def _planes(view: View, trim: float) -> Iterator[Floats]:
    """Yield planes of the water with one trim, shape (3,) each."""
    low, high = view.side.bounds[:, 2].tolist()
    heights = np.linspace(low, high, LEVELS)[1:-1]
    for heel in HEELS:
        for height in heights:
            yield np.array([height, trim, float(heel)])


def _near(problem: Problem, found: Floats, plane: Floats) -> tuple[float, Floats]:
    """Return how far clicks lie from a plane's edge in the mean, in pixels, and all unknowns."""
    begun = found.copy()
    begun[PLANE] = plane
    return float(np.abs(problem.off(begun)).mean()), begun


def _start(view: View, around: float, above: float) -> Floats:
    """Return where looking for the camera begins: square to her, level, points about in place."""
    camera = np.zeros(LENGTHS)
    camera[AROUND], camera[ABOVE] = around, above
    places = np.array([one.place for one in view.spots])
    at = np.array([one.at for one in view.spots])
    flat = (places - view.frame.about) @ axes(camera)[:2].T
    out, seen_out = flat - flat.mean(axis=0), at - at.mean(axis=0)
    size = float(np.linalg.norm(seen_out)) / max(float(np.linalg.norm(out)), 1e-9)
    focal = view.focal or FOCAL[0] * max(view.frame.size)
    camera[SIZE], camera[FAR] = np.log(size), np.log(focal / size)
    aside = at.mean(axis=0) - size * flat.mean(axis=0) - view.frame.middle
    camera[[PAN, TILT]] = np.arctan(aside / focal)
    height = float(view.side.bounds[:, 2].mean())
    return np.concatenate([camera, [height, 0.0, 0.0, 0.0], places.ravel()])


def _solved(problem: Problem, start: Floats) -> Floats:
    """Return what makes all that is left over least."""
    slopes: Any = problem.slopes  # named as a word there, and may be a function
    found = least_squares(problem.left, start, jac=slopes, x_scale="jac", max_nfev=60)
    return np.asarray(found.x, dtype=np.float64)


def _click(problem: Problem, found: Floats) -> float:
    """Return the standard deviation of a click by what is left over, in pixels [-].

    What is known of it beforehand counts as some clicks more.
    """
    edges = len(problem.view.clicks)
    slopes = problem.slopes(found)
    rows = slopes[:edges]
    taken = float(np.einsum("ij,jk,ik->", rows, np.linalg.inv(slopes.T @ slopes), rows))
    edge = problem.off(found) * problem.click / problem.edges
    free = WORTH + max(edges - taken, 0.0)
    return max(float(np.sqrt((WORTH * CLICK**2 + float(edge @ edge)) / free)), LEAST_CLICK)


def _sight(problem: Problem, found: Floats) -> Sight:
    """Return the water's plane as found, with how surely."""
    view = problem.view
    slopes, left = problem.slopes(found), problem.left(found)
    edges, points = len(view.clicks), len(view.spots)
    square = float(left @ left)
    free = max(edges + 2 * points - 5, 1)  # five unknowns of which nothing was known beforehand
    agrees = square <= float(chi2.ppf(SURE, free))
    misfit = square / free
    normal = slopes.T @ slopes
    worse = 1.0 if agrees else misfit
    own = normal[:OWN, :OWN]
    noise = worse * _of_plane(own)
    marked = normal[OWN:, OWN:]
    across = normal[:OWN, OWN:]
    schur = own - across @ np.linalg.inv(marked) @ across.T
    spread = worse * _of_plane(schur)
    places = np.array([one.place for one in view.spots])
    off = np.array([one.off for one in view.spots])
    amiss = np.abs((found[OWN:].reshape(-1, 3) - places) / off).max(axis=1)
    return Sight(
        plane=found[PLANE].copy(),
        spread=spread,
        noise=noise,
        camera=found[:LENGTHS].copy(),
        click=problem.click,
        left=problem.off(found),
        amiss=amiss,
        pixel=float(np.exp(-found[SIZE])),
        misfit=misfit,
        agrees=agrees,
        drawn=drawn_edge(view.frame, found[:LENGTHS], view.side, found[PLANE]),
        normal=schur,
    )


def _of_plane(normal: Floats) -> Floats:
    """Return the covariance of the water's plane by normal equations, shape (3, 3)."""
    return np.asarray(np.linalg.inv(normal)[PLANE, PLANE], dtype=np.float64)


def with_spots(view: View, sight: Sight, spots: Sequence[tuple[float, float, float]]) -> Floats:
    """Return the covariance of the water's plane, were further points marked, shape (3, 3).

    Args:
        view: The picture.
        sight: What it tells as it is.
        spots: Places of the further points [m]; each as well known as the points that are marked.
    """
    normal = sight.normal.copy()
    off = np.array([one.off for one in view.spots]).mean(axis=0)
    for place in spots:
        at = np.array([place])
        rows = np.zeros((2, OWN))
        for one in range(LENGTHS):
            apart = np.zeros(LENGTHS)
            apart[one] = STEP
            two = (seen(view.frame, sight.camera + way * apart, at)[0] for way in (1.0, -1.0))
            after, before = two
            rows[:, one] = (after - before) / (2.0 * STEP)
        own = np.eye(3) * STEP
        two_way = (seen(view.frame, sight.camera, at + way * own) for way in (1.0, -1.0))
        after, before = two_way
        grows = ((after - before) / (2.0 * STEP)).T
        weight = np.linalg.inv(np.eye(2) * sight.click**2 + grows @ np.diag(off**2) @ grows.T)
        normal += rows.T @ weight @ rows
    return (1.0 if sight.agrees else sight.misfit) * _of_plane(normal)
