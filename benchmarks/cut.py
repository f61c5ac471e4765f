"""The plane cut beside general libraries, plain code over all triangles, and a copy of the mesh.

The body is an ellipsoid of 5:1:1; the planes are sixteen waterlines with heel and trim of a few
degrees, far enough apart that each cuts other triangles. Ours is ``cut``, called from Python,
with volume, moment, waterplane and its moments, as the plain ones give them; the libraries trim by
the plane and take the volume alone. All begin with the mesh in the form that they want it in.
"""

from math import log

import numpy as np
from trimesh.intersections import slice_faces_plane

from benchmarks.meshes import LONG, geodesic, stretched
from benchmarks.plain import in_numba, in_numpy, tetrahedra
from benchmarks.timing import NOTHING, Row, in_words, typical
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.tree import Tree, plant

Plane = tuple[Floats, float]
STEEPEST = 0.65  # power of the number of triangles with which the time may grow [-]


def waterlines(count: int) -> list[Plane]:
    """Return planes as n and d, spread by golden-ratio steps over heel, trim and height."""
    steps = (np.arange(1, count + 1)[:, None] * np.array([0.8192, 0.6711, 0.5497])) % 1.0
    planes: list[Plane] = []
    for trim, heel, height in 2.0 * steps - 1.0:
        n = np.array([0.05 * trim, 0.1 * heel, 1.0])
        planes.append((n / np.linalg.norm(n), 0.1 + 0.3 * height))
    return planes


def _solid(mesh: Mesh) -> object:
    from manifold3d import Manifold, Mesh64

    return Manifold(Mesh64(mesh.vertices, mesh.triangles.astype(np.uint64)))


def _trimmed(solid: object, plane: Plane) -> float:
    """Return the volume below the plane; the library keeps what lies on the side of the normal."""
    n, d = plane
    return solid.trim_by_plane(-n, -d).volume()


def _sliced(mesh: Mesh, plane: Plane) -> float:
    """Return the volume below the plane: sliced by trimesh, summed up from a point in the plane.

    A cap would add nothing, and making one needs yet another library.
    """
    n, d = plane
    vertices, faces, _ = slice_faces_plane(mesh.vertices, mesh.triangles, -n, d * n)
    return float(tetrahedra(*np.moveaxis((vertices - d * n)[faces], 1, 0))[0])


def apart(tree: Tree, mesh: Mesh, plane: Plane) -> float:
    """Return by how much volumes, and areas of the plain ones, differ from ours at most [-]."""
    ours = cut(tree, *plane)
    plain = [in_numpy(mesh, *plane), in_numba(mesh, *plane)]
    volumes = [_trimmed(_solid(mesh), plane), _sliced(mesh, plane), *(one[0] for one in plain)]
    ratios = [volume / ours.volume for volume in volumes]
    ratios += [one[4] / ours.area for one in plain]
    return max(abs(ratio - 1.0) for ratio in ratios)


def _size(halvings: int, least: float) -> tuple[list[Row], list[str]]:
    mesh = stretched(geodesic(halvings), LONG)
    planting = typical(plant, [mesh], 1)
    tree, solid, planes = plant(mesh), _solid(mesh), waterlines(16)
    count, off = f"{len(mesh.triangles):,} triangles", apart(tree, mesh, planes[0])
    ours = typical(lambda plane: cut(tree, *plane), planes, 800)
    beside: list[tuple[str, float, float | None]] = [
        ("manifold3d trims", typical(lambda plane: _trimmed(solid, plane), planes[:3], 6), least),
        ("trimesh slices", typical(lambda plane: _sliced(mesh, plane), planes[:2], 2), None),
        ("plain numpy", typical(lambda plane: in_numpy(mesh, *plane), planes[:3], 6), None),
        ("a numba loop", typical(lambda plane: in_numba(mesh, *plane), planes[:3], 9), None),
        ("copy vertices", typical(lambda one: one.copy(), [mesh.vertices], 20), 1.0),
    ]
    return [
        Row(what=f"cut, {count}", beside=what, time=ours, other=time, least=wanted)
        for what, time, wanted in beside
    ], [f"{count}: planted in {in_words(planting)}; all agree to {off:.0e}."]


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else is worth telling."""
    small, answer = _size(6, 1000.0)
    large, is_shown_too = _size(8, 5000.0)
    power = log(large[0].time / small[0].time) / log(16.0)
    met = "yes" if power <= STEEPEST else "no"
    growth = ["growth between them", *3 * [NOTHING], f"n^{power:.2f}", f"n^{STEEPEST}", met]
    return [*(row.cells for row in small[:-1] + large), growth], answer + is_shown_too
