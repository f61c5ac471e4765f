"""Sections along the hull: how much room is inside the skin, taken up and left, and where.

Each section is looked at place by place on a grid. Room for foam is what is free from the highest
thing of a section up to the waterline, room for lead what is free below its lowest; where nothing
lies, from and up to half the draught. Lead and foam aboard take up room, but bound none.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from trimdive.boatfile.pieces import Waterline
from trimdive.geometry.clashes.shapes import Shape
from trimdive.geometry.clashes.solids import Solid
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.inside import is_inside_grid
from trimdive.records import record

Flags = NDArray[np.bool_]

ALONG, ACROSS, UP = 120, 160, 240  # places of the grid [-]
STOWED = ("lead", "foam")  # kinds that bound no room for more of it


@record
class Sections:
    """Areas across the hull, place by place along it."""

    x: Floats  # rising, shape (n,) [m]
    inside: Floats  # within the skin, shape (n,) [m²]
    taken: Floats  # by things in it, shape (n,) [m²]
    foam: Floats  # free above everything there, up to the waterline, shape (n,) [m²]
    lead: Floats  # free below everything there, shape (n,) [m²]
    step: float  # along, between sections [m]

    @property
    def free(self) -> Floats:
        """Return the area that nothing takes up, shape (n,) [m²]."""
        return self.inside - self.taken

    @property
    def foam_room(self) -> float:
        """Return the room for foam [m³]."""
        return float(self.foam.sum()) * self.step

    @property
    def lead_room(self) -> float:
        """Return the room for lead [m³]."""
        return float(self.lead.sum()) * self.step


def sections(
    walls: Sequence[Mesh], envelope: Mesh, solids: Sequence[Solid], line: Waterline | None
) -> Sections:
    """Return the areas of sections along a hull.

    Args:
        walls: Of every region, each closed.
        envelope: The outside shape of the hull.
        solids: What takes up room in it.
        line: The waterline meant; None: no room for foam is told.
    """
    low, high = envelope.bounds
    steps = (high - low) / np.array([ALONG, ACROSS, UP])
    axes = [
        start + step * (np.arange(count) + 0.5)
        for start, step, count in zip(low, steps, (ALONG, ACROSS, UP), strict=True)
    ]
    inside = is_inside_grid(envelope, *axes)
    for mesh in walls:
        inside &= ~is_inside_grid(mesh, *axes)
    taken, bounds = np.zeros_like(inside), np.zeros_like(inside)
    for solid in solids:
        where, flags = filled(solid.shape, axes)
        taken[where] |= flags
        if solid.kind not in STOWED:
            bounds[where] |= flags
    taken &= inside
    foam, lead = _bands(inside, bounds & inside, axes, line)
    free, cell = inside & ~taken, float(steps[1] * steps[2])
    return Sections(
        x=axes[0],
        inside=inside.sum(axis=(1, 2)) * cell,
        taken=taken.sum(axis=(1, 2)) * cell,
        foam=(free & foam[:, None]).sum(axis=(1, 2)) * cell,
        lead=(free & lead[:, None]).sum(axis=(1, 2)) * cell,
        step=float(steps[0]),
    )


def filled(shape: Shape, axes: Sequence[Floats]) -> tuple[tuple[slice, ...], Flags]:
    """Return which part of a grid the box round a shape covers, and which places in it it fills.

    Args:
        shape: The shape.
        axes: Places along x, y and z, rising [m].
    """
    where = tuple(
        slice(int(np.searchsorted(axis, a)), int(np.searchsorted(axis, b, side="right")))
        for axis, (a, b) in zip(axes, shape.spans, strict=True)
    )
    inner = [axis[part] for axis, part in zip(axes, where, strict=True)]
    if shape.mesh is not None:
        return where, is_inside_grid(shape.mesh, *inner)
    off = np.meshgrid(
        *((axis - at) / (long / 2) for axis, at, long in
          zip(inner, shape.place, shape.size, strict=True)),
        indexing="ij", sparse=True,
    )  # fmt: skip
    if shape.form == "box":
        return where, np.ones(tuple(map(len, inner)), bool)
    round_ways = [way for k, way in enumerate(off) if shape.form == "ball" or k != shape.axis]
    square = sum((way**2 for way in round_ways), start=np.zeros(tuple(map(len, inner))))
    return where, square <= 1.0


def _bands(
    inside: Flags, things: Flags, axes: Sequence[Floats], line: Waterline | None
) -> tuple[Flags, Flags]:
    """Return which heights of each section are for foam and which for lead, each (x, z)."""
    x, _, z = axes
    meant = np.full(len(x), np.inf if line is None else 0.0)
    if line is not None:
        meant = np.array([line.height_at(float(at)) for at in x])
    below = z <= meant[:, None]
    some, room = things.any(axis=1) & below, inside.any(axis=1) & below
    half = (z[room.argmax(axis=1)] + z[-1 - room[:, ::-1].argmax(axis=1)]) / 2
    is_empty = ~some.any(axis=1)
    top = np.where(is_empty, half, z[-1 - some[:, ::-1].argmax(axis=1)])
    bottom = np.where(is_empty, half, z[some.argmax(axis=1)])
    foam = (z > top[:, None]) & below & (line is not None)
    return foam, (z < bottom[:, None]) & below
