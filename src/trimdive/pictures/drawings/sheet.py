"""The sheet: the boat in side view and plan, true to scale, as she lies in the water.

Lengths on the sheet are millimetres of the model; the sheet is as wide on paper as the drawing
scale makes it. Nothing here is worked out of the boat but what is seen of her.
"""

from dataclasses import dataclass
from math import cos, radians

import numpy as np

from trimdive.assessment import Assessment
from trimdive.geometry.lines.mesh import Floats
from trimdive.hydrostatics.equilibrium import State
from trimdive.pictures.drawings.ink import FACE, Ink
from trimdive.pictures.drawings.keypicture import key_labels, key_marks, need_label
from trimdive.pictures.drawings.legend import legend
from trimdive.pictures.drawings.marks import handy, label_row, scale_bar
from trimdive.pictures.drawings.numbers import Item, items, list_of, number_labels
from trimdive.pictures.drawings.plan import plan_view
from trimdive.pictures.drawings.side import Scene, side_view, water_height
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.things import Thing, shell, tank_water, things
from trimdive.pictures.drawings.view import MM, View, views
from trimdive.pictures.drawings.words import figures, held_words, state_words

SCALES = (0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0)
PAPER = 400.0  # widest sheet [mm of paper]
HIGHEST = 260.0  # highest side view [mm of paper]
TIPPED = radians(1.0)  # more than this makes side view and plan differ to the eye [rad]
BAR = 22.0  # longest field of a scale bar [mm of paper]
MARGIN = 10.0  # clear room all round, and more beside the boat [mm of paper]


def drawing_scale(length: float, height: float) -> float:
    """Return how many mm of the model one mm of paper shows.

    Args:
        length: What must fit across, on the model [mm].
        height: What must fit upright, on the model [mm].

    >>> drawing_scale(2300.0, 440.0), drawing_scale(720.0, 190.0)
    (8.0, 2.0)
    """
    least = max(length / (PAPER - 4 * MARGIN), height / HIGHEST)
    return next((scale for scale in SCALES if scale >= least), least)


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """What a view takes up about the boat's origin [mm]."""

    low: Floats  # left and top, shape (2,) [mm]
    high: Floats  # right and bottom, shape (2,) [mm]


def span(scene: Scene, view: View) -> Span:
    """Return what the boat takes up in a view."""
    meshes = [shell(scene.assessed)]
    meshes += [mesh for thing in scene.things for mesh in thing.meshes]
    points = np.vstack([view.on(mesh.vertices) for mesh in meshes])
    return Span(low=points.min(axis=0), high=points.max(axis=0))


def boat_drawing(assessed: Assessment, shown: State | None = None) -> str:
    """Return the boat as she lies in the water: side view and plan in one SVG.

    Args:
        assessed: The boat.
        shown: The state to show; left out, surfaced with her tanks blown.
    """
    state = assessed.surfaced if shown is None else shown
    side, plan = views(state.rest.n)
    aboard = things(assessed)
    water = tank_water(assessed, state)
    rough = Scene(assessed=assessed, state=state, ink=Ink(scale=1.0), things=aboard, water=water)
    middle = shell(assessed).bounds.mean(axis=0) * np.array([1.0, 0.0, 1.0])
    plan = plan.moved(side.at(middle)[0] - plan.at(middle)[0], 0.0)
    seen, deck = span(rough, side), span(rough, plan)
    left, right = min(seen.low[0], deck.low[0]), max(seen.high[0], deck.high[0])
    length = float(right - left)
    ink = Ink(scale=drawing_scale(length, float(seen.high[1] - seen.low[1])))
    scene = Scene(assessed=assessed, state=state, ink=ink, things=aboard, water=water)
    width = max(length + ink.mm(4 * MARGIN), header_width(scene))
    x = (width - length) / 2 - float(left)
    lines = items(assessed, aboard, water)
    top, y = header(scene, width)
    boat, y = both_views(scene, (side.moved(x, 0.0), plan.moved(x + plan.x, 0.0)), lines, y, width)
    bottom, y = footer(scene, lines, y, width, boat)
    return tag(
        "svg",
        tag("title", clean(f"{assessed.boat.name}: {state_words(assessed, state)}")),
        ink.hatches(),
        top,
        boat,
        bottom,
        xmlns="http://www.w3.org/2000/svg",
        class_="boat-drawing",
        role="img",
        width=f"{number(width / ink.scale)}mm",
        height=f"{number(y / ink.scale)}mm",
        viewBox=f"0 0 {number(width)} {number(y)}",
        fill="currentColor",
        font_family=FACE,
    )


def named(scene: Scene) -> str:
    """Return her name with her scale."""
    boat = scene.assessed.boat
    return f"{boat.name}, 1:{boat.scale:g}" if boat.scale else boat.name


def header_width(scene: Scene) -> float:
    """Return how wide a sheet its head needs [mm]."""
    ink = scene.ink
    shown = figures(scene.assessed, scene.state)
    right = sum(figure_width(ink, *figure) + ink.mm(9.0) for figure in shown)
    state = ink.breadth(state_words(scene.assessed, scene.state), "plain")
    return max(ink.breadth(named(scene), "large"), state) + right + ink.mm(2 * MARGIN)


def figure_width(ink: Ink, name: str, value: str, text: str) -> float:
    """Return the breadth of one of the three figures with its words [mm]."""
    return max(ink.breadth(value, "large"), ink.breadth(text), ink.breadth(name))


def header(scene: Scene, width: float) -> tuple[str, float]:
    """Return name, state and the three figures, and where they end [mm]."""
    ink = scene.ink
    left, y = ink.mm(MARGIN), ink.mm(MARGIN + 7.0)
    found = [
        ink.words(left, y, named(scene), "large", class_="name"),
        ink.words(
            left, y + ink.mm(8.0), state_words(scene.assessed, scene.state), "plain", class_="state"
        ),
    ]
    held = held_words(scene.assessed, scene.state)
    if held:
        found.append(ink.words(left, y + ink.mm(13.0), held, class_="held"))
    x = width - left
    for name, value, text in reversed(figures(scene.assessed, scene.state)):
        found += [
            ink.words(x, y - ink.mm(8.0), name, "small", "end"),
            ink.words(x, y, value, "large", "end", class_="figure"),
            ink.words(x, y + ink.mm(5.0), text, "small", "end"),
        ]
        x -= figure_width(ink, name, value, text) + ink.mm(9.0)
    return tag("g", *found, class_="header"), y + ink.mm(17.0 if held else 12.0)


def both_views(
    scene: Scene, both: tuple[View, View], lines: tuple[Item, ...], y: float, width: float
) -> tuple[str, float]:
    """Return side view and plan with their labels, and where they end [mm]."""
    ink = scene.ink
    side, plan = both
    room = (ink.mm(2.0), width - ink.mm(2.0))
    seen = span(scene, side)
    water = -MM * water_height(scene)
    top, low = min(float(seen.low[1]), water), max(float(seen.high[1]), water)
    y += ink.mm(15.0)
    side = side.moved(side.x, y - top)
    upper, inner = _numbered(scene, lines)
    over = need_label(scene, side) + number_labels(side, upper)
    found = [label_row(ink, over, y - ink.mm(4.0), room, above=True)]
    found.append(side_view(scene, side, 0.0, width))
    under = y + low - top + ink.mm(12.0)
    found.append(label_row(ink, key_labels(scene, side), under, room))
    found.append(key_marks(scene, side))
    y = under + ink.mm(22.0)
    seen = span(scene, plan)
    plan = plan.moved(plan.x, y - float(seen.low[1]))
    port = [(k, thing) for i, (k, thing) in enumerate(inner) if thing.place[1] > 0 or i % 2]
    other = [pair for pair in inner if pair not in port]
    found.append(plan_view(scene, plan))
    found.append(label_row(ink, number_labels(plan, port), y - ink.mm(5.0), room, above=True))
    y += float(seen.high[1] - seen.low[1])
    found.append(label_row(ink, number_labels(plan, other), y + ink.mm(5.0), room))
    y += ink.mm(14.0)
    if float(scene.state.rest.n[2]) < cos(TIPPED):
        words = "The plan looks straight down on her deck; it does not trim with her."
        found.append(ink.words(width / 2, y, words, "small", "middle", class_="plan-note"))
        y += ink.mm(7.0)
    return tag("g", *found), y


def _numbered(
    scene: Scene, lines: tuple[Item, ...]
) -> tuple[list[tuple[int, Thing]], list[tuple[int, Thing]]]:
    """Return numbers and things that stand above the waterline, and the others."""
    every = [(line.number, thing) for line in lines if line.number for thing in line.things]
    n, d = scene.meant or (scene.state.rest.n, scene.state.rest.d)
    upper = [pair for pair in every if float(n @ pair[1].place) > d]
    return upper, [pair for pair in every if pair not in upper]


def footer(
    scene: Scene, lines: tuple[Item, ...], y: float, width: float, picture: str
) -> tuple[str, float]:
    """Return scale bars, legend of the picture and list, and where the sheet ends [mm]."""
    ink = scene.ink
    left, room = ink.mm(MARGIN), width - ink.mm(2 * MARGIN)
    bars, y = scale_bars(scene, y, width)
    signs, high = legend(ink, picture, left, y, room)
    y += high + ink.mm(5.0)
    table, more = list_of(ink, lines, left, y, room)
    return tag("g", *bars, signs, table), y + more + ink.mm(MARGIN)


def scale_bars(scene: Scene, y: float, width: float) -> tuple[list[str], float]:
    """Return the scale bars and the scale of the drawing, and where they end [mm]."""
    ink, scale = scene.ink, scene.assessed.boat.scale
    step = handy(ink.mm(BAR))
    bars = [(step, "cm on the model", step / 10)]
    if scale:
        full = handy(ink.mm(BAR) * scale / MM)
        bars.append((full * MM / scale, "m full size", full))
    x, found = ink.mm(MARGIN), list[str]()
    for field, unit, each in bars:
        wide = 5 * field + ink.mm(6.0) + ink.breadth(unit)
        if x > ink.mm(MARGIN) and x + wide > width:
            x, y = ink.mm(MARGIN), y + ink.mm(9.0)
        found.append(scale_bar(ink, (x, y), field, 5, unit, each))
        x += wide + ink.mm(14.0)
    text = f"Drawn 1:{ink.scale:g} on paper {width / ink.scale:.0f} mm wide"
    if x + ink.breadth(text) > width - ink.mm(MARGIN):
        y += ink.mm(9.0)
    found.append(ink.words(width - ink.mm(MARGIN), y + ink.mm(1.6), text, anchor="end"))
    return found, y + ink.mm(13.0)
