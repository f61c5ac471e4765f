"""GLB and STEP files, read by libraries once their claims have been weighed."""

import io
import json
import struct
from typing import Any

import numpy as np

from trimdive.errors import GeometryError, fenced
from trimdive.geometry.meshes.drawn import Drawn, drawn

MOST_TRIANGLES = 10_000_000  # that all its nodes may show together; as STL that is 500 MB
FARTHEST = 1e15  # numbers beyond it are no places [-]
# required extensions with which points and triangles are as the tables say; their beginnings
PLAIN = ("KHR_materials_", "KHR_texture_", "KHR_lights_", "EXT_texture_", "KHR_xmp")


def _unread(what: str, name: str) -> GeometryError:
    """Return the error of what cannot be read."""
    return GeometryError(f"{what} cannot be read", name, "Export it again, as STL or 3MF.")


def glb(data: bytes, name: str) -> Drawn:
    """Return the mesh in a GLB file; by its standard its unit is the metre.

    Source: glTF 2.0 specification, sections 3.4 (units), 3.5 (nodes) and 4.4 (binary layout).

    Raises:
        GeometryError: It claims more than it holds, needs an extension, or cannot be read.
    """
    size = struct.unpack_from("<I", data, 8)[0] if len(data) >= 20 else -1
    if size != len(data):
        what = f"its head claims {size} bytes, but the file has {len(data)}"
        raise GeometryError(what, name, "It is cut short; copy or export it again.")
    length = struct.unpack_from("<I", data, 12)[0]
    try:
        held = json.loads(data[20 : 20 + length])
        count = sum(int(table["count"]) for table in held.get("accessors", []))
        needed = [str(one) for one in held.get("extensionsRequired", [])]
        shown = _shown(held)
    except (ValueError, TypeError, LookupError, AttributeError, ArithmeticError, RecursionError):
        raise _unread("its contents", name) from None
    if count > len(data):
        what = f"it claims {count} numbers in {len(data)} bytes"
        raise GeometryError(what, name, "Copy or export the file again.")
    if strange := next((one for one in needed if not one.startswith(PLAIN)), None):
        what = f"its shape needs an extension that is not read here ({strange[:40]})"
        raise GeometryError(what, name, "Write it without, or as STL or 3MF.")
    if shown > MOST_TRIANGLES:
        what = f"what its nodes show has {shown:.3g} triangles together"
        raise GeometryError(what, name, "Thin it out, or write each thing once.")
    return _by_library(data, name, "glb", "GLB", 1.0)


def _shown(held: dict[str, Any]) -> int:
    """Return how many triangles all nodes of a GLB file show together, each node counted once."""
    tables, meshes = held.get("accessors", []), held.get("meshes", [])
    nodes = held.get("nodes", [])
    children = [child for node in nodes for child in node.get("children", [])]
    if len(set(children)) < len(children) or _is_ring(nodes):
        raise ValueError  # a node within two others, or within itself: they are to be a tree
    places = [node.get(key, ()) for node in nodes for key in ("matrix", "translation", "scale")]
    if any(not abs(float(one)) < FARTHEST for place in places for one in place):
        raise ValueError  # a place beyond all measure
    each: list[int] = []
    for mesh in meshes:
        uses = [one.get("indices", one["attributes"]["POSITION"]) for one in mesh["primitives"]]
        each.append(sum(int(tables[use]["count"]) for use in uses) // 3)
    return sum(each[node["mesh"]] for node in nodes if "mesh" in node)


def _is_ring(nodes: list[dict[str, Any]]) -> bool:
    """Return whether a node lies within itself, where none lies within two others."""
    above = {child: k for k, node in enumerate(nodes) for child in node.get("children", [])}
    left = set(range(len(nodes)))
    free = [k for k in left if k not in above]
    while free:
        k = free.pop()
        left.discard(k)
        free += nodes[k].get("children", [])
    return bool(left)


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

    with fenced(_unread(f"this {kind} file", name)):
        scene = trimesh.load_scene(
            io.BytesIO(data), file_type=key, process=False, skip_materials=True
        )
        mesh = scene.to_mesh()
        points = np.asarray(mesh.vertices, dtype=np.float64)
        faces = np.asarray(mesh.faces, dtype=np.int64)
    return drawn(name=name, kind=kind, points=points, triangles=faces, unit=unit)
