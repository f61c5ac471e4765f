"""The plan, under the side view, in her own axes: outline, skin, wells, towers, what is in her."""

import numpy as np

from trimdive.pictures.drawings.flat import outline
from trimdive.pictures.drawings.marks import diamond
from trimdive.pictures.drawings.on_skin import skin_marks
from trimdive.pictures.drawings.side import Scene, station_lines, tank_ink, thing_ink, vessels
from trimdive.pictures.drawings.svg import clean, tag
from trimdive.pictures.drawings.things import seen
from trimdive.pictures.drawings.view import View

NARROW = 0.6  # a region less broad than this share of the hull stands on it [-]


def hull_outline(scene: Scene, view: View) -> str:
    """Return the hull as seen from above, its skin as the room between two lines."""
    hull = scene.assessed.hull
    if not hull.skins:
        return ""
    outer = outline(hull.envelope, view.right, view.up)
    ring, skin = [view.lifted(outer.loop)], hull.skins[0]
    if skin.thickness > 0:
        ring.append(view.lifted(outer.inset(skin.wall.at(outer.across)).loop))
        drawn = scene.ink.shape(ring, "fine", fill="currentColor")
    else:
        drawn = scene.ink.shape(ring, "bold")
    return tag("g", tag("g", drawn, class_="plan-hull"), class_="skin")


def towers(scene: Scene, view: View) -> str:
    """Return outlines, from above, of towers and fins: regions narrower than the hull."""
    hull, found = scene.assessed.hull, list[str]()
    most = NARROW * float(np.ptp(hull.envelope.bounds[:, 1]))
    for skin in hull.skins:
        if float(np.ptp(skin.outer.bounds[:, 1])) < most:
            loop = seen(skin.outer, view, convex=False)
            title = tag("title", clean(skin.name))
            found.append(tag("g", title, scene.ink.shape([loop], "plain")))
    return tag("g", *found, class_="towers") if found else ""


def openings(scene: Scene, view: View) -> str:
    """Return the wells, each as a rectangle with its diagonals: one can see through."""
    ink, found = scene.ink, []
    for hole in scene.assessed.boat.openings:
        y = (hole.y - hole.breadth / 2, hole.y + hole.breadth / 2)
        x = (hole.x_aft, hole.x_fore)
        corners = view.on(
            np.array([[x[0], y[0], 0], [x[1], y[0], 0], [x[1], y[1], 0], [x[0], y[1], 0]])
        )
        cross = [ink.line(corners[[i, i + 2]]) for i in (0, 1)]
        title = tag("title", clean(hole.name))
        found.append(tag("g", title, ink.shape([corners], "plain"), *cross, class_="opening"))
    return tag("g", *found, class_="openings") if found else ""


def plan_view(scene: Scene, view: View) -> str:
    """Return the plan."""
    need = scene.assessed.need if scene.meant is not None else None
    diamonds = []
    if need is not None and need.volume > 0:
        diamonds.append(diamond(scene.ink, view.at(need.place), full=False))
        if scene.assessed.boat.tanks:
            diamonds.append(diamond(scene.ink, view.at(need.water_place), full=True))
    return tag(
        "g",
        station_lines(scene, view, 1),
        tank_ink(scene, view, level=False),
        vessels(scene, view),
        *(thing_ink(scene, thing, view, "0.5") for thing in scene.things),
        hull_outline(scene, view),
        openings(scene, view),
        towers(scene, view),
        skin_marks(scene.assessed, scene.ink, view),
        *diamonds,
        class_="plan",
    )
