"""Ways out: against exhaustive search with manifold3d as the judge, and against closed forms."""

from itertools import product

import numpy as np
import pytest
from scipy.ndimage import label
from scipy.spatial.transform import Rotation

from trimdive.fit.free import Free, free_room
from trimdive.fit.ways import STEPS, Shut, Way, between, surroundings, way_out
from trimdive.geometry.clashes.shapes import Shape
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.solid import mesh_of, solid_of
from trimdive.geometry.solids.inside import depth_outside, is_inside
from trimdive.geometry.solids.shapes import box

WALL = 0.004  # [m]
LONG, BROAD, HIGH = 0.3, 0.1, 0.12  # of the box that stands for a hull, inside [m]


def shell() -> tuple[Mesh, Mesh]:
    """Return the walls of a closed box, and its outside."""
    outer = box(LONG + 2 * WALL, BROAD + 2 * WALL, HIGH + 2 * WALL)
    inner = box(LONG, BROAD, HIGH)
    return mesh_of(solid_of(outer, "o") - solid_of(inner, "i")), outer


WALLS, OUTER = shell()
FREE = free_room([WALLS], OUTER)


def opening(aft: float, fore: float, breadth: float = 0.09) -> Shape:
    """Return the box of a hatch in the top, and all above it."""
    return Shape("box", ((aft + fore) / 2, 0.0, 5.0 + HIGH / 4), (fore - aft, breadth, 10.0))


def found(own: Shape, hatch: Shape, others: tuple[Shape, ...] = ()) -> Way | Shut:
    """Return the way of a thing out of the box."""
    around = surroundings(FREE, [hatch], others, own)
    return way_out(own, around, HIGH / 2 + WALL + 0.005)


def posed(mesh: Mesh, own: Shape, pose: np.ndarray) -> Mesh:
    """Return a thing in a pose, as a mesh, by scipy's turns."""
    turn = Rotation.from_euler("y", -pose[3]).as_matrix()
    middle = np.array(own.place)
    return Mesh(
        vertices=(mesh.vertices - middle) @ turn.T + middle + pose[:3], triangles=mesh.triangles
    )


def deepest(own: Shape, way: Way, standing: Mesh) -> float:
    """Return the largest volume that a thing shares with what stands, along a way [m³]."""
    stands = solid_of(standing, "stands")
    most = 0.0
    for one, other in zip(way.poses[:-1], way.poses[1:], strict=True):
        for pose in between(one, other):
            solid = solid_of(posed(own.surface, own, pose), "thing")
            most = max(most, (solid ^ stands).volume())
    return most


def cut(hatch: Shape) -> Mesh:
    """Return the walls with a hatch cut out."""
    return mesh_of(solid_of(WALLS, "w") - solid_of(hatch.surface, "h"))


def test_a_field_tells_the_distance_from_a_wall() -> None:
    """Against the distance from the surface itself; in a corner it may tell a little less."""
    r = np.random.default_rng(3)
    near = FREE.step * 1.2
    spots = np.stack([
        r.uniform(-LONG / 2, LONG / 2, 400),
        r.uniform(-BROAD / 2, BROAD / 2, 400),
        np.full(400, -HIGH / 2 + near),
    ], axis=1)  # fmt: skip
    assert not is_inside(WALLS, spots).any()
    true = np.minimum(depth_outside(WALLS, spots), FREE.far)
    told = read(FREE, spots)
    walled = np.abs(spots[:, :2]) > np.array([LONG, BROAD]) / 2 - 3 * FREE.step
    assert told[~walled.any(axis=1)] == pytest.approx(true[~walled.any(axis=1)], abs=2e-4)
    assert told == pytest.approx(true, abs=1.2e-3)
    assert (told <= true + 1e-4).all()


def read(free: Free, spots: np.ndarray) -> np.ndarray:
    """Return what a field says at places, by scipy's own interpolation."""
    from scipy.ndimage import map_coordinates

    return map_coordinates(free.field, ((spots - free.low) / free.step).T, order=1)


def test_a_thing_smaller_than_the_hatch_is_lifted_out() -> None:
    own = Shape("box", (0.0, 0.0, -0.03), (0.08, 0.05, 0.04))
    hatch = opening(-0.06, 0.06)
    way = found(own, hatch)
    assert isinstance(way, Way)
    assert deepest(own, way, cut(hatch)) < 1e-9
    assert way.poses[-1, 2] + own.place[2] - 0.02 > HIGH / 2 + WALL


def test_a_thing_beside_the_hatch_is_slid_under_it_first() -> None:
    own = Shape("round", (-0.09, 0.0, -0.03), (0.08, 0.04, 0.04))
    hatch = opening(0.02, 0.13)
    way = found(own, hatch)
    assert isinstance(way, Way)
    assert way.poses[:, 0].max() > 0.1
    assert deepest(own, way, cut(hatch)) < 1e-9


def test_a_thing_broader_than_the_hatch_stays_in() -> None:
    own = Shape("box", (0.0, 0.0, -0.03), (0.08, 0.07, 0.04))
    shut = found(own, opening(-0.06, 0.06, breadth=0.06))
    assert isinstance(shut, Shut)
    assert shut.is_sure


def test_a_tube_longer_than_the_hatch_comes_out_tilted_where_there_is_depth() -> None:
    """A thin rod is longer than the hole; tilted it threads through, plane geometry."""
    own = Shape("round", (0.0, 0.0, -0.04), (0.2, 0.016, 0.016))
    hatch = opening(-0.075, 0.075)
    way = found(own, hatch)
    assert isinstance(way, Way)
    assert np.abs(way.poses[:, 3]).max() > np.radians(10)
    assert deepest(own, way, cut(hatch)) < 3e-8


def test_what_stands_in_the_way_shuts_it_in_and_is_counted() -> None:
    own = Shape("round", (-0.09, 0.0, -0.03), (0.08, 0.04, 0.04))
    post = Shape("box", (0.0, 0.0, 0.0), (0.02, 0.09, 0.11))
    shut = found(own, opening(0.02, 0.13), (post,))
    assert isinstance(shut, Shut)
    assert shut.is_sure
    assert shut.stopped_by[1] > 0


@pytest.mark.parametrize("seed", range(6))
def test_as_exhaustive_search_on_the_same_lattice(seed: int) -> None:
    """Every place of the lattice is judged by manifold3d, and what hangs together by scipy.

    Things are thrown in at random; where a place is so near to a wall that field and solid may
    differ the two may, so things are held against both a little smaller and a little larger.
    """
    r = np.random.default_rng(seed)
    own = Shape("box", (-0.09, 0.0, -0.03), (0.07, 0.05, 0.04))
    hatch = opening(0.02, 0.02 + float(r.uniform(0.05, 0.11)))
    high = float(r.uniform(0.02, 0.10))
    post = Shape("box", (-0.02, 0.0, -HIGH / 2 + high / 2), (0.01, 0.09, high))
    stands = solid_of(cut(hatch), "w") + solid_of(post.surface, "p")
    reached = {grown: reachable(own.grown(grown), mesh_of(stands)) for grown in (-0.0015, 0.0015)}
    got = isinstance(found(own, hatch, (post,)), Way)
    assert reached[0.0015] <= got <= reached[-0.0015]


def reachable(own: Shape, standing: Mesh) -> bool:
    """Return whether a thing gets out by steps along and up without tilting, or tilted a little."""
    stands = solid_of(standing, "stands")
    xs = np.arange(-10, 45) * STEPS[0]
    zs = np.arange(-12, 50) * STEPS[2]
    tilts = np.arange(-6, 7, 2) * STEPS[3]
    clear = np.zeros((len(xs), len(zs), len(tilts)), bool)
    for k, tilt in enumerate(tilts):
        mesh = solid_of(posed(own.surface, own, np.array([0.0, 0.0, 0.0, tilt, 0.0])), "t")
        for (i, x), (j, z) in product(enumerate(xs), enumerate(zs)):
            clear[i, j, k] = (mesh.translate((x, 0.0, z)) ^ stands).volume() < 1e-12
    parts = np.zeros(clear.shape, np.int32)
    label(clear, structure=np.ones((3, 3, 3)), output=parts)
    start = parts[10, 12, 3]
    out = parts[:, -1, :]
    return bool(start and (out == start).any())
