"""The body plan: sections across her at her stations, the after half on the left as from astern.

The forward half is on the right, as from ahead; cylinders are seen as their circles.
"""

import numpy as np

from trimdive.assessment import Assessment
from trimdive.geometry.lines.mesh import Floats
from trimdive.pictures.drawings.flat import kept, loops
from trimdive.pictures.drawings.ink import FACE, Ink
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.view import MM

AHEAD = np.array([1.0, 0.0, 0.0])
COUNT = 10  # sections [-]
HIGH = 60.0  # height of the drawing [mm of paper]
MARGIN = 3.0  # clear room all round [mm of paper]


def places(her: Assessment) -> tuple[float, ...]:
    """Return where she is cut: in the middle of as many equal lengths of her hull [m]."""
    low, high = (float(x) for x in her.hull.envelope.bounds[:, 0])
    return tuple(low + (high - low) * (k + 0.5) / COUNT for k in range(COUNT))


def body_plan(her: Assessment) -> str:
    """Return her body plan as SVG; "" where she has no hull.

    Args:
        her: The boat.
    """
    if not her.hull.skins:
        return ""
    found = places(her)
    middle = sum(found) / len(found)
    lines = [(half, loop) for x in found for half, loop in _halves(her, x, is_aft=x < middle)]
    every = np.vstack([loop for _, loop in lines])
    low, high = every.min(axis=0), every.max(axis=0)
    half = max(-float(low[0]), float(high[0]))
    ink = Ink(scale=float(high[1] - low[1]) / (HIGH - 2 * MARGIN))
    m = ink.mm(MARGIN)
    frame = (-half - m, float(low[1]) - m, 2 * (half + m), float(high[1] - low[1]) + 2 * m)
    axis = ink.line([(0.0, float(low[1]) - m / 2), (0.0, float(high[1]) + m / 2)], "fine")
    return tag(
        "svg",
        tag("title", clean(f"{her.boat.name}: body plan, {len(found)} sections")),
        *(ink.shape([loop], "plain", class_=f"section {half}") for half, loop in lines),
        *_cylinders(her, ink),
        axis,
        _waterline(her, ink, middle, half + m / 2),
        xmlns="http://www.w3.org/2000/svg",
        class_="body-plan",
        role="img",
        viewBox=" ".join(number(one) for one in frame),
        fill="currentColor",
        font_family=FACE,
    )


def _halves(her: Assessment, x: float, *, is_aft: bool) -> list[tuple[str, Floats]]:
    """Return the half of each skin cut at a place that is shown, on the sheet [mm]."""
    side = np.array([-1.0 if is_aft else 1.0, 0.0])
    found: list[tuple[str, Floats]] = []
    for skin in her.hull.skins:
        for loop in loops(skin.outer, AHEAD, x):
            flat = MM * np.column_stack([loop[:, 1], -loop[:, 2]])
            half = kept(flat, side, 0.0)
            if len(half) > 2:
                found.append(("aft" if is_aft else "fore", half))
    return found


def _cylinders(her: Assessment, ink: Ink) -> list[str]:
    """Return each cylinder as a dashed circle, those that lie in one line once."""
    rounds = dict.fromkeys((one.z, one.outside) for one in her.boat.cylinders)
    return [
        tag("circle", cx=0.0, cy=-MM * z, r=MM * outside / 2, **ink.pen("fine", "guess"))
        for z, outside in rounds
    ]


def _waterline(her: Assessment, ink: Ink, x: float, half: float) -> str:
    """Return the waterline meant, where she has one."""
    line = her.boat.waterline
    if line is None:
        return ""
    y = -MM * line.height_at(x)
    return ink.line([(-half, y), (half, y)], "fine", "waterline", class_="waterline")
