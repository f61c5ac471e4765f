"""Puts a mesh in its place in the boat: unit, axes, and where its ends lie."""

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.meshes.drawn import Drawn
from trimdive.geometry.meshes.guess import likely_unit
from trimdive.units import write

LONGEST = 30.0  # no model is longer [m]
SHORTEST = 1e-4  # nor anything on one shorter [m]
COARSE = 1e-4  # coarsest that figures may be, as a share of the size [-]


def in_metres(held: Drawn, unit: float | None, scale: float = 1.0) -> Mesh:
    """Return a mesh in metres.

    Args:
        held: What the file holds.
        unit: Length of one unit of the file, or None to take the file's word for it [m].
        scale: How many times too large it was drawn [-].

    Raises:
        GeometryError: Nobody says its unit, or it would be too large or small for a model.
    """
    size = np.ptp(held.points, axis=0)
    likely = likely_unit(size)
    one = held.unit if unit is None else unit
    if one is None:
        what = f"{held.kind} files do not say their unit of length"
        mend = f'Write file_unit = "{likely.answer}", if that is it: {likely.why}.'
        raise GeometryError(what, held.name, mend)
    longest = float(size.max()) * one / scale
    if not SHORTEST <= longest <= LONGEST:
        what = f"read in that unit it is {_written(longest)} long"
        mend = f'Check its unit ("{likely.answer}" is likely), and look for stray parts far off.'
        raise GeometryError(what, held.name, mend)
    far = float(np.abs(held.points).max())
    step = float(np.spacing(np.float32(far))) if held.kind.endswith("STL") else 0.0
    if step > COARSE * float(size.max()):
        what = (
            f"it lies {_written(far * one / scale)} from the origin, where STL is good "
            f"to {write(step * one / scale, 'length', 'mm')} only"
        )
        raise GeometryError(what, held.name, "Move it to the origin where it was drawn.")
    return Mesh(vertices=held.points * (one / scale), triangles=held.triangles)


def _written(length: float) -> str:
    """Return a length that no model has, in words."""
    return f"{length:.0f} m" if length >= 10 else f"{length * 1e3:.3g} mm"


def axis(name: str) -> Floats:
    """Return an axis such as "-y" as a unit vector, shape (3,) [-]."""
    vector = np.zeros(3)
    vector["xyz".index(name[-1])] = -1.0 if name.startswith("-") else 1.0
    return vector


def turned(mesh: Mesh, forward: str, up: str, where: str) -> Mesh:
    """Return a mesh turned so that x points forward and z up.

    Args:
        mesh: As drawn.
        forward: Axis of the file that points forward, such as "x" or "-y".
        up: Axis of the file that points up.
        where: What to call it.

    Raises:
        GeometryError: Both are one axis.
    """
    if (forward, up) == ("x", "z"):
        return mesh
    if forward[-1] == up[-1]:
        what = f"forward and up both lie along {up[-1]}"
        raise GeometryError(what, where, "Name two axes of the mesh.")
    x, z = axis(forward), axis(up)
    return Mesh(
        vertices=mesh.vertices @ np.stack([x, np.cross(z, x), z]).T, triangles=mesh.triangles
    )


def put(mesh: Mesh, x_aft: float | None, y: float | None, z_bottom: float | None) -> Mesh:
    """Return a mesh with its after end, its middle and its lowest point where they are wanted.

    Args:
        mesh: Any mesh.
        x_aft: Place of its after end; None where it is [m].
        y: Place of its middle, to port; None where it is [m].
        z_bottom: Height of its lowest point; None where it is [m].
    """
    low, high = mesh.bounds
    ends = np.array([low[0], (low[1] + high[1]) / 2, low[2]])
    wanted = [
        end if want is None else want for want, end in zip((x_aft, y, z_bottom), ends, strict=True)
    ]
    return Mesh(vertices=mesh.vertices + (np.array(wanted) - ends), triangles=mesh.triangles)
