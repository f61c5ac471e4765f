"""Walls that vary from spot to spot, against closed forms and manifold3d's offset curves."""

import numpy as np
import pytest
from manifold3d import CrossSection, FillRule, JoinType

from trimdive.boatfile import parse
from trimdive.boatfile.regions import WallSpot
from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Mesh, volume
from trimdive.geometry.lines.round import revolve
from trimdive.geometry.solids.hull import hull
from trimdive.geometry.solids.section import segments
from trimdive.geometry.solids.shapes import cylinder
from trimdive.geometry.solids.skin import inner_face
from trimdive.geometry.solids.wall import belts, even, measured, refined, thickness_over

LONG, RADIUS = 1.0, 0.05  # of a tube [m]
THIN, THICK = 0.002, 0.005  # its wall aft and forward [m]


def spot(x: float, thickness: float, at: str | None = None) -> WallSpot:
    return WallSpot.model_validate({"x": x, "thickness": thickness, "at": at})


def tube() -> Mesh:
    """Return a tube from x 0 to 1, with flat ends, as a body of revolution [m]."""
    return revolve(np.linspace(0.0, LONG, 201), np.full(201, RADIUS))


def test_a_wall_that_grows_evenly_along_a_tube() -> None:
    """Room between x 0.1 and 0.9, by hand: π/3·h·(R² + R·r + r²), a frustum of a cone."""
    outer = tube()
    found = inner_face(outer, thickness_over(outer, (spot(0.0, THIN), spot(LONG, THICK)), "tube"))
    at = (found.vertices[:, 0] > 0.1) & (found.vertices[:, 0] < 0.9)
    inside = np.hypot(*found.vertices[at, 1:].T)
    outside = np.hypot(*outer.vertices[at, 1:].T)
    assert outside - inside == pytest.approx(
        THIN + (THICK - THIN) * found.vertices[at, 0] / LONG,
        abs=4e-6,  # the tube has corners
    )
    big, small = RADIUS - THIN, RADIUS - THICK
    frustum = np.pi / 3 * LONG * (big**2 + big * small + small**2)
    ends = np.pi * (big**2 * THIN + small**2 * THICK)  # that the flat ends take off
    assert volume(found) == pytest.approx(frustum - ends, rel=2e-3)


GRID = [spot(x, t, at) for x, at, t in [
    (0.2, "keel", 0.004), (0.2, "side", 0.003), (0.2, "deck", 0.002), (0.5, "side", 0.0035),
    (0.8, "keel", 0.005), (0.8, "deck", 0.0025),
]]  # fmt: skip


@pytest.mark.parametrize("more", [(), (spot(0.6, 0.006),)])
def test_exact_at_the_spots_and_never_outside_them(more: tuple[WallSpot, ...]) -> None:
    """What any sound interpolation of measurements keeps: Sibson 1981 lists both."""
    spots = (*GRID, *more)
    wall = measured(tube(), spots, "tube")
    turns = np.where(np.isnan(wall.turn), np.pi / 2, wall.turn)
    assert wall.at(wall.x, turns) == pytest.approx(wall.thickness, rel=1e-9)
    rng = np.random.default_rng(3)
    found = wall.at(rng.uniform(0, 1, 3000), rng.uniform(0, np.pi, 3000))
    assert wall.thickness.min() <= found.min()
    assert found.max() <= wall.thickness.max()
    near = wall.at(wall.x + 1e-5, turns)
    assert near == pytest.approx(wall.thickness, abs=2e-6)  # no jump beside a spot


def test_a_wall_that_grows_evenly_between_the_spots() -> None:
    """Natural neighbours give back what is linear: Sibson's local coordinates."""
    spots = [spot(x, 0.002 + 0.002 * x, at)
             for x in np.linspace(0, 1, 6).tolist() for at in ("keel", "side", "deck")]  # fmt: skip
    rng = np.random.default_rng(5)
    x, turn = rng.uniform(0.4, 0.6, 500), rng.uniform(0, np.pi, 500)
    found = measured(tube(), spots, "tube").at(x, turn)
    assert found == pytest.approx(0.002 + 0.002 * x, rel=1e-9)


def test_sections_are_offset_as_manifold3d_offsets_them() -> None:
    """Of an oval tube with an even wall from equal spots, against manifold3d's offset."""
    outer = Mesh(vertices=tube().vertices * [1.0, 1.0, 0.6], triangles=tube().triangles)
    spots = (spot(0.1, 0.003, "keel"), spot(0.7, 0.003, "side"))
    inner = inner_face(outer, thickness_over(outer, spots, "tube"))
    areas = []
    for mesh in (outer, inner):
        rim = segments(mesh.corners, np.array([1.0, 0.0, 0.0]), 0.503)[:, 0, 1:]
        areas.append(rim[np.argsort(np.arctan2(*rim.T))])
    outline, inside = (CrossSection([rim], FillRule.NonZero) for rim in areas)
    wanted = outline.offset(-0.003, JoinType.Round, circular_segments=400)
    assert abs(inside.area()) == pytest.approx(abs(wanted.area()), rel=5e-4)


def test_a_height_is_taken_round_the_girth() -> None:
    """On a round tube the side lies at the axis, and a height at the angle whose cosine it is."""
    up = WallSpot(x=0.5, thickness=0.002, z=RADIUS * np.sin(np.pi / 6))
    wall = measured(tube(), (up, spot(0.5, 0.003)), "tube")
    assert wall.turn[0] == pytest.approx(np.pi / 2 + np.pi / 6, abs=0.01)
    off = WallSpot(x=0.5, thickness=0.002, z=0.08)
    with pytest.raises(GeometryError, match="80 mm lies off the surface"):
        measured(tube(), (off, spot(0.5, 0.003)), "tube")
    with pytest.raises(GeometryError, match="beyond the end"):
        measured(tube(), (spot(1.2, 0.002), spot(0.5, 0.003)), "tube")


def test_a_surface_of_few_triangles_gets_corners_for_its_wall() -> None:
    lean = cylinder(0.1, 1.0, 64)
    assert len(lean.vertices) < 200 < len(refined(lean).vertices)
    assert volume(refined(lean)) == pytest.approx(volume(lean), rel=1e-9)
    assert belts(lean).half == pytest.approx(0.05, rel=1e-3)
    assert even(0.002).at(np.zeros(3)).tolist() == [0.002] * 3


HULL = """
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
material = "GRP"
density = "1.6 g/cm3"
{more}
profile = [{{ x = 0, keel = 0, deck = 100 }}, {{ x = 1000, keel = 0, deck = 100 }}]
breadths = [{{ x = 0, breadth = 120 }}, {{ x = 1000, breadth = 120 }}]
section = [{{ x = 500, shape = "oval" }}]
"""


def test_equal_spots_are_an_even_thickness_and_one_spot_none() -> None:
    three, one, two, both = (
        hull(parse(HULL.format(more=more)), {}).skins[0]
        for more in (
            "thickness = 3",
            "walls = [{ x = 100, thickness = 3 }]",
            "walls = [{ x = 100, thickness = 3 }, { x = 800, at = 'keel', thickness = 3 }]",
            "thickness = 3\nwalls = [{ x = 100, thickness = 2 }, { x = 800, thickness = 4 }]",
        )
    )
    assert one.body is three.body  # the same hull: found again
    assert two.volume == pytest.approx(three.volume, rel=5e-4)  # flat ends have more corners
    assert two.thickness == pytest.approx(0.003, rel=1e-2)
    assert both.volume != pytest.approx(three.volume, rel=1e-3)  # the spots count


def test_a_weighed_skin_displaces_by_its_mass_and_is_as_deep_as_measured() -> None:
    """1.6 kg at 1.6 g/cm³ are 1 L, wherever the wall lies."""
    walls = "walls = [{ x = 100, thickness = 2 }, { x = 900, thickness = 4 }]"
    even_mean = hull(parse(HULL.format(more=walls)), {}).skins[0]
    weighed = hull(parse(HULL.format(more="mass = '1.6 kg'\n" + walls)), {}).skins[0]
    assert weighed.volume == pytest.approx(1e-3, rel=1e-12)
    assert weighed.shape_volume == even_mean.shape_volume
    assert weighed.area * weighed.thickness == pytest.approx(weighed.shape_volume, rel=1e-12)
