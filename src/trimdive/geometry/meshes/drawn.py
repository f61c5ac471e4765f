"""What a mesh file holds, before it is placed in a boat: points in the file's own unit."""

from dataclasses import dataclass

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Ints

FARTHEST = 1e30  # numbers beyond it are no places [-]
MIX = np.array([0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9], dtype=np.uint64)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Drawn:
    """A mesh as it was drawn."""

    name: str  # of the file
    kind: str  # of file: "STL", "text STL", "OBJ", "PLY", "3MF", "GLB" or "STEP"
    points: Floats  # no two alike, shape (n, 3) [-]
    triangles: Ints  # shape (m, 3) [-]
    unit: float | None  # length of one unit, where the file says it [m]
    without_supports: bool = False  # whether what only holds it up in printing was left out


def same_points(points: Floats) -> tuple[Floats, Ints]:
    """Return the points, each once and in the order of the file, and which of them each was.

    Args:
        points: Shape (n, 3), of single or double precision [-].
    """
    clean = np.ascontiguousarray(points + 0.0)  # -0 is 0
    wide = np.uint32 if clean.dtype == np.float32 else np.uint64
    with np.errstate(over="ignore"):
        bits = clean.view(wide).astype(np.uint64) * MIX
        bits ^= bits >> np.uint64(29)
        key = (bits[:, 0] ^ (bits[:, 1] << np.uint64(1))) * MIX[0] + bits[:, 2] * MIX[1]
    _, first, index = np.unique(key, return_index=True, return_inverse=True)
    if not np.array_equal(clean[first[index]], clean):  # two points with one key: hardly ever
        _, first, index = np.unique(clean, axis=0, return_index=True, return_inverse=True)
    order = np.argsort(first)
    rank = np.empty(len(order), np.int64)
    rank[order] = np.arange(len(order))
    return clean[first[order]].astype(np.float64), rank[index.reshape(-1)]


def drawn(
    *, name: str, kind: str, points: Floats, triangles: Ints | None, unit: float | None = None
) -> Drawn:
    """Return what a file holds, with equal points made one and unused ones left out.

    Args:
        name: Name of the file.
        kind: Kind of file.
        points: Shape (n, 3) [-].
        triangles: Shape (m, 3) [-]; None where every three points are a triangle.
        unit: Length of one unit, where the file says it [m].

    Raises:
        GeometryError: There are no triangles, or what stands there are no numbers.
    """
    if not len(points) or (triangles is not None and not len(triangles)):
        raise GeometryError("it holds no triangles", name, "Export the mesh again, as STL.")
    if not np.isfinite(points).all():
        raise GeometryError("some of its points are no numbers", name, "Export the mesh again.")
    if float(np.abs(points).max()) > FARTHEST:
        what = "some of its points lie beyond all measure"
        raise GeometryError(what, name, "Export the mesh again.")
    if triangles is not None:
        low, high = int(triangles.min()), int(triangles.max())
        if low < 0 or high >= len(points):
            what = f"a triangle names point {high + 1 if low >= 0 else low} of {len(points)}"
            raise GeometryError(what, name, "Copy or export the file again; it is damaged.")
        points = points[triangles.reshape(-1)]
    unique, index = same_points(points)
    return Drawn(name=name, kind=kind, points=unique, triangles=index.reshape(-1, 3), unit=unit)
