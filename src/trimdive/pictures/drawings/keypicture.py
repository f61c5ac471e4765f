"""The key picture: what lies above the waterline, and the tank water that belongs under it."""

import numpy as np

from trimdive.geometry.lines.mesh import Floats
from trimdive.pictures.drawings.marks import (
    DIAMOND,
    Label,
    buoyancy,
    diamond,
    gravity,
    plumb_line,
    ticked,
)
from trimdive.pictures.drawings.side import Scene
from trimdive.pictures.drawings.svg import tag
from trimdive.pictures.drawings.things import shell
from trimdive.pictures.drawings.view import MM, View
from trimdive.pictures.drawings.words import is_blown, lever_words, low_by, off_line, places

CLOSE = 3.0  # a distance shorter than this is told in words, without a dimension line [mm of paper]
BELOW = 5.0  # of the keel line, where that dimension line stands [mm of paper]


def centres(scene: Scene) -> tuple[Floats, Floats]:
    """Return G and B of the state, in the boat, each shape (3,) [m]."""
    state = scene.state
    g = np.array([state.lcg, state.tcg, state.kg])
    return g, g + _along(state.rest.n, state.bg, state.lcb - state.lcg, state.kb - state.kg)


def _along(n: Floats, bg: float, dx: float, dz: float) -> Floats:
    """Return the way from G to B: they lie on one vertical."""
    return np.array([dx, float(n[1]) * bg, dz])


def has_need(scene: Scene) -> bool:
    """Return whether there is anything above a waterline meant."""
    return scene.meant is not None and scene.assessed.need.volume > 0


def key_marks(scene: Scene, view: View) -> str:
    """Return diamonds, plumb line and the distance between, and G and B."""
    ink, found = scene.ink, []
    if has_need(scene):
        need = scene.assessed.need
        low = float(shell(scene.assessed).bounds[0, 2]) - ink.mm(BELOW) / MM
        foot, below = (
            np.array([x, 0.0, low]) for x in (float(need.place[0]), float(need.water_place[0]))
        )
        tip = need.place - np.array([0.0, 0.0, ink.mm(DIAMOND) / MM])
        found.append(plumb_line(ink, view.at(tip), view.at(foot)))
        if scene.assessed.boat.tanks:
            found += _distance(scene, view, foot, below)
            found.append(diamond(ink, view.at(need.water_place), full=True, class_="tank-middle"))
        found.append(diamond(ink, view.at(need.place), full=False, class_="above-middle"))
    g, b = (view.at(point) for point in centres(scene))
    return tag(
        "g", *found, ink.line([g, b], "plain"), buoyancy(ink, b), gravity(ink, g), class_="key"
    )


def _distance(scene: Scene, view: View, foot: Floats, below: Floats) -> list[str]:
    """Return the line down from the tank water, and the dimension line to the plumb line."""
    ink, need = scene.ink, scene.assessed.need
    down = ink.line([view.at(need.water_place), view.at(below)])
    if abs(need.offset) * MM < ink.mm(CLOSE):
        return [down]
    return [down, ticked(ink, view.at(foot), view.at(below), class_="offset")]


def need_label(scene: Scene, view: View) -> list[Label]:
    """Return what she needs, to stand above the boat."""
    if not has_need(scene):
        return []
    boat, need = scene.assessed.boat, scene.assessed.need
    x, y = view.at(need.place)
    says = f"{boat.units.write(need.volume, 'volume')} above the waterline,"
    where = f"centre at x {boat.units.write(float(need.place[0]), 'length')}"
    return [Label(x=x, y=y - scene.ink.mm(2.7), lines=(says, where), name="need", size="plain")]


def key_labels(scene: Scene, view: View) -> list[Label]:
    """Return what stands below the boat: the distance, G and B, and the draughts."""
    boat, ink = scene.assessed.boat, scene.ink
    low = float(shell(scene.assessed).bounds[0, 2])
    found: list[Label] = []
    if has_need(scene) and boat.tanks:
        offset = scene.assessed.need.offset
        foot = [scene.assessed.need.place[0] + offset / 2, 0.0, low - ink.mm(BELOW + 3.5) / MM]
        x, y = view.at(np.array(foot))
        way = "forward" if offset > 0 else "aft"
        says = f"Tank water {boat.units.write(abs(offset), 'length')}"
        found.append(
            Label(
                x=x,
                y=y,
                lines=(says, f"too far {way}"),
                name="distance",
                size="plain",
            )
        )
    g, b = centres(scene)
    lower = view.at(g if scene.state.bg > 0 else b)
    lines = lever_words(scene.assessed, scene.state)
    found.append(Label(x=lower[0], y=lower[1] + ink.mm(3.4), lines=lines, name="lever"))
    return found + draught_labels(scene, view, low)


def draught_labels(scene: Scene, view: View, low: float) -> list[Label]:
    """Return the draught at each mark, and how far that is off; none when she is under."""
    boat = scene.assessed.boat
    blown, found = is_blown(scene.assessed, scene.state), list[Label]()
    for name, x in places(scene.assessed):
        if not scene.state.has_draughts:
            break
        at = view.at(np.array([x, 0.0, low]))
        draught = f"draught {boat.units.write(scene.state.draught(x), 'length')}"
        off = low_by(scene.assessed, scene.state, x)
        lines = (
            (name, draught)
            if off is None or not blown
            else (name, draught, off_line(scene.assessed, off))
        )
        found.append(Label(x=at[0], y=at[1] + scene.ink.mm(1.5), lines=lines, name="draught"))
    return found
