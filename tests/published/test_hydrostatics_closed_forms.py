"""Closed forms for simple bodies afloat, at a draught d from the lowest point.

Source: standard results of naval architecture (volume, waterplane, KB, BM = I/V), as in Tupper,
*Introduction to Naval Architecture*, and the other textbooks; each is a plain integral of the
shape. Every shape is cut as a mesh. A flat-sided shape must come out to rounding. A round one
made of triangles with corners on it is off in proportion to the square of their size, so that
two meshes, one twice as fine, give by Richardson's rule a value that is off by the fourth power.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import acos, pi, sqrt, tan

import numpy as np
import pytest
from benchmarks.meshes import geodesic, stretched
from tests.bodies.solids import rotation, turned

from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.cut import cut
from trimdive.geometry.solids.shapes import box, cylinder, extrude, moved, sphere
from trimdive.geometry.solids.tree import plant

UP = np.array([0.0, 0.0, 1.0])
EXACT = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Afloat:
    """What is told of a floating body."""

    v: float
    awp: float
    kb: float
    bm_t: float
    bm_l: float

    @property
    def all(self) -> Floats:
        """Return the figures in one row."""
        return np.array([self.v, self.awp, self.kb, self.bm_t, self.bm_l])


def afloat(mesh: Mesh, draught: float) -> Afloat:
    """Return the figures of a mesh that floats upright, its lowest point ``draught`` deep [m]."""
    keel = float(mesh.vertices[:, 2].min())
    found = cut(plant(mesh), UP, keel + draught)
    middle = found.area_moment / found.area
    spread = np.diag(found.area_second) - found.area * middle**2
    return Afloat(
        v=found.volume,
        awp=found.area,
        kb=float(found.moment[2] / found.volume - keel),
        bm_t=float(spread[1] / found.volume),
        bm_l=float(spread[0] / found.volume),
    )


def refined(make: Callable[[int], Mesh], draught: float, fineness: int) -> Floats:
    """Return Richardson's value from a mesh and one twice as fine, for errors as size squared."""
    coarse, fine = afloat(make(fineness), draught).all, afloat(make(2 * fineness), draught).all
    return (4.0 * fine - coarse) / 3.0


def on_grid(rows: int, columns: int, place: Callable[[Floats, Floats], Floats]) -> Mesh:
    """Return the closed mesh of a grid that wraps round in its columns and closes at its ends.

    ``place`` turns shares of the way along and around into points; each end row is one point
    or is closed by a fan about its mean.
    """
    along, around = np.meshgrid(
        np.linspace(0.0, 1.0, rows + 1), np.arange(columns) / columns, indexing="ij"
    )
    points = place(along, around).reshape(-1, 3)
    ends = [points[:columns].mean(axis=0), points[-columns:].mean(axis=0)]
    here = np.arange(rows * columns)
    beside = here // columns * columns + (here + 1) % columns
    last = here[:columns]
    first_fan = np.column_stack([beside[:columns], last, 0 * last + len(points)])
    start = rows * columns
    last_fan = np.column_stack(
        [last + start, (last + 1) % columns + start, 0 * last + len(points) + 1]
    )
    sides = [[here, beside, here + columns], [beside, beside + columns, here + columns]]
    faces = [*(np.column_stack(side) for side in sides), first_fan, last_fan]
    return Mesh(vertices=np.vstack([points, ends]), triangles=np.vstack(faces))


def test_box() -> None:
    """L 1.5, B 0.2, T 0.1: V LBT; KB T/2; BM_T B²/12T; BM_L L²/12T."""
    found = afloat(box(1.5, 0.2, 0.25), 0.1)
    wanted = [0.03, 0.3, 0.05, 0.2**2 / 1.2, 1.5**2 / 1.2]
    np.testing.assert_allclose(found.all, wanted, rtol=EXACT)


def test_box_half_turned() -> None:
    """A square bar that floats edge down, to its diagonal: half of it, and BM = B³L/12V."""
    side = 0.2
    diagonal = side * sqrt(2.0)
    corner = np.array([[1, 0, 0], [0, 1, -1], [0, 1, 1]]) / np.array([[1], [sqrt(2)], [sqrt(2)]])
    found = afloat(turned(box(1.0, side, side), corner), diagonal / 2.0)
    half = side**2 / 2.0
    wanted = [half, diagonal, diagonal / 3.0, diagonal**3 / 12.0 / half, diagonal / 12.0 / half]
    np.testing.assert_allclose(found.all, wanted, rtol=EXACT)


def round_bar(sides: int) -> Mesh:
    """Return a bar with its corners on the circle of radius 0.08 m, two of them level with it."""
    angle = 2.0 * pi * np.arange(sides) / sides
    return extrude(0.08 * np.column_stack([np.cos(angle), np.sin(angle)]), 1.2)


@pytest.mark.parametrize(
    ("d", "v", "kb", "bm_t", "bm_l"),
    [
        (0.04, 0.0047169, 0.0235984, 0.0564016, 4.230121),
        (0.08, 0.0120637, 0.0460469, 0.0339531, 1.909859),
        (0.12, 0.0194105, 0.0662939, 0.0137061, 1.027961),
        (0.15, 0.0234996, 0.0780223, 0.0019777, 0.474655),
    ],
)
def test_cylinder_figures(d: float, v: float, kb: float, bm_t: float, bm_l: float) -> None:
    """R 0.08, L 1.2; worked out from the closed forms, printed to seven decimals.

    4096 sides with corners on the circle are off by 4e-7 of the radius, at most.
    """
    found = afloat(round_bar(4096), d)
    assert found.v == pytest.approx(v, abs=6e-8)
    assert found.kb == pytest.approx(kb, abs=1.5e-7)
    assert found.bm_t == pytest.approx(bm_t, abs=1.5e-7)
    assert found.bm_l == pytest.approx(bm_l, rel=2e-6)


@pytest.mark.parametrize("d", [0.04, 0.08, 0.12, 0.15])
def test_cylinder_formula(d: float) -> None:
    """A = R² acos(h/R) - h b; KB = R - 2b³/3A; BM_T = 2b³/3A; BM_L = b L²/6A.

    At d = R and R/2 the plane meets corners of both meshes and the rule holds to the fourth
    power; elsewhere corners fall where they may, and 2000 sides leave (2π/2000)²/8 = 1.2e-6.
    """
    r, length, h = 0.08, 1.2, 0.08 - d
    b = sqrt(r * r - h * h)
    area = r * r * acos(h / r) - h * b
    through = 2.0 * b**3 / (3.0 * area)
    wanted = [length * area, 2 * b * length, r - through, through, b * length**2 / (6.0 * area)]
    if d < 0.15:
        np.testing.assert_allclose(refined(round_bar, d, 240), wanted, rtol=1e-8)
    np.testing.assert_allclose(afloat(round_bar(2000), d).all, wanted, rtol=2e-5)


@pytest.mark.parametrize("d", [0.02, 0.07, 0.10, 0.155])
@pytest.mark.parametrize("heel", [0.0, 0.4, 2.0])
def test_round_sections_keep_their_metacentre(d: float, heel: float) -> None:
    """The metacentre of a round bar is on its axis at every draught and heel: KM = R."""
    bar = cylinder(0.16, 4.0, 512)
    n = np.array([0.0, np.sin(heel), np.cos(heel)])
    across = np.array([0.0, np.cos(heel), -np.sin(heel)])
    found = cut(plant(bar), n, d - 0.08)
    i_t = across @ found.area_second @ across
    metacentre = (found.moment + i_t * n) / found.volume
    np.testing.assert_allclose(metacentre, 0.0, atol=0.08 * (2.0 * pi / 512) ** 2)


@pytest.mark.parametrize(
    ("d", "v", "kb"),
    [(0.05, 0.00065450, 0.0325), (0.10, 0.00209440, 0.0625), (0.15, 0.00353429, 0.0875)],
)
def test_sphere(d: float, v: float, kb: float) -> None:
    """R 0.1: V = πd²(3R-d)/3, BM = π(2Rd-d²)²/4V; KM = R at every draught.

    A net of 82 thousand triangles with corners on the sphere loses 1.5e-4 of its volume.
    """
    r = 0.1
    found = afloat(stretched(geodesic(6), np.full(3, r)), d)
    assert found.v == pytest.approx(pi * d * d * (3 * r - d) / 3.0, rel=4e-4)
    assert found.v == pytest.approx(v, rel=4e-4)
    assert found.kb == pytest.approx(kb, rel=2e-4)
    assert found.awp == pytest.approx(pi * (2 * r * d - d * d), rel=4e-4)
    assert found.kb + found.bm_t == pytest.approx(r, rel=2e-4)
    assert found.kb + found.bm_l == pytest.approx(r, rel=2e-4)


def test_sphere_of_exact_volume() -> None:
    """The primitive whose volume was made that of the ball: 18.9 lb in fresh water, 10 in wide.

    Published: a ball of 10 in diameter loses 18.9 lb (The Fleet Type Submarine, 1946, ch. 5).
    """
    inch, pound, fresh = 0.0254, 0.45359237, 999.6  # fresh water of 62.4 lb a cubic foot [kg/m³]
    whole = cut(plant(sphere(10 * inch)), UP, 1.0)
    assert whole.volume * fresh / pound == pytest.approx(18.9, abs=0.05)


def cone(sides: int) -> Mesh:
    """Return a cone, apex down, half angle 30°, 0.2 m high, corners of its rim on the circle."""
    angle = 2.0 * pi * np.arange(sides) / sides
    rim = 0.2 * np.column_stack([tan(pi / 6) * np.cos(angle), tan(pi / 6) * np.sin(angle)])
    points = np.vstack([np.column_stack([rim, np.full(sides, 0.2)]), [[0, 0, 0], [0, 0, 0.2]]])
    here = np.arange(sides)
    after = (here + 1) % sides
    skirt = np.column_stack([after, here, 0 * here + sides])
    lid = np.column_stack([here, after, 0 * here + sides + 1])
    return Mesh(vertices=points, triangles=np.vstack([skirt, lid]))


def test_cone() -> None:
    """Apex down, h 0.1: V πr²h/3 = 3.490659e-4; Awp 0.01047198; KB 3h/4; BM 3r²/4h = 0.025."""
    found = refined(cone, 0.1, 360)
    np.testing.assert_allclose(found, [3.490659e-4, 0.01047198, 0.075, 0.025, 0.025], rtol=5e-7)


def ellipsoid(fineness: int) -> Mesh:
    """Return the ellipsoid 0.75, 0.1, 0.08 as rings about x, with corners at its waterline."""

    def place(along: Floats, around: Floats) -> Floats:
        polar, turn = pi * along, 2.0 * pi * around
        ring = np.sin(polar)
        parts = -0.75 * np.cos(polar), 0.1 * ring * np.cos(turn), 0.08 * ring * np.sin(turn)
        return np.stack(parts, axis=-1)

    return on_grid(2 * fineness, 4 * fineness, place)


@pytest.mark.parametrize(
    ("d", "v", "kb", "bm_t", "bm_l"),
    [
        (0.08, 0.0125664, 0.05, 0.046875, 2.636719),
        (0.12, 0.0212058, 0.07, 0.015625, 0.878906),
    ],
)
def test_ellipsoid(d: float, v: float, kb: float, bm_t: float, bm_l: float) -> None:
    """Axes a 0.75, b 0.1, c 0.08; s = 1 - z²/c²: V = πab(z - z³/3c² + 2c/3), Awp = πabs.

    Half immersed also KB 5c/8, BM_T 3b²/8c and BM_L 3a²/8c.
    """
    a, b, c, z = 0.75, 0.1, 0.08, d - 0.08
    s = 1.0 - z * z / (c * c)
    volume = pi * a * b * (z - z**3 / (3 * c * c) + 2 * c / 3)
    depth = c + pi * a * b * (z**2 / 2 - z**4 / (4 * c * c) - c * c / 4) / volume
    spread = pi * a * b * s * s / (4.0 * volume)
    wanted = [volume, pi * a * b * s, depth, spread * b * b, spread * a * a]
    found = refined(ellipsoid, d, 90)
    np.testing.assert_allclose(found, wanted, rtol=2e-6)
    np.testing.assert_allclose(found[[0, 2, 3, 4]], [v, kb, bm_t, bm_l], rtol=4e-6)


def test_errors_fall_as_the_square_of_the_size() -> None:
    """Half the edge, a quarter of the error: so the whole of it is the mesh's, not the cut's."""
    wanted = 2.0 * pi * 0.75 * 0.1 * 0.08 / 3.0
    errors = [1.0 - afloat(ellipsoid(fineness), 0.08).v / wanted for fineness in (20, 40, 80)]
    assert errors[0] / errors[1] == pytest.approx(4.0, abs=0.02)
    assert errors[1] / errors[2] == pytest.approx(4.0, abs=0.005)


def wigley(fineness: int) -> Mesh:
    """Return the Wigley hull L 1, B 0.1, T 0.0625, below its waterline, with a deck above it."""
    length, breadth, draught, freeboard = 1.0, 0.1, 0.0625, 0.02

    def place(along: Floats, around: Floats) -> Floats:
        x = along - 0.5
        side = np.where(around < 0.5, -1.0, 1.0)
        height = np.abs(2.0 * around - 1.0)  # from deck through keel to deck
        below = np.minimum(height / 0.75, 1.0) - 1.0
        above = np.maximum(height - 0.75, 0.0) / 0.25
        y = side * breadth / 2 * (1.0 - (2.0 * x / length) ** 2) * (1.0 - below**2)
        return np.stack([x * length, y, below * draught + above * freeboard], axis=-1)

    return on_grid(8 * fineness, 8 * fineness, place)


def test_wigley() -> None:
    """V 4LBT/9; Awp 2LB/3; KB 5T/8; BM_T 3B²/35T; BM_L 3L²/40T."""
    length, breadth, draught = 1.0, 0.1, 0.0625
    wanted = [
        4 * length * breadth * draught / 9,
        2 * length * breadth / 3,
        5 * draught / 8,
        3 * breadth**2 / (35 * draught),
        3 * length**2 / (40 * draught),
    ]
    np.testing.assert_allclose(refined(wigley, draught, 10), wanted, rtol=1e-5)


@pytest.mark.parametrize("seed", range(3))
def test_any_attitude_of_the_boat_gives_the_same_figures(seed: int) -> None:
    """A ball is the same from every side: its waterplane and metacentre for any n."""
    n = rotation(seed)[0]
    ball = moved(stretched(geodesic(6), np.full(3, 0.1)), 0.3, -0.2, 0.1)
    middle = np.array([0.3, -0.2, 0.1])
    found = cut(plant(ball), n, float(n @ middle) + 0.02)
    centre = found.moment / found.volume
    spread = found.area_second - np.outer(found.area_moment, found.area_moment) / found.area
    radius = np.trace(spread) / 2.0 / found.volume
    np.testing.assert_allclose(centre + radius * n, middle, atol=3e-5)
