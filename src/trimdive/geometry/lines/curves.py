"""Fair curves through given points: a batten that never runs wild between its pins.

The slopes are those of the cubic spline with continuous curvature; they are then limited as in
Hyman 1983, so that the curve keeps the rise and fall of the figures.

Source:
    [monotone-curves-1983], [monotone-curves-1980].
"""

from typing import Literal

import numpy as np

from trimdive.geometry.lines.mesh import Floats, Ints

# How a curve ends: as it likes, with no slope (its mirror image even), with no bend (odd).
End = Literal["free", "level", "straight"]

ROOM = 3.0  # slope over the lesser chord slope that still keeps a cubic monotone


def fair_slopes(t: Floats, f: Floats, start: End = "free", end: End = "free") -> Floats:
    """Return the slope at every pin of the fair curve f(t).

    Args:
        t: Rising places of the pins, shape (n,) [-].
        f: What the curve passes through, shape (n, ...) [-].
        start: How the curve begins.
        end: How the curve ends.

    Returns:
        Slopes df/dt, shape of ``f`` [-].

    >>> fair_slopes(np.array([0.0, 1.0, 2.0]), np.array([0.0, 1.0, 4.0]))
    array([0., 2., 4.])
    """
    if len(t) < 2:
        return np.zeros_like(f)
    step = np.diff(t)
    chord = np.diff(f, axis=0) / step.reshape(-1, *(1,) * (f.ndim - 1))
    return _limited(_spline_slopes(step, chord, (start, end)), chord)


def _spline_slopes(step: Floats, chord: Floats, ends: tuple[End, End]) -> Floats:
    """Return the slopes that make the curvature continuous."""
    n = len(step) + 1
    weight = 1.0 / step
    matrix = np.zeros((n, n))
    inner = np.arange(1, n - 1)
    matrix[inner, inner - 1], matrix[inner, inner + 1] = weight[:-1], weight[1:]
    matrix[inner, inner] = 2.0 * (weight[:-1] + weight[1:])
    pull = chord * weight.reshape(-1, *(1,) * (chord.ndim - 1))
    right = np.zeros((n, *chord.shape[1:]))
    right[1:-1] = 3.0 * (pull[:-1] + pull[1:])
    for how, at, beside, side in zip(ends, (0, n - 1), (1, n - 2), (0, -1), strict=True):
        own, other, factor = _end_row(how, two_pins=n == 2)
        matrix[at, at], matrix[at, beside] = own, other
        right[at] = factor * chord[side]
    slopes = np.linalg.solve(matrix, right.reshape(n, -1)).reshape(right.shape)
    return slopes.astype(np.float64)


def _end_row(how: End, *, two_pins: bool) -> tuple[float, float, float]:
    """Return the end condition: own·m + other·m' = factor·chord."""
    if how == "level":
        return 1.0, 0.0, 0.0
    if how == "straight":
        return 2.0, 1.0, 3.0
    return (1.0, 0.0, 1.0) if two_pins else (1.0, 1.0, 2.0)


def _limited(slope: Floats, chord: Floats) -> Floats:
    """Return the slopes held within what keeps the rise and fall of the figures."""
    before = np.concatenate([chord[:1], chord])
    after = np.concatenate([chord, chord[-1:]])
    most = ROOM * np.minimum(np.abs(before), np.abs(after))
    one_way = before * after > 0.0
    low = np.where(one_way & (before > 0.0), 0.0, -most)
    high = np.where(one_way & (before < 0.0), 0.0, most)
    return np.clip(slope, low, high)


def on_curve(t: Floats, f: Floats, slope: Floats, places: Floats) -> Floats:
    """Return the points of the fair curve at ``places``.

    Args:
        t: Rising places of the pins, shape (n,) [-].
        f: What the curve passes through, shape (n, ...) [-].
        slope: Slopes at the pins, shape of ``f`` [-].
        places: Where the curve is asked for, shape (m,) [-].

    Returns:
        Points of the curve, shape (m, ...) [-].
    """
    if len(t) < 2:
        return np.repeat(f[:1], len(places), axis=0)
    span: Ints = np.clip(np.searchsorted(t, places, side="right") - 1, 0, len(t) - 2)
    tail = (1,) * (f.ndim - 1)
    step = np.diff(t)[span]
    u = ((places - t[span]) / step).reshape(-1, *tail)
    h = step.reshape(-1, *tail)
    v = 1.0 - u
    return (
        f[span] * (1.0 + 2.0 * u) * v**2
        + f[span + 1] * (1.0 + 2.0 * v) * u**2
        + h * u * v * (slope[span] * v - slope[span + 1] * u)
    )


def chord_length(points: Floats) -> Floats:
    """Return the length along the polygon to each of its points.

    Args:
        points: Points in order, shape (n, k) [m].

    Returns:
        Lengths from the first point, shape (n,) [m].
    """
    steps = np.linalg.norm(np.diff(points, axis=0), axis=1)
    return np.concatenate([[0.0], np.cumsum(steps)])


def shared_out(weights: Floats, total: int, least: int) -> Ints:
    """Return whole numbers in proportion to ``weights`` that sum to about ``total``.

    >>> shared_out(np.array([1.0, 3.0]), 8, 1)
    array([2, 6])
    """
    return np.maximum(np.rint(weights / weights.sum() * total), least).astype(np.int64)


def steps_between(knots: Floats, counts: Ints) -> Floats:
    """Return every knot, with the spans between them cut into ``counts`` equal steps.

    >>> steps_between(np.array([0.0, 1.0, 4.0]), np.array([2, 3]))
    array([0. , 0.5, 1. , 2. , 3. , 4. ])
    """
    parts = [
        np.linspace(a, b, n, endpoint=False)
        for a, b, n in zip(knots[:-1], knots[1:], counts, strict=True)
    ]
    return np.concatenate([*parts, knots[-1:]])
