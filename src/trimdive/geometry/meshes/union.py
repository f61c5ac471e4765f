"""Bodies made one, and what they are from outside."""

from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.bodies import LOOSE, Bodies, bodies_of, right_way
from trimdive.geometry.meshes.edges import edges_of, part
from trimdive.geometry.meshes.solid import mesh_of, solid_of

if TYPE_CHECKING:
    from manifold3d import Manifold

SLIVER = 1e-6  # share of the volume below which an overlap only touches [-]


def _filled(mesh: Mesh, found: Bodies, name: str) -> "Manifold":
    """Return the space that any body fills, each turned the right way and less its rooms.

    Raises:
        GeometryError: A body does not close.
    """
    from manifold3d import Manifold, OpType

    turned = right_way(mesh, found)
    kept = np.flatnonzero(found.triangles > LOOSE)
    rooms: dict[int, list[Manifold]] = {}
    for body in kept[found.is_cavity[kept]]:
        one = part(turned, found.labels == body)
        solid = solid_of(Mesh(vertices=one.vertices, triangles=one.triangles[:, ::-1]), name)
        rooms.setdefault(int(found.around[body]), []).append(solid)
    solids: list[Manifold] = []
    for body in kept[~found.is_cavity[kept]]:
        solid = solid_of(part(turned, found.labels == body), name)
        if int(body) in rooms:
            solid = solid - Manifold.batch_boolean(rooms[int(body)], OpType.Add)
        solids.append(solid)
    return Manifold.batch_boolean(solids, OpType.Add)


def united(mesh: Mesh, found: Bodies, name: str) -> Mesh:
    """Return the space that any body fills, counted once; each keeps its cavities.

    A body that faces inward counts as if it were turned.

    Raises:
        GeometryError: A body does not close.
    """
    return mesh_of(_filled(mesh, found, name))


def overlap(mesh: Mesh, found: Bodies, name: str) -> float | None:
    """Return the volume that bodies have in common, counted once too often [m³].

    None where it is not known, since a body does not close; negative where rooms inside bodies
    have something in common, which is left out once too often.
    """
    if len(found.volumes) == 1:
        return 0.0
    try:
        common = found.counted - float(_filled(mesh, found, name).volume())
    except GeometryError:
        return None
    return common if abs(common) > SLIVER * found.counted else 0.0


def shell(mesh: Mesh, name: str) -> Mesh:
    """Return the outside of closed bodies, without the rooms inside them.

    Raises:
        GeometryError: They do not close.
    """
    whole = mesh_of(solid_of(mesh, name))
    found = bodies_of(whole, edges_of(whole))
    return part(whole, ~found.is_cavity[found.labels])


def common_volume(one: Mesh, other: Mesh, name: str) -> float:
    """Return the volume that two closed meshes have in common [m³].

    Raises:
        GeometryError: One of them does not close.
    """
    low = np.maximum(one.bounds[0], other.bounds[0])
    high = np.minimum(one.bounds[1], other.bounds[1])
    if (low >= high).any():
        return 0.0
    return float((solid_of(one, name) ^ solid_of(other, name)).volume())
