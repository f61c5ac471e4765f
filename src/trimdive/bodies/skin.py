"""Skins: a surface with a thickness, wet on both faces, made into a closed body.

The inner face is a copy of the outer one, each corner moved inward along its own direction so
that the faces about it move by the thickness. It stops at the centre plane, so that a hull
narrower than two skins is solid there.
"""

import numpy as np

from trimdive.bodies.shapes import turned_out
from trimdive.lines.mesh import Floats, Mesh, join

MITRE = 2.0  # most that a corner may move, in thicknesses [-]; at knuckles sharper than 120°


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


def inner_face(mesh: Mesh, thickness: float) -> Mesh:
    """Return the surface ``thickness`` [m] inside a closed one that is alike port and starboard."""
    outer = mesh.vertices
    inner = outer + thickness * inward(mesh)
    side = np.sign(outer[:, 1])
    inner[:, 1] = side * np.maximum(side * inner[:, 1], 0.0)
    return Mesh(vertices=inner, triangles=mesh.triangles)


def skin(mesh: Mesh, thickness: float, inset: float = 0.0) -> Mesh:
    """Return the closed body of a skin ``thickness`` thick, ``inset`` inside the surface [m]."""
    outer = inner_face(mesh, inset) if inset else mesh
    return join([outer, turned_out(inner_face(mesh, inset + thickness))])
