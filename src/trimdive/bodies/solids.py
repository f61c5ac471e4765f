"""Union, difference and halving of closed meshes, by the manifold3d library."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import GeometryError
from trimdive.lines.mesh import Floats, Mesh

if TYPE_CHECKING:
    from manifold3d import Manifold


def _solid(mesh: Mesh, where: str) -> "Manifold":
    from manifold3d import Error, Manifold, Mesh64

    vertices = np.array(mesh.vertices, dtype=np.float64, order="C")
    solid = Manifold(Mesh64(vertices, np.array(mesh.triangles, dtype=np.uint64, order="C")))
    if solid.status() != Error.NoError:
        what = f"the surface does not close ({solid.status().name})"
        raise GeometryError(what, where, "Close its open edges, or give it as a table of lines.")
    return solid


def _mesh(solid: "Manifold") -> Mesh:
    result = solid.to_mesh64()
    return Mesh(
        vertices=np.array(result.vert_properties[:, :3], dtype=np.float64),
        triangles=np.array(result.tri_verts, dtype=np.int64),
    )


def union(meshes: Sequence[Mesh], where: str) -> Mesh:
    """Return the space that any of the closed meshes fills, counted once.

    Raises:
        GeometryError: One of them does not close.
    """
    solid = _solid(meshes[0], where)
    for mesh in meshes[1:]:
        solid = solid + _solid(mesh, where)
    return _mesh(solid)


def difference(mesh: Mesh, others: Sequence[Mesh], where: str) -> Mesh:
    """Return what is left of a closed mesh outside all the others.

    Raises:
        GeometryError: One of them does not close.
    """
    solid = _solid(mesh, where)
    for other in others:
        solid = solid - _solid(other, where)
    return _mesh(solid)


def part_below(mesh: Mesh, n: Floats, d: float, where: str) -> Mesh:
    """Return the part of a closed mesh at n·r <= d, closed by the plane.

    Raises:
        GeometryError: The mesh does not close.
    """
    normal = (-float(n[0]), -float(n[1]), -float(n[2]))
    return _mesh(_solid(mesh, where).trim_by_plane(normal, -d))
