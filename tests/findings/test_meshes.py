"""Meshes of the hull: a crate drawn by another library, spoilt in one way at a time."""

import numpy as np
import pytest
import trimesh
from tests.findings.checks import ran
from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.boatfile import parse
from trimdive.errors import GeometryError

BOAT = """\
format = 1
name = "Print"
length = "1000 mm"

[units]
length = "mm"
mass = "g"
volume = "cm3"

[waterline]
height = 100

[[region]]
name = "hull"
surface = "mesh"
file = "hull.stl"
file_unit = "mm"
closed_walls = true
density = "1.2 g/cm3"
mass = {mass}
known = "weighed"

[[cylinder]]
name = "cylinder"
outside = 100
wall = 3
length = 600
x = 500
z = 60
mass = 3000
"""


def walls(unit: float = 1e-3) -> trimesh.Trimesh:
    """Return a crate of 1000 × 200 × 150 mm with walls of 2 mm, in this unit of length [m]."""
    outer = trimesh.creation.box((1.0, 0.2, 0.15))
    inner = trimesh.creation.box((0.996, 0.196, 0.146))
    inner.invert()
    both = trimesh.util.concatenate([outer, inner])
    both.apply_translation((0.5, 0.0, 0.075))
    both.apply_scale(1 / unit)
    return both


WALL = (0.03 - 0.996 * 0.196 * 0.146) * 1200  # [kg]


def drawn(mesh: trimesh.Trimesh, mass: float = WALL, **changed: str) -> Assessment:
    text = BOAT.format(mass=mass * 1e3)
    for change in changed.values():
        old, _, new = change.partition(" -> ")
        assert old in text
        text = text.replace(old, new)
    return Assessment(boat=parse(text), files={"hull.stl": mesh.export(file_type="stl")})


def test_a_sound_mesh() -> None:
    boat = drawn(walls())
    assert boat.hull.skins[0].shape_volume == pytest.approx(WALL / 1200, rel=1e-5)
    for key in ("mesh-trouble", "mesh-overlap", "mesh-unit", "length-mismatch"):
        assert ran(key, boat) == ()


def test_drawn_in_inches_and_read_as_millimetres() -> None:
    """1000 mm are 39.37 in: read in millimetres she is 39.37 mm long, and her wall too small."""
    boat = drawn(walls(0.0254))
    (found,) = ran("mesh-unit", boat)
    assert "39.4 mm" in what_of(found)
    assert "inches" in what_of(found)
    after = boat.edited(found.edits)
    assert ran("mesh-unit", after) == ()
    assert np.ptp(after.hull.envelope.bounds[:, 0]) == pytest.approx(1.0, rel=1e-6)


def test_wall_against_mass_at_the_limit() -> None:
    """A mass that asks for a seventh more wall is let pass; no unit is looked for."""
    assert ran("mesh-unit", drawn(walls(), mass=WALL / 0.75)) == ()


def test_an_open_mesh_is_refused() -> None:
    """One triangle is left out: nothing can be worked out, and it is said where and what to do."""
    open_one = walls()
    open_one.update_faces(np.arange(len(open_one.faces)) > 0)
    with pytest.raises(GeometryError, match="not closed: 3 open edges") as refused:
        assert drawn(open_one).hull
    assert refused.value.where == "hull.stl"


def test_a_mesh_inside_out() -> None:
    """Counted as if turned, said, and the repair offered takes the finding away."""
    turned = walls()
    turned.invert()
    boat = drawn(turned)
    assert boat.hull.skins[0].shape_volume == pytest.approx(WALL / 1200, rel=1e-5)
    (found,) = ran("mesh-trouble", boat)
    assert "inside" in what_of(found)
    assert ran("mesh-trouble", boat.edited(found.edits)) == ()


def test_length_told_and_length_drawn() -> None:
    """1000 mm drawn against 1020 told: 2 %, said; 1008 told, 0.8 %, let pass."""
    boat = drawn(walls(), given='length = "1000 mm" -> length = "1020 mm"')
    (found,) = ran("length-mismatch", boat)
    assert "1020 mm" in what_of(found)
    off = 1 - 1000 / 1020
    assert ran("length-mismatch", boat, off * (1 + 1e-6)) == ()
    assert len(ran("length-mismatch", boat, off * (1 - 1e-6))) == 1
    near = drawn(walls(), given='length = "1000 mm" -> length = "1008 mm"')
    assert ran("length-mismatch", near) == ()
