"""What is marked and cut on the skin, as it is drawn: holes, plate lines, draught marks."""

from math import isnan
from typing import TYPE_CHECKING

import numpy as np

from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.onskin import Spot, on_deck, round_at
from trimdive.geometry.solids.wall import belts
from trimdive.pictures.drawings.flat import thinned
from trimdive.pictures.drawings.ink import Ink
from trimdive.pictures.drawings.svg import clean, tag
from trimdive.pictures.drawings.view import View

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.marking.found import Holes, Marks

CORNERS = 24  # of a round end [-]
TOP = 2e-3  # so far under the top of her a place is still seen from above [m]
TANGENT = 1e-3  # round the skin, between places by which its slope is found [m]
TICK, DOT = 1.6, 0.7  # of a figure's foot, and of what a section meets [mm of paper]


def skin_marks(her: "Assessment", ink: Ink, view: View) -> str:
    """Return what is seen of it from starboard or from above; nothing where nothing is marked.

    Args:
        her: The boat.
        ink: Pen and lettering.
        view: From where she is looked at.
    """
    found, whole = her.marked, her.hull.envelope
    above = float(np.cross(view.right, view.up)[2]) > 0.5
    drawn = [*_holes(found, ink, view, whole, above=above)]
    for line in found.lines:
        loops = [view.on(one.points) for one in line.lines
                 if _is_seen(one.points[len(one.points) // 2], whole, above=above)]  # fmt: skip
        title = tag("title", clean(line.name))
        strokes = [ink.line(thinned(loop), "fine") for loop in loops]
        drawn += [tag("g", title, *strokes, class_="plate-line")] if strokes else []
    for mark in () if above else found.figures:
        half = np.array([ink.mm(TICK) / 2e3, 0.0, 0.0])
        ends = [view.on(np.array([one.point - half, one.point + half]))
                for one in mark.spots if one.y <= 0.0]  # fmt: skip
        ticks = [ink.line(one, "plain") for one in ends]
        title = tag("title", clean(mark.name))
        drawn += [tag("g", title, *ticks, class_="draught-figures")] if ticks else []
    return tag("g", *drawn, class_="skin-marks") if drawn else ""


def _holes(found: "Marks", ink: Ink, view: View, whole: Mesh, *, above: bool) -> list[str]:
    """Return the holes that are seen, each in its outline."""
    drawn: list[str] = []
    for one in found.holes:
        seen = [spot for spot in one.spots if _is_seen(np.array(spot.point), whole, above=above)]
        loops = [view.on(hole_outline(one, spot, whole)) for spot in seen]
        title = tag("title", clean(one.name))
        shapes = ink.shape(loops, "plain")
        drawn += [tag("g", title, shapes, class_="skin-hole")] if shapes else []
    return drawn


def hole_outline(one: "Holes", spot: Spot, whole: Mesh) -> Floats:
    """Return the outline of a hole on the skin, shape (n, 3) [m].

    Args:
        one: The hole.
        spot: Its middle.
        whole: The outside of the hull.
    """
    long, high = one.size
    if one.shape == "rectangle":
        flat = 0.5 * np.array([[-long, -high], [long, -high], [long, high], [-long, high]])
    else:
        turn = 2 * np.pi * (np.arange(CORNERS) + 0.5) / CORNERS
        around = np.column_stack([np.cos(turn), np.sin(turn)])
        across = min(long, high)
        straight = (np.array([long, high]) - across) / 2
        flat = across / 2 * around + np.sign(around) * straight
    return np.array(spot.point) + flat[:, :1] * [1.0, 0.0, 0.0] + flat[:, 1:] * _up(spot, whole)


def _up(spot: Spot, whole: Mesh) -> Floats:
    """Return the way up the skin at a place, shape (3,) [-]."""
    if isnan(spot.girth):
        return np.array([0.0, 0.0, 1.0])
    way = round_at(whole, spot.x, spot.side)
    low, high = (way.point(spot.girth + by) for by in (-TANGENT, TANGENT))
    sign = 1.0 if spot.side == "port" else -1.0
    run = np.array([0.0, sign * (high[0] - low[0]), high[1] - low[1]])
    return run / max(float(np.linalg.norm(run)), 1e-12)


def _is_seen(point: Floats, whole: Mesh, *, above: bool) -> bool:
    """Return whether a place on the skin is seen from above, or from starboard."""
    x, y, z = point.tolist()
    if not above:
        return y <= 1e-9
    belt = belts(whole)
    if z < float(np.interp(x, belt.x, belt.widest)) - TOP:
        return False  # below her greatest breadth
    try:
        top = on_deck(whole, x, abs(y), "port" if y >= 0 else "starboard", whole)
    except GeometryError:
        return True  # at the very edge of her
    return top.z - z < TOP


def cut_marks(her: "Assessment", ink: Ink, view: View, x: float) -> str:
    """Return what of it a section meets, a dot where it lies on the skin.

    Args:
        her: The boat.
        ink: Pen and lettering.
        view: From aft.
        x: Where she is cut [m].
    """
    dots: list[tuple[str, Floats]] = []
    for one in her.marked.holes:
        dots += [(one.name, np.array(spot.point)) for spot in one.spots
                 if abs(spot.x - x) <= one.size[0] / 2]  # fmt: skip
    for line in her.marked.lines:
        if line.way == "along":
            dots += [(line.name, np.array([np.interp(x, each.points[:, 0], row)
                      for row in each.points.T])) for each in line.lines
                     if each.points[0, 0] <= x <= each.points[-1, 0]]  # fmt: skip
    drawn = [
        tag("g", tag("title", clean(name)),
            tag("circle", cx=at[0], cy=at[1], r=ink.mm(DOT), fill="currentColor", stroke="none"),
            class_="on-skin")
        for name, point in dots for at in [view.at(point)]
    ]  # fmt: skip
    return tag("g", *drawn, class_="skin-marks") if drawn else ""
