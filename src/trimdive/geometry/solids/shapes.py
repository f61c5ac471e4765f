"""Simple shapes as closed meshes with exactly the volume of the shape they stand for.

A round body is a polygon whose radius is stretched until its area equals the circle's, so
that volumes and centroids are exact; only the outline is off, by 0.04 % of the radius.
"""

from math import cos, pi, sin, sqrt

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh, join, volume

SIDES = 64  # sides of the polygon that stands for a circle [-]


def _positive(name: str, size: float) -> None:
    if not size > 0:
        raise GeometryError(f"{name} is {size:g} m", "shape", "Give a size above zero.")


def box(length: float, breadth: float, height: float) -> Mesh:
    """Return a box about the origin; x along its length [m], y across, z up."""
    for name, size in (("length", length), ("breadth", breadth), ("height", height)):
        _positive(name, size)
    corners = np.array([[x, y, z] for x in (-0.5, 0.5) for y in (-0.5, 0.5) for z in (-0.5, 0.5)])
    faces = [[0, 1, 3, 2], [4, 6, 7, 5], [0, 4, 5, 1], [2, 3, 7, 6], [0, 2, 6, 4], [1, 5, 7, 3]]
    triangles = [t for a, b, c, d in faces for t in ([a, b, c], [a, c, d])]
    return Mesh(
        vertices=corners * np.array([length, breadth, height]), triangles=np.array(triangles)
    )


def extrude(outline: Floats, length: float) -> Mesh:
    """Return the prism of a convex outline about the middle of its length, along x.

    Args:
        outline: Points in y and z, anticlockwise seen from +x, shape (n, 2) [m].
        length: Along x [m].
    """
    _positive("length", length)
    count = len(outline)
    ends = [np.column_stack([np.full(count, x), outline]) for x in (-length / 2, length / 2)]
    here = np.arange(count)
    after = (here + 1) % count
    sides = [[here, after, after + count], [here, after + count, here + count]]
    fan = np.arange(1, count - 1)
    caps = [[0 * fan, fan + 1, fan], [0 * fan + count, fan + count, fan + count + 1]]
    return Mesh(
        vertices=np.vstack(ends),
        triangles=np.vstack([np.column_stack(face) for face in (*sides, *caps)]),
    )


def circle(diameter: float, sides: int = SIDES) -> Floats:
    """Return the polygon whose area is that of a circle, shape (sides, 2) [m]."""
    _positive("diameter", diameter)
    radius = diameter / 2 * sqrt(2 * pi / (sides * sin(2 * pi / sides)))
    angle = 2 * pi * (np.arange(sides) + 0.5) / sides
    return radius * np.column_stack([np.cos(angle), np.sin(angle)])


def cylinder(diameter: float, length: float, sides: int = SIDES) -> Mesh:
    """Return a cylinder along x about the origin, its volume that of the round one [m]."""
    return extrude(circle(diameter, sides), length)


def capsule(diameter: float, length: float, sides: int = SIDES) -> Mesh:
    """Return a cylinder with half balls for ends, along x about the origin, of the round volume.

    Args:
        diameter: Of cylinder and balls [m].
        length: Over the balls [m].
        sides: Of the polygon that stands for a circle [-].

    Raises:
        GeometryError: It is shorter than the balls.
    """
    straight = length - diameter
    if straight < 0:
        what = f"{length * 1e3:g} mm are shorter than ends {diameter * 1e3:g} mm across"
        raise GeometryError(what, "cylinder", "Give the length over its round ends.")
    polar = np.pi / 2 * np.arange(1, sides // 4 + 1) / (sides // 4)
    x = np.concatenate([-np.cos(polar), np.cos(polar[::-1])]) * diameter / 2
    x += np.repeat([-straight / 2, straight / 2], len(polar))
    around = circle(1.0, sides)
    width = diameter * np.concatenate([np.sin(polar), np.sin(polar[::-1])])
    rings = np.column_stack([np.repeat(x, sides), (width[:, None, None] * around).reshape(-1, 2)])
    tips = [[-length / 2, 0.0, 0.0], [length / 2, 0.0, 0.0]]
    here = np.arange(sides)
    after, last, tip = (here + 1) % sides, (len(x) - 1) * sides, len(rings)
    faces = [np.column_stack([here * 0 + tip, after, here])]
    for ring in range(len(x) - 1):
        a, b = ring * sides, (ring + 1) * sides
        faces += [np.column_stack([a + here, a + after, b + after])]
        faces += [np.column_stack([a + here, b + after, b + here])]
    faces += [np.column_stack([here * 0 + tip + 1, last + here, last + after])]
    made = Mesh(vertices=np.vstack([rings, tips]), triangles=np.vstack(faces))
    round_volume = pi / 4 * diameter**2 * straight + pi / 6 * diameter**3
    stretch = sqrt(round_volume / volume(made))
    return Mesh(vertices=made.vertices * [1.0, stretch, stretch], triangles=made.triangles)


def tube(outside: float, wall: float, length: float, sides: int = SIDES) -> Mesh:
    """Return an open tube along x about the origin: its wall alone displaces [m].

    Raises:
        GeometryError: The wall is thicker than the radius.
    """
    _positive("wall", wall)
    if 2 * wall >= outside:
        what = f"a wall of {wall * 1e3:g} mm leaves no bore in {outside * 1e3:g} mm"
        raise GeometryError(what, "tube", "Give the outside diameter and a thinner wall.")
    inner = cylinder(outside - 2 * wall, length, sides)
    return join([cylinder(outside, length, sides), turned_out(inner)])


def sphere(diameter: float, sides: int = 32) -> Mesh:
    """Return a sphere about the origin, scaled to exactly the round one's volume [m]."""
    _positive("diameter", diameter)
    rings = sides // 2
    polar = np.pi * np.arange(1, rings) / rings
    around = 2 * np.pi * np.arange(sides) / sides
    shell = np.stack(
        [
            np.sin(polar)[:, None] * np.cos(around),
            np.sin(polar)[:, None] * np.sin(around),
            np.repeat(np.cos(polar)[:, None], sides, axis=1),
        ],
        axis=-1,
    ).reshape(-1, 3)
    vertices = np.vstack([shell, [[0.0, 0.0, 1.0], [0.0, 0.0, -1.0]]])
    here = np.arange(sides)
    after = (here + 1) % sides
    faces = []
    for ring in range(rings - 2):
        a, b = ring * sides, (ring + 1) * sides
        faces += [np.column_stack([a + here, b + here, b + after])]
        faces += [np.column_stack([a + here, b + after, a + after])]
    top, bottom, last = len(shell), len(shell) + 1, (rings - 2) * sides
    faces += [np.column_stack([here * 0 + top, here, after])]
    faces += [np.column_stack([here * 0 + bottom, last + after, last + here])]
    unit = Mesh(vertices=vertices, triangles=np.vstack(faces))
    return scaled(unit, diameter / 2 * (4 / 3 * pi / volume(unit)) ** (1 / 3))


def scaled(mesh: Mesh, factor: float) -> Mesh:
    """Return the mesh at another scale."""
    return Mesh(vertices=mesh.vertices * factor, triangles=mesh.triangles)


def moved(mesh: Mesh, x: float, y: float, z: float) -> Mesh:
    """Return the mesh shifted by x, y, z [m]."""
    return Mesh(vertices=mesh.vertices + np.array([x, y, z]), triangles=mesh.triangles)


def sloped(mesh: Mesh, slope: float) -> Mesh:
    """Return the mesh turned about the y axis by ``slope`` [rad], its forward end up."""
    c, s = cos(slope), sin(slope)
    return Mesh(
        vertices=mesh.vertices @ np.array([[c, 0, s], [0, 1, 0], [-s, 0, c]]),
        triangles=mesh.triangles,
    )


def along(mesh: Mesh, axis: str) -> Mesh:
    """Return a mesh made along x so that it runs along ``axis``: "x", "y" or "z"."""
    shift = {"x": 0, "y": 1, "z": 2}[axis]
    return Mesh(vertices=np.roll(mesh.vertices, shift, axis=1), triangles=mesh.triangles)


def mirrored(mesh: Mesh) -> Mesh:
    """Return the mesh on the other side of the centre plane."""
    return Mesh(vertices=mesh.vertices * np.array([1, -1, 1]), triangles=mesh.triangles[:, ::-1])


def turned_out(mesh: Mesh) -> Mesh:
    """Return the mesh inside out, so that its space counts negative."""
    return Mesh(vertices=mesh.vertices, triangles=mesh.triangles[:, ::-1])
