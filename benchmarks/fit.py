"""The least gap beside a general library: shapes thrown at random, each against each.

Both begin with closed meshes in the form that they want them in; ours tells the place of the gap
too.
"""

import numpy as np
from scipy.spatial.transform import Rotation

from benchmarks.timing import Row, typical
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.meshes.solid import solid_of
from trimdive.geometry.solids.nearest import gap
from trimdive.geometry.solids.shapes import cylinder, moved, sphere

PAIRS = 24  # of shapes [-]
RUNS = 4  # through all of them, timed [-]
FAR = 3.0  # how wide a gap the library looks for [m]


def thrown(count: int) -> list[tuple[Mesh, Mesh]]:
    """Return pairs of a cylinder and a ball, turned and put anywhere, clear of each other."""
    r = np.random.default_rng(11)
    found: list[tuple[Mesh, Mesh]] = []
    while len(found) < count:
        tube, ball = cylinder(0.1, 0.4), sphere(0.1)
        turn = Rotation.from_quat(r.normal(size=4)).as_matrix()
        turned = Mesh(vertices=tube.vertices @ turn.T, triangles=tube.triangles)
        there = moved(ball, *r.uniform(-0.5, 0.5, 3).tolist())
        if (solid_of(turned, "tube") ^ solid_of(there, "ball")).volume() == 0.0:
            found.append((turned, there))
    return found


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what is to be said of them."""
    pairs = thrown(PAIRS)
    solids = [(solid_of(a, "tube"), solid_of(b, "ball")) for a, b in pairs]
    off = max(
        abs(gap(*pair).width - one.min_gap(other, FAR))
        for pair, (one, other) in zip(pairs, solids, strict=True)
    )
    ours = typical(lambda pair: gap(*pair), pairs, RUNS * PAIRS)
    library = typical(lambda pair: pair[0].min_gap(pair[1], FAR), solids, RUNS * PAIRS)
    row = Row(
        what="least gap, tube and ball", time=ours, other=library, beside="manifold3d", least=1.0
    )
    return [row.cells], [f"Gaps differ from the library's by {off:.1e} m at most."]
