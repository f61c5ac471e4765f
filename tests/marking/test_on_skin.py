"""Places on the skin and lengths along it, against closed forms and trimesh's sections."""

from functools import cache
from pathlib import Path

import numpy as np
import pytest
import trimesh
from scipy.special import ellipe, ellipeinc

from trimdive.assessment import assess
from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.lines.round import revolve
from trimdive.geometry.solids.onskin import (
    developed,
    on_deck,
    on_girth,
    on_side,
    round_at,
    stem_and_stern,
    waterline,
)

A, B, LONG = 0.1, 0.05, 1.0  # half height and half breadth of an oval tube, and its length [m]
BITTERN = Path(__file__).parents[2] / "boats" / "bittern" / "boat.toml"


@cache
def tube() -> Mesh:
    round_one = revolve(np.linspace(0.0, LONG, 101), np.full(101, B), sides=720)
    return Mesh(vertices=round_one.vertices * [1.0, 1.0, A / B], triangles=round_one.triangles)


@cache
def cone() -> Mesh:
    """Return a cone that opens forward from 20 mm to 80 mm of radius over 1 m."""
    x = np.linspace(0.0, LONG, 101)
    return revolve(x, 0.02 + 0.06 * x, sides=720)


@cache
def hull() -> Mesh:
    return assess(BITTERN).hull.envelope


def test_girth_of_an_ellipse() -> None:
    """Half its circumference is 2·a·E(m) with m = 1 − b²/a², by scipy's ellipe."""
    way = round_at(tube(), 0.503, "port")
    assert way.whole == pytest.approx(2 * A * ellipe(1 - (B / A) ** 2), rel=1e-4)
    assert way.points[0] == pytest.approx([0.0, -A], abs=1e-4)
    assert way.points[-1] == pytest.approx([0.0, A], abs=1e-4)


@pytest.mark.parametrize("side", ["port", "starboard"])
@pytest.mark.parametrize("z", [-0.06, 0.0, 0.055])
def test_a_height_on_an_ellipse(z: float, side: str) -> None:
    """Y = b·√(1 − z²/a²); its arc from the keel by scipy's incomplete integral."""
    found = on_side(tube(), 0.31, z, side, tube())  # pyright: ignore[reportArgumentType]
    assert found.half_breadth == pytest.approx(B * np.sqrt(1 - (z / A) ** 2), abs=2e-5)
    assert np.sign(found.y) == (1 if side == "port" else -1)
    m = 1 - (B / A) ** 2
    arc = A * (ellipe(m) - ellipeinc(np.arcsin(-z / A), m))
    assert found.girth == pytest.approx(arc, abs=3e-5)
    back = on_girth(tube(), 0.31, found.girth, side)  # pyright: ignore[reportArgumentType]
    assert back.point == pytest.approx(found.point, abs=1e-9)


def test_on_deck_and_off_the_skin() -> None:
    found = on_deck(tube(), 0.5, 0.03, "port", tube())
    assert found.z == pytest.approx(A * np.sqrt(1 - 0.36), abs=3e-5)
    for wrong in (
        lambda: on_deck(tube(), 0.5, 0.06, "port", tube()),
        lambda: on_side(tube(), 0.5, 0.12, "port", tube()),
        lambda: on_girth(tube(), 0.5, 0.3, "port"),
        lambda: round_at(tube(), 1.2, "port"),
        lambda: waterline(tube(), 0.12, "port"),
        lambda: stem_and_stern(tube(), 0.12),
    ):
        with pytest.raises(GeometryError):
            wrong()


def test_a_waterline_along_a_cone() -> None:
    """At the axis it is the straight slant with both ends' radii: by hand.

    At a height the radius r gives y = √(r² − z²), a hyperbola, summed by numpy on a fine grid.
    """
    slant = np.hypot(LONG, 0.06)
    assert developed(waterline(cone(), 0.0, "port")) == pytest.approx(slant + 0.02 + 0.08, rel=1e-4)
    z, x = 0.015, np.linspace(0.0, LONG, 200_001)
    y = np.sqrt((0.02 + 0.06 * x) ** 2 - z**2)
    wanted = np.hypot(np.diff(x), np.diff(y)).sum() + y[0] + y[-1]
    assert developed(waterline(cone(), z, "starboard")) == pytest.approx(wanted, rel=2e-4)


def test_a_girth_line_along_a_cone_is_no_straight_line() -> None:
    """At the girth s from the keel the angle is s/r: x, r·sin, −r·cos on a fine grid."""
    s, x = 0.03, np.linspace(0.1, 0.9, 201)
    found = np.array([on_girth(cone(), float(at), s, "port").point for at in x])
    r = 0.02 + 0.06 * x
    wanted = np.column_stack([x, r * np.sin(s / r), -r * np.cos(s / r)])
    assert found == pytest.approx(wanted, abs=3e-5)
    assert developed(found) == pytest.approx(developed(wanted), rel=1e-4)


@pytest.mark.parametrize("x", [0.35, 0.95, 1.8])
def test_girths_of_a_demo_boat_against_trimesh(x: float) -> None:
    """Half the length of trimesh's section; her sections are alike on both sides."""
    mesh = hull()
    other = trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False)
    section = other.section(plane_origin=[x, 0, 0], plane_normal=[1, 0, 0])
    for side in ("port", "starboard"):
        assert 2 * round_at(mesh, x, side).whole == pytest.approx(section.length, rel=1e-6)  # pyright: ignore[reportArgumentType]


def test_a_waterline_of_a_demo_boat_against_trimesh() -> None:
    """Half of all that trimesh's plane cuts; what it cuts of her well is left out."""
    mesh = hull()
    other = trimesh.Trimesh(mesh.vertices, mesh.triangles, process=False)
    cut = trimesh.intersections.mesh_plane(other, plane_normal=[0, 0, 1], plane_origin=[0, 0, 0.12])
    is_well = (np.abs(cut[..., 1]) < 0.0601).all(axis=1) & (
        np.abs(cut[..., 0] - 1.16) < 0.0901
    ).all(axis=1)
    length = np.linalg.norm(np.diff(cut[~is_well], axis=1), axis=2).sum()
    assert 2 * developed(waterline(mesh, 0.12, "port")) == pytest.approx(length, rel=1e-6)


def test_over_a_well_a_tape_goes_straight() -> None:
    """Bittern's well reaches 60 mm to each side; beside it the skin goes on as elsewhere."""
    here = round_at(hull(), 1.15, "port")
    assert here.points[0][0] == pytest.approx(0.06, abs=1e-6)
    assert here.at[0] == pytest.approx(0.06, abs=1e-6)
    assert here.points[-1][0] >= 0.06 - 1e-6
    beside = round_at(hull(), 1.06, "port")
    up = on_side(hull(), 1.15, 0.1, "port", hull()).girth
    skin = on_side(hull(), 1.06, 0.1, "port", hull()).girth  # which rises from the keel: longer
    assert skin - 0.003 < up < skin
    assert beside.points[0][0] == pytest.approx(0.0, abs=1e-9)
