"""Coming to rest beside a general root finder over a general library's cuts, and the start-up.

Both let *Bittern* go upright, from the same height by the waterline that she is meant to have, with
dry tanks. Theirs solves for trim, heel and height until weight is buoyancy and G stands under B; it
counts only where it converges, and to the same attitude.
"""

import os
import subprocess
import sys
from collections import defaultdict
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np

from benchmarks.timing import Row, typical
from trimdive.assessment import Assessment, assess
from trimdive.geometry.lines.mesh import Floats, Mesh, join
from trimdive.hydrostatics.equilibrium import rest

BITTERN = Path(__file__).parents[1] / "boats" / "bittern" / "boat.toml"
STARTS = (0.0, 0.001, -0.001, 0.003, -0.003)  # above the waterline meant [m]
SAME = 1e-6  # rad between two attitudes, and of the length between two heights [-]
UP = np.array([0.0, 0.0, 1.0])
BARE = "import numpy, scipy.optimize, numba"


def _solids(boat: Assessment) -> list[tuple[object, float]]:
    """Return all that displaces as few solids, bodies of one share together, and the shares."""
    from manifold3d import Manifold, Mesh64

    alike: dict[float, list[Mesh]] = defaultdict(list)
    for body in boat.bodies:
        alike[body.share].append(body.mesh)
    solids: list[tuple[object, float]] = []
    for share, meshes in alike.items():
        whole = join(meshes)
        solid = Manifold(Mesh64(whole.vertices, whole.triangles.astype(np.uint64)))
        solids.append((solid, share))
    return solids


def _below(solids: list[tuple[object, float]], n: Floats, d: float) -> tuple[float, Floats]:
    """Return the volume below a plane and its moment."""
    volume, moment = 0.0, np.zeros(3)
    for solid, share in solids:
        mesh = solid.trim_by_plane(-n, -d).to_mesh64()
        a, b, c = np.moveaxis(mesh.vert_properties[:, :3][mesh.tri_verts], 1, 0)
        w = np.einsum("ij,ij->i", a, np.cross(b, c)) / 6.0
        volume += share * float(w.sum())
        moment += share * (w @ (a + b + c)) / 4.0
    return volume, moment


def _theirs(
    boat: Assessment, solids: list[tuple[object, float]], above: float
) -> tuple[Floats, float] | None:
    """Return n and d where the general route ends, or None if it does not converge.

    It begins ``above`` the waterline meant [m]: from some heights it finds its way, from some not.
    """
    from scipy.optimize import root

    mass, gravity = boat.masses.mass, boat.masses.gravity
    length, density = boat.floater.length, boat.floater.density

    def unbalance(x: Floats) -> Floats:
        n = np.array([x[0], x[1], 1.0]) / np.sqrt(1.0 + x[0] ** 2 + x[1] ** 2)
        volume, moment = _below(solids, n, x[2] * length)
        lever = np.cross(n, moment / volume - gravity)
        return np.array([density * volume / mass - 1.0, *lever[:2] / length])

    _, start = boat.waterline
    found = root(unbalance, np.array([0.0, 0.0, (start + above) / length]), tol=1e-9)
    if not found.success:
        return None
    up = np.array([found.x[0], found.x[1], 1.0])
    return up / np.linalg.norm(up), float(found.x[2] * length)


def _coming_to_rest() -> tuple[list[list[str]], list[str]]:
    boat = assess(BITTERN)
    solids, dry = _solids(boat), np.zeros(len(boat.boat.tanks))
    ends = {above: _theirs(boat, solids, above) for above in STARTS}
    above, theirs = next(((k, end) for k, end in ends.items() if end is not None), (0.0, None))
    if theirs is None:
        return [], ["The general route to Bittern's rest does not converge: no ratio."]
    level = np.full(len(dry), boat.waterline[1] + above)
    begin = replace(rest(boat.floater, dry), n=UP, d=boat.waterline[1] + above, levels=level)
    ours = rest(boat.floater, dry, start=begin)
    tilt = float(np.linalg.norm(np.cross(ours.n, theirs[0])))
    rise = abs(ours.d - theirs[1]) / boat.floater.length
    if max(tilt, rise) > SAME:
        return [], [f"The general route ends elsewhere, {tilt:.1e} rad away: no ratio."]
    row = Row(
        what="rest of Bittern",
        beside="root over trims",
        time=typical(lambda waters: rest(boat.floater, waters, start=begin), [dry], 200),
        other=typical(lambda few: _theirs(boat, few, above), [solids], 2),  # some seconds each
        least=5000.0,
    )
    found = sum(end is not None for end in ends.values())
    return [row.cells], [
        f"Both rests agree to {tilt:.0e} rad and {rise:.0e} of the length; "
        f"the general route converged from {found} of {len(STARTS)} starts."
    ]


def _run(words: list[str], around: dict[str, str]) -> None:
    """Run a command; status 1 says that something on the boat must be put right."""
    if subprocess.run(words, env=around, capture_output=True, check=False).returncode not in (0, 1):
        raise RuntimeError(f"{' '.join(words)} failed")


def _starting_up() -> tuple[list[list[str]], list[str]]:
    """Time the whole command against a bare interpreter that loads the libraries it needs.

    Once where she was asked for before, and once where she must be worked out: sums are compiled
    already in both.
    """
    command = [sys.executable, "-m", "trimdive", "float", str(BITTERN)]
    bare = [sys.executable, "-c", BARE]
    with TemporaryDirectory() as kept:
        again = {**os.environ, "XDG_CACHE_HOME": kept, "LOCALAPPDATA": kept}
        anew = {**os.environ, "TRIMDIVE_ANSWERS": "off"}
        theirs = typical(lambda words: _run(words, anew), [bare], 5)
        lines = [
            Row(
                what=f"trimdive float, {how}",
                beside="bare imports",
                time=typical(lambda words, around=around: _run(words, around), [command], 5),
                other=theirs,
                least=least,
            ).cells
            for how, around, least in (
                ("asked before", again, 1 / 1.2),
                ("worked out", anew, 1 / 4.0),
            )
        ]
    return lines, []


def rows() -> tuple[list[list[str]], list[str]]:
    """Return the lines of the table, and what else is worth telling."""
    lines, answer = _coming_to_rest()
    more_lines, more_shown = _starting_up()
    return lines + more_lines, answer + more_shown
