"""Skins: a surface with a thickness, wet on both faces, made into a closed body.

The inner face is a copy of the outer one, each corner moved inward along its own direction so
that the faces about it move by the thickness. It stops halfway to the other side, so that a hull
narrower than two skins is solid there: at the middle plane of a surface that is alike on both sides
of it, wherever in the boat that lies, and else halfway to the surface opposite each corner.
"""

import numpy as np

from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh, join
from trimdive.geometry.meshes import is_alike_across
from trimdive.geometry.meshes.solid import solid_of
from trimdive.geometry.solids.shapes import turned_out

CENTRED = 1e-6  # off the centre plane by less than this share of the breadth is on it [-]
BESIDE = 1e-6  # looked at from so far within the surface, as a share of the size [-]
MITRE = 2.0  # most that a corner may move, in thicknesses [-]; at knuckles sharper than 120°


@with_mesh(1)
def inward(mesh: Mesh) -> Floats:
    """Return for each corner the way it moves for a unit of thickness, shape (n, 3) [-]."""
    corners = mesh.corners
    edges = np.roll(corners, -1, axis=1) - corners
    areas = np.cross(edges[:, 0], edges[:, 1])
    sizes = np.linalg.norm(areas, axis=1, keepdims=True)
    faces = np.divide(areas, sizes, out=np.zeros_like(areas), where=sizes > 0)
    lengths = np.maximum(np.linalg.norm(edges, axis=2), 1e-300)
    units = edges / lengths[:, :, None]
    cosines = -np.einsum("ijk,ijk->ij", units, np.roll(units, 1, axis=1))
    angles = np.arccos(np.clip(cosines, -1.0, 1.0))
    total = np.zeros_like(mesh.vertices)
    weight = np.zeros(len(mesh.vertices))
    for k in range(3):
        np.add.at(total, mesh.triangles[:, k], faces * angles[:, k : k + 1])
        np.add.at(weight, mesh.triangles[:, k], angles[:, k])
    mean = total / np.maximum(weight, 1e-300)[:, None]
    square = np.einsum("ij,ij->i", mean, mean)[:, None]
    return -mean / np.maximum(square, 1.0 / MITRE**2)


def inner_face(mesh: Mesh, thickness: float | Floats) -> Mesh:
    """Return the surface ``thickness`` inside a closed one.

    Args:
        mesh: The outer surface.
        thickness: Everywhere, or at each corner, shape (n,) [m].
    """
    outer = mesh.vertices
    ways = inward(mesh)
    if not _is_alike(mesh):
        inner = outer + np.minimum(thickness, _room(mesh))[:, None] * ways
        return Mesh(vertices=inner, triangles=mesh.triangles)
    inner = outer + np.broadcast_to(thickness, len(outer))[:, None] * ways
    low, high = mesh.bounds[:, 1]
    middle = (low + high) / 2
    middle = 0.0 if abs(middle) <= CENTRED * (high - low) else middle
    side = np.sign(outer[:, 1] - middle)
    inner[:, 1] = middle + side * np.maximum(side * (inner[:, 1] - middle), 0.0)
    return Mesh(vertices=inner, triangles=mesh.triangles)


@with_mesh(1)
def _is_alike(mesh: Mesh) -> bool:
    return is_alike_across(mesh)


@with_mesh(1)
def _room(mesh: Mesh) -> Floats:
    """Return how thick a skin each corner has room for: half way to the surface opposite [m]."""
    solid = solid_of(mesh, "surface")
    size = float(np.ptp(mesh.bounds, axis=0).max())
    ways = inward(mesh)
    lengths = np.maximum(np.linalg.norm(ways, axis=1), 1e-300)
    ahead = ways / lengths[:, None]
    found = np.full(len(ways), size)
    starts, stops = mesh.vertices + BESIDE * size * ahead, mesh.vertices + 2 * size * ahead
    for k, (start, stop) in enumerate(zip(starts.tolist(), stops.tolist(), strict=True)):
        if hits := solid.ray_cast(tuple(start), tuple(stop)):
            found[k] = np.linalg.norm(np.array(hits[0].position) - mesh.vertices[k])
    return found / 2 / lengths


def skin(mesh: Mesh, thickness: float | Floats, inset: float = 0.0) -> Mesh:
    """Return the closed body of a skin ``thickness`` thick, ``inset`` inside the surface [m]."""
    outer = inner_face(mesh, inset) if inset else mesh
    return join([outer, turned_out(inner_face(mesh, inset + thickness))])
