"""Cylinders with round ends: volumes in closed form, against trimesh's own capsule."""

from math import pi

import numpy as np
import pytest
import trimesh

from trimdive.boatfile.pieces import Cylinder
from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import volume
from trimdive.geometry.solids.build import cylinder_body
from trimdive.geometry.solids.moments import centroid
from trimdive.geometry.solids.shapes import capsule


def vessel(ends: str) -> Cylinder:
    return Cylinder(
        name="c", outside=0.11, wall=0.003, length=0.4, x=0.7, y=0.0, z=0.05, mass=0.8, ends=ends
    )  # pyright: ignore[reportArgumentType] - as read from a file


def test_it_is_closed_and_holds_what_it_should() -> None:
    """A tube and a ball, by hand; closed, outward and as long and wide as trimesh makes it."""
    made = capsule(0.1, 0.35)
    assert volume(made) == pytest.approx(pi / 4 * 0.1**2 * 0.25 + pi / 6 * 0.1**3, rel=1e-12)
    theirs = trimesh.Trimesh(made.vertices, made.triangles, process=False)
    assert theirs.is_watertight
    assert theirs.is_winding_consistent
    other = trimesh.creation.capsule(height=0.25, radius=0.05, count=[64, 64])
    extents = np.sort(other.extents)
    assert np.sort(theirs.extents) == pytest.approx(extents, rel=3e-3)
    assert centroid(made) == pytest.approx(np.zeros(3), abs=1e-12)


def test_a_ball_alone_will_do() -> None:
    assert volume(capsule(0.1, 0.1)) == pytest.approx(pi / 6 * 0.1**3, rel=1e-12)


def test_shorter_than_its_ends_it_cannot_be() -> None:
    with pytest.raises(GeometryError, match="shorter"):
        capsule(0.1, 0.09)


def test_ends_change_what_a_cylinder_displaces_and_is_made_of() -> None:
    """By hand: a round end lacks D³ (π/8 - π/12) of the flat one."""
    flat, round_ = vessel("flat"), vessel("round")
    lacks = 2 * 0.11**3 * (pi / 8 - pi / 12)
    volumes = [cylinder_body(one, "cylinder[1]").volume for one in (flat, round_)]
    assert volumes[0] - volumes[1] == pytest.approx(lacks, rel=1e-9)
    shell = pi / 4 * (0.11**2 - 0.104**2) * 0.29 + pi / 6 * (0.11**3 - 0.104**3)
    assert round_.wall_volume == pytest.approx(shell)
