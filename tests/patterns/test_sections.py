"""Patterns laid back on the hull: the gap is everywhere the one asked for.

Judged by trimesh's closest point on each triangle near the pattern, and by closed forms of a cone
and a sphere.
"""

from math import cos, radians, tan

import numpy as np
import pytest
import trimesh
from shapely import Polygon

from trimdive.assessment import Assessment
from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.walls import walls
from trimdive.patterns.offset import inside, outside
from trimdive.patterns.sections import frame, shell

NEAR = 0.02  # triangles so near to a plane may be the nearest [m]
TENTH = 1e-4  # a tenth of a millimetre [m]


def gaps(meshes: list[Mesh], x: float, line: Floats, count: int = 120) -> Floats:
    """Return how far points all along a closed line are from surfaces, by trimesh [m]."""
    every = np.concatenate([mesh.corners for mesh in meshes])
    along = every[:, :, 0]
    some = every[(along.min(1) < x + NEAR) & (along.max(1) > x - NEAR)]
    ring = Polygon(line).exterior
    at = [ring.interpolate(share, normalized=True) for share in np.linspace(0, 1, count)]
    found: list[float] = []
    for one in at:
        place = np.array([[x, one.x, one.y]])
        near = trimesh.triangles.closest_point(some, np.repeat(place, len(some), axis=0))
        found.append(float(np.linalg.norm(near - place, axis=1).min()))
    return np.array(found)


@pytest.mark.parametrize("gap", [0.0005, 0.002])
def test_a_ball_s_line_is_a_larger_circle(gap: float) -> None:
    """A ball's offset is a larger ball: at x its circle has the radius √((r + gap)² - x²)."""
    made = trimesh.creation.icosphere(subdivisions=6, radius=0.05)
    ball = Mesh(vertices=np.asarray(made.vertices), triangles=np.asarray(made.faces, np.int64))
    (line,) = outside(0.02, ball, gap)
    radii = np.hypot(*line.T)
    assert radii == pytest.approx(np.sqrt((0.05 + gap) ** 2 - 0.02**2), abs=TENTH)


def test_where_she_tapers_the_line_lies_farther_off_than_the_gap() -> None:
    """On a cone that opens by 30° a gap of 2 mm is 2 mm / cos 30° in the plane across it."""
    turn = np.linspace(0, 2 * np.pi, 721)[:-1]
    ring = np.column_stack([np.full(720, 0.2), np.cos(turn), np.sin(turn)])
    ring[:, 1:] *= 0.2 * tan(radians(30))
    k = np.arange(720)
    sides = np.column_stack([np.full(720, 720), (k + 1) % 720, k])
    end = np.column_stack([np.full(720, 721), k, (k + 1) % 720])
    cone = Mesh(
        vertices=np.vstack([ring, [[0, 0, 0], [0.2, 0, 0]]]), triangles=np.vstack([sides, end])
    )
    (line,) = outside(0.1, cone, 0.002)
    own = 0.1 * tan(radians(30)) + 0.002 / cos(radians(30))
    assert np.hypot(*line.T) == pytest.approx(own, abs=TENTH)


@pytest.mark.parametrize(("name", "x"), [("bittern", 0.7), ("bittern", 2.1), ("plover", 0.65)])
def test_shell_boards_lie_on_her_with_the_gap_everywhere(
    request: pytest.FixtureRequest, name: str, x: float
) -> None:
    her: Assessment = request.getfixturevalue(name)
    lines = outside(x, her.hull.envelope, 0.001)
    line = max(lines, key=lambda one: Polygon(one).area)
    assert gaps([her.hull.envelope], x, line) == pytest.approx(0.001, abs=TENTH)
    below, above = shell(her.boat, her.hull, x, 0.001)
    flat = line * np.array([-1.0, 1.0])
    section = Polygon(flat)
    for board in (below, above):
        wood = Polygon(board.cuts[0])
        assert wood.intersection(section).area < 1e-6  # the board is cut along that line
        assert wood.buffer(1e-6).intersection(section.exterior).length > 0.3 * section.length


def test_a_frame_is_clear_of_the_skin_on_both_faces_and_lets_the_cylinder_by(
    bittern: Assessment,
) -> None:
    hull, thick = bittern.hull, 0.004
    cut = frame(bittern.boat, hull, 1.6, thick=thick, gap=0.0005, clear=0.0005, notch=0.006)
    rim, hole = cut.cuts
    standing = [walls(skin.body) for skin in hull.skins]
    for at in (1.6, 1.6 + thick):
        found = gaps(standing, at, rim * np.array([-1.0, 1.0]))
        assert found.min() > 0.0005 - TENTH
    tube = bittern.boat.cylinders[0]
    radii = np.hypot(hole[:, 0], hole[:, 1] - tube.z)
    assert radii == pytest.approx(tube.outside / 2 + 0.0005, abs=TENTH)


def test_frames_lie_along_the_inside_of_a_printed_hull(plover: Assessment) -> None:
    standing = [walls(skin.body) for skin in plover.hull.skins]
    (line, *_) = sorted(
        inside(0.36, plover.hull.envelope, standing, 0.0003), key=lambda one: -Polygon(one).area
    )
    assert gaps(standing, 0.36, line) == pytest.approx(0.0003, abs=TENTH)


def test_a_station_beyond_her_is_refused(plover: Assessment) -> None:
    with pytest.raises(GeometryError, match="beyond the hull"):
        shell(plover.boat, plover.hull, 0.9, 0.001)
