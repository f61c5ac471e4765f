"""Shapes that take up room: boxes, round ones, balls and meshes, and what two of them share.

Boxes, round ones that lie side by side and balls are reckoned in closed form; everything else as
closed meshes, by the manifold3d library.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import hypot, pi
from typing import Literal

import numpy as np

from trimdive.geometry.clashes.closed import (
    Span,
    ball_and_ball,
    circle_and_circle,
    circle_and_rectangle,
    overlap,
)
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.meshes.solid import kept_solid, mesh_of
from trimdive.geometry.solids.shapes import along, box, cylinder, moved, sphere
from trimdive.records import short

Form = Literal["box", "round", "ball", "mesh"]
Triple = tuple[float, float, float]
AXES = "xyz"
KEPT = 8_000  # pairs of shapes of plain form whose shared room is kept [-]


@dataclass(frozen=True)
class Shape:
    """A shape in its place; two with the same sizes in the same place are one."""

    form: Form
    place: Triple  # of its middle [m]
    size: Triple  # over all along x, y, z [m]
    axis: int = 0  # of a round one: 0 along x, 1 along y, 2 along z
    mesh: Mesh | None = None  # of a mesh, in its place

    __repr__ = short

    @cached_property
    def spans(self) -> tuple[Span, Span, Span]:
        """Return from where to where it reaches along x, y and z [m]."""
        a, b, c = (
            (at - long / 2, at + long / 2) for at, long in zip(self.place, self.size, strict=True)
        )
        return a, b, c

    @cached_property
    def volume(self) -> float:
        """Return its volume [m³]."""
        if self.form == "mesh" and self.mesh is not None:
            return volume(self.mesh)
        return self.size[0] * self.size[1] * self.size[2] * FILLS[self.form]

    @property
    def surface(self) -> Mesh:
        """Return it as a closed mesh in its place."""
        return self.mesh or _surface(self)

    def shifted(self, x: float, y: float, z: float) -> "Shape":
        """Return it moved so far [m]."""
        at = self.place
        mesh = self.mesh and moved(self.mesh, x, y, z)
        place = (at[0] + x, at[1] + y, at[2] + z)
        return Shape(self.form, place, self.size, self.axis, mesh)

    def grown(self, by: float) -> "Shape":
        """Return it larger by so much on every side [m], smaller where negative; a mesh stays."""
        if self.form == "mesh" or not by:
            return self
        a, b, c = (max(long + 2 * by, 1e-9) for long in self.size)
        return Shape(self.form, self.place, (a, b, c), self.axis, self.mesh)


@lru_cache(maxsize=64)
def _surface(shape: Shape) -> Mesh:
    """Return a shape of plain form as a closed mesh in its place."""
    if shape.form == "box":
        found = box(*shape.size)
    elif shape.form == "ball":
        found = sphere(shape.size[0])
    else:
        across = shape.size[(shape.axis + 1) % 3]
        found = along(cylinder(across, shape.size[shape.axis]), AXES[shape.axis])
    return moved(found, *shape.place)


FILLS = {"box": 1.0, "round": pi / 4, "ball": pi / 6}  # share of its box that a shape fills [-]


def of_mesh(mesh: Mesh) -> Shape:
    """Return a closed mesh as a shape."""
    low, high = (tuple(float(v) for v in row) for row in mesh.bounds)
    place = tuple((a + b) / 2 for a, b in zip(low, high, strict=True))
    size = tuple(b - a for a, b in zip(low, high, strict=True))
    return Shape(form="mesh", place=place, size=size, mesh=mesh)  # pyright: ignore[reportArgumentType] - three of each


def meets(one: Shape, other: Shape) -> bool:
    """Return whether the boxes round two shapes reach into each other."""
    (a, b), (c, d), (e, f) = one.spans
    (g, h), (i, j), (k, m) = other.spans
    return a < h and g < b and c < j and i < d and e < m and k < f


def common(one: Shape, other: Shape) -> tuple[Triple, Triple]:
    """Return middle and size of what the boxes round two shapes have in common [m]."""
    low = [max(a[0], b[0]) for a, b in zip(one.spans, other.spans, strict=True)]
    high = [min(a[1], b[1]) for a, b in zip(one.spans, other.spans, strict=True)]
    middle = tuple((a + b) / 2 for a, b in zip(low, high, strict=True))
    size = tuple(max(b - a, 0.0) for a, b in zip(low, high, strict=True))
    return middle, size  # pyright: ignore[reportReturnType] - three of each


def shared(one: Shape, other: Shape) -> float:
    """Return the volume that two shapes share [m³]."""
    if not meets(one, other):
        return 0.0
    if other.mesh is not None:
        return _within(other.mesh, one)
    return _shared(one, other) if one.mesh is None else _within(one.mesh, other)


def in_mesh(shape: Shape, mesh: Mesh) -> float:
    """Return how much of a shape lies in a closed mesh [m³]."""
    return shared(shape, of_mesh(mesh))


@with_mesh(2048)
def _within(mesh: Mesh, shape: Shape) -> float:
    """Return the volume that a shape and a closed mesh share [m³], kept with the mesh."""
    return meshed(shape.surface, mesh)


@lru_cache(maxsize=KEPT)
def _shared(one: Shape, other: Shape) -> float:
    """Return the volume that two shapes of plain form share [m³]."""
    forms = {one.form, other.form}
    if forms == {"box"}:
        size = common(one, other)[1]
        return size[0] * size[1] * size[2]
    if forms == {"ball"}:
        apart = float(np.linalg.norm(np.subtract(one.place, other.place)))
        return ball_and_ball(one.size[0] / 2, other.size[0] / 2, apart)
    if forms == {"round"} and one.axis == other.axis:
        return _side_by_side(one, other)
    if forms == {"round", "box"}:
        return _round_and_box(*((one, other) if one.form == "round" else (other, one)))
    return meshed(one.surface, other.surface)


def _side_by_side(one: Shape, other: Shape) -> float:
    """Return what two round shapes along the same axis share [m³]."""
    k = one.axis
    i, j = (k + 1) % 3, (k + 2) % 3
    apart = hypot(one.place[i] - other.place[i], one.place[j] - other.place[j])
    area = circle_and_circle(one.size[i] / 2, other.size[i] / 2, apart)
    return area * overlap(one.spans[k], other.spans[k])


def _round_and_box(one: Shape, other: Shape) -> float:
    """Return what a round shape and a box share [m³]."""
    k = one.axis
    i, j = (k + 1) % 3, (k + 2) % 3
    across, up = (
        (other.spans[n][0] - one.place[n], other.spans[n][1] - one.place[n]) for n in (i, j)
    )
    area = circle_and_rectangle(one.size[i] / 2, across, up)
    return area * overlap(one.spans[k], other.spans[k])


def meshed(one: Mesh, other: Mesh) -> float:
    """Return the volume that two closed meshes share [m³]."""
    return float((kept_solid(one, "shape") ^ kept_solid(other, "shape")).volume())


def shared_mesh(one: Mesh, other: Mesh) -> Mesh:
    """Return what two closed meshes share, as a mesh."""
    return mesh_of(kept_solid(one, "shape") ^ kept_solid(other, "shape"))


def outside(one: Shape, room: Shape) -> float:
    """Return how much of a shape lies out of a room [m³]."""
    return max(one.volume - shared(one, room), 0.0)


def corners(one: Shape) -> Floats:
    """Return the corners of a shape's surface, shape (n, 3) [m]."""
    return one.surface.vertices
