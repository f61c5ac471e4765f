"""Meshes with known volumes, by the trimesh library, and with faults made on purpose."""

import numpy as np
import trimesh

from trimdive.geometry.lines.mesh import Mesh

SIDES = (0.2, 0.1, 0.05)  # [m]
BOX = 0.2 * 0.1 * 0.05  # its volume [m³]
SMALL = 0.05 * 0.03 * 0.02  # of the small box [m³]


def box(at: tuple[float, float, float] = (0.0, 0.0, 0.0)) -> trimesh.Trimesh:
    shape = trimesh.creation.box(SIDES)
    shape.apply_translation(at)
    return shape


def small_box() -> trimesh.Trimesh:
    return trimesh.creation.box((0.05, 0.03, 0.02))


def inverted(shape: trimesh.Trimesh) -> trimesh.Trimesh:
    other = shape.copy()
    other.invert()
    return other


def together(*shapes: trimesh.Trimesh) -> trimesh.Trimesh:
    return trimesh.util.concatenate(list(shapes))


def mesh(shape: trimesh.Trimesh) -> Mesh:
    return Mesh(
        vertices=np.array(shape.vertices, dtype=np.float64),
        triangles=np.array(shape.faces, dtype=np.int64),
    )


def without(shape: trimesh.Trimesh, *faces: int) -> trimesh.Trimesh:
    kept = np.delete(np.arange(len(shape.faces)), faces)
    return trimesh.Trimesh(shape.vertices, shape.faces[kept], process=False)


def faces_of(shape: trimesh.Trimesh, faces: np.ndarray) -> trimesh.Trimesh:
    return trimesh.Trimesh(shape.vertices, faces, process=False)


def as_file(shape: trimesh.Trimesh, kind: str) -> bytes:
    data = shape.export(file_type=kind)
    return data.encode() if isinstance(data, str) else data
