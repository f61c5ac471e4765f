"""Flat geometry: outlines of bodies as they are seen, lines cut by a plane, and room for labels."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.section import segments
from trimdive.records import short

KEPT = 16  # outlines, and lines, last drawn of a mesh that are kept with it [-]
COLUMNS = 1200  # places at which an outline is measured [-]
FINE = 4e-5  # how far a thinned line may leave the full one [m]
SAME = 1e6  # points are one where they agree to a millionth of a metre


@dataclass(frozen=True, kw_only=True)
class Outline:
    """A body as it is seen: how far it reaches up and down at each place across the view."""

    __repr__ = short

    across: Floats  # places, shape (k,) [m]
    low: Floats  # shape (k,) [m]
    high: Floats  # shape (k,) [m]

    @cached_property
    def loop(self) -> Floats:
        """The closed line round it, shape (n, 2) [m]."""
        top = thinned(np.column_stack([self.across, self.high]))
        bottom = thinned(np.column_stack([self.across, self.low]))
        return np.vstack([top, bottom[::-1]])

    def inset(self, thickness: float | Floats) -> "Outline":
        """Return the inner face of a skin so thick, everywhere or at each place, (k,) [m]."""
        thick = np.broadcast_to(thickness, len(self.across))
        slopes = [np.hypot(1.0, np.gradient(y, self.across)) for y in (self.low, self.high)]
        low, high = self.low + thick * slopes[0], self.high - thick * slopes[1]
        kept = (
            (high > low)
            & (self.across >= self.across[0] + thick[0])
            & (self.across <= self.across[-1] - thick[-1])
        )
        return Outline(across=self.across[kept], low=low[kept], high=high[kept])


def outline(mesh: Mesh, right: Floats, up: Floats) -> Outline:
    """Return a body as it is seen with ``right`` and ``up`` on the paper, each shape (3,) [-]."""
    return _outline(mesh, *((float(x), float(y), float(z)) for x, y, z in (right, up)))


@with_mesh(KEPT)
def _outline(
    mesh: Mesh, right: tuple[float, float, float], up: tuple[float, float, float]
) -> Outline:
    """Return a body as it is seen, kept by its mesh."""
    a, b = mesh.vertices @ right, mesh.vertices @ up
    across = np.linspace(float(a.min()), float(a.max()), COLUMNS)
    step = max(float(across[1] - across[0]), 1e-12)
    ends = np.vstack([mesh.triangles[:, [i, (i + 1) % 3]] for i in range(3)])
    order = a[ends[:, 0]] <= a[ends[:, 1]]
    i, j = np.where(order, *ends.T), np.where(order, *ends.T[::-1])
    first = np.ceil((a[i] - across[0]) / step - 1e-9).astype(np.int64)
    last = np.minimum(np.floor((a[j] - across[0]) / step + 1e-9).astype(np.int64), COLUMNS - 1)
    count = np.maximum(last - first + 1, 0)
    edge = np.repeat(np.arange(len(i)), count)
    column = np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count) + first[edge]
    run = np.maximum(a[j] - a[i], 1e-15)[edge]
    share = np.clip((across[column] - a[i][edge]) / run, 0.0, 1.0)
    height = b[i][edge] + share * (b[j] - b[i])[edge]
    low, high = np.full(COLUMNS, np.inf), np.full(COLUMNS, -np.inf)
    np.minimum.at(low, column, height)
    np.maximum.at(high, column, height)
    for k in (0, -1):
        at_end = np.abs(a - across[k]) < 1e-9
        low[k], high[k] = min(low[k], b[at_end].min()), max(high[k], b[at_end].max())
    seen = high >= low
    return Outline(across=across[seen], low=low[seen], high=high[seen])


def thinned(points: Floats) -> Floats:
    """Return a line without the points that it does not need, shape (m, 2) [m]."""
    return points[_needed(points)]


def _needed(points: Floats) -> NDArray[np.bool_]:
    """Return which points a line needs, shape (n,)."""
    keep = np.zeros(len(points), dtype=bool)
    keep[:1] = keep[-1:] = True  # of no points, none
    spans = [(0, len(points) - 1)]
    while spans:
        i, j = spans.pop()
        if j - i < 2:
            continue
        run = points[j] - points[i]
        away = points[i + 1 : j] - points[i]
        off = np.abs(run[0] * away[:, 1] - run[1] * away[:, 0]) / max(float(np.hypot(*run)), 1e-12)
        k = int(off.argmax())
        if off[k] > FINE:
            keep[i + 1 + k] = True
            spans += [(i, i + 1 + k), (i + 1 + k, j)]
    return keep


def wrapped(points: Floats) -> Floats:
    """Return the tightest convex line round points, anticlockwise, shape (m, 2).

    >>> wrapped(np.array([[0, 0], [2, 0], [1, 0.5], [2, 2], [0, 2]])).tolist()
    [[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]]
    """
    ordered = np.unique(np.asarray(points, dtype=float).round(9), axis=0)
    if len(ordered) < 3:
        return ordered
    halves: list[list[Floats]] = []
    for way in (ordered, ordered[::-1]):
        half: list[Floats] = []
        for p in way:
            while len(half) > 1 and _turn(half[-2], half[-1], p) <= 0:
                half.pop()
            half.append(p)
        halves.append(half[:-1])
    return np.array(halves[0] + halves[1])


def _turn(a: Floats, b: Floats, c: Floats) -> float:
    return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))


def kept(loop: Floats, n: Floats, d: float) -> Floats:
    """Return the part of a closed line at n·p >= d, closed along that line, shape (m, 2).

    >>> square = np.array([[0.0, 0.0], [1.0, 0.0], [1.0, 1.0], [0.0, 1.0]])
    >>> kept(square, np.array([0.0, 1.0]), 0.5)[:, 1].min()
    np.float64(0.5)
    """
    height = loop @ n - d
    points: list[Floats] = []
    for i, here in enumerate(height):
        j = i - 1
        if (height[j] < 0) != (here < 0):
            share = height[j] / (height[j] - here)
            points.append(loop[j] + share * (loop[i] - loop[j]))
        if here >= 0:
            points.append(loop[i])
    return np.array(points).reshape(-1, 2)


def below(mesh: Mesh, n: Floats, d: float) -> Floats:
    """Return corners of what of a convex body lies at n·r <= d, shape (k, 3) [m]."""
    lower = mesh.vertices[mesh.vertices @ n <= d]
    rim = segments(mesh.corners, n, d).reshape(-1, 3)
    return np.vstack([lower, rim])


def loops(mesh: Mesh, n: Floats, d: float) -> list[Floats]:
    """Return the closed lines in which n·r = d cuts a body, each of shape (k, 3) [m].

    Where a skin ends on a flat, its outer and inner face lie on one another; such pieces
    cancel, so that no seam is seen across the boat.
    """
    pieces = segments(mesh.corners, n, d)
    names = [
        (tuple(a), tuple(b)) for a, b in np.rint(_cancelled(pieces, n) * SAME).astype(int).tolist()
    ]
    ways: dict[tuple[int, ...], list[int]] = {}
    for i, (a, b) in enumerate(names):
        if a != b:
            ways.setdefault(a, []).append(i)
            ways.setdefault(b, []).append(i)
    used: set[int] = set()
    found: list[Floats] = []
    for i, (a, b) in enumerate(names):
        if i in used or a == b:
            continue
        chain, here = [a], a
        while nexts := [k for k in ways[here] if k not in used]:
            used.add(nexts[0])
            one, other = names[nexts[0]]
            here = other if one == here else one
            chain.append(here)
        found.append(np.array(chain[:-1], dtype=np.float64) / SAME)
    return found


def kept_loops(mesh: Mesh, n: Floats, d: float) -> tuple[Floats, ...]:
    """Return the closed lines in which n·r = d cuts a body, as ``loops``, kept by its mesh.

    They are without the points that they do not need.
    """
    return _kept_loops(mesh, (float(n[0]), float(n[1]), float(n[2])), float(d))


@with_mesh(KEPT)
def _kept_loops(mesh: Mesh, n: tuple[float, float, float], d: float) -> tuple[Floats, ...]:
    flat = np.delete(np.arange(3), int(np.abs(n).argmax()))
    return tuple(loop[_needed(loop[:, flat])] for loop in loops(mesh, np.array(n), d))


def _cancelled(pieces: Floats, n: Floats) -> Floats:
    """Return pieces of line in a plane, with what is covered twice taken out, shape (k, 2, 3)."""
    pieces = np.rint(pieces * SAME) / SAME
    pieces = pieces[(pieces[:, 0] != pieces[:, 1]).any(axis=1)]
    if not len(pieces):
        return pieces
    run = pieces[:, 1] - pieces[:, 0]
    run /= np.linalg.norm(run, axis=1, keepdims=True)
    first = np.argmax(np.abs(run) > 1e-4, axis=1)
    run = run * np.sign(np.take_along_axis(run, first[:, None], axis=1))
    side = np.einsum("ij,ij->i", np.cross(n, run), pieces[:, 0])
    keys = np.rint(np.column_stack([run * 1e5, side * SAME])).astype(int)
    order = np.lexsort(keys.T)
    starts = np.flatnonzero(np.r_[True, (np.diff(keys[order], axis=0) != 0).any(axis=1)])
    found: list[Floats] = []
    for group in np.split(order, starts[1:]):
        ends = pieces[group].reshape(-1, 3)
        sorted_ends = ends[np.argsort(ends @ run[group[0]], kind="stable")]
        found.append(sorted_ends.reshape(-1, 2, 3))
    return np.concatenate(found)


def spread(
    wanted: Sequence[float], sizes: Sequence[float], gap: float, room: tuple[float, float]
) -> list[float]:
    """Return places in a row, as near as can be to those wanted, so that nothing overlaps.

    Args:
        wanted: Middles, in rising order [mm].
        sizes: Breadths [mm].
        gap: Clear room between neighbours [mm].
        room: Where the row begins and ends; kept as long as all fits in between [mm].

    >>> spread([0.0, 0.0, 10.0], [2.0, 2.0, 2.0], 0.0, (-5.0, 20.0))
    [-1.0, 1.0, 10.0]
    """
    steps = [(a + b) / 2 + gap for a, b in pairwise(sizes)]
    starts = np.concatenate([[0.0], np.cumsum(steps)])[: len(wanted)]
    groups: list[tuple[float, int]] = []
    for want, start in zip(wanted, starts, strict=True):
        group = (want - float(start), 1)
        while groups and groups[-1][0] > group[0]:
            mean, count = groups.pop()
            total = count + group[1]
            group = ((mean * count + group[0] * group[1]) / total, total)
        groups.append(group)
    if not groups:
        return []
    least, most = room[0] + sizes[0] / 2, room[1] - sizes[-1] / 2 - float(starts[-1])
    shifts = [max(min(mean, most), least) for mean, count in groups for _ in range(count)]
    return [shift + float(start) for shift, start in zip(shifts, starts, strict=True)]
