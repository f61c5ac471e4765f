"""To the manifold3d library and back."""

from typing import TYPE_CHECKING, cast

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.edges import edges_of

if TYPE_CHECKING:
    from manifold3d import Manifold


def _unclosed(where: str, why: str = "") -> GeometryError:
    """Return the error of a surface that does not close."""
    mend = "Close its open edges, or give it as a table of lines."
    return GeometryError(f"the surface does not close{why}", where, mend)


def solid_of(mesh: Mesh, where: str) -> "Manifold":
    """Return a closed mesh as a solid.

    Whether it closes is looked at first, since the library may end the program over one that
    does not.

    Raises:
        GeometryError: It does not close.
    """
    from manifold3d import Error, Manifold, Mesh64

    edges = edges_of(mesh)
    if edges.is_open.any() or edges.is_turned.any() or not np.isfinite(mesh.vertices).all():
        raise _unclosed(where)
    vertices = np.array(mesh.vertices, dtype=np.float64, order="C")
    solid = Manifold(Mesh64(vertices, np.array(mesh.triangles, dtype=np.uint64, order="C")))
    if solid.status() != Error.NoError:
        raise _unclosed(where, f" ({solid.status().name})")
    return solid


def kept_solid(mesh: Mesh, where: str) -> "Manifold":
    """Return a closed mesh as a solid, kept with the mesh.

    Raises:
        GeometryError: It does not close.
    """
    found = mesh.kept.get("solid")
    if found is None:
        found = mesh.kept["solid"] = solid_of(mesh, where)
    return cast("Manifold", found)


def mesh_of(solid: "Manifold") -> Mesh:
    """Return a solid as a closed mesh."""
    result = solid.to_mesh64()
    return Mesh(
        vertices=np.array(result.vert_properties[:, :3], dtype=np.float64),
        triangles=np.array(result.tri_verts, dtype=np.int64),
    )


def light(mesh: Mesh, off: float, where: str) -> Mesh:
    """Return a copy with fewer triangles, for drawings: no point moves farther than ``off`` [m].

    Raises:
        GeometryError: The mesh does not close.
    """
    return mesh_of(solid_of(mesh, where).simplify(off))


def span_of(mesh: Mesh) -> Mesh:
    """Return the hull of a mesh's points: the least body without hollows that holds it."""
    from manifold3d import Manifold

    return mesh_of(Manifold.hull_points(np.array(mesh.vertices, dtype=np.float64)))
