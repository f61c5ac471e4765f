"""Tables of lines that the tests loft, and quantities of meshes by sums of their own."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from trimdive.geometry.lines import Mesh

Floats = NDArray[np.float64]
BOATS = Path(__file__).parents[2] / "boats"


def boat(name: str) -> str:
    """Return the text of the table of a demo boat."""
    return (BOATS / name / "lines.csv").read_text("utf-8")


def offsets(
    x: Floats, z: Floats, breadth: Callable[[float, float], float], knuckles: str = ""
) -> str:
    """Return half-breadths at heights as a table; the first height is the keel, the last the deck.

    Args:
        x: Stations [m].
        z: Heights [m].
        breadth: Half-breadth [m] at x and z.
        knuckles: What stands in the column of that name.
    """
    heights = ",".join(f"{h * 1e3:.6g}" for h in z[1:-1])
    rows = [f"x mm,keel,{heights},deck,deck half,knuckles"]
    for place in x:
        y = [breadth(float(place), float(h)) * 1e3 for h in z]
        inner = ",".join(f"{v:.5f}" for v in y[1:-1])
        rows.append(
            f"{place * 1e3:.5f},{z[0] * 1e3:.5f},{inner},{z[-1] * 1e3:.5f},{y[-1]:.5f},{knuckles}"
        )
    return "\n".join([*rows, ""])


def radii(x: Floats, r: Floats) -> str:
    """Return a table of radii."""
    rows = [f"{a * 1e3:.6f},{b * 1e3:.6f}" for a, b in zip(x, r, strict=True)]
    return "\n".join(["x mm,radius", *rows, ""])


def points(sections: list[tuple[float, list[tuple[float, float]]]]) -> str:
    """Return a table of points."""
    rows = [f"{x * 1e3:.5f},{y * 1e3:.5f},{z * 1e3:.5f}" for x, run in sections for y, z in run]
    return "\n".join(["x mm,y,z", *rows, ""])


def wigley_half_breadth(x: float, z: float) -> float:
    """Return the half-breadth of the Wigley hull of length 1, breadth 0.1, draught 0.0625 m."""
    return 0.05 * (1.0 - (2.0 * x - 1.0) ** 2) * (1.0 - ((0.0625 - z) / 0.0625) ** 2)


def volume_and_centre(mesh: Mesh) -> tuple[float, Floats]:
    """Return volume and its centre by signed tetrahedra."""
    a, b, c = (mesh.vertices[mesh.triangles[:, k]] for k in range(3))
    parts = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6.0
    return float(parts.sum()), (parts[:, None] * (a + b + c) / 4.0).sum(axis=0) / parts.sum()


def area(mesh: Mesh) -> float:
    """Return the area of all triangles."""
    a, b, c = (mesh.vertices[mesh.triangles[:, k]] for k in range(3))
    return float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2.0)


def assert_closed(mesh: Mesh) -> None:
    """Say so if a mesh is not a clean closed surface, mirrored about the centre line."""
    t = mesh.triangles
    edges = np.concatenate([t[:, [0, 1]], t[:, [1, 2]], t[:, [2, 0]]])
    forth = np.unique(edges[:, 0] * len(mesh.vertices) + edges[:, 1])
    back = np.unique(edges[:, 1] * len(mesh.vertices) + edges[:, 0])
    assert len(forth) == len(edges)  # no edge twice in one direction
    assert np.array_equal(forth, back)  # each has its partner
    assert len(np.unique(mesh.vertices, axis=0)) == len(mesh.vertices)
    a, b, c = (mesh.vertices[t[:, k]] for k in range(3))
    assert np.linalg.norm(np.cross(b - a, c - a), axis=1).min() > 0.0
    mirrored = mesh.vertices * (1.0, -1.0, 1.0) + 0.0
    assert np.array_equal(np.unique(mirrored, axis=0), np.unique(mesh.vertices, axis=0))
    assert volume_and_centre(mesh)[0] > 0.0
