"""3MF files: an archive (zip) of models in XML, which say their unit and where each object stands.

Objects may stand in others, and in other models of the archive. What all of it would make is
counted before any of it is made, so that a small file cannot unpack to something huge.

Source: 3MF Core Specification, chapters 2 to 4; 3MF Production Extension, chapters 2 and 3.
"""

import io
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import replace
from lzma import LZMAError
from xml.etree import ElementTree

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.meshes.drawn import Drawn, drawn
from trimdive.geometry.meshes.threemf_model import Model, Placed, Shape, damaged, read_model

MOST_BYTES = 2**30  # unpacked; more is taken for a trap
MOST_TRIANGLES = 10_000_000  # that everything built has together; as STL that is 500 MB
MOST_PLACES = 100_000  # objects placed, those in others counted each time
DEEPEST = 32  # objects within objects
CHUNK = 2**20  # bytes that are unpacked at a time
STARTS = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
Key = tuple[str, str]  # model, and object in it


def read(data: bytes, name: str) -> Drawn:
    """Return everything that a 3MF file builds, as one mesh.

    Objects that only hold up others while they are printed are left out.

    Raises:
        GeometryError: It is no archive with a model, the model cannot be read, or it makes too
            much.
    """
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            package = _Package(archive, name)
            root = package.root()
            placed = [_Item(root, item) for item in package.model(root).items]
            counted = _Count(package, name)
            triangles = sum(counted.of(item.key, 0)[0] for item in placed)
            places = sum(counted.of(item.key, 0)[1] for item in placed)
            _check_size(triangles, places, name)
            unit = package.model(root).unit
            soup = [points for item in placed for points in _corners(package, item)]
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError) as error:
        raise _packed(name) from error
    except (zlib.error, LZMAError, ValueError) as error:
        raise _packed(name) from error
    points = np.concatenate(soup) if soup else np.empty((0, 3))
    found = drawn(name=name, kind="3MF", points=points / unit, triangles=None, unit=unit)
    return replace(found, without_supports=package.supports > 0)


def _packed(name: str) -> GeometryError:
    """Return the error of an archive that is damaged."""
    return GeometryError("it cannot be unpacked", name, "Copy or export the file again.")


def _check_size(triangles: int, places: int, name: str) -> None:
    """Refuse what would make too much.

    Raises:
        GeometryError: It would.
    """
    for count, most, of in (
        (triangles, MOST_TRIANGLES, "triangles"),
        (places, MOST_PLACES, "objects"),
    ):
        if count > most:
            what = f"its objects, each placed where it stands, make {_written(count)} {of}"
            mend = f"Thin it out; up to {_written(most)} are read."
            raise GeometryError(what, name, mend)


def _written(count: int) -> str:
    """Return a large number with spaces between its thousands, rounded to two figures.

    >>> _written(10_000_000), _written(1_234)
    ('10 000 000', '1 200')
    """
    rounded = round(count, 2 - len(str(count)))
    return f"{rounded:,}".replace(",", " ")


class _Item:
    """An object that stands in the build, or in another object."""

    def __init__(self, model: str, placed: Placed) -> None:
        self.key: Key = (_path(placed.path) or model, placed.object_id)
        self.place = placed.place


def _path(text: str) -> str:
    """Return a path in the archive as it is looked up: without a leading slash, in lower case."""
    return text.lstrip("/").lower()


class _Package:
    """An archive with its models, each read when it is first asked for."""

    def __init__(self, archive: zipfile.ZipFile, name: str) -> None:
        self.name = name
        self.supports = 0  # objects left out
        self._archive = archive
        self._files = {_path(one.filename): one for one in archive.infolist()}
        self._models: dict[str, Model] = {}
        self._root = ""
        self._bytes = 0

    def root(self) -> str:
        """Return the model at which the archive begins."""
        self._root = self._start() or self._only()
        return self._root

    def _start(self) -> str:
        """Return the model that the archive names as its first, or ""."""
        if "_rels/.rels" not in self._files:
            return ""
        text = b"".join(self._unpacked("_rels/.rels"))
        if b"<!DOCTYPE" in text:
            raise damaged("its list of parts is no such list", self.name)
        try:
            found = [
                one.get("Target", "")
                for one in ElementTree.fromstring(text).iter()
                if one.get("Type") == STARTS
            ]
        except ElementTree.ParseError:
            found = []
        return next((_path(one) for one in found if _path(one) in self._files), "")

    def _only(self) -> str:
        """Return the model of an archive that names none."""
        found = [path for path in self._files if path.endswith(".model")]
        if not found:
            what = "it is an archive (zip) without a 3MF model"
            raise GeometryError(what, self.name, "Unpack it and name the mesh in it.")
        if len(found) > 1 and "3d/3dmodel.model" not in found:
            what = f"it holds {len(found)} models, and does not say with which it begins"
            raise damaged(what, self.name)
        return found[0] if len(found) == 1 else "3d/3dmodel.model"

    def model(self, path: str) -> Model:
        """Return a model, read once."""
        if path not in self._models:
            if path not in self._files:
                what = f"its model '{path[-60:]}' is missing"
                raise damaged(what, self.name)
            where = f"{self.name}:{self._files[path].filename}"
            model = read_model(self._unpacked(path), where)
            inner = (part for shape in model.shapes.values() for part in shape.parts)
            if path != self._root and any(part.path for part in inner):
                what = "a model within it names yet another one, which 3MF does not allow"
                raise damaged(what, where)
            self._models[path] = model
        return self._models[path]

    def shape(self, key: Key) -> Shape:
        """Return an object."""
        found = self.model(key[0]).shapes.get(key[1])
        if found is None:
            raise damaged(f"its object '{key[1][:20]}' is missing", self.name)
        return found

    def _unpacked(self, path: str) -> Iterator[bytes]:
        """Yield what a file in the archive unpacks to, refused before it is too much."""
        info = self._files[path]
        self._bytes += info.file_size
        if self._bytes > MOST_BYTES:
            what = f"its model unpacks to {self._bytes / 2**20:.0f} MB"
            raise GeometryError(what, self.name, f"Keep it under {MOST_BYTES // 2**20} MB.")
        with self._archive.open(info) as stream:
            while chunk := stream.read(CHUNK):
                yield chunk


class _Count:
    """Counts what objects make, each object once however often it stands somewhere."""

    def __init__(self, package: _Package, name: str) -> None:
        self._package, self._name = package, name
        self._known: dict[Key, tuple[int, int]] = {}
        self._open: set[Key] = set()

    def of(self, key: Key, deep: int) -> tuple[int, int]:
        """Return how many triangles an object has with all in it, and how many objects."""
        if key in self._known:
            return self._known[key]
        if key in self._open or deep > DEEPEST:
            what = "its objects stand in each other"
            if key not in self._open:
                what = f"its objects stand in each other more than {DEEPEST} deep"
            raise damaged(what, self._name)
        self._open.add(key)
        shape = self._package.shape(key)
        inner = [self.of(_Item(key[0], part).key, deep + 1) for part in shape.parts]
        self._open.remove(key)
        self._package.supports += shape.is_support
        triangles = len(shape.triangles) + sum(one[0] for one in inner)
        found = (0, 1) if shape.is_support else (triangles, 1 + sum(one[1] for one in inner))
        self._known[key] = found
        return found


def _corners(package: _Package, item: _Item) -> Iterator[Floats]:
    """Yield the corners of an object and of what stands in it, three a triangle, shape (n, 3)."""
    shape = package.shape(item.key)
    if shape.is_support:
        return
    axes, origin = item.place[:3], item.place[3]
    if len(shape.triangles):
        corners = shape.points[shape.triangles]
        is_mirrored = float(np.linalg.det(axes)) < 0
        yield (corners[:, ::-1] if is_mirrored else corners).reshape(-1, 3) @ axes + origin
    for part in shape.parts:
        inner = _Item(item.key[0], part)
        inner.place = np.vstack([part.place[:3] @ axes, part.place[3] @ axes + origin])
        yield from _corners(package, inner)
