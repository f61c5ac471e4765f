"""The largest cylinder in a hull, against closed forms: what fits into a cone, a ball and a box."""

import numpy as np
import pytest

from trimdive.boatfile import parse, resolved
from trimdive.fit.inside import goes_in, largest, room
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.lines.round import revolve
from trimdive.geometry.solids.hull import hull
from trimdive.geometry.solids.shapes import box
from trimdive.geometry.solids.skin import inner_face, skin
from trimdive.geometry.solids.walls import walls

THICK = 0.002  # [m]


def hollow(outer: Mesh) -> Mesh:
    """Return the walls of a hull."""
    return walls(skin(outer, THICK))


def test_a_box_holds_a_cylinder_as_wide_as_its_narrower_side() -> None:
    outer = box(1.0, 0.3, 0.2)
    found = largest(room([hollow(outer)], outer), 0.5, 0.001)
    assert found is not None
    assert found.diameter == pytest.approx(0.2 - 2 * (THICK + 0.001), abs=1e-4)
    assert found.z == pytest.approx(0.0, abs=0.003)


def test_a_spheroid_holds_a_cylinder_that_touches_it_at_both_ends() -> None:
    """Within x²/a² + r²/b² = 1 a cylinder of length l may have r = b·√(1 − (l/2a)²)."""
    a, b, long = 0.5, 0.1, 0.6
    x = a * -np.cos(np.linspace(0.0, np.pi, 201))
    outer = revolve(x, b * np.sqrt(np.maximum(1.0 - (x / a) ** 2, 0.0)))
    inner = inner_face(outer, THICK)
    at = inner.vertices[np.abs(np.abs(inner.vertices[:, 0]) - long / 2) < 0.006]
    within = np.hypot(at[:, 1], at[:, 2]).mean()
    found = largest(room([hollow(outer)], outer), long, 0.0)
    assert found is not None
    assert found.x == pytest.approx(0.0, abs=0.005)
    assert found.diameter / 2 == pytest.approx(
        b * np.sqrt(1 - (long / 2 / a) ** 2) - THICK, abs=1e-3
    )
    assert found.diameter / 2 == pytest.approx(within, abs=1e-3)


def test_a_tube_may_lie_as_far_from_the_walls_as_they_leave_it() -> None:
    """In a box: anywhere so far from floor, top and ends, plane geometry."""
    outer = box(1.0, 0.3, 0.2)
    found = goes_in(room([hollow(outer)], outer), 0.5, 0.15, 0.001)
    assert found is not None
    assert found.clear == pytest.approx(0.1 - THICK - 0.075, abs=1e-4)
    assert found.high == pytest.approx(0.1 - THICK - 0.076, abs=0.002)
    assert found.low == pytest.approx(-found.high, abs=1e-9)
    assert 0.5 - THICK - 0.25 - 0.009 <= found.fore <= 0.5 - THICK - 0.25  # two steps, to be safe
    assert found.aft == pytest.approx(-found.fore, abs=1e-9)
    assert goes_in(room([hollow(outer)], outer), 0.5, 0.195, 0.001) is None


def test_no_cylinder_is_longer_than_the_hull() -> None:
    outer = box(1.0, 0.3, 0.2)
    assert largest(room([hollow(outer)], outer), 1.01, 0.0) is None


def test_lids_between_the_faces_of_a_skin_are_no_walls() -> None:
    """A hull cut in two is open where it was cut: its walls shut nothing there."""
    boat = resolved(parse(CUT))
    built = hull(boat, {})
    body = built.skins[0].body
    assert len(walls(body).triangles) != len(body.triangles)
    free = walls(body)
    middle = free.corners.mean(axis=1)
    on_cut = (np.abs(middle[:, 2] - 0.05) < 1e-9) & (np.abs(middle[:, 0] - 0.5) < 0.4)
    across = np.abs(free.corners[on_cut][..., 1]).min()
    assert across > 0.0  # the rim alone: nothing of it reaches the middle
    assert volume(free) == pytest.approx(volume(body), rel=1e-9)


CUT = """
format = 1
name = "x"
length = "1 m"
units.length = "mm"
[[region]]
name = "hull"
surface = "outline"
length = 1000
breadth = 120
height = 100
below = 50
thickness = 2
material = "GRP"
profile = [{ x = 0, keel = 10, deck = 90 }, { x = 1000, keel = 10, deck = 90 }]
breadths = [{ x = 0, breadth = 60 }, { x = 500, breadth = 120 }, { x = 1000, breadth = 60 }]
section = [{ x = 500, shape = "oval" }]
"""
