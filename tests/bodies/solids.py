"""Meshes to cut, and the same cut made plainly: every triangle in turn, or by another library."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from benchmarks.meshes import geodesic

from trimdive.geometry.lines.mesh import Floats, Mesh

Plane = tuple[Floats, float]


def unit(x: float, y: float, z: float) -> Floats:
    return np.array([x, y, z]) / np.linalg.norm([x, y, z])


def turned(mesh: Mesh, axes: Floats) -> Mesh:
    """Return the mesh with its x, y and z axes laid along the rows of ``axes``."""
    return Mesh(vertices=mesh.vertices @ axes, triangles=mesh.triangles)


def rotation(seed: int) -> Floats:
    """Return three unit vectors at right angles, right-handed, as rows."""
    q, _ = np.linalg.qr(np.random.default_rng(seed).normal(size=(3, 3)))
    return q * np.sign(np.linalg.det(q))


def boulder(seed: int, halvings: int = 3) -> Mesh:
    """Return a closed, lumpy body about the origin, of about 1 m, longer than wide."""
    ball = geodesic(halvings)
    random = np.random.default_rng(seed)
    waves = random.normal(size=(6, 3)) * 2.0
    bumps = np.sin(ball.vertices @ waves.T + random.uniform(0.0, 6.0, 6)).sum(axis=1)
    radii = 0.5 * np.exp(0.1 * bumps + 0.02 * random.normal(size=len(bumps)))
    axes = np.array([2.0, 0.7, 0.5])
    return Mesh(vertices=ball.vertices * radii[:, None] * axes, triangles=ball.triangles)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plain:
    """What a plain sum over every triangle gives."""

    volume: float
    moment: Floats


def plain_cut(mesh: Mesh, plane: Plane) -> Plain:
    """Return the volume below and its moment, triangle by triangle, about a point on the plane."""
    n, d = plane
    foot = d * n
    volume, moment = 0.0, np.zeros(3)
    for corners in mesh.corners - foot:
        heights = corners @ n
        below: list[Floats] = []
        for k in range(3):
            here, there = corners[k], corners[(k + 1) % 3]
            h, g = heights[k], heights[(k + 1) % 3]
            if h <= 0.0:
                below.append(here)
            if (h <= 0.0) != (g <= 0.0):
                below.append(here + h / (h - g) * (there - here))
        for a, b in pairwise(below[1:]):
            w = float(below[0] @ np.cross(a, b)) / 6.0
            volume += w
            moment += w * (below[0] + a + b) / 4.0
    return Plain(volume=volume, moment=moment + volume * foot)


def sliced(mesh: Mesh, plane: Plane, forward: Floats, port: Floats) -> Floats:
    """Return area, its first and its second moments (1, x, y, xx, xy, yy) of the section.

    Another library slices the solid and gives the outlines; the moments are Green's theorem
    on those polygons, along ``forward`` and ``port`` from the origin.
    """
    from manifold3d import Manifold, Mesh64

    n, d = plane
    upright = mesh.vertices @ np.stack([forward, port, n], axis=1)
    solid = Manifold(Mesh64(np.ascontiguousarray(upright), mesh.triangles.astype(np.uint64)))
    total = np.zeros(6)
    for outline in solid.slice(d).to_polygons():
        (x, y), (x2, y2) = outline.T, np.roll(outline, -1, axis=0).T
        cross = x * y2 - x2 * y
        total += [
            cross.sum() / 2.0,
            (cross * (x + x2)).sum() / 6.0,
            (cross * (y + y2)).sum() / 6.0,
            (cross * (x * x + x * x2 + x2 * x2)).sum() / 12.0,
            (cross * (2.0 * (x * y + x2 * y2) + x * y2 + x2 * y)).sum() / 24.0,
            (cross * (y * y + y * y2 + y2 * y2)).sum() / 12.0,
        ]
    return total


def trimmed(mesh: Mesh, plane: Plane) -> float:
    """Return the volume below the plane by another library."""
    from manifold3d import Manifold, Mesh64

    n, d = plane
    solid = Manifold(Mesh64(mesh.vertices, mesh.triangles.astype(np.uint64)))
    return float(solid.trim_by_plane(-n, -d).volume())
