"""How large a cylinder goes into the hull: at each place along it and each height, and the largest.

A cylinder along the boat has, where its axis passes through a section of the hull, as much room as
the axis is from the nearest wall in that section. The largest of a length has the least of these
over its length.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import interpn
from scipy.ndimage import minimum_filter1d

from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.inside import is_inside
from trimdive.geometry.solids.section import segments
from trimdive.records import record

ALONG, UP = 240, 120  # places along and up that are looked at [-]
AXIS = np.array([1.0, 0.0, 0.0])
LEAST = 0.01  # a cylinder less wide than this is none [m]
FINE = 0.0005  # between places at which a given cylinder is tried [m]


@record
class Room:
    """How wide a cylinder on the middle line may be."""

    x: Floats  # places along, rising, shape (n,) [m]
    z: Floats  # heights, rising, shape (m,) [m]
    radius: Floats  # of the largest circle there, 0 out of the hull or in a wall, shape (n, m) [m]


@record
class Largest:
    """The largest cylinder of a length."""

    length: float  # [m]
    diameter: float  # outside, with the gap that was asked for left around it [m]
    x: float  # its middle [m]
    z: float  # its axis [m]


@record
class Place:
    """Where a cylinder goes in."""

    x: float  # its middle where it has most room [m]
    z: float  # its axis there [m]
    clear: float  # least clearance all round there [m]
    aft: float  # how far aft its middle may lie at that height [m]
    fore: float  # how far forward [m]
    low: float  # how low its axis may lie at that place along [m]
    high: float  # how high [m]


def room(walls: Sequence[Mesh], envelope: Mesh) -> Room:
    """Return how wide a cylinder may be, place by place.

    Args:
        walls: Of every region, each closed.
        envelope: The outside shape of the hull.
    """
    low, high = envelope.bounds
    x = np.linspace(low[0], high[0], ALONG + 1)
    z = np.linspace(low[2], high[2], UP + 1)
    corners = np.concatenate([np.empty((0, 3, 3)), *(mesh.corners for mesh in walls)])
    first, last = corners[..., 0].min(axis=1), corners[..., 0].max(axis=1)
    radius = np.zeros((len(x), len(z)))
    for i, at in enumerate(x):
        lines = segments(corners[(first <= at) & (last >= at)], AXIS, at)[..., 1:]
        if len(lines):
            radius[i] = _from_lines(lines, z)
    spots = np.stack(np.meshgrid(x, [0.0], z, indexing="ij"), axis=-1).reshape(-1, 3)
    is_free = is_inside(envelope, spots)
    for mesh in walls:
        is_free[is_free] = ~is_inside(mesh, spots[is_free])
    return Room(x=x, z=z, radius=np.where(is_free.reshape(radius.shape), radius, 0.0))


def _from_lines(lines: Floats, z: Floats) -> Floats:
    """Return how far places on the middle line are from the nearest of some lines, (m,) [m].

    Args:
        lines: Across and up, shape (k, 2, 2) [m].
        z: Heights, shape (m,) [m].
    """
    a, along = lines[:, 0], lines[:, 1] - lines[:, 0]
    off = np.stack([np.zeros_like(z), z], axis=1)[:, None] - a
    square = np.maximum(np.einsum("ij,ij->i", along, along), 1e-300)
    share = np.clip(np.einsum("kij,ij->ki", off, along) / square, 0.0, 1.0)
    return np.linalg.norm(off - share[..., None] * along, axis=2).min(axis=1)


def goes_in(where: Room, length: float, outside: float, gap: float) -> Place | None:
    """Return where a cylinder goes in on the middle line; None: nowhere.

    Args:
        where: How wide one may be, place by place.
        length: Over its caps [m].
        outside: Its diameter [m].
        gap: Left around it [m].
    """
    narrowest = _narrowest(where, length)
    if narrowest is None:
        return None
    i, j = np.unravel_index(int(narrowest.argmax()), narrowest.shape)
    is_clear = narrowest >= outside / 2 + gap
    if not is_clear[i, j]:
        return None
    aft, fore = _span(is_clear[:, j], int(i))
    low, high = _span(is_clear[i], int(j))
    return Place(
        x=float(where.x[i]),
        z=float(where.z[j]),
        clear=float(narrowest[i, j]) - outside / 2,
        aft=float(where.x[aft]),
        fore=float(where.x[fore]),
        low=float(where.z[low]),
        high=float(where.z[high]),
    )


def ranges(
    where: Room, length: float, outside: float, gap: float, z: float
) -> tuple[tuple[float, float], ...]:
    """Return from where to where the middle of a cylinder may lie at a height, along her [m].

    Between the places of a room it is taken to be as wide as lies between theirs.

    Args:
        where: How wide one may be, place by place.
        length: Over its caps [m].
        outside: Its diameter [m].
        gap: Left around it [m].
        z: Height of its axis [m].
    """
    if not where.z[0] <= z <= where.z[-1]:
        return ()
    j = min(max(int(np.searchsorted(where.z, z)), 1), len(where.z) - 1)
    low, high = where.radius[:, j - 1], where.radius[:, j]
    share = (z - where.z[j - 1]) / (where.z[j] - where.z[j - 1])
    at_height = np.where((low > 0) & (high > 0), low + share * (high - low), 0.0)
    x = np.arange(where.x[0], where.x[-1], FINE)
    count = 2 * int(np.ceil(length / 2 / FINE)) + 1
    if count >= len(x):
        return ()
    narrowest = minimum_filter1d(
        np.interp(x, where.x, at_height), size=count, mode="constant", cval=0.0
    )
    return runs(x, narrowest >= outside / 2 + gap)


def runs(x: Floats, flags: NDArray[np.bool_]) -> tuple[tuple[float, float], ...]:
    """Return from where to where flags are set without a break.

    >>> runs(np.array([0.0, 1.0, 2.0, 3.0]), np.array([True, True, False, True]))
    ((0.0, 1.0), (3.0, 3.0))
    """
    edges = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(int)))
    return tuple(
        (float(x[a]), float(x[b - 1])) for a, b in zip(edges[::2], edges[1::2], strict=True)
    )


def _span(flags: NDArray[np.bool_], at: int) -> tuple[int, int]:
    """Return from where to where flags beside a place are set without a break."""
    shut = np.flatnonzero(~flags)
    before, after = shut[shut < at], shut[shut > at]
    first = int(before[-1]) + 1 if len(before) else 0
    return first, int(after[0]) - 1 if len(after) else len(flags) - 1


def _narrowest(where: Room, length: float) -> Floats | None:
    """Return the radius over a length about each place, shape (n, m) [m]; None: it is too long."""
    step = float(where.x[1] - where.x[0])
    count = 2 * int(np.ceil(length / 2 / step)) + 1
    if count >= len(where.x):
        return None
    return minimum_filter1d(where.radius, size=count, axis=0, mode="constant", cval=0.0)


def by_height(where: Room, gap: float, x: Floats, z: Floats) -> Floats:
    """Return the outside diameter of the largest circle at places along and heights of its axis.

    Between the places of a room it is taken to be as wide as lies between theirs; it is 0 beside a
    place in a wall, and where less than the least goes in.

    Args:
        where: How wide one may be, place by place.
        gap: Left around it [m].
        x: Places along, shape (n,) [m].
        z: Heights, shape (m,) [m].

    Returns:
        Shape (n, m) [m].
    """
    spots = np.stack(np.meshgrid(x, z, indexing="ij"), axis=-1)
    ways = (where.x, where.z)
    radius = interpn(ways, where.radius, spots, bounds_error=False, fill_value=0.0)
    is_free = interpn(ways, 1.0 * (where.radius > 0), spots, bounds_error=False, fill_value=0.0)
    across = 2 * (np.where(is_free > 1 - 1e-9, radius, 0.0) - gap)
    return np.where(across < LEAST, 0.0, across)


def largest(where: Room, length: float, gap: float) -> Largest | None:
    """Return the largest cylinder of a length that goes in on the middle line.

    Args:
        where: How wide one may be, place by place.
        length: Over its caps [m].
        gap: Left around it [m].
    """
    narrowest = _narrowest(where, length)
    if narrowest is None:
        return None
    i, j = np.unravel_index(int(narrowest.argmax()), narrowest.shape)
    diameter = 2.0 * (float(narrowest[i, j]) - gap)
    if diameter < LEAST:
        return None
    return Largest(length=length, diameter=diameter, x=float(where.x[i]), z=float(where.z[j]))
