"""Random floating bodies, and the plain cut of a closed mesh by which their rest is weighed again.

Boxes, cubes, balls, discs, spars, logs and prisms, alone or two or three together; their mass lies
in the middle, exactly on an axis, a hair off it, or anywhere. The cut uses numpy alone: triangles
are clipped at the water, and signed tetrahedra from a point in the water's plane add up, so that
the lid needs no triangles (divergence theorem).
"""

from dataclasses import dataclass

import numpy as np
from tests.rest.floaters import boat_of

from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.shapes import along, box, cylinder, moved, sphere
from trimdive.hydrostatics.equilibrium import Floater, Rest

KINDS = ("box", "cube", "ball", "disc", "spar", "log", "prism", "group")
AXES = np.array(["x", "y", "z"])
DENSITIES = (0.25, 0.5, 0.75, 0.9)  # at which many bodies lose or gain a rest [-]
EVEN = 1e-13  # of the volume: near enough to the displacement [-]
RIM = 1e-12  # of her size: corners nearer to the water than this lie in it [-]


@dataclass(frozen=True, kw_only=True)
class Body:
    """A body to be let go, and the ways up from which it is."""

    kind: str
    boat: Floater
    meshes: list[Mesh]
    starts: list[Floats]


def body(seed: int) -> Body:
    """Return a random body."""
    rng = np.random.default_rng(seed)
    kind = KINDS[seed % len(KINDS)]
    meshes = _group(rng) if kind == "group" else [_mesh(rng, kind)]
    boat = boat_of(meshes, 1.0, (0.0, 0.0, 0.0))
    low = np.min([mesh.bounds[0] for mesh in meshes], axis=0)
    high = np.max([mesh.bounds[1] for mesh in meshes], axis=0)
    share = float(rng.uniform(0.03, 0.99) if rng.random() < 0.5 else rng.choice(DENSITIES))
    start = rng.normal(size=3)
    if rng.random() < 0.6:  # exactly on end, on a side or on its head
        start = np.zeros(3)
        start[rng.integers(3)] = rng.choice([-1.0, 1.0])
    return Body(
        kind=kind,
        boat=boat._replace(
            mass=boat.volume * boat.density * share,
            gravity=_gravity(rng, boat.buoyancy, high - low),
        ),
        meshes=meshes,
        starts=[np.array([0.0, 0.0, 1.0]), start / np.linalg.norm(start)],
    )


def _mesh(rng: np.random.Generator, kind: str) -> Mesh:
    """Return a body of one kind, lying along any axis."""
    axis, sides = str(rng.choice(AXES)), int(rng.choice([8, 12, 24, 64]))
    size = float(rng.uniform(0.05, 0.3))
    if kind == "box":
        return box(*rng.uniform(0.05, 0.6, 3))
    if kind == "cube":
        return box(size, size, size)
    if kind == "ball":
        return sphere(size, int(rng.choice([8, 16, 32])))
    if kind == "disc":
        return along(cylinder(size, size * rng.uniform(0.02, 0.3), sides), axis)
    if kind == "spar":
        return along(cylinder(size / 3, size * rng.uniform(1, 14), sides), axis)
    if kind == "log":
        return along(cylinder(size, size * rng.uniform(0.5, 3), sides), axis)
    return along(cylinder(size, rng.uniform(0.05, 0.6), int(rng.choice([3, 4, 5, 6]))), axis)


def _group(rng: np.random.Generator) -> list[Mesh]:
    """Return two or three bodies held together, now and then alike on both sides."""
    first = _mesh(rng, str(rng.choice(KINDS[:-1])))
    off = rng.uniform(-0.3, 0.3, 3) * rng.choice([0.0, 1.0], 3)
    second = _mesh(rng, str(rng.choice(KINDS[:-1])))
    if rng.random() < 0.5:
        return [first, moved(second, *off)]
    return [first, moved(second, off[0], off[1], off[2]), moved(second, off[0], -off[1], off[2])]


def _gravity(rng: np.random.Generator, middle: Floats, size: Floats) -> Floats:
    """Return a place of the mass: in the middle, on an axis, a hair off, or anywhere [m]."""
    off = np.zeros(3)
    way = rng.integers(5)
    if way == 1:
        k = int(np.argmax(size))
        off[k] = rng.uniform(-0.4, 0.4) * size[k]
    elif way == 2:
        k = int(rng.integers(3))
        off[k] = rng.uniform(-0.4, 0.4) * size[k]
    elif way == 3:
        off = rng.uniform(-0.3, 0.3, 3) * size
    elif way == 4:
        off = rng.choice([0.0, 0.0, 0.1, -0.1, 1e-6], 3) * size
    return middle + off


def below(mesh: Mesh, n: Floats, d: float) -> tuple[float, Floats]:
    """Return volume [m³] and first moment [m⁴] of what lies below n·r = d, by clipped triangles."""
    corners = mesh.vertices[mesh.triangles] - n * d  # from a point in the water's plane
    heights = corners @ n
    heights[np.abs(heights) < RIM * np.ptp(mesh.vertices)] = 0.0
    lower = (heights <= 0.0).sum(axis=1)
    parts = [corners[lower == 3]]
    for count in (1, 2):
        some, high = corners[lower == count], heights[lower == count]
        is_odd = (high <= 0.0) if count == 1 else (high > 0.0)
        order = (np.argmax(is_odd, axis=1)[:, None] + np.arange(3)) % 3
        (a, b, c), (p, q, r) = (
            np.moveaxis(np.take_along_axis(some, order[:, :, None], axis=1), 1, 0),
            np.take_along_axis(high, order, axis=1).T[:, :, None],
        )
        ab, ac = a + (b - a) * (p / (p - q)), a + (c - a) * (p / (p - r))
        cut = [(a, ab, ac)] if count == 1 else [(ab, b, c), (ab, c, ac)]
        parts += [np.stack(one, axis=1) for one in cut]
    kept = np.concatenate(parts)
    each = np.einsum("ij,ij->i", kept[:, 0], np.cross(kept[:, 1], kept[:, 2])) / 6.0
    volume = float(each.sum())
    return volume, each @ kept.sum(axis=1) / 4.0 + n * d * volume


def left_over(of: Body, at: Rest) -> tuple[float, float]:
    """Return force over weight, and the lever from the vertical through B over size [-]."""
    parts = [below(mesh, at.n, at.d) for mesh in of.meshes]
    volume = sum(part for part, _ in parts)
    moment = np.sum([part for _, part in parts], axis=0)
    arm = moment / volume - (of.boat.gravity + of.boat.tree.centre)
    across = arm - at.n * float(at.n @ arm)
    force = of.boat.density * volume / of.boat.mass - 1.0
    return abs(force), float(np.linalg.norm(across)) / size_of(of.boat)


def energy(of: Body, n: Floats, d: float) -> tuple[float, float]:
    """Return the energy of the body over its weight and the height of the water, found again [m].

    At one displacement it is n·G - n·B, G above B (Dupin's and Archimedes' principles).

    Args:
        of: The body.
        n: Unit vector up, shape (3,) [-].
        d: A first guess of the water's height along it [m].
    """
    wanted = of.boat.mass / of.boat.density
    heights = np.concatenate([mesh.vertices @ n for mesh in of.meshes])
    low, high = float(heights.min()), float(heights.max())
    before, moment = (low, 0.0), np.zeros(3)
    for _ in range(100):
        parts = [below(mesh, n, d) for mesh in of.meshes]
        volume, moment = sum(p for p, _ in parts), np.sum([m for _, m in parts], axis=0)
        if abs(volume - wanted) < EVEN * wanted or high - low < EVEN * (1.0 + abs(d)):
            break
        low, high = (d, high) if volume < wanted else (low, d)
        area = (volume - before[1]) / (d - before[0]) if d != before[0] else 0.0
        before = d, volume
        step = d + (wanted - volume) / area if area > 0.0 else low
        d = step if low < step < high else 0.5 * (low + high)
    return float(n @ (of.boat.gravity + of.boat.tree.centre - moment / wanted)), d


def sinks_lower(of: Body, at: Rest, turn: float = 0.02, ways: int = 8) -> float:
    """Return how much lower her energy over weight and size gets beside a rest [-].

    Args:
        of: The body.
        at: Its rest.
        turn: How far she is turned [rad].
        ways: In so many directions [-].
    """
    here, d = energy(of, at.n, at.d)
    side = np.cross(at.n, [0.0, 1.0, 0.0] if abs(at.n[0]) > 0.7 else [1.0, 0.0, 0.0])
    side /= np.linalg.norm(side)
    other = np.cross(at.n, side)
    least = here
    for k in range(ways):
        a = 2.0 * np.pi * (k + 0.3) / ways
        n = np.cos(turn) * at.n + np.sin(turn) * (np.cos(a) * side + np.sin(a) * other)
        least = min(least, energy(of, n, d)[0])
    return (here - least) / size_of(of.boat)


def size_of(boat: Floater) -> float:
    """Return how far a body extends along its longest axis [m]."""
    return 2.0 * float((np.abs(boat.tree.boxes[:, :3]) + boat.tree.boxes[:, 3:]).max())
