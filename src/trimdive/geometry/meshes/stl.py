"""STL files, binary and text: claims are weighed against the bytes before anything is read."""

import re
import struct
import warnings
from collections.abc import Iterator

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.meshes.drawn import Drawn, drawn

HEAD, EACH = 84, 50  # bytes before the first triangle of a binary STL, and of each triangle
CHUNK = 2**24  # text is read in pieces of this many bytes
ONE = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("colour", "<u2")])
WORDS = re.compile(rb"\A\s*(solid|facet)\b", re.IGNORECASE)


def claimed(data: bytes) -> int:
    """Return how many triangles the head of a binary STL claims; -1 where there is no head."""
    return struct.unpack_from("<I", data, 80)[0] if len(data) >= HEAD else -1


def is_binary(data: bytes) -> bool:
    """Return whether the size is just what the head of a binary STL claims."""
    return claimed(data) >= 0 and len(data) == HEAD + EACH * claimed(data)


def is_text(data: bytes) -> bool:
    """Return whether it begins as a text STL and holds nothing that text does not."""
    return bool(WORDS.match(data)) and b"\0" not in data[:4096]


def binary(data: bytes, name: str) -> Drawn:
    """Return the mesh in a binary STL whose size is right."""
    soup = np.frombuffer(data, ONE, claimed(data), HEAD)["corners"].reshape(-1, 3)
    return drawn(name=name, kind="STL", points=np.ascontiguousarray(soup), triangles=None)


def damaged(data: bytes, name: str) -> GeometryError:
    """Return what to say of a binary STL whose size is not what its head claims."""
    count = claimed(data)
    if count < 0:
        return GeometryError(
            f"it is only {len(data)} bytes long", name, "Copy or export the file again."
        )
    off = len(data) - HEAD - EACH * count
    holds = max(0, (len(data) - HEAD) // EACH)
    if 0 <= off < EACH or -EACH < off < 0:
        way = "long" if off > 0 else "short"
        what = f"it is {abs(off)} bytes too {way} for the {count} triangles that it claims"
        return GeometryError(what.replace(" 1 bytes", " 1 byte"), name, "Copy the file again.")
    what = f"its head claims {count} triangles, but the file has room for {holds}"
    return GeometryError(what, name, "It is cut short or no STL; copy or export it again.")


def text(data: bytes, name: str) -> Drawn:
    """Return the mesh in a text STL.

    Raises:
        GeometryError: A line is no corner, or a triangle has not three.
    """
    corners = [_corners(part, name, line) for part, line in _parts(data)]
    points = np.concatenate(corners) if corners else np.empty((0, 3))
    facets = data.lower().count(b"endfacet")
    if len(points) != 3 * facets:
        what = f"{facets} triangles have {len(points)} corners together, not {3 * facets}"
        raise GeometryError(what, name, "It is cut short or damaged; export it again.")
    return drawn(name=name, kind="text STL", points=points, triangles=None)


def _parts(data: bytes) -> Iterator[tuple[bytes, int]]:
    """Yield the text in pieces that end with a line, each with the number of its first line."""
    start, line = 0, 1
    while start < len(data):
        stop = data.find(b"\n", start + CHUNK) + 1 or len(data)
        part = data[start:stop].lower().replace(b"\r", b"\n" if b"\n" not in data[:400] else b"")
        yield part, line
        start, line = stop, line + part.count(b"\n")


def _corners(part: bytes, name: str, line: int) -> Floats:
    """Return the corners in a piece of text, shape (n, 3) [-]."""
    rows = [row[6:] for raw in part.split(b"\n") if (row := raw.strip()).startswith(b"vertex")]
    found = numbers(b" ".join(rows))
    if len(found) == 3 * len(rows):
        return found.reshape(-1, 3)
    for number, raw in enumerate(part.split(b"\n"), line):
        row = raw.strip()
        if row.startswith(b"vertex") and len(numbers(row[6:])) != 3:
            what = f"'{row.decode(errors='replace')[:40]}' are not three numbers"
            raise GeometryError(what, f"{name}:{number}", "Export the mesh again.")
    raise GeometryError("its corners cannot be read", name, "Export the mesh again.")


def numbers(row: bytes) -> Floats:
    """Return the numbers in a text, up to what is none."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        try:
            return np.fromstring(row.decode("latin-1"), dtype=np.float64, sep=" ")
        except ValueError:
            return np.empty(0)


def binary_stl(mesh: Mesh) -> bytes:
    """Return a mesh as binary STL in millimetres."""
    rows = np.zeros(len(mesh.triangles), ONE)
    corners = mesh.corners * 1e3
    rows["corners"] = corners
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    sizes = np.linalg.norm(normals, axis=1, keepdims=True)
    rows["normal"] = np.divide(normals, sizes, out=np.zeros_like(normals), where=sizes > 0)
    return b"in millimetres".ljust(80) + struct.pack("<I", len(rows)) + rows.tobytes()
