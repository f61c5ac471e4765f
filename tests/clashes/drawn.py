"""Boats drawn by lot for the tests of shared room."""

import manifold3d
import numpy as np
import trimesh

from trimdive.geometry.clashes.shapes import Shape

SIDES = 256


def drawn(shape: Shape) -> manifold3d.Manifold:
    """Return a shape as trimesh draws it."""
    if shape.form == "box":
        mesh = trimesh.creation.box(extents=shape.size)
    elif shape.form == "ball":
        mesh = trimesh.creation.icosphere(subdivisions=5, radius=shape.size[0] / 2)
    else:
        across = shape.size[(shape.axis + 1) % 3]
        mesh = trimesh.creation.cylinder(across / 2, shape.size[shape.axis], sections=SIDES)
        mesh.vertices = np.roll(mesh.vertices, shape.axis + 1, axis=1)  # trimesh draws along z
    mesh.apply_translation(shape.place)
    return manifold3d.Manifold(
        manifold3d.Mesh64(
            np.array(mesh.vertices, float), np.array(mesh.faces, np.uint64)
        )
    )  # fmt: skip
