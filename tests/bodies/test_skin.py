"""Skins of any surface, wherever it lies across the boat, against closed forms and manifold3d."""

import manifold3d
import numpy as np
import pytest

from trimdive.boatfile import parse
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.solids.hull import hull
from trimdive.geometry.solids.shapes import box, cylinder, moved
from trimdive.geometry.solids.skin import inner_face, skin

PLACES = (0.0, 0.01, 0.02, 0.03, 0.2, -0.25)  # of its middle; 0.03: one side on the centre line [m]


@pytest.mark.parametrize("y", PLACES)
def test_a_box_anywhere(y: float) -> None:
    """By hand: 120 × 60 × 50 less 116 × 56 × 46 mm."""
    found = volume(skin(moved(box(0.12, 0.06, 0.05), 0.5, y, 0.1), 0.002))
    assert found == pytest.approx(0.12 * 0.06 * 0.05 - 0.116 * 0.056 * 0.046, rel=1e-9)


@pytest.mark.parametrize("y", PLACES)
def test_a_tube_anywhere(y: float) -> None:
    """By hand: a cylinder of 60 × 1200 less one of 56 × 1196 mm; its end edges are drawn round."""
    found = volume(skin(moved(cylinder(0.06, 1.2, 200), 0.5, y, 0.1), 0.002))
    wanted = np.pi / 4 * (0.06**2 * 1.2 - 0.056**2 * 1.196)
    assert found == pytest.approx(wanted, rel=1e-2)
    assert found == pytest.approx(volume(skin(cylinder(0.06, 1.2, 200), 0.002)), rel=1e-9)


@pytest.mark.parametrize("y", PLACES)
def test_a_blade_thinner_than_two_skins_is_solid(y: float) -> None:
    blade = moved(box(0.12, 0.003, 0.05), 0.5, y, 0.1)
    assert volume(inner_face(blade, 0.002)) == pytest.approx(0.0, abs=1e-12)
    assert volume(skin(blade, 0.002)) == pytest.approx(volume(blade), rel=1e-9)


def angle(y: float) -> Mesh:
    """Return a bar 100 mm long over an L of 60 × 40 with legs 12 thick, by manifold3d [m]."""
    points = [(0, 0), (0.06, 0), (0.06, 0.012), (0.012, 0.012), (0.012, 0.04), (0, 0.04)]
    solid = manifold3d.Manifold.extrude(manifold3d.CrossSection([points]), 0.1)
    fine = solid.refine_to_length(0.004).to_mesh64()
    bar = np.asarray(fine.vert_properties)[:, [2, 0, 1]] + [0.0, y, 0.0]
    return Mesh(vertices=bar, triangles=np.asarray(fine.tri_verts, dtype=np.int64))


@pytest.mark.parametrize("thick", [0.001, 0.003, 0.005])
def test_a_bar_that_is_unlike_on_both_sides(thick: float) -> None:
    """Against the inner outline by manifold3d's offset with mitred corners, and anywhere alike."""
    points = [(0, 0), (0.06, 0), (0.06, 0.012), (0.012, 0.012), (0.012, 0.04), (0, 0.04)]
    inner = manifold3d.CrossSection([points]).offset(-thick, manifold3d.JoinType.Miter, 4.0)
    wanted = volume(angle(0.0)) - inner.area() * (0.1 - 2 * thick)
    found = [volume(skin(angle(y), thick)) for y in (-0.03, 0.0, 0.05)]
    assert found == pytest.approx([found[0]] * 3, rel=1e-9)
    assert found[0] == pytest.approx(wanted, rel=0.05)  # edges by the mean of their faces


@pytest.mark.parametrize("y", [-0.03, 0.0, 0.05])
def test_a_leg_as_thick_as_two_skins_is_solid(y: float) -> None:
    """Nothing is left inside it, and nothing inside out."""
    assert abs(volume(inner_face(angle(y), 0.006))) < 0.01 * volume(angle(y))


@pytest.mark.parametrize("y", [0.0, 0.02, 0.03, 0.1])
def test_a_house_beside_the_centre_line_weighs_as_much(y: float) -> None:
    """By hand: as the box above; 1.2 g/cm³."""
    text = (
        'format = 1\nname = "House"\nlength = "600 mm"\n[waterline]\nheight = "20 mm"\n'
        '[[region]]\nname = "house"\nsurface = "prism"\noutline = "box"\nx_aft = "100 mm"\n'
        'x_fore = "220 mm"\nbreadth = "60 mm"\nz_bottom = "0 mm"\nz_top = "50 mm"\n'
        f'y = "{y * 1e3} mm"\ndensity = "1.2 g/cm3"\nthickness = "2 mm"\n'
    )
    found = hull(parse(text), {}).skins[0]
    assert found.volume == pytest.approx(0.12 * 0.06 * 0.05 - 0.116 * 0.056 * 0.046, rel=1e-6)
