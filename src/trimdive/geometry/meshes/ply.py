"""PLY files, text and binary: points and faces; colours, textures and all else is passed over.

Source: G. Turk, The PLY polygon file format, 1994, from memory.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Ints
from trimdive.geometry.meshes.drawn import Drawn, drawn
from trimdive.geometry.meshes.stl import numbers

TYPES = {
    "char": "i1", "int8": "i1", "uchar": "u1", "uint8": "u1",
    "short": "i2", "int16": "i2", "ushort": "u2", "uint16": "u2",
    "int": "i4", "int32": "i4", "uint": "u4", "uint32": "u4",
    "float": "f4", "float32": "f4", "double": "f8", "float64": "f8",
}  # fmt: skip
ORDERS = {"ascii": "", "binary_little_endian": "<", "binary_big_endian": ">"}
MOST_HEAD = 2**16  # bytes; no head is longer


@dataclass(frozen=True, slots=True)
class _Property:
    name: str
    kind: str  # numpy's name of its type
    counted: str = ""  # of the number before a list; "" where it is no list


@dataclass(frozen=True, slots=True)
class _Element:
    name: str
    count: int
    properties: tuple[_Property, ...]

    @property
    def least(self) -> int:
        """Return the fewest bytes that one of them takes in a binary file."""
        return sum(np.dtype(one.counted or one.kind).itemsize for one in self.properties)

    def row(self, lengths: dict[str, int], order: str) -> np.dtype[Any]:
        """Return what one of them is, if its lists are so long."""
        fields: list[tuple[Any, ...]] = []
        for at, one in enumerate(self.properties):
            if one.counted:
                fields.append((f"count {at}", order + one.counted))
                fields.append((f"{at}", order + one.kind, (lengths[str(at)],)))
            else:
                fields.append((f"{at}", order + one.kind))
        return np.dtype(fields)


class _Body:
    """What follows the head, taken number by number, from text or binary."""

    def __init__(self, data: bytes, order: str) -> None:
        self.order = order
        self._data = data
        self._at = 0
        self._words = None if order else numbers(data)

    def rows(self, element: _Element) -> NDArray[Any] | None:
        """Return all of an element at once, or None where its lists are not all as long."""
        lengths, start = {}, self._at
        for at, one in enumerate(element.properties):
            if one.counted:
                lengths[str(at)] = int(self._take(one.counted, 1)[0])
                self._take(one.kind, lengths[str(at)])
            else:
                self._take(one.kind, 1)
        self._at = start
        row = element.row(lengths, self.order or "<")
        found = self._binary(row, element.count) if self.order else self._text(row, element.count)
        if found is None:
            return None
        for at, length in lengths.items():
            if not (found[f"count {at}"] == length).all():
                self._at = start
                return None
        return found

    def _binary(self, row: np.dtype[Any], count: int) -> NDArray[Any] | None:
        if self._at + count * row.itemsize > len(self._data):
            return None
        found = np.frombuffer(self._data, row, count, self._at)
        self._at += count * row.itemsize
        return found

    def _text(self, row: np.dtype[Any], count: int) -> NDArray[Any] | None:
        assert self._words is not None
        wide = sum(int(np.prod(row[name].shape or (1,))) for name in row.names or ())
        words = self._words[self._at : self._at + count * wide]
        if len(words) < count * wide:
            return None
        plain = [(name, "f8", row[name].shape) for name in row.names or ()]
        found = words.view(np.dtype(plain))
        self._at += count * wide
        return found

    def _take(self, kind: str, count: int) -> Floats:
        """Return the next numbers."""
        if self._words is not None:
            found = self._words[self._at : self._at + count]
            self._at += count
        else:
            one = np.dtype(self.order + kind)
            found = np.frombuffer(self._data, one, count, self._at).astype(np.float64)
            self._at += count * one.itemsize
        if count < 0 or len(found) != count:
            raise ValueError
        return found

    def one_by_one(self, element: _Element) -> Iterator[dict[str, Floats]]:
        """Yield the elements one by one."""
        for _ in range(element.count):
            found: dict[str, Floats] = {}
            for one in element.properties:
                count = int(self._take(one.counted, 1)[0]) if one.counted else 1
                found[one.name] = self._take(one.kind, count)
            yield found


def _damaged(what: str, where: str) -> GeometryError:
    """Return the error of a file that is none, or not whole."""
    return GeometryError(what, where, "It is cut short or no PLY; copy or export it again.")


def read(data: bytes, name: str) -> Drawn:
    """Return the mesh in a PLY file.

    Raises:
        GeometryError: It claims more than it holds, or cannot be read.
    """
    body, elements = _head(data, name)
    points, triangles = np.empty((0, 3)), np.empty((0, 3), np.int64)
    for element in elements:
        try:
            if element.name == "vertex":
                points = _points(body, element)
            elif element.name == "face":
                triangles = _triangles(body, element)
            elif element.name == "tristrips":
                what = "its faces are strips, which are not read here"
                raise GeometryError(what, name, "Write its faces as triangles.")
            elif element.count and body.rows(element) is None:
                for _ in body.one_by_one(element):
                    pass
        except (ValueError, IndexError, OverflowError):
            what = f"of {element.count} '{element.name}' that its head claims not all can be read"
            raise _damaged(what, name) from None
    return drawn(name=name, kind="PLY", points=points, triangles=triangles)


def _head(data: bytes, name: str) -> tuple[_Body, list[_Element]]:
    """Return what follows the head, and which elements it holds.

    Raises:
        GeometryError: It is no head, or claims more than there is.
    """
    end = data.find(b"end_header", 0, MOST_HEAD)
    if end < 0:
        raise _damaged("its head does not end", name)
    text = data[:end].decode("latin-1").replace("\r\n", "\n").replace("\r", "\n")
    stop = data.find(b"\n", end) + 1 or data.find(b"\r", end) + 1 or len(data)
    order: str | None = None
    found: list[tuple[str, int, list[_Property]]] = []
    for number, line in enumerate(text.split("\n"), 1):
        words = line.split()
        try:
            if words[:1] == ["format"]:
                order = ORDERS[words[1]]
            elif words[:1] == ["element"]:
                found.append((words[1], int(words[2][:12]), []))
            elif words[:2] == ["property", "list"]:
                found[-1][2].append(_Property(words[4], TYPES[words[3]], TYPES[words[2]]))
            elif words[:1] == ["property"]:
                found[-1][2].append(_Property(words[2], TYPES[words[1]]))
        except (IndexError, KeyError, ValueError):
            what = f"'{line.strip()[:40]}' cannot be read"
            raise _damaged(what, f"{name}:{number}") from None
    elements = [_Element(one, count, tuple(held)) for one, count, held in found]
    if order is None:
        raise _damaged("its head names no format", name)
    for one in elements:
        least = one.least if order else 2 * len(one.properties)
        if one.count < 0 or one.count * max(least, 1) > len(data):
            what = f"its head claims {one.count} of '{one.name}' in {len(data)} bytes"
            raise _damaged(what, name)
    return _Body(data[stop:], order), elements


def _points(body: _Body, element: _Element) -> Floats:
    """Return the points, shape (n, 3) [-]."""
    names = [one.name for one in element.properties]
    columns = [names.index(axis) for axis in "xyz"]
    if not element.count:
        return np.empty((0, 3))
    if (rows := body.rows(element)) is not None:
        return np.stack([rows[str(at)].astype(np.float64) for at in columns], axis=1)
    each = [[float(one[axis][0]) for axis in "xyz"] for one in body.one_by_one(element)]
    return np.array(each).reshape(-1, 3)


def _triangles(body: _Body, element: _Element) -> Ints:
    """Return the faces, each as a fan of triangles, shape (m, 3) [-]."""
    lists = [k for k, one in enumerate(element.properties) if one.name.startswith("vertex_ind")]
    if not element.count or not lists:
        raise ValueError
    if (rows := body.rows(element)) is not None:
        corners = rows[str(lists[0])].astype(np.int64)
        fans = [corners[:, [0, k, k + 1]] for k in range(1, corners.shape[1] - 1)]
        return np.stack(fans, axis=1).reshape(-1, 3) if fans else np.empty((0, 3), np.int64)
    key, made = element.properties[lists[0]].name, []
    for one in body.one_by_one(element):
        ids = one[key].astype(np.int64)
        made += [(ids[0], ids[k], ids[k + 1]) for k in range(1, len(ids) - 1)]
    return np.array(made, dtype=np.int64).reshape(-1, 3)
