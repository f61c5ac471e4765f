"""PLY, GLB and STEP files, read by libraries once their claims have been weighed."""

import io
import json
import re
import struct

import numpy as np

from trimdive.errors import GeometryError
from trimdive.meshes.drawn import Drawn, drawn

ELEMENT = re.compile(rb"^element\s+(\w+)\s+(\d+)", re.MULTILINE)
LEAST = {b"vertex": 6, b"face": 4}  # fewest bytes that one of them takes, in text or binary


def ply(data: bytes, name: str) -> Drawn:
    """Return the mesh in a PLY file.

    Raises:
        GeometryError: It claims more than it holds, or cannot be read.
    """
    head = data[: data.find(b"end_header") + 1]
    for element, count in ELEMENT.findall(head):
        if int(count) * LEAST.get(element, 1) > len(data):
            what = f"its head claims {int(count)} of '{element.decode()}' in {len(data)} bytes"
            raise GeometryError(what, name, "It is cut short or no PLY; copy or write it anew.")
    return _by_library(data, name, "ply", "PLY", None)


def glb(data: bytes, name: str) -> Drawn:
    """Return the mesh in a GLB file; by its standard its unit is the metre.

    Source: glTF 2.0 specification, sections 3.4 (units) and 4.4 (binary layout).

    Raises:
        GeometryError: It claims more than it holds, or cannot be read.
    """
    size = struct.unpack_from("<I", data, 8)[0] if len(data) >= 20 else -1
    if size != len(data):
        what = f"its head claims {size} bytes, but the file has {len(data)}"
        raise GeometryError(what, name, "It is cut short; copy or write it anew.")
    count = _accessors(data, name)
    if count > len(data):
        what = f"it claims {count} numbers in {len(data)} bytes"
        raise GeometryError(what, name, "Copy or write the file anew.")
    return _by_library(data, name, "glb", "GLB", 1.0)


def _accessors(data: bytes, name: str) -> int:
    """Return how many entries all tables of a GLB file claim together."""
    length = struct.unpack_from("<I", data, 12)[0]
    try:
        tables = json.loads(data[20 : 20 + length]).get("accessors", [])
        return sum(int(table["count"]) for table in tables)
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        raise GeometryError("its contents cannot be read", name, "Write it anew.") from None


def step(data: bytes, name: str) -> Drawn:
    """Return the solids in a STEP file as a mesh, if the extra that reads them is installed.

    Raises:
        GeometryError: The extra is not installed, or the file cannot be read.
    """
    try:
        import cascadio  # noqa: F401  # pyright: ignore[reportMissingImports, reportUnusedImport]
    except ImportError:
        what = "it is a STEP file, and the extra that reads those is not installed"
        mend = "Install trimdive[step], or write the solids as STL or 3MF."
        raise GeometryError(what, name, mend) from None
    return _by_library(data, name, "step", "STEP", 1.0)


def _by_library(data: bytes, name: str, key: str, kind: str, unit: float | None) -> Drawn:
    """Return the mesh as trimesh reads it."""
    import trimesh  # slow to import, and rarely needed

    try:
        scene = trimesh.load_scene(io.BytesIO(data), file_type=key, process=False)
        mesh = scene.to_mesh()
        points = np.asarray(mesh.vertices, dtype=np.float64)
        faces = np.asarray(mesh.faces, dtype=np.int64)
    except Exception as error:  # the reader raises whatever the bytes provoke
        what = f"this {kind} file cannot be read"
        raise GeometryError(what, name, "Write it anew, as STL or 3MF.") from error
    return drawn(name=name, kind=kind, points=points, triangles=faces, unit=unit)
