"""The drawing on the board: her plan, every thing with its number, under which its row stands."""

import numpy as np

from trimdive.assessment import Assessment
from trimdive.page.scene import ScreenInk
from trimdive.pictures.drawings.ink import FACE
from trimdive.pictures.drawings.marks import label_row
from trimdive.pictures.drawings.numbers import number_labels
from trimdive.pictures.drawings.plan import plan_view
from trimdive.pictures.drawings.side import Scene
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.things import Thing, shell, things
from trimdive.pictures.drawings.view import MM, View

BROAD = 132.0  # of the sheet on which lettering and hatches are sized [mm of paper]
ROOM = 12.0  # for a row of numbers [mm of paper]
ABOVE = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0])


def numbers_of(every: tuple[Thing, ...]) -> dict[str, int]:
    """Return the number of each thing on the board by its path, such as "part[3]"."""
    numbers: dict[str, int] = {}
    for thing in every:
        if thing.look not in ("lead", "foam"):
            numbers.setdefault(thing.path, len(numbers) + 1)
    return numbers


def board_drawing(her: Assessment) -> str:
    """Return the plan of a boat as SVG."""
    every = things(her)
    low, high = shell(her).bounds[:, 0]
    ink = ScreenInk(scale=float(high - low) * MM / BROAD * 1.06)
    scene = Scene(assessed=her, state=her.surfaced, ink=ink, things=every, water=())
    plan = View(right=ABOVE[0], up=ABOVE[1], x=0.0, y=0.0)
    (left, top), (right, foot) = _span(her, every, plan)
    left, right = left - ink.mm(3.0), right + ink.mm(3.0)
    pairs = _numbered(every, numbers_of(every))
    room, rows = (left + ink.mm(1.0), right - ink.mm(1.0)), (pairs[::2], pairs[1::2])
    high_row, low_row = (number_labels(plan, row) for row in rows)
    upper, lower = top - ink.mm(ROOM), foot + ink.mm(ROOM)
    drawn = tag(
        "svg",
        tag("title", clean(f"{her.boat.name} from above, her pieces numbered")),
        ink.hatches(),
        label_row(ink, high_row, top - ink.mm(3.0), room, above=True),
        plan_view(scene, plan),
        label_row(ink, low_row, foot + ink.mm(3.0), room),
        class_="board-drawing",
        role="img",
        viewBox=" ".join(number(one) for one in (left, upper, right - left, lower - upper)),
        fill="currentColor",
        font_family=FACE,
    )
    return drawn.replace('class="words"', 'class="lettering"')  # the page has words of its own


def _span(her: Assessment, every: tuple[Thing, ...], view: View) -> list[list[float]]:
    """Return left and top, right and bottom of all of her in a view [mm]."""
    meshes = [shell(her), *(mesh for thing in every for mesh in thing.meshes)]
    points = np.vstack([view.on(mesh.vertices) for mesh in meshes])
    return [points.min(axis=0).tolist(), points.max(axis=0).tolist()]


def _numbered(every: tuple[Thing, ...], numbers: dict[str, int]) -> list[tuple[int, Thing]]:
    """Return numbered things from aft forward; twins carry one number once."""
    first: dict[str, Thing] = {}
    for thing in every:
        if thing.path in numbers:
            first.setdefault(thing.path, thing)
    ordered = sorted(first.values(), key=lambda thing: float(thing.place[0]))
    return [(numbers[thing.path], thing) for thing in ordered]
