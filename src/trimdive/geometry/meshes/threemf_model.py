"""One model of a 3MF file, read as it streams in: its objects, and what it builds.

Source: 3MF Core Specification, chapters 3 and 4; 3MF Production Extension, chapters 3 and 4.
"""

from array import array
from collections.abc import Iterable
from dataclasses import dataclass, field
from xml.parsers import expat

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Ints
from trimdive.units import factor_of

CALLED = {  # what the standard calls its units, and what our table does
    "micron": "µm",
    "millimeter": "mm",
    "centimeter": "cm",
    "inch": "in",
    "foot": "ft",
    "meter": "m",
}
UNITS = {name: factor_of(ours, "length") for name, ours in CALLED.items()}  # [m]
MICROSOFT = "http://schemas.microsoft.com/3dmanufacturing/"
PRODUCTION = f"{MICROSOFT}production/2015/06"
KNOWN = (  # required extensions with which the shape is as the mesh says
    f"{MICROSOFT}core/2015/02",
    PRODUCTION,
    f"{MICROSOFT}material/2015/02",
    f"{MICROSOFT}trianglesets/2021/07",
    "http://schemas.3mf.io/3dmanufacturing/trianglesets/2021/07",
)
SUPPORTS = ("support", "solidsupport")  # objects that hold up others while they are printed
FARTHEST = 1e15  # numbers beyond it are no places [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """An object that stands in the build or in another object."""

    path: str  # the model that holds it; "" for the model that names it
    object_id: str
    place: Floats  # three axes and the origin, shape (4, 3) [-, m]


@dataclass(slots=True)
class Shape:
    """One object of a model: its own triangles, and objects that stand in it."""

    is_support: bool
    points: Floats = field(default_factory=lambda: np.empty((0, 3)))  # shape (n, 3) [m]
    triangles: Ints = field(default_factory=lambda: np.empty((0, 3), np.int64))  # shape (m, 3) [-]
    parts: list[Placed] = field(default_factory=list)


@dataclass(slots=True)
class Model:
    """One model: objects by their ids, and what it builds."""

    unit: float = 1e-3  # length of its unit [m]
    shapes: dict[str, Shape] = field(default_factory=dict)
    items: list[Placed] = field(default_factory=list)


def damaged(what: str, where: str) -> GeometryError:
    """Return the error of a file that is not as 3MF has it."""
    return GeometryError(what, where, "Export the file again, or as STL.")


def read_model(chunks: Iterable[bytes], where: str) -> Model:
    """Return the model that a text holds.

    Args:
        chunks: Its bytes, piece by piece.
        where: What to call it in messages.

    Raises:
        GeometryError: It is no such model, or needs an extension that is not known.
    """
    reader = _Reader(where)
    try:
        for chunk in chunks:
            reader.parser.Parse(chunk, False)
        reader.parser.Parse(b"", True)
    except expat.ExpatError as error:
        raise damaged("it is no XML", f"{where}:{error.lineno}") from None
    except (ValueError, OverflowError):
        line = reader.parser.CurrentLineNumber
        what = "a number there cannot be read"
        raise damaged(what, f"{where}:{line}") from None
    return reader.model


class _Reader:
    """Takes the elements of a model as they come."""

    def __init__(self, where: str) -> None:
        self.where = where
        self.model = Model()
        self.parser = expat.ParserCreate(namespace_separator=" ")
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.StartNamespaceDeclHandler = self._names
        self.parser.StartDoctypeDeclHandler = self._no_entities
        self._spaces: dict[str, str] = {}
        self._core: str | None = None
        self._shape: Shape | None = None
        self._points, self._corners = array("d"), array("q")

    def _names(self, prefix: str | None, uri: str | None) -> None:
        self._spaces[prefix or ""] = uri or ""

    def _no_entities(self, *_: object) -> None:
        what = "it declares a document type, which no 3MF may"
        raise damaged(what, self.where)

    def _start(self, tag: str, words: dict[str, str]) -> None:
        space, _, name = tag.rpartition(" ")
        if self._core is None:
            self._begin(space, name, words)
        elif space != self._core:
            return
        elif name == "vertex":
            self._points.extend((float(words["x"]), float(words["y"]), float(words["z"])))
        elif name == "triangle":
            self._corners.extend((int(words["v1"]), int(words["v2"]), int(words["v3"])))
        elif name == "object":
            self._object(words)
        elif name == "component" and self._shape is not None:
            self._shape.parts.append(self._placed(words))
        elif name == "item":
            self.model.items.append(self._placed(words))

    def _begin(self, space: str, name: str, words: dict[str, str]) -> None:
        """Take the head of the model: its unit, and what it needs a reader to know."""
        if name != "model":
            raise damaged(f"it holds a '{name}', no model", self.where)
        self._core = space
        unit = words.get("unit", "millimeter")
        if unit not in UNITS:
            what = f"there is no unit '{unit[:20]}' in 3MF"
            raise damaged(what, self.where)
        self.model.unit = UNITS[unit]
        for prefix in words.get("requiredextensions", "").split():
            uri = self._spaces.get(prefix, prefix)
            if uri not in KNOWN:
                given = uri.removeprefix(MICROSOFT)
                what = f"its shape needs an extension of 3MF that is not read here ({given[:60]})"
                raise GeometryError(what, self.where, "Write plain meshes, or write it as STL.")

    def _object(self, words: dict[str, str]) -> None:
        key = words.get("id", "")
        if key in self.model.shapes:
            raise damaged(f"its object '{key}' stands there twice", self.where)
        rough = next((v for k, v in words.items() if k.endswith(" modelresolution")), "fullres")
        if rough != "fullres":
            what = f"its object '{key}' only stands for a finer one ({rough[:20]})"
            raise GeometryError(what, self.where, "Write the object itself.")
        self._shape = Shape(is_support=words.get("type", "model") in SUPPORTS)
        self.model.shapes[key] = self._shape

    def _placed(self, words: dict[str, str]) -> Placed:
        """Return which object stands where."""
        place = np.vstack([np.eye(3), np.zeros(3)])
        if text := words.get("transform"):
            numbers = [float(word) for word in text.split()]
            if len(numbers) != 12 or not (np.abs(numbers) <= FARTHEST).all():
                raise ValueError
            place = np.array(numbers).reshape(4, 3)
            place[3] *= self.model.unit
        if not abs(float(np.linalg.det(place[:3]))) > 0.0:
            what = "a transform in it leaves nothing of its object"
            raise damaged(what, self.where)
        return Placed(
            path=words.get(f"{PRODUCTION} path", ""),
            object_id=words.get("objectid", ""),
            place=place,
        )

    def _end(self, tag: str) -> None:
        space, _, name = tag.rpartition(" ")
        if space != self._core or name != "object" or self._shape is None:
            return
        points = np.array(self._points, dtype=np.float64).reshape(-1, 3)
        corners = np.array(self._corners, dtype=np.int64).reshape(-1, 3)
        if len(corners) and not 0 <= corners.min() <= corners.max() < len(points):
            key = next(k for k, shape in self.model.shapes.items() if shape is self._shape)
            what = f"a triangle of object '{key}' names a point that there is not"
            raise damaged(what, self.where)
        if not (np.abs(points) <= FARTHEST).all():
            raise damaged("some of its points are no numbers", self.where)
        self._shape.points = points * self.model.unit
        self._shape.triangles = corners
        self._shape = None
        self._points, self._corners = array("d"), array("q")
