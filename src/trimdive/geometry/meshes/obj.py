"""OBJ files: points and faces of any number of corners; all else in them is passed over."""

from collections.abc import Iterator

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.meshes.drawn import Drawn, drawn

MOST = 2**31  # no file has so many points
MOST_CORNERS = 1000  # of one face [-]


def is_obj(data: bytes) -> bool:
    """Return whether a text looks like an OBJ: the first telling line is a point or its kind."""
    telling = b"v vn vt vp f o g mtllib usemtl usemap s l p".split()
    lines = [row.strip() for row in data[:65536].replace(b"\t", b" ").split(b"\n")]
    rows = [row for row in lines if row and not row.startswith(b"#")]
    return bool(rows) and rows[0].split()[0] in telling


def read(data: bytes, name: str) -> Drawn:
    """Return the mesh in an OBJ file.

    Raises:
        GeometryError: A line is no point or no face.
    """
    points: list[list[float]] = []
    triangles: list[tuple[int, int, int]] = []
    for number, row in _rows(data):
        words = row.split()
        if not words or words[0] not in (b"v", b"f"):
            continue
        try:
            if words[0] == b"v":
                x, y, z = (float(word) for word in words[1:4])
                points.append([x, y, z])
            else:
                if len(words) > MOST_CORNERS:
                    what = f"a face has {len(words) - 1} corners"
                    mend = f"Write it in faces of {MOST_CORNERS} corners or fewer."
                    raise GeometryError(what, f"{name}:{number}", mend)
                triangles += _fan(words[1:], len(points))
        except ValueError:
            what = f"'{row.decode(errors='replace').strip()[:40]}' cannot be read"
            raise GeometryError(what, f"{name}:{number}", "Export the mesh again.") from None
    faces = np.array(triangles, dtype=np.int64).reshape(-1, 3)
    return drawn(name=name, kind="OBJ", points=np.array(points).reshape(-1, 3), triangles=faces)


def _rows(data: bytes) -> Iterator[tuple[int, bytes]]:
    """Yield the lines with their numbers; one that ends with a backslash goes on in the next."""
    begun, first = b"", 0
    for number, row in enumerate(data.splitlines(), 1):
        first = first if begun else number
        if row.rstrip().endswith(b"\\"):
            begun += row.rstrip()[:-1] + b" "
            continue
        yield first, begun + row
        begun = b""
    if begun:
        yield first, begun


def _fan(words: list[bytes], count: int) -> list[tuple[int, int, int]]:
    """Return the triangles of one face; a number below 0 counts back from the last point."""
    numbers = [int(word.partition(b"/")[0]) for word in words]
    if len(numbers) < 3 or 0 in numbers or max(map(abs, numbers)) > MOST:
        raise ValueError
    ids = [n - 1 if n > 0 else count + n for n in numbers]
    return [(ids[0], ids[k], ids[k + 1]) for k in range(1, len(ids) - 1)]
