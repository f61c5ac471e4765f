"""3MF files: a zip archive with a model in XML, which says its unit and where each object stands.

Source: 3MF Core Specification, chapters 3 and 4 (unit of the model, mesh, components, build).
"""

import io
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

import numpy as np

from trimdive.errors import GeometryError
from trimdive.lines.mesh import Floats, Ints
from trimdive.meshes.drawn import Drawn, drawn

UNITS = {
    "micron": 1e-6,
    "millimeter": 1e-3,
    "centimeter": 1e-2,
    "inch": 0.0254,
    "foot": 0.3048,
    "meter": 1.0,
}
MOST_BYTES = 2**30  # unpacked; more is taken for a trap
DEEPEST = 16  # objects within objects
NO_POINTS, NO_TRIANGLES = np.empty((0, 3)), np.empty((0, 3), np.int64)
PACKED = "it cannot be unpacked"


@dataclass
class _Shape:
    """One object of the model: its own triangles, and objects that stand in it."""

    points: Floats = field(default_factory=lambda: NO_POINTS)  # shape (n, 3) [-]
    triangles: Ints = field(default_factory=lambda: NO_TRIANGLES)  # shape (m, 3) [-]
    parts: list[tuple[str, Floats]] = field(default_factory=list)  # with places, (4, 3) [-]


def read(data: bytes, name: str) -> Drawn:
    """Return everything that a 3MF file builds, as one mesh.

    Raises:
        GeometryError: It is no archive with a model, or the model cannot be read.
    """
    shapes: dict[str, _Shape] = {}
    items: list[tuple[str, Floats]] = []
    unit = 1e-3
    for file, text in _models(data, name):
        try:
            root = ElementTree.fromstring(text)
        except ElementTree.ParseError as error:
            line = error.position[0]
            raise GeometryError("it is no XML", f"{name}:{file}:{line}", "Write it anew.") from None
        unit = UNITS.get(root.get("unit", "millimeter"), unit)
        try:
            _take(root, shapes, items)
        except (ValueError, TypeError):
            raise GeometryError("its model cannot be read", name, "Write it anew.") from None
    soup = [points for key, place in items for points in _placed(key, place, shapes, name, DEEPEST)]
    points = np.concatenate(soup) if soup else np.empty((0, 3))
    return drawn(name=name, kind="3MF", points=points, triangles=None, unit=unit)


def _models(data: bytes, name: str) -> Iterator[tuple[str, bytes]]:
    """Yield name and text of each model in the archive."""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            found = [one for one in archive.infolist() if one.filename.lower().endswith(".model")]
            if not found:
                what = "it is an archive (zip) without a 3MF model"
                raise GeometryError(what, name, "Unpack it and name the mesh in it.")
            size = sum(one.file_size for one in found)
            if size > MOST_BYTES:
                what = f"its model unpacks to {size / 2**20:.0f} MB"
                raise GeometryError(what, name, f"Keep it under {MOST_BYTES // 2**20} MB.")
            for one in found:
                with archive.open(one) as stream:
                    text = stream.read(one.file_size + 1)
                yield one.filename, text
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError) as error:
        raise GeometryError(PACKED, name, "Copy or write the file anew.") from error


def _bare(element: Element) -> str:
    """Return the name of an element without its namespace."""
    return element.tag.rpartition("}")[2]


def _take(root: Element, shapes: dict[str, _Shape], items: list[tuple[str, Floats]]) -> None:
    """Enter the objects of a model, and what it builds."""
    for element in root.iter():
        kind = _bare(element)
        if kind == "object":
            shapes[element.get("id", "")] = _shape(element)
        elif kind == "item":
            items.append((element.get("objectid", ""), _place(element)))


def _shape(element: Element) -> _Shape:
    """Return one object."""
    shape = _Shape()
    points = [
        [float(one.get(axis, "nan")) for axis in "xyz"]
        for one in element.iter()
        if _bare(one) == "vertex"
    ]
    corners = ("v1", "v2", "v3")
    triangles = [
        [int(one.get(corner, "-1")) for corner in corners]
        for one in element.iter()
        if _bare(one) == "triangle"
    ]
    if points and triangles:
        shape.points = np.array(points)
        shape.triangles = np.array(triangles, dtype=np.int64)
    shape.parts = [
        (one.get("objectid", ""), _place(one))
        for one in element.iter()
        if _bare(one) == "component"
    ]
    return shape


def _place(element: Element) -> Floats:
    """Return where an object stands, three axes and the origin, shape (4, 3) [-]."""
    text = element.get("transform")
    if text is None:
        return np.vstack([np.eye(3), np.zeros(3)])
    return np.array([float(word) for word in text.split()]).reshape(4, 3)


def _placed(
    key: str, place: Floats, shapes: dict[str, _Shape], name: str, deep: int
) -> Iterator[Floats]:
    """Yield the corners of an object and of what stands in it, three a triangle."""
    shape = shapes.get(key)
    if shape is None or deep == 0:
        what = f"its object '{key}' is missing" if deep else "its objects stand in each other"
        raise GeometryError(what, name, "Write it anew.")
    if len(shape.triangles):
        low, high = int(shape.triangles.min()), int(shape.triangles.max())
        if low < 0 or high >= len(shape.points):
            what = f"a triangle of object '{key}' names a point that there is not"
            raise GeometryError(what, name, "Write it anew.")
        corners = shape.points[shape.triangles]
        mirrored = np.linalg.det(place[:3]) < 0
        yield (corners[:, ::-1] if mirrored else corners).reshape(-1, 3) @ place[:3] + place[3]
    for part, within in shape.parts:
        inner = np.vstack([within[:3] @ place[:3], within[3] @ place[:3] + place[3]])
        yield from _placed(part, inner, shapes, name, deep - 1)
