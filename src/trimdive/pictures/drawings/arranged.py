"""An arrangement small, from the side: hull, cylinders, what lies in them by name, lead and foam.

Of the hull only what lies under her waterline is shown, and a little more. What has no size is
drawn as long as it was taken to be, dashed. Where the names have no room, numbers stand for them.
"""

from collections.abc import Sequence

import numpy as np

from trimdive.arranging.layout import Layout
from trimdive.arranging.layout import Thing as Held
from trimdive.arranging.work import Arranged, Arrangement
from trimdive.assessment import Assessment
from trimdive.boatfile.ref import ref
from trimdive.geometry.lines.mesh import Floats
from trimdive.pictures.drawings.flat import spread
from trimdive.pictures.drawings.ink import FACE, Ink
from trimdive.pictures.drawings.marks import box
from trimdive.pictures.drawings.side import Scene, silhouette, thing_ink, vessels, waterline
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.things import Thing, shell, things, vessel_meshes
from trimdive.pictures.drawings.view import MM, View, views

PAPER = 150.0  # breadth of the hull [mm of paper]
EDGE = 2.0  # kept clear all round [mm of paper]
KNEE = 3.0  # height in which lines to names slant [mm of paper]
ROW = 4.0  # height of a row of names [mm of paper]
ROWS = 2  # of names, at most; more are numbers [-]
APART = 2.0  # clear room between names [mm of paper]
INSIDE = 0.86  # of the bore: height of what has no size [-]
UP = np.array([0.0, 0.0, 1.0])
LAID = ("lead", "foam")
TINT = "0.16"  # of what lies in a cylinder, so that it stands out
SHADE = "0.7"  # of the hatches of lead and foam


def arranged_picture(done: Arranged, one: Arrangement | None) -> str:
    """Return an arrangement as SVG, or the boat as she is.

    They stand on one page: the hatches of all of them are in the picture of her as she is.

    Args:
        done: What came of arranging her.
        one: One of its arrangements; None for the boat as she is.
    """
    her = one.her if one else done.before
    aboard = things(her)
    view = views(UP)[0]
    low, high = _window(her, aboard, view)
    ink = Ink(scale=MM * float(np.ptp(shell(her).bounds[:, 0])) / PAPER)
    scene = Scene(assessed=her, state=her.surfaced, ink=ink, things=aboard, water=())
    far = one.order.things if one else np.zeros(len(done.layout.things))
    ends = np.array([held.ends for held in done.layout.things]) + far[:, None]
    edge = ink.mm(EDGE)
    names, foot = _names(ink, view, done, ends, (float(low[0]), float(high[0])), float(high[1]))
    laid = (thing_ink(scene, thing, view, SHADE) for thing in aboard if thing.look in LAID)
    drawn = [
        "" if one else ink.hatches(),
        waterline(scene, view),
        *laid,
        vessels(scene, view),
        *_held(scene, view, done.layout.things, ends),
        silhouette(scene, view),
        names,
    ]
    box_of = (low[0] - edge, low[1] - edge, high[0] - low[0] + 2 * edge, foot - low[1] + edge)
    return tag(
        "svg", *drawn, xmlns="http://www.w3.org/2000/svg", class_="arranged", role="img",
        aria_label=_says(done, one, ends), viewBox=" ".join(number(float(v)) for v in box_of),
        fill="currentColor", font_family=FACE,
    )  # fmt: skip


def _window(her: Assessment, aboard: Sequence[Thing], view: View) -> tuple[Floats, Floats]:
    """Return left and top, right and bottom of what is shown, each shape (2,) [mm]."""
    hull = view.on(shell(her).vertices)
    held = [*(loop for thing in aboard if thing.look in LAID for loop in thing.loops(view))]
    held += [
        view.on(mesh.vertices)
        for one in her.boat.cylinders
        for mesh in vessel_meshes(one, bore=False)
    ]
    n, d = her.waterline
    line = view.on(np.array([[x, 0.0, (d - n[0] * x) / n[2]] for x in shell(her).bounds[:, 0]]))
    top = float(np.vstack([line, *held])[:, 1].min())
    inside = np.vstack([hull, *held])
    low, high = inside.min(axis=0), inside.max(axis=0)
    return np.array([low[0], max(top, low[1])]), high


def _says(done: Arranged, one: Arrangement | None, ends: Floats) -> str:
    """Return what the picture shows, for who does not see it."""
    order = np.argsort(ends.mean(axis=1))
    names = ", ".join(done.layout.things[int(k)].name for k in order)
    what = f"arrangement {done.found.index(one) + 1}" if one else "as she is"
    return f"{done.before.boat.name} from the side, {what}; from aft to fore: {names}"


def _held(scene: Scene, view: View, held: Sequence[Held], ends: Floats) -> list[str]:
    """Return what lies in cylinders: by its shape, or by the length that it was taken to have."""
    shapes = {thing.path: thing for thing in scene.things}
    found: list[str] = []
    for one, (aft, fore) in zip(held, ends.tolist(), strict=True):
        if ref(one.path).table in LAID:
            continue
        shape = shapes[one.path]
        if shape.meshes and not one.is_guessed:
            tint = scene.ink.shape(
                shape.loops(view), "fine", fill="currentColor", opacity=TINT, stroke="none"
            )
            found.append(tint + thing_ink(scene, shape, view))
            continue
        found.append(_taken(scene, view, shape, one, (aft, fore)))
    return found


def _taken(scene: Scene, view: View, thing: Thing, one: Held, ends: tuple[float, float]) -> str:
    """Return what has no size by the length it was taken to have, across most of the bore."""
    vessel = scene.assessed.boat.cylinders[one.tube]
    half = INSIDE * vessel.bore / 2
    (left, top), (right, _) = (view.at(np.array([x, 0.0, vessel.z + half])) for x in ends)
    loop = box(left, top, right - left, 2 * half * MM)
    tint = scene.ink.shape([loop], "fine", fill="currentColor", opacity=TINT, stroke="none")
    edge = tint + scene.ink.shape([loop], "fine", dash="guess")
    return tag("g", tag("title", clean(thing.title)), edge, class_="thing", data_path=one.path)


def _names(
    ink: Ink,
    view: View,
    done: Arranged,
    ends: Floats,
    room: tuple[float, float],
    foot: float,
) -> tuple[str, float]:
    """Return the names of things under the hull, each with its line, and where they end [mm].

    Args:
        ink: Pen and lettering.
        view: Side view.
        done: What came of arranging her.
        ends: Of each along her, shape (n, 2) [m].
        room: Left and right end of the names [mm].
        foot: Underside of the hull [mm].
    """
    layout = done.layout
    heights = [done.found[0].her.boat.cylinders[thing.tube].z for thing in layout.things]
    order = np.argsort(ends.mean(axis=1), kind="stable").tolist()
    wanted = [view.at(np.array([float(ends[k].mean()), 0.0, 0.0]))[0] for k in order]
    texts = labels_of(layout, ink, room[1] - room[0])
    sizes = [ink.breadth(texts[k]) for k in order]
    is_one = sum(sizes) + ink.mm(APART) * len(sizes) <= room[1] - room[0]
    rows = 1 if is_one else ROWS
    found: list[str] = []
    for row in reversed(range(rows)):  # so that upper names stand over lines to lower ones
        mine = [i for i, own in enumerate(in_rows(sizes, rows)) if own == row]
        at_them = [wanted[i] for i in mine]
        places = spread(at_them, [sizes[i] for i in mine], ink.mm(APART), room)
        for k, at, x in zip([order[i] for i in mine], at_them, places, strict=True):
            top = view.at(np.array([0.0, 0.0, heights[k]]))[1]
            knee = foot + ink.mm(KNEE + row * ROW)
            found.append(
                tag(
                    "g",
                    tag("title", clean(layout.things[k].name)),
                    tag("circle", cx=at, cy=top, r=ink.mm(0.5)),
                    ink.line([(at, top), (at, foot), (x, foot + ink.mm(KNEE)), (x, knee)]),
                    ink.words(x, knee + ink.mm(3.2), texts[k], "small", "middle", class_="name"),
                )
            )
    return tag("g", *found, class_="names"), foot + ink.mm(KNEE + rows * ROW + 0.6)


def numbered_names(done: Arranged) -> tuple[str, ...]:
    """Return what the numbers stand for, in their order; nothing where names stand there."""
    ink, names = Ink(scale=1.0), tuple(thing.name for thing in done.layout.things)
    return () if labels_of(done.layout, ink, PAPER)[:1] == [*names][:1] else names


def in_rows(sizes: Sequence[float], rows: int) -> list[int]:
    """Return the row of each name, each in the one that is shortest so far.

    >>> in_rows([3.0, 1.0, 1.0, 1.0, 2.0], 2)
    [0, 1, 1, 1, 0]
    """
    long, found = [0.0] * rows, list[int]()
    for size in sizes:
        row = min(range(rows), key=long.__getitem__)
        long[row] += size
        found.append(row)
    return found


def labels_of(layout: Layout, ink: Ink, room: float) -> list[str]:
    """Return what stands for each thing: its name, or its number where the names have no room.

    Args:
        layout: With the things.
        ink: Lettering.
        room: Breadth of the rows [mm].
    """
    names = [thing.name for thing in layout.things]
    wide = sum(ink.breadth(name) + ink.mm(APART) for name in names)
    return names if wide <= 0.9 * ROWS * room else [f"{k}" for k in range(1, len(names) + 1)]
