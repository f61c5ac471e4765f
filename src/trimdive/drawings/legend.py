"""The legend: each mark and hatch with one line of words."""

from collections.abc import Callable

import numpy as np

from trimdive.drawings.ink import Hatch, Ink, Weight
from trimdive.drawings.marks import box, buoyancy, diamond, gravity
from trimdive.drawings.side import corners
from trimdive.drawings.svg import tag

ROW = 5.4  # height of a line [mm of paper]
SIGN = 12.0  # breadth of the marks [mm of paper]


def legend(ink: Ink, x: float, y: float, width: float) -> tuple[str, float]:
    """Return the legend in columns, and how high it is [mm].

    Args:
        ink: Pen and lettering.
        x: Left edge [mm].
        y: Upper edge [mm].
        width: Room for it [mm].
    """
    entries = _entries(ink)
    longest = max(ink.breadth(words) for _, words in entries) + ink.mm(SIGN + 4.0)
    count = max(1, int(width // longest))
    rows = -(-len(entries) // count)
    found = []
    for i, (sign, words) in enumerate(entries):
        left, middle = x + (i // rows) * width / count, y + ink.mm(ROW) * (i % rows + 0.5)
        found.append(
            tag(
                "g",
                sign(left + ink.mm(SIGN / 2), middle),
                ink.words(left + ink.mm(SIGN + 2), middle + ink.mm(1.1), words),
            )
        )
    return tag("g", *found, class_="legend"), rows * ink.mm(ROW)


def _entries(ink: Ink) -> list[tuple[Callable[[float, float], str], str]]:
    """Return each mark as a function of its place, with its words."""
    return [
        (_swatch(ink, "above"), "above the waterline: tank water must equal it"),
        (lambda x, y: diamond(ink, (x, y), full=False), "its middle; the plumb line hangs from it"),
        (
            lambda x, y: diamond(ink, (x, y), full=True),
            "middle of the tank water: belongs on the line",
        ),
        (lambda x, y: gravity(ink, (x, y)), "G: middle of all weight, tank water too"),
        (lambda x, y: buoyancy(ink, (x, y)), "B: middle of the water she pushes aside"),
        (_stroke(ink, "plain", "waterline"), "waterline meant"),
        (_stroke(ink, "plain", ""), "water surface"),
        (_swatch(ink, "water"), "water in a tank"),
        (_swatch(ink, "lead"), "lead"),
        (_swatch(ink, "foam"), "foam"),
        (_frame(ink, ""), "part; a cross where its shape is not given"),
        (_spread(ink), "part spread out between these corners"),
        (_frame(ink, "guess"), "dashed: its mass is only guessed"),
    ]


def _corners(ink: Ink, x: float, y: float) -> list[np.ndarray]:
    return [box(x - ink.mm(5.0), y - ink.mm(1.7), ink.mm(10.0), ink.mm(3.4))]


def _swatch(ink: Ink, hatch: Hatch) -> Callable[[float, float], str]:
    return lambda x, y: (
        ink.hatched(_corners(ink, x, y), hatch) + ink.shape(_corners(ink, x, y), "fine")
    )


def _frame(ink: Ink, dash: str) -> Callable[[float, float], str]:
    return lambda x, y: ink.shape(_corners(ink, x, y), "fine", dash=dash)


def _spread(ink: Ink) -> Callable[[float, float], str]:
    return lambda x, y: corners(ink, _corners(ink, x, y), "")


def _stroke(ink: Ink, weight: Weight, dash: str) -> Callable[[float, float], str]:
    return lambda x, y: ink.line([(x - ink.mm(6.0), y), (x + ink.mm(6.0), y)], weight, dash)
