"""Holes: rounds of open edges, each in the order in which it is walked."""

from dataclasses import dataclass

import numpy as np

from trimdive.geometry.lines.mesh import Floats, Ints, Mesh
from trimdive.geometry.meshes.edges import Edges

SMALL_HOLE = 0.1  # a hole up to this share of the mesh's length may be capped unseen [-]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Hole:
    """A round of open edges; walked so that its triangles lie to the left."""

    points: Ints  # shape (n,) [-]
    span: float  # greatest distance across its bounds [m]
    middle: Floats  # shape (3,) [m]


def holes(mesh: Mesh, edges: Edges) -> tuple[Hole, ...]:
    """Return the holes that open edges make, widest first; edges that make no round are left out.

    Args:
        mesh: The mesh.
        edges: Its edges.
    """
    single = (edges.uses == 1)[edges.of]
    starts = mesh.triangles[single]
    stops = np.roll(mesh.triangles, -1, axis=1)[single]
    onward: dict[int, list[int]] = {}
    for start, stop in zip(starts.tolist(), stops.tolist(), strict=True):
        onward.setdefault(start, []).append(stop)
    found = [_hole(mesh, walked) for walked in _walks(onward)]
    return tuple(sorted(found, key=lambda hole: -hole.span))


def _walks(onward: dict[int, list[int]]) -> list[list[int]]:
    """Return the closed walks along one-way links; each link is used up."""
    rounds: list[list[int]] = []
    for first in list(onward):
        while onward.get(first):
            walk, place = [first], {first: 0}
            while steps := onward.get(walk[-1]):
                after = steps.pop()
                if after in place:  # a round is closed; what led to it stays on the walk
                    start = place[after]
                    rounds.append(walk[start:])
                    for point in walk[start + 1 :]:
                        del place[point]
                    del walk[start + 1 :]
                else:
                    place[after] = len(walk)
                    walk.append(after)
    return rounds


def _hole(mesh: Mesh, walked: list[int]) -> Hole:
    points = mesh.vertices[walked]
    return Hole(
        points=np.array(walked, dtype=np.int64),
        span=float(np.linalg.norm(np.ptp(points, axis=0))),
        middle=points.mean(axis=0),
    )
