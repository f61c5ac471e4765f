"""Random boats weighed again by other libraries at the attitude in which they come to rest.

manifold3d cuts bodies and tanks by the plane, trimesh takes volumes and centroids; nothing of
ours but the attitude, the level of the sea and how much water is in each tank goes in.
"""

from dataclasses import dataclass

import numpy as np
import pytest
import trimesh
from manifold3d import Manifold, Mesh64
from tests.rest.floaters import boat_of

from trimdive.geometry.lines.mesh import Floats, Mesh, join
from trimdive.geometry.solids.shapes import along, box, cylinder, moved, sphere, turned_out
from trimdive.geometry.solids.skin import inner_face
from trimdive.hydrostatics.equilibrium import Floater, Rest, rest, state

BOATS = 36
PLACES = 60  # halvings in the search for a tank's level [-]


@dataclass(frozen=True, kw_only=True)
class Model:
    """A boat for us and the same shells for the other libraries, each with its weight."""

    boat: Floater
    shells: list[tuple[Mesh, float]]
    rooms: list[Mesh]
    waters: Floats
    dry: float
    gravity: Floats


def solid(mesh: Mesh) -> Manifold:
    found = Manifold(
        Mesh64(np.ascontiguousarray(mesh.vertices), mesh.triangles.astype(np.uint64, order="C"))
    )
    assert found.volume() > 0
    return found


def below(mesh: Mesh, n: Floats, d: float) -> tuple[float, Floats]:
    """Return volume and first moment of what of a closed mesh lies below the plane."""
    part = solid(mesh).trim_by_plane((-n).tolist(), -d)
    if part.is_empty():
        return 0.0, np.zeros(3)
    out = part.to_mesh64()
    there = trimesh.Trimesh(out.vert_properties[:, :3], out.tri_verts, process=False)
    return float(there.volume), float(there.volume) * np.asarray(there.center_mass)


def shape(rng: np.random.Generator) -> Mesh:
    """Return a random box, round body or ball that fits in 0.4 × 0.2 × 0.2 m."""
    kind = rng.integers(4)
    if kind == 0:
        return box(*rng.uniform((0.1, 0.04, 0.04), (0.4, 0.2, 0.2)))
    if kind == 1:
        return cylinder(rng.uniform(0.05, 0.18), rng.uniform(0.1, 0.5), 24)
    if kind == 2:
        return along(cylinder(rng.uniform(0.05, 0.12), rng.uniform(0.05, 0.2), 16), "z")
    return sphere(rng.uniform(0.05, 0.18), 16)


def model(seed: int) -> Model:
    """Return a random boat: bodies solid and hollow, some hung on by half, and slack tanks."""
    rng = np.random.default_rng(seed)
    shells: list[tuple[Mesh, float]] = []
    bodies: list[Mesh] = []
    shares: list[float] = []
    for _ in range(rng.integers(2, 6)):
        mesh = moved(shape(rng), *rng.uniform((-0.5, -0.1, -0.05), (0.5, 0.1, 0.1)))
        share = float(rng.choice([1.0, 0.4]))
        shells.append((mesh, share))
        if rng.random() < 0.4:  # a shell: water stands on both its sides
            centre = mesh.bounds.mean(axis=0)
            inner = moved(inner_face(moved(mesh, *-centre), 0.004), *centre)
            shells.append((inner, -share))
            mesh = join([mesh, turned_out(inner)])
        bodies.append(mesh)
        shares.append(share)
    rooms = [
        moved(
            box(*rng.uniform(0.03, 0.08, 3)) if rng.random() < 0.5 else cylinder(0.06, 0.12, 20),
            *rng.uniform((-0.3, -0.04, -0.02), (0.3, 0.04, 0.06)),
        )
        for _ in range(rng.integers(0, 4))
    ]
    filled = np.array([rng.choice([0.0, 1.0, rng.random()]) for _ in rooms])
    whole = boat_of(bodies, 1.0, (0.0, 0.0, 0.0), rooms=rooms, shares=shares, density=998.0)
    waters = filled * whole.tanks.capacities if rooms else np.zeros(0)
    dry = max(whole.volume * 998.0 * rng.uniform(0.5, 1.1) - waters.sum() * 998.0, 0.05)
    b = whole.buoyancy + whole.tree.centre
    gravity = b + rng.uniform((-0.03, -0.01, -0.04), (0.03, 0.01, 0.01))
    boat = whole._replace(mass=dry, gravity=gravity - whole.tree.centre)
    return Model(boat=boat, shells=shells, rooms=rooms, waters=waters, dry=dry, gravity=gravity)


def displaced(of: Model, at: Rest) -> tuple[float, Floats]:
    """Return displaced volume and its first moment by the other libraries."""
    d = 1e3 if at.under else at.d
    parts = [(share, *below(mesh, at.n, d)) for mesh, share in of.shells]
    return sum(s * v for s, v, _ in parts), sum((s * m for s, _, m in parts), np.zeros(3))


def water_moment(room: Mesh, n: Floats, water: float) -> Floats:
    """Return the first moment of so much water in a tank, its level found by halving."""
    heights = room.vertices @ n
    low, high = float(heights.min()), float(heights.max())
    if water <= 0:
        return np.zeros(3)
    for _ in range(PLACES):
        level = (low + high) / 2
        low, high = (level, high) if below(room, n, level)[0] < water else (low, level)
    volume, moment = below(room, n, high)
    return moment * (water / volume)


@pytest.mark.parametrize("seed", range(BOATS))
def test_weight_is_buoyancy_and_g_and_b_are_on_one_vertical(seed: int) -> None:
    of = model(seed)
    at = rest(of.boat, of.waters)
    total = of.dry + 998.0 * of.waters.sum()
    volume, moment = displaced(of, at)
    if at.under:
        assert at.excess == pytest.approx(total - 998.0 * volume, abs=1e-6 * total)
    else:
        assert 998.0 * volume == pytest.approx(total, rel=1e-6)
    waters = zip(of.rooms, of.waters, strict=True)
    wet = sum((998.0 * water_moment(room, at.n, w) for room, w in waters), np.zeros(3))
    g, b = (of.dry * of.gravity + wet) / total, moment / volume
    across = (b - g) - at.n * float(at.n @ (b - g))
    assert np.linalg.norm(across) < 1e-6 * of.boat.length
    found = state(of.boat, at)
    assert found.bg == pytest.approx(float(at.n @ (b - g)), abs=1e-6 * of.boat.length)
    assert (found.lcg, found.tcg, found.kg) == pytest.approx(tuple(g), abs=1e-6)


def test_the_boats_are_of_every_sort() -> None:
    """Some float, some sink, some have slack tanks, some lie far over: the draw is not lopsided."""
    models = [model(seed) for seed in range(BOATS)]
    rests = [rest(of.boat, of.waters) for of in models]
    assert sum(at.under for at in rests) >= 4
    assert sum(not at.under for at in rests) >= 15
    assert sum(abs(float(at.n[2])) < 0.9 for at in rests) >= 4
    slack = [
        ((of.waters > 0) & (of.waters < of.boat.tanks.capacities * 0.999)).any()
        for of in models
        if len(of.waters)
    ]
    assert sum(slack) >= 8
