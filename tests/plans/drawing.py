"""Plans drawn by a script at a known scale: lines of a hull, laid on a sheet, seen in a picture.

Nothing here is taken from the program: lines between the figures of a table are those of scipy's
monotone cubics, and ink is how much of a pixel a line of a given width covers.
"""

import csv
import io
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy.interpolate import PchipInterpolator
from scipy.spatial.transform import Rotation

Floats = NDArray[np.float64]
Map = Callable[[Floats], Floats]  # places on the sheet [m] to pixels
GREBE = Path(__file__).parents[2] / "boats" / "grebe" / "lines.csv"


@dataclass(frozen=True)
class Hull:
    """Lines of a hull, densely; x from the stern, all in metres."""

    keel: Floats
    deck: Floats
    half: Floats
    sections: dict[float, Floats]  # half-breadth and height, keel first


def dense(points: Floats, along: Floats | None = None, count: int = 1500) -> Floats:
    """Return a monotone cubic through points, by x or by the length of the polygon."""
    if along is None:
        along = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))])
    return PchipInterpolator(along, points)(np.linspace(along[0], along[-1], count))


def grebe() -> Hull:
    """Return the demo boat's table of offsets as lines."""
    text = [row for row in GREBE.read_text("utf-8").splitlines() if not row.startswith("#")]
    keel, deck, half, sections = [], [], [], {}
    for row in csv.DictReader(text):
        x, low, high = (float(row[name]) / 1e3 for name in ("x mm", "keel", "deck"))
        offsets = [
            (float(cell) / 1e3, float(name) / 1e3)
            for name, cell in row.items()
            if name.isdigit() and cell
        ]
        keel.append((x, low))
        deck.append((x, high))
        half.append((x, max(y for y, _ in offsets)))
        points = [(0.0, low)] * (offsets[0][0] > 0 or offsets[0][1] > low) + offsets
        points.append((float(row["deck half"]) / 1e3, high))
        side = dense(np.array(points), count=400)
        sections[x] = np.concatenate([side, [(0.0, high)]])
    lines = [np.array(line) for line in (keel, deck, half)]
    keel_line, deck_line, plan = (dense(line, line[:, 0]) for line in lines)
    return Hull(keel_line, deck_line, plan, sections)


def wigley(length: float, breadth: float, draught: float) -> Hull:
    """Return y = B/2 (1 − (2x/L)²)(1 − (z/T)²), its keel at 0 and its deck at T."""
    x = np.linspace(0.0, length, 1500)
    plan = breadth / 2 * (1 - (2 * x / length - 1) ** 2)
    z = np.linspace(0.0, draught, 400)
    stations = length * np.array([0.05, 0.15, 0.3, 0.5, 0.7, 0.85, 0.95])
    sections = {}
    for station in stations.tolist():
        broad = breadth / 2 * (1 - (2 * station / length - 1) ** 2)
        side = np.stack([broad * (1 - (1 - z / draught) ** 2), z], axis=1)
        sections[station] = np.concatenate([side, [(0.0, draught)]])
    flat = np.zeros_like(x)
    return Hull(
        np.stack([x, flat], 1), np.stack([x, flat + draught], 1), np.stack([x, plan], 1), sections
    )


@dataclass(frozen=True)
class Laid:
    """A hull's lines on a sheet, bow to the right: places of the views, and every line there."""

    hull: Hull
    profile: tuple[float, float]
    plan: tuple[float, float]
    body: tuple[float, float]
    larger: float  # by which sections are drawn larger
    frame: tuple[float, float, float, float]  # left, below, right, above [m]

    def curves(self) -> dict[str, Floats]:
        """Return every line on the sheet by a name of its own."""
        hull = self.hull
        found = {
            "keel": hull.keel + self.profile,
            "deck": hull.deck + self.profile,
            "half": hull.half + self.plan,
        }
        middle = (hull.keel[0, 0] + hull.keel[-1, 0]) / 2
        for x, section in hull.sections.items():
            side = 1.0 if x >= middle else -1.0
            found[f"section {x}"] = section * (side, 1.0) * self.larger + self.body
        return found

    def corners(self) -> Floats:
        """Return the corners of the frame, from below at the left, shape (4, 2)."""
        left, below, right, above = self.frame
        return np.array([(left, below), (right, below), (right, above), (left, above)])


def laid(hull: Hull, larger: float = 2.0) -> Laid:
    """Return a hull on a sheet: profile above, plan below it, sections lowest."""
    length = hull.keel[-1, 0]
    high = max(hull.deck[:, 1].max(), 2 * hull.half[:, 1].max())
    body = (0.55 * length, 0.0)
    plan = (0.02, larger * high + 0.05)
    profile = (0.02, plan[1] + high + 0.04)
    frame = (-0.02, -0.04, length + 0.06, profile[1] + high + 0.03)
    return Laid(hull, profile, plan, body, larger, frame)


def ink(size: tuple[int, int], lines: list[Floats], width: float = 2.0) -> NDArray[np.uint8]:
    """Return a picture with polylines, given in pixels, each as broad as said."""
    far = np.full((size[1], size[0]), 9.0)
    reach = int(np.ceil(width / 2)) + 1
    steps = np.stack(np.meshgrid(*[np.arange(-reach, reach + 1)] * 2), -1).reshape(-1, 2)
    for line in lines:
        whole = np.concatenate([[0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))])
        at = np.linspace(0, whole[-1], max(int(whole[-1] / 0.5), 2))
        fine = np.stack([np.interp(at, whole, line[:, k]) for k in (0, 1)], 1)
        start, way = fine[:-1, None], np.diff(fine, axis=0)[:, None]
        cells = np.floor(fine[:-1, None]).astype(int) + steps
        out = cells + 0.5 - start
        square = np.maximum((way**2).sum(-1), 1e-12)
        share = np.clip((out * way).sum(-1) / square, 0, 1)
        gap = np.linalg.norm(out - share[..., None] * way, axis=-1)
        inside = ((cells >= 0) & (cells < size)).all(-1)
        np.minimum.at(far, (cells[inside][:, 1], cells[inside][:, 0]), gap[inside])
    cover = np.clip(0.5 + width / 2 - far, 0, 1)
    return np.rint(250 - 215 * cover).astype(np.uint8)


def picture(plan: Laid, seen: Map, size: tuple[int, int]) -> NDArray[np.uint8]:
    """Return the picture of a plan with its frame."""
    corners = plan.corners()
    sides = [np.linspace(a, b, 300) for a, b in zip(corners, np.roll(corners, -1, 0), strict=True)]
    return ink(size, [seen(line) for line in [*plan.curves().values(), *sides]])


def scanned(plan: Laid, pitch: float, turn: float, stretch: float) -> tuple[Map, tuple[int, int]]:
    """Return how a scanner sees a sheet laid in crooked, that it then stretches downwards.

    ``pitch`` is metres a pixel along, ``turn`` radians anticlockwise, ``stretch`` how much longer
    the sheet itself had grown along.
    """
    c, s = np.cos(turn), np.sin(turn)
    grown = np.array([stretch, 1.0])
    way = np.array([[c, s], [-s, c]]).T  # rows: sheet to the picture's right and up

    def flat(places: Floats) -> Floats:
        return (places * grown) @ way.T / pitch * (1.0, -1.0)

    corner = flat(plan.corners())
    low = corner.min(axis=0) - 20.3
    size = np.ceil(corner.max(axis=0) - low + 20).astype(int)
    return (lambda places: flat(places) - low), (int(size[0]), int(size[1]))


def pinhole(
    plan: Laid, size: tuple[int, int], tilt: tuple[float, float, float], bend: float = 0.0
) -> Map:
    """Return how a camera sees a sheet: a hole before a plane, held crooked, and its lens.

    ``tilt`` are its turns about its own axes [°]. A point that without a lens would be seen at r
    from the middle, in half diagonals, is seen at r + bend·r³.
    """
    centre = np.array(size) / 2
    middle = plan.corners().mean(axis=0)
    across = plan.corners()[2, 0] - plan.corners()[0, 0]
    turned = Rotation.from_euler("xyz", tilt, degrees=True)
    reach = float(np.hypot(*centre))

    def seen(places: Floats) -> Floats:
        out = np.column_stack([places - middle, np.zeros(len(places))]) * (1, -1, 1)
        before = turned.apply(out) + np.array([0, 0, 1.25 * across])
        r = before[:, :2] / before[:, 2:] * 1.05 * size[0] / reach
        return centre + r * (1 + bend * (r**2).sum(axis=1, keepdims=True)) * reach

    return seen


def saved(grey: NDArray[np.uint8], kind: str = "PNG", **how: object) -> bytes:
    """Return a picture as a file."""
    held = io.BytesIO()
    Image.fromarray(grey).save(held, kind, **how)
    return held.getvalue()
