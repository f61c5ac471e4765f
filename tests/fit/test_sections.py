"""Room along a hull, against closed forms: a box, an oval tube, and a wall that grows evenly."""

import numpy as np
import pytest
from scipy.optimize import minimize_scalar

from trimdive.boatfile.pieces import Waterline
from trimdive.boatfile.regions import WallSpot
from trimdive.fit.inside import by_height, room
from trimdive.fit.sections import filled, sections
from trimdive.geometry.clashes.shapes import Shape
from trimdive.geometry.clashes.solids import Solid
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.lines.round import revolve
from trimdive.geometry.solids.shapes import box, moved
from trimdive.geometry.solids.skin import skin
from trimdive.geometry.solids.wall import thickness_over
from trimdive.geometry.solids.walls import walls

GAP = 0.0005  # [m]


def tube(high: float) -> Mesh:
    """Return an oval tube 1 m long, 100 mm broad and so many times as high."""
    round_one = revolve(np.linspace(0.0, 1.0, 101), np.full(101, 0.05))
    return Mesh(vertices=round_one.vertices * [1.0, 1.0, high], triangles=round_one.triangles)


def solid(kind: str, z: float, high: float) -> Solid:
    shape = Shape("box", (0.25, 0.0, z), (0.5, 0.04, high))
    return Solid(
        name=kind, path="part[1]", kind=kind, home="", shape=shape, claims=True, is_point=False,  # pyright: ignore[reportArgumentType]
        is_outline=False, through=False, mass=1.0,
    )  # fmt: skip


def test_areas_and_room_in_a_box() -> None:
    """A box of 1000 × 200 × 100 mm with walls of 2 mm, floating to 80; by hand."""
    outer = moved(box(1.0, 0.2, 0.1), 0.5, 0.0, 0.05)
    hollow = walls(skin(outer, 0.002))
    part, lead = solid("part", 0.040, 0.02), solid("lead", 0.006, 0.008)
    found = sections([hollow], outer, [part, lead], Waterline(height=0.08))
    middle = (found.x > 0.02) & (found.x < 0.98)
    assert found.inside[middle] == pytest.approx(0.196 * 0.096, rel=2e-2)
    aft, fore = middle & (found.x < 0.49), middle & (found.x > 0.51)
    assert found.taken[aft] == pytest.approx(0.04 * 0.028, rel=4e-2)
    assert found.taken[fore].tolist() == [0.0] * int(fore.sum())
    assert found.free == pytest.approx(found.inside - found.taken)
    assert found.foam[aft] == pytest.approx(0.196 * (0.08 - 0.05), rel=2e-2)  # above the part
    assert found.foam[fore] == pytest.approx(0.196 * (0.08 - 0.041), rel=2e-2)  # the upper half
    assert found.lead[aft] == pytest.approx(0.196 * (0.03 - 0.002) - 0.04 * 0.008, rel=3e-2)
    assert found.lead_room == pytest.approx(float(found.lead.sum()) / 120, rel=1e-9)
    assert sections([hollow], outer, [part], None).foam_room == 0.0


@pytest.mark.parametrize("form", ["box", "round", "ball"])
def test_shapes_fill_what_their_formulas_say(form: str) -> None:
    shape = Shape(form, (0.01, 0.02, -0.01), (0.1, 0.08, 0.08) if form != "ball" else (0.08,) * 3)  # pyright: ignore[reportArgumentType]
    axes = [np.arange(-0.1, 0.1, 0.001) + 0.0005 for _ in range(3)]
    assert filled(shape, axes)[1].sum() * 1e-9 == pytest.approx(shape.volume, rel=3e-3)


def test_the_largest_tube_at_each_height_of_an_oval_hull() -> None:
    """The nearest of y²/a² + z²/b² = 1 to a point on its upright axis, by scipy's minimum."""
    outer = tube(1.6)
    where = room([walls(skin(outer, 0.003))], outer)
    heights = np.array([-0.03, 0.0, 0.02, 0.04])
    found = by_height(where, GAP, np.array([0.3, 0.52]), heights)
    for up, across in zip(heights.tolist(), found[0].tolist(), strict=True):
        nearest = minimize_scalar(
            lambda t, up=up: float(np.hypot(0.05 * np.cos(t), 0.08 * np.sin(t) - up)),
            bounds=(0.0, np.pi / 2) if up >= 0 else (-np.pi / 2, 0.0), method="bounded",
        )  # fmt: skip
        assert across == pytest.approx(2 * (nearest.fun - 0.003 - GAP), abs=2e-4)
    assert found[1] == pytest.approx(found[0], abs=1e-4)


def test_the_largest_tube_where_the_wall_grows_evenly() -> None:
    """R − t(x) all along a round hull whose wall grows from 2 to 5 mm, by hand."""
    outer = tube(1.0)
    spots = tuple(WallSpot(x=x, thickness=t) for x, t in ((0.0, 0.002), (1.0, 0.005)))
    where = room([walls(skin(outer, thickness_over(outer, spots, "tube")))], outer)
    x = np.linspace(0.1, 0.9, 7)
    found = by_height(where, GAP, x, np.array([0.0]))[:, 0]
    assert found == pytest.approx(2 * (0.05 - 0.002 - 0.003 * x - GAP), abs=1.5e-4)
