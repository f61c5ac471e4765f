"""Boats whose hulls are meshes."""

from pathlib import Path

import numpy as np
import trimesh
from tests.meshes.shapes import as_file

from trimdive.assessment import Assessment, assess

LONG, BROAD, HIGH = 0.6, 0.1, 0.08
HEAD = 'format = 1\nname = "Box"\nlength = "600 mm"\n[waterline]\nheight = "60 mm"\n'
REGION = (
    '[[region]]\nname = "hull"\nsurface = "mesh"\nfile = "hull.stl"\nmaterial = "GRP"\n'
    'mass = "500 g"\nthickness = "2 mm"\n'
)


def hull(unit: float = 1e-3) -> trimesh.Trimesh:
    """Return a box hull from x = 0 and z = 0, in a unit."""
    shape = trimesh.creation.box(np.array([LONG, BROAD, HIGH]) / unit)
    shape.apply_translation(np.array([LONG / 2, 0, HIGH / 2]) / unit)
    return shape


def boat(folder: Path, shape: trimesh.Trimesh, more: str, region: str = REGION) -> Assessment:
    (folder / "hull.stl").write_bytes(as_file(shape, "stl"))
    (folder / "boat.toml").write_text(HEAD + region + more, encoding="utf-8")
    return assess(folder / "boat.toml")
