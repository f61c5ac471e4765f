"""What stands in a drawing: its words, its marks, and what lies over what."""

import re
from xml.etree import ElementTree

import numpy as np
import pytest
from tests.drawings.boats import BOATS, STATES, SVG

from trimdive.pictures.drawings.ink import LETTER

EVERY = pytest.mark.parametrize(
    ("name", "which"), [(name, which) for name in BOATS for which in STATES]
)
Box = tuple[float, float, float, float]


def marked(svg: ElementTree.Element, name: str, under: str = "side-view") -> list[np.ndarray]:
    """Return the corners of each path of a class in a part of the drawing, shape (n, 2) [mm]."""
    group = svg if not under else next(g for g in svg.iter(SVG + "g") if g.get("class") == under)
    paths = [p.get("d", "") for p in group.iter(SVG + "path") if p.get("class") == name]
    return [
        np.array([[float(x), float(y)] for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", path)])
        for path in paths
    ]


def marked_in(group: ElementTree.Element) -> list[np.ndarray]:
    """Return the corners of every path under an element, shape (n, 2) [mm]."""
    paths = [p.get("d", "") for p in group.iter(SVG + "path")]
    return [
        np.array([[float(x), float(y)] for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", path)])
        for path in paths
    ]


def middle(svg: ElementTree.Element, name: str) -> np.ndarray:
    return marked(svg, name, "key")[0].mean(axis=0)


def words(svg: ElementTree.Element, name: str = "") -> list[str]:
    """Return the lettering of a class, or of a group of that class; all of it by default."""
    groups = [g for g in svg.iter() if not name or g.get("class") == name]
    return [t.text or "" for g in groups for t in g.iter(SVG + "text")]


def boxes(svg: ElementTree.Element) -> list[tuple[str, Box]]:
    """Return the room that all lettering takes, by the safe breadth of a letter."""
    found = []
    for text in svg.iter(SVG + "text"):
        x, y, size = (float(text.get(key, "")) for key in ("x", "y", "font-size"))
        width = 0.94 * LETTER * size * len(text.text or "")
        left = x - {"start": 0, "middle": 0.5, "end": 1}[text.get("text-anchor", "start")] * width
        found.append((text.text or "", (left, y - 0.75 * size, left + width, y + 0.1 * size)))
    return found


def overlaps(svg: ElementTree.Element) -> list[str]:
    """Return the lettering that stands on other lettering or off the sheet."""
    width, height = (float(size) for size in svg.get("viewBox", "").split()[2:])
    every, found = boxes(svg), []
    for i, (text, a) in enumerate(every):
        if not (a[0] >= 0 and a[1] >= 0 and a[2] <= width and a[3] <= height):
            found.append(f"{text!r} runs off the sheet")
        for other, b in every[:i]:
            if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
                found.append(f"{text!r} stands on {other!r}")
    return found
