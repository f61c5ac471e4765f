"""The drawing on the board: side view and plan on one x, level, every thing with its number."""

import numpy as np

from trimdive.assessment import Assessment
from trimdive.page.scene import SIDE, ScreenInk
from trimdive.pictures.drawings.ink import FACE
from trimdive.pictures.drawings.marks import label_row
from trimdive.pictures.drawings.numbers import number_labels
from trimdive.pictures.drawings.plan import plan_view
from trimdive.pictures.drawings.side import (
    BESIDE,
    Scene,
    above_waterline,
    ladders,
    silhouette,
    skins,
    station_lines,
    thing_ink,
    vessels,
    waterline,
)
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.things import Thing, shell, things
from trimdive.pictures.drawings.view import MM, View

BROAD = 330.0  # of the sheet on which lettering and hatches are sized [mm of paper]
ON_MIDDLE = 1e-3  # nearer to the middle plane than this is on it [m]
ABOVE = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0])


def numbers_of(every: tuple[Thing, ...]) -> dict[str, int]:
    """Return the number of each thing on the board by its path, such as "part[3]"."""
    numbers: dict[str, int] = {}
    for thing in every:
        if thing.look not in ("lead", "foam"):
            numbers.setdefault(thing.path, len(numbers) + 1)
    return numbers


def board_drawing(her: Assessment) -> str:
    """Return the drawing of a boat as SVG."""
    every = things(her)
    numbers = numbers_of(every)
    low, high = shell(her).bounds[:, 0]
    scale = float(high - low) * MM / BROAD * 1.06
    ink = ScreenInk(scale=scale)
    scene = Scene(assessed=her, state=her.surfaced, ink=ink, things=every, water=())
    plan = View(right=ABOVE[0], up=ABOVE[1], x=0.0, y=0.0)
    tops, deck = _span(her, every, SIDE), _span(her, every, plan)
    left, right = (
        min(tops[0][0], deck[0][0]) - ink.mm(6.0),
        max(tops[1][0], deck[1][0]) + ink.mm(6.0),
    )
    upper, inner = _parted(scene, every, numbers)
    top = tops[0][1] - ink.mm(16.0)
    drop = tops[1][1] - deck[0][1] + ink.mm(20.0)
    plan = View(right=ABOVE[0], up=ABOVE[1], x=0.0, y=drop)
    foot = deck[1][1] + drop + ink.mm(14.0)
    room = (left + ink.mm(2.0), right - ink.mm(2.0))
    port, other = _sides(inner)
    drawn = tag(
        "svg",
        tag("title", clean(f"{her.boat.name}: side view and plan, her pieces numbered")),
        ink.hatches(),
        label_row(ink, number_labels(SIDE, upper), tops[0][1] - ink.mm(5.0), room, above=True),
        _side(scene),
        label_row(
            ink, number_labels(plan, port), deck[0][1] + drop - ink.mm(5.0), room, above=True
        ),
        plan_view(scene, plan),
        label_row(ink, number_labels(plan, other), deck[1][1] + drop + ink.mm(5.0), room),
        class_="board-drawing",
        role="img",
        viewBox=" ".join(number(one) for one in (left, top, right - left, foot - top)),
        fill="currentColor",
        font_family=FACE,
    )
    return drawn.replace('class="words"', 'class="lettering"')  # the page has words of its own


def _span(her: Assessment, every: tuple[Thing, ...], view: View) -> list[list[float]]:
    """Return left and top, right and bottom of all of her in a view [mm]."""
    meshes = [shell(her), *(mesh for thing in every for mesh in thing.meshes)]
    points = np.vstack([view.on(mesh.vertices) for mesh in meshes])
    return [points.min(axis=0).tolist(), points.max(axis=0).tolist()]


def _side(scene: Scene) -> str:
    return tag(
        "g",
        station_lines(scene, SIDE, 2),
        above_waterline(scene, SIDE),
        vessels(scene, SIDE),
        *(thing_ink(scene, thing, SIDE) for thing in scene.things),
        silhouette(scene, SIDE),
        skins(scene, SIDE, np.array([0.0, 1.0, 0.0]), BESIDE),
        ladders(scene, SIDE),
        waterline(scene, SIDE),
        class_="side-view",
    )


def _sides(
    inner: list[tuple[int, Thing]],
) -> tuple[list[tuple[int, Thing]], list[tuple[int, Thing]]]:
    """Return what carries its number on the port side, and the rest; the middle by turns."""
    along = sorted(inner, key=lambda pair: float(pair[1].place[0]))
    middle = [pair for pair in along if abs(float(pair[1].place[1])) < ON_MIDDLE]
    port = [pair for pair in along if float(pair[1].place[1]) >= ON_MIDDLE] + middle[::2]
    return port, [pair for pair in along if pair not in port]


def _parted(
    scene: Scene, every: tuple[Thing, ...], numbers: dict[str, int]
) -> tuple[list[tuple[int, Thing]], list[tuple[int, Thing]]]:
    """Return numbered things above the waterline, and the others; twins carry one number once."""
    seen: set[str] = set()
    pairs: list[tuple[int, Thing]] = []
    for thing in every:
        if thing.path in numbers and thing.path not in seen:
            seen.add(thing.path)
            pairs.append((numbers[thing.path], thing))
    if scene.meant is None:
        return [], pairs
    n, d = scene.meant
    upper = [pair for pair in pairs if float(n @ pair[1].place) > d]
    return upper, [pair for pair in pairs if pair not in upper]
