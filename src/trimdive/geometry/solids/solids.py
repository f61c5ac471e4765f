"""Union and carving of closed meshes, by the manifold3d library."""

from collections.abc import Sequence

from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.solid import kept_solid, mesh_of

Plane = tuple[tuple[float, float, float], float]  # n, and d [m]


def union(meshes: Sequence[Mesh], where: str) -> Mesh:
    """Return the space that any of the closed meshes fills, counted once.

    Raises:
        GeometryError: One of them does not close.
    """
    solid = kept_solid(meshes[0], where)
    for mesh in meshes[1:]:
        solid = solid + kept_solid(mesh, where)
    return mesh_of(solid, meshes)


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
    solid = kept_solid(mesh, where)
    for (x, y, z), d in planes:
        solid = solid.trim_by_plane((-x, -y, -z), -d)
    for other in taken:
        solid = solid - kept_solid(other, where)
    return mesh_of(solid, [*taken, mesh]) if planes or taken else mesh
