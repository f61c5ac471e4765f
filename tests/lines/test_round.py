"""Bodies of revolution against closed forms: cylinder, cone, prolate spheroid."""

import math

import numpy as np
import pytest
from tests.lines.tables import area, assert_closed, volume_and_centre

from trimdive.errors import GeometryError
from trimdive.geometry.lines import loft, read_table, revolve


@pytest.mark.parametrize("sides", [6, 7, 24, 96])
def test_cylinder_and_cone_have_their_exact_volume(sides: int) -> None:
    """πr²h and πr²h/3, whatever the polygon."""
    tube = revolve(np.array([0.0, 1.2]), np.array([0.08, 0.08]), sides=sides)
    assert_closed(tube)
    assert volume_and_centre(tube)[0] == pytest.approx(math.pi * 0.08**2 * 1.2, rel=1e-12)
    cone = revolve(np.array([0.0, 0.1]), np.array([0.0, 0.05]), axis_z=0.4, sides=sides)
    assert_closed(cone)
    measured, centre = volume_and_centre(cone)
    assert measured == pytest.approx(math.pi * 0.05**2 * 0.1 / 3.0, rel=1e-12)
    assert centre == pytest.approx([0.075, 0.0, 0.4], abs=1e-12)


def test_prolate_spheroid() -> None:
    """Volume 4πab²/3 = 0.02010619, surface 0.59526629 for a 0.75, b 0.08 (closed forms)."""
    turn = np.linspace(0.0, math.pi, 400)
    r = 0.08 * np.sin(turn)
    r[-1] = 0.0
    mesh = revolve(0.75 * (1.0 - np.cos(turn)), r, sides=180)
    assert_closed(mesh)
    assert volume_and_centre(mesh)[0] == pytest.approx(0.02010619, rel=5e-5)
    assert area(mesh) == pytest.approx(0.59526629, rel=1e-4)


def test_plover_like_radii_from_a_table() -> None:
    """The parallel part is a cylinder: its volume by πr²h between x 300 and 500."""
    text = "x mm,radius\n0,2.8\n120,34.2\n230,45.5\n300,46\n400,46\n500,46\n580,45.8\n720,1.5\n"
    mesh = loft(read_table(text, "r.csv"), along=300)
    assert_closed(mesh)
    inside = (mesh.vertices[:, 0] >= 0.3) & (mesh.vertices[:, 0] <= 0.5)
    scale = math.sqrt(2.0 * math.pi / 104 / math.sin(2.0 * math.pi / 104))  # 104 sides
    distance = np.hypot(mesh.vertices[inside, 1], mesh.vertices[inside, 2] - 0.046)
    assert distance == pytest.approx(np.full(inside.sum(), 0.046 * scale), rel=1e-9)


@pytest.mark.parametrize(
    ("x", "r"), [([0.0, 1.0, 1.0], [0.1, 0.1, 0.1]), ([0.0, 1.0, 2.0], [0.1, 0.0, 0.1])]
)
def test_bad_radii_are_refused(x: list[float], r: list[float]) -> None:
    with pytest.raises(GeometryError):
        revolve(np.array(x), np.array(r))
