"""The loft: closed, mirrored, fair, and right where a closed form tells what is right."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.lines.tables import (
    assert_closed,
    boat,
    offsets,
    points,
    radii,
    volume_and_centre,
    wigley_half_breadth,
)

from trimdive.errors import GeometryError
from trimdive.geometry.lines import LinesTable, loft, read_table

HALVES = 1.0 - np.cos(np.linspace(0.0, np.pi, 21))  # from 0 to 2, closer at the ends


def _ellipsoid(a: float, b: float, c: float) -> LinesTable:
    """Return 21 elliptical sections of 13 points each; the ends are points."""
    angles = np.linspace(0.0, np.pi, 13)
    sections: list[tuple[float, list[tuple[float, float]]]] = []
    for place in HALVES:
        size = math.sqrt(max(1.0 - (place - 1.0) ** 2, 0.0))
        y, z = b * size * np.sin(angles), c - c * size * np.cos(angles)
        y[[0, -1]] = 0.0
        run = [(0.0, c)] if size < 1e-9 else list(zip(y.tolist(), z.tolist(), strict=True))
        sections.append((a * place, run))
    return read_table(points(sections), "ellipsoid.csv")


def test_box_is_exact() -> None:
    """Volume, centre: L·B·T by geometry."""
    text = "x m,y,z\n" + "".join(f"{x},0.1,0\n{x},0.1,0.1\n" for x in (0, 0.5, 1.5))
    mesh = loft(read_table(text, "box.csv"))
    assert_closed(mesh)
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(1.5 * 0.2 * 0.1, rel=1e-12)
    assert centre == pytest.approx([0.75, 0.0, 0.05], abs=1e-12)


def test_ellipsoid_from_sections() -> None:
    """Volume 4πabc/3; extreme points by its axes."""
    a, b, c = 0.75, 0.1, 0.08
    mesh = loft(_ellipsoid(a, b, c), along=300, around=120)
    assert_closed(mesh)
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(4.0 * math.pi * a * b * c / 3.0, rel=5e-4)
    assert centre == pytest.approx([a, 0.0, c], abs=1e-4)
    assert mesh.bounds == pytest.approx(np.array([(0, -b, 0), (2 * a, b, 2 * c)]), abs=2e-4)


def test_sphere_from_few_sections_is_round_at_bow_and_keel() -> None:
    """Every point lies at one radius from the middle."""
    mesh = loft(_ellipsoid(1.0, 1.0, 1.0), along=200, around=100)
    distance = np.linalg.norm(mesh.vertices - (1.0, 0.0, 1.0), axis=1)
    assert distance == pytest.approx(np.ones(len(distance)), abs=2e-3)


def test_cone_stays_sharp() -> None:
    """Volume πr²h/3; a pointed end is not made round."""
    x = np.linspace(0.0, 1.0, 6)
    mesh = loft(read_table(radii(x, 0.2 * x), "cone.csv"))
    assert_closed(mesh)
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(math.pi * 0.2**2 / 3.0, rel=1e-6)
    assert centre[0] == pytest.approx(0.75, rel=1e-6)


def test_radii_about_an_axis_that_the_boat_file_gives() -> None:
    table = read_table(radii(np.array([0.0, 0.5, 1.0]), np.array([0.1, 0.1, 0.1])), "tube.csv")
    mesh = loft(table, axis_z=0.3)
    measured, centre = volume_and_centre(mesh)
    assert measured == pytest.approx(math.pi * 0.1**2, rel=1e-9)  # a cylinder
    assert centre == pytest.approx([0.5, 0.0, 0.3], abs=1e-12)


@pytest.mark.parametrize("name", ["bittern", "grebe", "grebe-as-bought"])
def test_demo_hulls_close_and_are_dense_enough(name: str) -> None:
    """Within 0.1 % of a mesh sixteen times as fine, which is nearer to the true volume."""
    table = read_table(boat(name), name)
    mesh = loft(table)
    assert_closed(mesh)
    assert 10_000 < len(mesh.triangles) < 30_000
    fine, _ = volume_and_centre(loft(table, along=400, around=210))
    assert volume_and_centre(mesh)[0] == pytest.approx(fine, rel=1e-3)


def test_bittern_against_sections_of_figures_interpolated_one_by_one() -> None:
    """Scipy's monotone interpolation of every figure, then areas by the midpoint rule."""
    from scipy.interpolate import PchipInterpolator

    table = read_table(boat("bittern"), "bittern")
    x = np.linspace(0.0, 2.3, 1001)
    keel, widest, half, deck, edge = (
        PchipInterpolator(table.figures[:, 0], table.figures[:, k])(x) for k in range(1, 6)
    )
    z = (np.arange(2400) + 0.5)[:, None] * 1e-4
    low = half * np.maximum(1.0 - np.clip((widest - z) / (widest - keel), 0, 1) ** 2.2, 0) ** (
        1.0 / 2.2
    )
    rise = np.clip((z - widest) / (deck - widest), 0.0, 1.0)
    top = edge + (half - edge) * np.sqrt(1.0 - rise**2)
    y = np.where((z < keel) | (z > deck), 0.0, np.where(z < widest, low, top))
    other = float(np.trapezoid(2.0 * y.sum(axis=0) * 1e-4, x))
    measured, _ = volume_and_centre(loft(table))
    assert measured == pytest.approx(other, rel=3e-3)  # two ways of being fair differ a little


def test_sections_of_the_table_come_out_again() -> None:
    table = read_table(boat("grebe"), "grebe")
    mesh = loft(table, around=400)
    for section in table.stations:
        ring = mesh.vertices[np.abs(mesh.vertices[:, 0] - section.x) < 1e-9]
        gaps = np.linalg.norm(ring[None, :, 1:] - section.points[:, None], axis=2).min(axis=1)
        assert gaps.max() < 1e-3  # the points of the mesh are up to 1 mm apart


def test_keel_is_round_and_a_knuckle_is_sharp() -> None:
    x = np.linspace(0.0, 1.0, 7)
    z = np.linspace(0.0, 0.0625, 6)
    sharp = loft(read_table(offsets(x, z, wigley_half_breadth, "keel"), "w"), along=12)
    round_keel = loft(read_table(offsets(x, z, wigley_half_breadth, ""), "w"), along=12)
    slopes: list[float] = []
    for mesh in (sharp, round_keel):
        ring = mesh.vertices[
            (np.abs(mesh.vertices[:, 0] - 0.5) < 1e-6) & (mesh.vertices[:, 1] >= 0)
        ]
        ring = ring[np.argsort(ring[:, 2], kind="stable")]
        slopes.append(float(np.diff(ring[:2, 2])[0] / np.diff(ring[:2, 1])[0]))
    assert slopes[0] == pytest.approx(0.0625 / 0.1, rel=0.1)  # dz/dy of the hull at its keel
    assert slopes[1] < 0.25


def test_stem_with_breadth_only_at_its_head_is_closed() -> None:
    def breadth(x: float, z: float) -> float:
        return 0.05 * (1.0 - x) + max(z - 0.06, 0.0) * 0.2

    text = offsets(np.linspace(0.0, 1.0, 6), np.linspace(0.0, 0.1, 6), breadth, "keel")
    assert_closed(loft(read_table(text, "flare.csv")))


def test_a_knuckle_may_end_along_the_hull() -> None:
    rows = ["x mm,y,z,knuckle"]
    for x, named in ((0, ""), (100, ""), (200, "chine"), (300, "chine"), (400, "chine")):
        rows += [f"{x},0,0,", f"{x},{20 + x / 20},10,{named}", f"{x},50,60,", f"{x},0,60,"]
    mesh = loft(read_table("\n".join(rows), "chine.csv"))
    assert_closed(mesh)
    edge = np.array([(x / 1e3, (20 + x / 20) / 1e3, 0.01) for x in (200, 300, 400)])
    gaps = np.linalg.norm(mesh.vertices[None] - edge[:, None], axis=2).min(axis=1)
    assert gaps == pytest.approx([0.0, 0.0, 0.0], abs=1e-9)


def test_crossing_knuckles_are_refused() -> None:
    rows = ["x mm,y,z,knuckle"]
    for x, names in ((0, ("a", "b")), (100, ("b", "a")), (200, ("a", "b"))):
        rows += [f"{x},0,0,", f"{x},20,10,{names[0]}", f"{x},30,30,{names[1]}", f"{x},0,40,"]
    with pytest.raises(GeometryError, match=r"'a' and 'b'.*cross"):
        loft(read_table("\n".join(rows), "k.csv"))


def test_a_section_that_crosses_itself_is_refused_with_its_line() -> None:
    rows = ["x mm,y,z"]
    for x in (0, 100, 200):
        rows += [f"{x},0,0", f"{x},20,10", f"{x},30,30", f"{x},20,40", f"{x},0,40"]
    rows[9] = "100,20,5"
    with pytest.raises(GeometryError, match=r"k.csv:7: .*crosses itself near half-breadth 18 mm"):
        loft(read_table("\n".join(rows), "k.csv"))


def test_swapped_columns_are_refused() -> None:
    rows = ["x mm,z,y"]  # the heads of y and z are swapped
    for x in (0, 100, 200):
        rows += [f"{x},0,0", f"{x},20,10", f"{x},30,30", f"{x},20,40", f"{x},0,40"]
    with pytest.raises(GeometryError, match=r"k.csv:2: .*columns are swapped"):
        loft(read_table("\n".join(rows), "k.csv"))


def test_sections_without_breadth_are_refused() -> None:
    rows = ["x mm,y,z"] + [f"{x},0,{z}" for x in (0, 100, 200) for z in (0, 10, 20)]
    with pytest.raises(GeometryError, match="enclose nothing"):
        loft(read_table("\n".join(rows), "k.csv"))


def _hull(draw_breadth: float, fullness: float, rise: float) -> str:
    def breadth(x: float, z: float) -> float:
        return (
            draw_breadth
            * math.sin(math.pi * (0.05 + 0.9 * x)) ** fullness
            * (0.2 + 0.8 * (z / 0.1) ** rise)
        )

    return offsets(np.linspace(0.0, 1.0, 9), np.linspace(0.0, 0.1, 7), breadth, "keel")


@settings(max_examples=25)
@given(
    size=st.floats(0.02, 0.2),
    fullness=st.floats(0.3, 2.0),
    rise=st.floats(0.1, 2.0),
    scale=st.floats(0.01, 50.0),
)
def test_laws(size: float, fullness: float, rise: float, scale: float) -> None:
    """Volume goes with the cube of the scale, y_b is nought, moving the origin moves only that."""
    text = _hull(size, fullness, rise)
    rows = [row.split(",") for row in text.splitlines()]
    mesh = loft(read_table(text, "h"), along=40, around=20)
    measured, centre = volume_and_centre(mesh)
    assert_closed(mesh)
    assert abs(centre[1]) < 1e-12

    head = rows[0][:2] + [f"{float(h) * scale:.9g}" for h in rows[0][2:-3]] + rows[0][-3:]
    grown = [[*(f"{float(c) * scale:.9g}" for c in row[:-1]), row[-1]] for row in rows[1:]]
    larger = loft(read_table("\n".join(map(",".join, [head, *grown])), "h"), along=40, around=20)
    assert volume_and_centre(larger)[0] == pytest.approx(measured * scale**3, rel=1e-6)

    moved = [[f"{float(row[0]) + 500.0:.9g}", *row[1:]] for row in rows[1:]]
    away = loft(read_table("\n".join(map(",".join, [rows[0], *moved])), "h"), along=40, around=20)
    v, c = volume_and_centre(away)
    assert v == pytest.approx(measured, rel=1e-9)
    assert c - centre == pytest.approx([0.5, 0.0, 0.0], abs=1e-9)
