"""A closed triangle mesh: the one form that everything which displaces takes."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import cast

import numpy as np
from numpy.typing import NDArray

from trimdive.records import short

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Remade = tuple[Callable[[Floats, Ints], "Mesh"], tuple[Floats, Ints]]  # as it goes elsewhere


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Triangles that close; seen from outside, the corners run anticlockwise.

    A mesh is itself only: two with the same corners are not equal, so that what was worked
    out for one can be kept with it and found again.
    """

    vertices: Floats  # shape (n, 3) [m]
    triangles: Ints  # indices into vertices, shape (m, 3) [-]
    kept: dict[object, object] = field(default_factory=dict, init=False, repr=False)

    __repr__ = short

    def __reduce__(self) -> Remade:
        """Return how it is made anew in another process, without what is kept with it."""
        return _made, (self.vertices, self.triangles)

    @property
    def corners(self) -> Floats:
        """Return the corner points of every triangle, shape (m, 3, 3) [m]."""
        return self.vertices[self.triangles]

    @property
    def bounds(self) -> Floats:
        """Return the least and the greatest corner, shape (2, 3) [m]."""
        found = self.kept.get("bounds")
        if found is None:
            found = self.kept["bounds"] = _bounds(self.vertices)
        return cast("Floats", found)


def _bounds(vertices: Floats) -> Floats:
    """Return the least and the greatest of these points, shape (2, 3) [m]; not to be changed."""
    found = np.stack([vertices.min(axis=0), vertices.max(axis=0)])
    found.setflags(write=False)
    return found


def _made(vertices: Floats, triangles: Ints) -> Mesh:
    return Mesh(vertices=vertices, triangles=triangles)


def join(meshes: list[Mesh]) -> Mesh:
    """Return the meshes side by side as one; nothing is welded."""
    starts = np.cumsum([0, *(len(mesh.vertices) for mesh in meshes[:-1])])
    return Mesh(
        vertices=np.concatenate([mesh.vertices for mesh in meshes]),
        triangles=np.concatenate(
            [mesh.triangles + start for mesh, start in zip(meshes, starts, strict=True)]
        ),
    )


def volume(mesh: Mesh) -> float:
    """Return the enclosed volume [m³], positive where the mesh is the right way out."""
    a, b, c = np.moveaxis(mesh.corners - mesh.vertices.mean(axis=0), 1, 0)
    return float(np.einsum("ij,ij->", a, np.cross(b, c)) / 6.0)
