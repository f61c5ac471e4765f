"""A surface from an STL file: read, welded and looked at, never mended in silence."""

import io

import numpy as np

from trimdive.errors import GeometryError
from trimdive.lines.mesh import Ints, Mesh, volume
from trimdive.lines.sheet import welded

MOST_BYTES = 256 * 2**20  # a mesh file larger than this is taken for a mistake


def read_mesh(data: bytes, name: str, *, unit: float = 1e-3) -> Mesh:
    """Return the closed mesh that an STL file holds.

    Args:
        data: The file.
        name: What to call it in messages.
        unit: Length of one unit of the file; a file does not say it [m].

    Raises:
        GeometryError: It cannot be read, is not closed, or is inside out.
    """
    if len(data) > MOST_BYTES:
        raise GeometryError(
            f"the mesh is {len(data) / 2**20:.0f} MB",
            name,
            f"Thin it out to less than {MOST_BYTES // 2**20} MB.",
        )
    mesh = _read(data, name, unit)
    _check_closed(mesh.triangles, name)
    if volume(mesh) <= 0.0:
        raise GeometryError(
            "the mesh is inside out", name, "Turn its triangles round where it was drawn."
        )
    return mesh


def _read(data: bytes, name: str, unit: float) -> Mesh:
    """Return the triangles of the file with equal corners made one."""
    from trimesh.exchange.stl import load_stl  # slow to import, and rarely needed

    try:
        parts = load_stl(io.BytesIO(data))
        corners = np.asarray(parts["vertices"], dtype=np.float64)[np.asarray(parts["faces"])]
    except Exception as error:  # the reader raises whatever the bytes provoke
        raise GeometryError(
            "this is not an STL file that can be read", name, "Write it anew as STL."
        ) from error
    if not corners.size or not np.isfinite(corners).all():
        raise GeometryError("the mesh holds no triangles, or no numbers", name, "Write it anew.")
    points = corners.reshape(-1, 3) * unit
    return welded(points, np.arange(len(points), dtype=np.int64).reshape(-1, 3))


def _check_closed(triangles: Ints, name: str) -> None:
    """Say so when an edge does not lie between two triangles that face the same way."""
    edges = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    pairs, index, uses = np.unique(
        np.sort(edges, axis=1), axis=0, return_inverse=True, return_counts=True
    )
    signs = np.where(edges[:, 0] < edges[:, 1], 1.0, -1.0)
    turns = np.bincount(
        index.reshape(-1),
        weights=signs,
        minlength=len(pairs),
    )
    if opened := int(np.sum(uses % 2 == 1)):
        raise GeometryError(
            f"the mesh is not closed: {opened} open edges",
            name,
            "Close its holes where it was drawn, or use it as a skin with a thickness.",
        )
    if turned := int(np.sum(turns != 0.0)):
        raise GeometryError(
            f"at {turned} edges two triangles face opposite ways",
            name,
            "Turn the triangles one way round where the mesh was drawn.",
        )
