"""Bodies made one, and what they are from outside."""

import numpy as np

from trimdive.errors import GeometryError
from trimdive.lines.mesh import Mesh
from trimdive.meshes.bodies import Bodies, bodies_of
from trimdive.meshes.edges import edges_of, part
from trimdive.meshes.solid import mesh_of, solid_of

SLIVER = 1e-6  # share of the volume below which an overlap only touches [-]


def united(mesh: Mesh, found: Bodies, name: str) -> Mesh:
    """Return the space that any body fills, counted once; each keeps its cavities.

    Raises:
        GeometryError: A body does not close.
    """
    from manifold3d import Manifold, OpType

    groups = np.where(found.is_cavity, found.around, np.arange(len(found.around)))[found.labels]
    solids = [solid_of(part(mesh, groups == group), name) for group in np.unique(groups)]
    return mesh_of(Manifold.batch_boolean(solids, OpType.Add))


def overlap(mesh: Mesh, found: Bodies, name: str) -> float:
    """Return the volume that bodies have in common, counted once too often [m³]; 0 if unknown."""
    whole = float(np.where(found.is_cavity, -1.0, 1.0) @ np.abs(found.volumes))
    try:
        common = whole - float(solid_of(united(mesh, found, name), name).volume())
    except GeometryError:
        return 0.0
    return common if common > SLIVER * whole else 0.0


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
