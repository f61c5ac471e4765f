"""The space that a moving thing sweeps: a mast that goes up, a door, a rudder with its stock.

What is convex sweeps the hulls of each two neighbouring places; of a mesh the places themselves
are put together, close enough that what lies between is within a tenth of a millimetre.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import ceil, cos, pi, sin

import numpy as np

from trimdive.boatfile import Travel
from trimdive.geometry.clashes.shapes import Shape, of_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.meshes.solid import kept_solid, mesh_of

TURN = pi / 90  # between two neighbouring places of a swing at most [rad]
STEP = 0.002  # between two neighbouring places of a mesh that slides at most [m]
MOST = 200  # places of a mesh at most [-]
AXES = "xyz"
WAYS = {
    "up": (0.0, 0.0, 1.0), "down": (0.0, 0.0, -1.0), "forward": (1.0, 0.0, 0.0),
    "aft": (-1.0, 0.0, 0.0), "outward": (0.0, 1.0, 0.0), "inward": (0.0, -1.0, 0.0),
}  # fmt: skip


@lru_cache(maxsize=64)
def swept(shape: Shape, travel: Travel) -> Shape:
    """Return the space that a shape sweeps, where it lies and back.

    Args:
        shape: The thing where it lies; one to starboard slides outward to starboard.
        travel: How it moves: it slides, swings, or slides and swings everywhere on its way.
    """
    found = shape
    if travel.slides:
        found = _together(found, list(_slid(found, travel)))
    if travel.swings:
        middle = np.array(shape.place) + np.array([travel.ahead, 0.0, travel.above])
        found = _together(found, list(_swung(found, travel, middle)))
    return found


def _slid(shape: Shape, travel: Travel) -> Iterator[Mesh]:
    """Yield a shape on its way: at both ends where it is convex, else step by step."""
    assert travel.slides is not None
    way = np.array(WAYS[travel.way])
    if shape.place[1] < 0:
        way[1] = -way[1]
    steps = min(ceil(travel.slides / STEP), MOST) if shape.form == "mesh" else 1
    surface = shape.surface
    for share in np.linspace(0.0, 1.0, steps + 1):
        yield Mesh(
            vertices=surface.vertices + share * travel.slides * way, triangles=surface.triangles
        )


def _swung(shape: Shape, travel: Travel, middle: Floats) -> Iterator[Mesh]:
    """Yield a shape swung about its axis, from one side to the other."""
    assert travel.swings is not None
    surface, axis = shape.surface, AXES.index(travel.about)
    for angle in np.linspace(-travel.swings, travel.swings, 2 * ceil(travel.swings / TURN) + 1):
        turned = (surface.vertices - middle) @ _turn(axis, float(angle)).T + middle
        yield Mesh(vertices=turned, triangles=surface.triangles)


def _turn(axis: int, angle: float) -> Floats:
    """Return the matrix that turns about an axis, shape (3, 3)."""
    found = np.eye(3)
    i, j = (axis + 1) % 3, (axis + 2) % 3
    found[[i, j], [i, j]] = cos(angle)
    found[i, j], found[j, i] = -sin(angle), sin(angle)
    return found


def _together(shape: Shape, places: list[Mesh]) -> Shape:
    """Return what a shape sweeps between places that lie close together."""
    from manifold3d import Manifold, OpType

    if shape.form == "mesh":
        solids = [kept_solid(one, "a moving part") for one in places]
    else:
        points = [one.vertices for one in places]
        solids = [Manifold.hull_points(np.vstack(pair)) for pair in pairwise(points)]
    return of_mesh(mesh_of(Manifold.batch_boolean(solids, OpType.Add)))
