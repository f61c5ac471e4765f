"""Photographs of a demo boat by random cameras, with clicks half a pixel beside the truth.

Also the places of points and the breadth of the hull are a little off what is entered, each as far
as it is said to be.
"""

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal

import numpy as np
from tests.photographs.pinhole import Floats, Pinhole, pinhole, plane_of, seen_edge

import trimdive as td
from trimdive.plans.marks import Marks, Point
from trimdive.trials.photographs import Lies, Side, Sighted, side_of, sighted

BOATS = Path(__file__).parents[2] / "boats"
CLICK = 0.5  # spread of clicks, in pixels
POINT, SKIN = 0.5e-3, 1e-3  # standard deviations of what is entered [m]
WIDE = 1.96
CLICKS = 10
Kind = Literal["side", "bow", "stern"]


@dataclass(frozen=True)
class Lying:
    """How she truly lies: the water's height amidships [m], trim bow down, heel to starboard."""

    height: float
    trim: float
    heel: float


@dataclass(frozen=True)
class Shot:
    """A photograph, what was marked on it, and what is true."""

    marks: Marks
    size: tuple[int, int]
    focal: float
    true: Lying
    camera: Pinhole


@cache
def boat(name: str) -> tuple[td.Assessment, Side]:
    """Return a demo boat, and her half-breadths."""
    her = td.assess(BOATS / name)
    return her, side_of(her.hull.envelope)


def lying(random: np.random.Generator, name: str) -> Lying:
    """Return how she lies, near her waterline."""
    her, side = boat(name)
    height = her.boat.waterline.height + random.uniform(-0.01, 0.005) * side.length
    trim, heel = np.deg2rad(random.normal(0.0, (1.0, 3.0)))
    return Lying(float(height), float(trim), float(heel))


def shot(
    random: np.random.Generator,
    name: str,
    kind: Kind = "side",
    *,
    points: int = 5,
    bend: float = 0.0,
    film: bool = True,
    true: Lying | None = None,
) -> Shot:
    """Return a photograph by a camera askew and above, taken at random.

    Args:
        random: Where it comes from.
        name: Of the boat.
        kind: What it shows.
        points: How many points are marked.
        bend: Spread of the bend of the lens.
        film: Whether the file says the focal length, within 4 %.
        true: How she lies.
    """
    her, side = boat(name)
    true = true or lying(random, name)
    n, d = plane_of(true.height, true.trim, true.heel, side.middle)
    base = {"side": random.choice([1.0, -1.0]) * np.pi / 2, "bow": 0.0, "stern": np.pi}[kind]
    length, level = side.length, her.boat.waterline.height
    at = {"side": side.middle, "bow": 0.9 * length, "stern": 0.1 * length}[kind]
    broad = length if kind == "side" else 2.5 * side.bounds[1, 1]
    far = random.uniform(1.8, 4.0) * length if kind == "side" else random.uniform(1.2, 2.5)
    fill = min(random.uniform(0.6, 0.8), random.uniform(2.0, 4.0) * broad / far)
    camera = pinhole(
        np.array([at, 0.0, level]),
        base + random.normal(0.0, np.deg2rad(12.0)),
        np.deg2rad(random.uniform(2.0, 18.0)),
        far,
        fill,
        broad,
        roll=random.normal(0.0, 0.05),
        aside=random.normal(0.0, 0.05 * broad, 3),
        looks=tuple(random.normal(0.0, 40.0, 2)),
        bend=random.normal(0.0, bend) if bend else 0.0,
    )
    toward = float(np.sign(np.sin(base))) if kind == "side" else 0.0
    places = np.array(_places(name, kind, toward))[:points]
    seen = camera.sees(places + random.normal(0.0, POINT, places.shape))
    marks = Marks().with_typed("shows", kind)
    for number, (pixel, place) in enumerate(zip(seen, places, strict=True), 1):
        marks = _with_point(marks, f"point-{number}", pixel + random.normal(0.0, CLICK, 2), place)
    corners = her.hull.envelope.corners.copy()
    corners[:, :, 1] += np.sign(corners[:, :, 1]) * random.normal(0.0, SKIN)
    edge = seen_edge(camera, corners, n, d)
    outmost = [abs(y) + 2e-3 >= side.out(x, z) for x, y, z in edge.tolist()]
    pixels = camera.sees(edge[np.array(outmost)])
    ends = pixels[:, 0].min(), pixels[:, 0].max()
    for right in np.linspace(*ends, CLICKS + 2)[1:-1]:
        pixel = pixels[np.abs(pixels[:, 0] - right).argmin()] + random.normal(0.0, CLICK, 2)
        point = Point(at=(float(pixel[0]), float(pixel[1])), on_ink=True)
        marks = marks.with_point("waterline", point)
    focal = camera.focal * np.exp(random.normal(0.0, 0.04)) if film else 0.0
    return Shot(marks, camera.size, float(focal), true, camera)


def _with_point(marks: Marks, key: str, pixel: Floats, place: Floats) -> Marks:
    marks = marks.with_point(key, Point(at=(float(pixel[0]), float(pixel[1])), on_ink=True))
    for axis, value in zip("xyz", place.tolist(), strict=True):
        marks = marks.with_typed(f"{key}-{axis}", f"{1e3 * value:.3f} mm")
    return marks


def _places(name: str, kind: Kind, toward: float) -> list[tuple[float, float, float]]:
    """Return places on her that a builder can measure: first two far apart."""
    her, side = boat(name)
    length, level = side.length, her.boat.waterline.height
    up = level + 0.01 * length
    if kind == "side":
        far = [(x * length, toward * side.out(x * length, up), up) for x in (0.15, 0.86, 0.5)]
    else:
        x = (0.75 if kind == "bow" else 0.3) * length
        far = [(x, side.out(x, up), up), (x, -side.out(x, up), up)]
    fore, aft = (float(side.bounds[end, 0]) for end in (1, 0))
    ends = {"plover": (0.046, 0.046), "bittern": (level, level)}[name]
    others = [side.top, (fore - 1e-3, 0.0, ends[0]), (aft + 1e-3, 0.0, ends[1])]
    return [*far[:2], *others, *far[2:]]


def found(one: Shot, name: str) -> Sighted:
    """Return what a photograph tells."""
    her, side = boat(name)
    return sighted(one.marks, one.size, one.focal, her.boat, side)


def errors(by: Lies, true: Lying) -> Floats:
    """Return how far water, trim and heel are off, in their own standard deviations."""
    slopes = np.array([np.tan(true.trim) / np.cos(true.heel), -np.tan(true.heel)])
    off = by.plane - np.array([true.height, *slopes])
    return off / np.sqrt(np.diag(by.spread))
