"""Union and carving of closed meshes, by the manifold3d library."""

from collections.abc import Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import GeometryError
from trimdive.lines.mesh import Mesh

if TYPE_CHECKING:
    from manifold3d import Manifold

Plane = tuple[tuple[float, float, float], float]  # n, and d [m]


@lru_cache(maxsize=64)
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


def carved(mesh: Mesh, planes: Sequence[Plane], taken: Sequence[Mesh], where: str) -> Mesh:
    """Return what of a closed mesh lies below all planes and outside all the others.

    Args:
        mesh: A closed mesh.
        planes: Each n and d; what lies at n·r <= d stays [-, m].
        taken: Closed meshes to take away.
        where: Whose mesh it is, for messages.

    Raises:
        GeometryError: One of them does not close.
    """
    solid = _solid(mesh, where)
    for (x, y, z), d in planes:
        solid = solid.trim_by_plane((-x, -y, -z), -d)
    for other in taken:
        solid = solid - _solid(other, where)
    return _mesh(solid) if planes or taken else mesh
