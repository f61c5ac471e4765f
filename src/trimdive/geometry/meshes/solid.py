"""To the manifold3d library and back."""

from collections.abc import Sequence
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


def solid_of(mesh: Mesh, where: str, number: int | None = None) -> "Manifold":
    """Return a closed mesh as a solid.

    Whether it closes is looked at first, since the library may end the program over one that
    does not.

    Args:
        mesh: A closed mesh.
        where: Whose mesh it is, for messages.
        number: By which what is made of the solid tells which triangles are of it.

    Raises:
        GeometryError: It does not close.
    """
    from manifold3d import Error, Manifold, Mesh64

    edges = edges_of(mesh)
    if edges.is_open.any() or edges.is_turned.any() or not np.isfinite(mesh.vertices).all():
        raise _unclosed(where)
    vertices = np.array(mesh.vertices, dtype=np.float64, order="C")
    triangles = np.array(mesh.triangles, dtype=np.uint64, order="C")
    numbers = np.array([] if number is None else [number], dtype=np.uint32)
    solid = Manifold(Mesh64(vertices, triangles, run_original_id=numbers))
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
        from manifold3d import Manifold

        number = mesh.kept["number"] = Manifold.reserve_ids(1)
        found = mesh.kept["solid"] = solid_of(mesh, where, number)
    return cast("Manifold", found)


def mesh_of(solid: "Manifold", order: Sequence[Mesh] = ()) -> Mesh:
    """Return a solid as a closed mesh.

    Args:
        solid: The solid.
        order: Meshes that it was made of: triangles of the first come first, and those of planes
            that cut it last. The library has them by when the solid of each was made, which
            would let the last digits of all sums hang on what was kept from before.
    """
    result = solid.to_mesh64()
    triangles = np.array(result.tri_verts, dtype=np.int64)
    if order and len(triangles):
        places = {one.kept["number"]: k for k, one in enumerate(order)}
        ends = np.array(result.run_index, dtype=np.int64) // 3
        runs = sorted(
            zip(result.run_original_id, ends[:-1], ends[1:], strict=True),
            key=lambda run: places.get(int(run[0]), len(places)),
        )
        triangles = np.concatenate([triangles[start:end] for _, start, end in runs])
    vertices = np.array(result.vert_properties[:, :3], dtype=np.float64)
    return Mesh(vertices=vertices, triangles=triangles)


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
