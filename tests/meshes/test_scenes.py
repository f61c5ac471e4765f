"""Two hundred random scenes of bodies that touch, lap, nest, stand twice or are inside out.

The volume that they fill is known three ways: by counting cells of a grid, by the exact union of
the manifold3d library made from the plain shapes, and by trimesh after the repairs.
"""

from dataclasses import dataclass, field

import manifold3d
import numpy as np
import pytest
import trimesh
from tests.meshes.shapes import as_file, inverted, together

from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes import MeshReport, in_metres, mended, read, report, right_way

CELLS = 12  # of the grid along each axis [-]
HAIR = 2e-3  # by which a body that stands there twice is shifted, in cells [-]


@dataclass
class Scene:
    """Bodies on a grid, and what they fill."""

    shapes: list[trimesh.Trimesh] = field(default_factory=list)
    solids: list[manifold3d.Manifold] = field(default_factory=list)
    boxes: list[np.ndarray] = field(default_factory=list)  # low, high and low, high of the room
    is_on_grid: bool = True

    def add(self, low: np.ndarray, high: np.ndarray, shift: float = 0.0) -> None:
        """Add a box."""
        self.shapes.append(_box(low + shift, high + shift))
        solid = manifold3d.Manifold.cube(tuple(float(s) for s in high - low))
        self.solids.append(solid.translate(tuple(float(s) for s in low + shift)))
        self.boxes.append(np.stack([low, high]))
        self.is_on_grid &= not shift

    def hollow(self, body: int) -> bool:
        """Make a room in a body, where it is large enough."""
        low, high = self.boxes[body][:2] + np.array([[1], [-1]])
        if (high <= low).any():
            return False
        self.shapes[body] = together(self.shapes[body], inverted(_box(low, high)))
        room = manifold3d.Manifold.cube(tuple(float(s) for s in high - low))
        self.solids[body] -= room.translate(tuple(float(s) for s in low))
        self.boxes[body] = np.vstack([self.boxes[body][:2], low, high])
        return True

    def may_be_turned(self, body: int) -> bool:
        """Return whether a body neither lies in another one nor has one in it."""
        low, high = self.boxes[body][:2]
        others = [box for k, box in enumerate(self.boxes) if k != body]
        within = any((box[0] <= low).all() and (box[1] >= high).all() for box in others)
        holds = any((box[0] >= low).all() and (box[1] <= high).all() for box in others)
        return not (within or holds)

    @property
    def cells(self) -> int:
        """Return how many cells of the grid the bodies fill."""
        filled = np.zeros((CELLS,) * 3, dtype=bool)
        for box in self.boxes:
            own = np.zeros_like(filled)
            own[tuple(slice(a, b) for a, b in zip(box[0], box[1], strict=True))] = True
            if len(box) > 2:
                own[tuple(slice(a, b) for a, b in zip(box[2], box[3], strict=True))] = False
            filled |= own
        return int(filled.sum())

    @property
    def union(self) -> float:
        """Return the volume that the bodies fill, by the manifold3d library."""
        whole = manifold3d.Manifold.batch_boolean(self.solids, manifold3d.OpType.Add)
        return float(whole.volume())

    @property
    def added(self) -> float:
        """Return the volumes of the bodies added up."""
        return sum(float(solid.volume()) for solid in self.solids)


def _box(low: np.ndarray, high: np.ndarray) -> trimesh.Trimesh:
    return trimesh.creation.box(bounds=np.stack([low, high]).astype(float))


def scene(seed: int) -> tuple[Scene, int]:
    """Return a random scene, and how many of its bodies are inside out."""
    random = np.random.default_rng(seed)
    made = Scene()
    for _ in range(random.integers(2, 6)):
        low = random.integers(0, CELLS - 1, 3)
        high = np.minimum(low + random.integers(1, 8, 3), CELLS)
        if made.boxes and random.random() < 0.5:  # beside another, with planes in common
            box, axis = made.boxes[random.integers(len(made.boxes))], random.integers(3)
            low, high = box[0].copy(), box[1].copy()
            low[axis] = min(high[axis] - random.integers(0, 2), CELLS - 1)
            high[axis] = min(low[axis] + random.integers(1, 5), CELLS)
        made.add(low, high)
    if random.random() < 0.3:
        box = made.boxes[random.integers(len(made.boxes))]
        made.add(box[0], box[1], HAIR * float(random.integers(0, 2)))
    if random.random() < 0.5:
        any(made.hollow(int(body)) for body in random.permutation(len(made.boxes)))
    turned = 0
    for body in range(len(made.boxes)):
        if random.random() < 0.4 and made.may_be_turned(body):
            made.shapes[body] = inverted(made.shapes[body])
            turned += 1
    return made, turned


def looked(made: Scene) -> tuple[Mesh, MeshReport]:
    """Return the scene as it comes out of a file in millimetres."""
    data = as_file(together(*made.shapes), "stl")
    mesh = in_metres(read(data, "scene.stl"), 1e-3)
    return mesh, report(mesh, "scene.stl")


@pytest.mark.parametrize("tens", range(20))
def test_random_scenes(tens: int) -> None:
    for seed in range(10 * tens, 10 * tens + 10):
        made, turned = scene(seed)
        mesh, found = looked(made)
        if made.is_on_grid:
            assert made.union == pytest.approx(made.cells, rel=1e-9)
        within = {"rel": 2e-6, "abs": 1e-5}
        assert found.filled * 1e9 == pytest.approx(made.union, **within), seed
        assert found.bodies.counted * 1e9 == pytest.approx(made.added, **within), seed
        assert found.overlap * 1e9 == pytest.approx(made.added - made.union, **within), seed
        assert found.inside_out == turned, seed
        after = mended(mesh, ("flip", "union"), "scene.stl").mesh
        by_trimesh = trimesh.Trimesh(after.vertices, after.triangles, process=False)
        assert by_trimesh.is_watertight
        assert by_trimesh.volume * 1e9 == pytest.approx(made.union, **within), seed
        straight = mended(mesh, ("union",), "scene.stl").mesh
        by_trimesh = trimesh.Trimesh(straight.vertices, straight.triangles, process=False)
        assert by_trimesh.volume * 1e9 == pytest.approx(made.union, **within), seed
        assert report(right_way(mesh, found.bodies), "scene.stl").inside_out == 0


@pytest.mark.parametrize("seed", range(12))
def test_random_balls(seed: int) -> None:
    """Curved bodies, against the exact union of the manifold3d library."""
    random = np.random.default_rng(seed)
    shapes, solids = [], []
    for at in range(4):
        ball = trimesh.creation.icosphere(subdivisions=2, radius=random.uniform(20, 40))
        ball.apply_translation(random.uniform(-30, 30, 3))
        points = np.asarray(ball.vertices, dtype=np.float32).astype(np.float64)  # as STL holds them
        faces = np.asarray(ball.faces, dtype=np.uint64)
        solids.append(manifold3d.Manifold(manifold3d.Mesh64(points, faces)))
        within = any((solids[at] - other).is_empty() for other in solids[:at])
        shapes.append(inverted(ball) if random.random() < 0.4 and not within else ball)
    whole = float(manifold3d.Manifold.batch_boolean(solids, manifold3d.OpType.Add).volume())
    mesh = in_metres(read(as_file(together(*shapes), "stl"), "balls.stl"), 1e-3)
    assert report(mesh, "balls.stl").filled * 1e9 == pytest.approx(whole, rel=1e-6)


def bars(*ends: tuple[int, int], turned: int = -1) -> MeshReport:
    """Return what stands in bars 80 mm broad and high from end to end, one of them inside out."""
    shapes = [_box(np.array([a, -40, 0]), np.array([b, 40, 80])) for a, b in ends]
    shapes = [inverted(shape) if k == turned else shape for k, shape in enumerate(shapes)]
    mesh = in_metres(read(as_file(together(*shapes), "stl"), "bars.stl"), 1e-3)
    return report(mesh, "bars.stl")


def test_two_bars_lapped() -> None:
    """By hand: 900 × 80 × 80 is 5.76 L, and the lap of 100 mm 0.64 L."""
    found = bars((0, 400), (300, 900))
    assert found.filled * 1e3 == pytest.approx(5.76, rel=1e-9)
    assert found.overlap * 1e3 == pytest.approx(0.64, rel=1e-9)
    assert found.crossings == 0  # all their faces touch or lie in one plane


def test_one_of_two_bodies_inside_out() -> None:
    """By hand: two bars of 2.56 L; lapped by 100 mm they have 0.64 L in common."""
    apart, lapped = bars((0, 400), (500, 900), turned=1), bars((0, 400), (300, 700), turned=1)
    assert apart.filled * 1e3 == pytest.approx(5.12, rel=1e-9)
    assert apart.overlap == 0.0
    assert lapped.overlap * 1e3 == pytest.approx(0.64, rel=1e-9)


def test_scenes_hold_what_they_should() -> None:
    """Of each kind of trouble there are many, so that the scenes prove something."""
    made = [scene(seed) for seed in range(200)]
    assert sum(turned > 0 for _, turned in made) > 50
    assert sum(one.added > one.union * 1.001 for one, _ in made) > 50
    assert sum(any(len(box) > 2 for box in one.boxes) for one, _ in made) > 30
    assert sum(not one.is_on_grid for one, _ in made) > 10
