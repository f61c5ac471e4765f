"""A section across the boat: skins, cylinders, tanks, parts and water where a plane cuts them."""

from dataclasses import dataclass

import numpy as np

from trimdive.assessment import Assessment
from trimdive.errors import GeometryError
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.hydrostatics.equilibrium import State
from trimdive.hydrostatics.equilibrium.named import lies
from trimdive.pictures.drawings.flat import kept, loops
from trimdive.pictures.drawings.ink import FACE, Ink
from trimdive.pictures.drawings.marks import ticked, water_mark
from trimdive.pictures.drawings.on_skin import cut_marks
from trimdive.pictures.drawings.sheet import SCALES
from trimdive.pictures.drawings.side import skin_ink
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.things import Thing, shell, tank_water, things, vessel_meshes
from trimdive.pictures.drawings.view import MM, View
from trimdive.pictures.drawings.words import state_words

AHEAD = np.array([1.0, 0.0, 0.0])
ON_END = 0.1  # cosine of the trim past which a section tells nothing of the water [-]
PAPER = 120.0  # widest section [mm of paper]
MARGIN = 12.0  # clear room all round [mm of paper]
HEAD = 22.0  # room for the title [mm of paper]
FOOT = 18.0  # room for breadth and scale [mm of paper]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """All that a section is drawn from."""

    assessed: Assessment
    state: State
    x: float  # where she is cut [m]
    ink: Ink
    view: View

    def loops(self, *meshes: Mesh) -> list[Floats]:
        """Return the lines in which bodies are cut, on the sheet [mm]."""
        return [self.view.on(loop) for mesh in meshes for loop in loops(mesh, AHEAD, self.x)]

    def height(self, along: float) -> float:
        """Return how far down the sheet a level surface lies, from its height along ``up`` [m]."""
        up = self.state.rest.n
        return self.view.y - MM * float((along - up[0] * self.x) / np.hypot(up[1], up[2]))


def section_drawing(assessed: Assessment, x: float, shown: State | None = None) -> str:
    """Return a section across the boat as SVG, seen from aft: port is on the left.

    Args:
        assessed: The boat.
        x: Where she is cut [m].
        shown: The state to show; left out, surfaced with her tanks blown.

    Raises:
        GeometryError: There is no hull at that place, or she stands on end.
    """
    state = assessed.surfaced if shown is None else shown
    rim = loops(shell(assessed), AHEAD, x)
    if not rim:
        write, (low, high) = assessed.boat.units.write, shell(assessed).bounds[:, 0]
        what = f"there is no hull at x {write(x, 'length')}"
        reach = f"{write(float(low), 'length')} to {write(float(high), 'length')}"
        raise GeometryError(what, "section", f"Choose a place from {reach}.")
    upright = float(np.hypot(*state.rest.n[1:]))
    if upright < ON_END:
        what = f"she stands on end in this state, {lies(assessed.boat, assessed.floater, state)}"
        raise GeometryError(what, "section", "Choose another state.")
    up = np.array([0.0, *state.rest.n[1:]]) / upright
    flat = View(right=np.cross(AHEAD, up), up=up, x=0.0, y=0.0)
    rough = Cut(assessed=assessed, state=state, x=x, ink=Ink(scale=1.0), view=flat)
    meshes = [mesh for thing in things(assessed) for mesh in thing.meshes]
    seen = np.vstack([*rough.loops(*meshes), *(flat.on(loop) for loop in rim)])
    low, high = seen.min(axis=0), seen.max(axis=0)
    breadth = float(high[0] - low[0])
    ink = Ink(scale=next((s for s in SCALES if breadth / s <= PAPER), breadth / PAPER))
    words = ink.breadth(state_words(assessed, state)) + ink.mm(2 * MARGIN)
    width = max(breadth + ink.mm(4 * MARGIN), words)
    top = min(float(low[1]), rough.height(state.rest.d) - ink.mm(3.0))
    view = flat.moved(width / 2 - float(low[0] + high[0]) / 2, ink.mm(HEAD) - top)
    cut = Cut(assessed=assessed, state=state, x=x, ink=ink, view=view)
    return _sheet(cut, width, view.y + float(high[1]) + ink.mm(FOOT))


def _sheet(cut: Cut, width: float, height: float) -> str:
    """Return the whole drawing."""
    assessed, boat, ink = cut.assessed, cut.assessed.boat, cut.ink
    place = f"section at x {boat.units.write(cut.x, 'length')}"
    left = ink.mm(MARGIN)
    return tag(
        "svg",
        tag("title", clean(f"{boat.name}: {place}")),
        ink.hatches(),
        ink.words(left, ink.mm(10.0), f"{boat.name}, {place}", "plain", class_="name"),
        ink.words(left, ink.mm(15.0), state_words(cut.assessed, cut.state), class_="state"),
        tag("g", *_tank_waters(cut), *cut_things(cut), *cut_walls(cut), class_="cut"),
        cut_marks(assessed, ink, cut.view, cut.x),
        _water(cut, width),
        _breadth(cut, height),
        xmlns="http://www.w3.org/2000/svg",
        class_="section-drawing",
        role="img",
        width=f"{number(width / ink.scale)}mm",
        height=f"{number(height / ink.scale)}mm",
        viewBox=f"0 0 {number(width)} {number(height)}",
        fill="currentColor",
        font_family=FACE,
    )


def cut_things(cut: Cut) -> list[str]:
    """Return parts, tanks, lead and foam where they are cut."""
    found = [(thing, cut.loops(*thing.meshes)) for thing in things(cut.assessed)]
    return [_thing(cut.ink, *pair) for pair in found if pair[1] and pair[0].look != "cylinder"]


def _thing(ink: Ink, thing: Thing, lines: list[Floats]) -> str:
    hatch = ink.hatched(lines, thing.look) if thing.look in ("lead", "foam") else ""
    edge = ink.shape(
        lines,
        "plain" if thing.look == "tank" else "fine",
        dash="guess" if thing.is_guess else "",
        stroke_opacity="0.55" if thing.look == "sparse" else "",
    )
    return tag("g", tag("title", clean(thing.title)), hatch, edge, class_=f"thing {thing.look}")


def cut_walls(cut: Cut) -> list[str]:
    """Return cylinders and skins where they are cut, inked solid."""
    found: list[str] = []
    for vessel in cut.assessed.boat.cylinders:
        both = (vessel_meshes(vessel, bore=False), vessel_meshes(vessel, bore=True))
        for pair in zip(*both, strict=True):
            wall = cut.ink.shape(cut.loops(*pair), "fine", fill="currentColor")
            found.append(tag("g", tag("title", clean(vessel.name)), wall, class_="vessel"))
    regions = zip(cut.assessed.hull.skins, cut.assessed.boat.regions, strict=True)
    return found + [
        skin_ink(cut.ink, skin, region, cut.loops(skin.body)) for skin, region in regions
    ]


def _tank_waters(cut: Cut) -> list[str]:
    """Return the water in the tanks where it is cut, hatched, each with its level surface."""
    down, found = np.array([0.0, 1.0]), list[str]()
    for tank in tank_water(cut.assessed, cut.state):
        if not len(tank.wet) or not tank.wet[:, 0].min() < cut.x < tank.wet[:, 0].max():
            continue
        level = cut.height(tank.level)
        wet = [kept(loop, down, level) if tank.is_level else loop for loop in cut.loops(tank.mesh)]
        hatch = cut.ink.hatched(wet, "water")
        edges = [
            cut.ink.line([(float(loop[:, 0].min()), level), (float(loop[:, 0].max()), level)])
            for loop in wet
            if tank.is_level and len(loop)
        ]
        found.append(tag("g", tag("title", clean(tank.name)), hatch, *edges, class_="tank-water"))
    return found


def _water(cut: Cut, width: float) -> str:
    """Return the water's surface, and the waterline meant."""
    ink, line = cut.ink, cut.assessed.boat.waterline
    y = cut.height(cut.state.rest.d)
    found = [
        ink.line([(0.0, y), (width, y)], "plain", class_="water-surface"),
        water_mark(ink, (ink.mm(4.0), y)),
    ]
    if line is not None:
        half = float(np.ptp(shell(cut.assessed).bounds[:, 1])) / 2 + ink.mm(6.0) / MM
        ends = np.array([[cut.x, s * half, line.height_at(cut.x)] for s in (1, -1)])
        meant = ink.line(cut.view.on(ends), "plain", "waterline", class_="waterline-meant")
        found.append(meant)
    return tag("g", *found, class_="water")


def _breadth(cut: Cut, height: float) -> str:
    """Return the hull's breadth as a dimension line, her middle line, and the drawing scale."""
    ink, hull = cut.ink, shell(cut.assessed)
    solid = np.vstack(loops(hull, AHEAD, cut.x))
    rim = cut.view.on(solid)
    left, right = float(rim[:, 0].min()), float(rim[:, 0].max())
    y = height - ink.mm(10.0)
    says = cut.assessed.boat.units.write((right - left) / MM, "length")
    beyond = ink.mm(3.0) / MM
    ends = [float(solid[:, 2].min()) - beyond, float(solid[:, 2].max()) + beyond]
    middle = cut.view.on(np.array([[cut.x, 0.0, z] for z in ends]))
    text = f"{says}, drawn 1:{ink.scale:g}"
    return tag(
        "g",
        ink.line(middle, "fine", "waterline", class_="middle"),
        ticked(ink, (left, y), (right, y), class_="breadth"),
        ink.words((left + right) / 2, y + ink.mm(4.4), text, anchor="middle"),
    )
