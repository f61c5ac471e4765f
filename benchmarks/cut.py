"""The plane cut beside a general library of solids, and beside numpy copying the same mesh.

The body is an ellipsoid of 5:1:1; the planes are sixteen waterlines with heel and trim of a few
degrees, far enough apart that each cuts other triangles. Ours is ``cut``, called from Python,
with volume, moment, waterplane and its moments; theirs trims by the plane and takes the volume.
"""

from math import log

import numpy as np

from benchmarks.meshes import LONG, geodesic, stretched
from benchmarks.timing import Row, in_words, typical
from trimdive.bodies.cut import cut
from trimdive.bodies.tree import Tree, plant
from trimdive.lines.mesh import Floats, Mesh

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


def _apart(tree: Tree, solid: object, plane: Plane) -> float:
    """Return by how much the volumes differ [-]."""
    return abs(cut(tree, *plane).volume / _trimmed(solid, plane) - 1.0)


def _size(halvings: int, least: float) -> tuple[list[Row], list[str]]:
    mesh = stretched(geodesic(halvings), LONG)
    planting = typical(plant, [mesh], 1)
    tree, solid, planes = plant(mesh), _solid(mesh), waterlines(16)
    count = f"{len(mesh.triangles):,} triangles"
    ours = typical(lambda plane: cut(tree, *plane), planes, 800)
    theirs = typical(lambda plane: _trimmed(solid, plane), planes[:3], 9)
    copying = typical(lambda vertices: vertices.copy(), [mesh.vertices], 20)
    apart = _apart(tree, solid, planes[0])
    return [
        Row(what=f"cut, {count}", beside="trim, volume", ours=ours, theirs=theirs, least=least),
        Row(what=f"cut, {count}", beside="copy vertices", ours=ours, theirs=copying, least=1.0),
    ], [f"{count}: planted in {in_words(planting)}; volumes agree to {apart:.0e}."]


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else is worth telling."""
    small, told = _size(6, 1000.0)
    large, told_too = _size(8, 5000.0)
    power = log(large[0].ours / small[0].ours) / log(16.0)
    met = "yes" if power <= STEEPEST else "no"
    growth = ["growth between them", "", "", "", f"n^{power:.2f}", f"n^{STEEPEST}", met]
    return [small[0].cells, large[0].cells, large[1].cells, growth], told + told_too
