"""Points inside closed meshes, against the solid angle under which the whole mesh is seen.

The solid angle of a triangle: "The Solid Angle of a Plane Triangle", IEEE Transactions on
Biomedical Engineering 30 (1983): 4 π in all from inside a closed mesh, 0 from outside.
"""

import numpy as np
import pytest
from tests.cli.boats import demo

from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.inside import is_inside


def turns(mesh: Mesh, point: Floats) -> float:
    """Return how many times a mesh goes round a point [-]."""
    a, b, c = np.moveaxis(mesh.corners - point, 1, 0)
    la, lb, lc = (np.linalg.norm(side, axis=1) for side in (a, b, c))
    above = np.einsum("ij,ij->i", a, np.cross(b, c))
    below = la * lb * lc
    below += np.einsum("ij,ij->i", a, b) * lc
    below += np.einsum("ij,ij->i", b, c) * la
    below += np.einsum("ij,ij->i", c, a) * lb
    return float(np.arctan2(above, below).sum()) / (2 * np.pi)


@pytest.mark.parametrize("name", ["bittern", "grebe", "plover"])
def test_points_in_skins_and_hulls(name: str) -> None:
    hull, chance = demo(name).hull, np.random.default_rng(7)
    met = 0
    for mesh in [hull.envelope, *(skin.body for skin in hull.skins)]:
        low, high = mesh.bounds
        near = mesh.corners[chance.integers(len(mesh.corners), size=30)].mean(axis=1)
        points = np.vstack(
            [low + (high - low) * chance.uniform(-0.1, 1.1, (30, 3)),
             near + chance.normal(0, 2e-4, near.shape)]
        )  # fmt: skip
        found = is_inside(mesh, points)
        right = np.array([abs(turns(mesh, point)) > 0.5 for point in points])
        met += int(right.sum())
        assert (found == right).all()
    assert met > 50  # many of them lie inside
