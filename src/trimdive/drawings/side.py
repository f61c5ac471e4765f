"""The side view: the skin cut along the middle, what stands in her, the water, the key picture."""

from dataclasses import dataclass

import numpy as np

from trimdive.assess import Assessment
from trimdive.bodies.surfaces import table_of, text_of
from trimdive.boatfile import LinesRegion, RoundRegion
from trimdive.drawings.flat import kept, loops, outline, wrapped
from trimdive.drawings.ink import Ink
from trimdive.drawings.marks import water_mark
from trimdive.drawings.svg import clean, tag
from trimdive.drawings.things import TankWater, Thing, vessel_meshes
from trimdive.drawings.view import MM, View
from trimdive.drawings.words import places
from trimdive.lines.mesh import Floats
from trimdive.rest import State

BESIDE = 1e-5  # the middle is cut this far to port, beside the corners that lie in it [m]
STATIONS = 11  # shown where no table of lines names any [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """All that a view draws from."""

    assessed: Assessment
    state: State
    ink: Ink
    things: tuple[Thing, ...]
    water: tuple[TankWater, ...]

    @property
    def meant(self) -> tuple[Floats, float] | None:
        """Return the waterline meant: n, and d [m]; None where the boat names none."""
        return self.assessed.waterline if self.assessed.boat.waterline else None


def thing_ink(scene: Scene, thing: Thing, view: View) -> str:
    """Return one thing in outline, hatched by its kind, dashed where its mass is guessed."""
    ink = scene.ink
    dash = "guess" if thing.is_guess else ""
    drawn = thing.loops(view)
    title = tag("title", clean(thing.title))
    if not drawn:
        (x, y), t = view.at(thing.place), ink.mm(0.9)
        cross = [ink.line([(x - t, y - s * t), (x + t, y + s * t)], "plain") for s in (1, -1)]
        return tag("g", title, *cross, class_=f"thing {thing.look}", data_path=thing.path)
    hatch = ink.hatched(drawn, thing.look) if thing.look in ("lead", "foam") else ""
    if thing.look == "open":
        edge = ink.shape(drawn, "fine", dash=dash, stroke_opacity="0.55")
    elif thing.look == "cylinder":
        edge = ink.shape(drawn, "plain", dash=dash)
    else:
        edge = ink.shape(drawn, "fine", dash=dash)
    return tag("g", title, hatch, edge, class_=f"thing {thing.look}", data_path=thing.path)


def vessels(scene: Scene, view: View) -> str:
    """Return the walls of the watertight cylinders, inked."""
    found = []
    for vessel in scene.assessed.boat.cylinders:
        outside = vessel_meshes(vessel, bore=False)
        inside = vessel_meshes(vessel, bore=True)
        for out, bore in zip(outside, inside, strict=True):
            walls = [wrapped(view.on(mesh.vertices)) for mesh in (out, bore)]
            found.append(scene.ink.shape(walls, "fine", fill="currentColor", fill_opacity="0.6"))
    return tag("g", *found, class_="vessels") if found else ""


def skins(scene: Scene, view: View, n: Floats, d: float) -> str:
    """Return the skins where a plane n·r = d cuts them, inked solid."""
    found = []
    for skin in scene.assessed.hull.skins:
        cut = [view.on(loop) for loop in loops(skin.body, n, d)]
        fill = "currentColor" if skin.thickness else "none"
        title = tag("title", clean(skin.name))
        found.append(tag("g", title, scene.ink.shape(cut, "fine", fill=fill), class_="skin"))
    return tag("g", *found, class_="skins")


def above_waterline(scene: Scene, view: View) -> str:
    """Return everything above the waterline meant, hatched."""
    if scene.meant is None:
        return ""
    n, d = scene.meant
    edge = view.on(np.array([n * d, n * d + np.array([n[2], 0.0, -n[0]])]))
    along = edge[1] - edge[0]
    up = np.array([along[1], -along[0]]) / float(np.hypot(*along))
    shapes = [
        view.lifted(outline(skin.outer, view.right, view.up).loop)
        for skin in scene.assessed.hull.skins
    ]
    for thing in scene.things:
        if thing.look != "tank":
            shapes += thing.loops(view)
    upper = [kept(shape, up, float(up @ edge[0])) for shape in shapes]
    hatched = [scene.ink.hatched([loop], "above") for loop in upper if len(loop) > 2]
    return tag("g", *hatched, class_="above")


def stations(scene: Scene) -> list[float]:
    """Return the places of stations to show along the boat [m]."""
    assessed = scene.assessed
    for region in assessed.boat.regions:
        if isinstance(region, LinesRegion | RoundRegion):
            table = table_of(text_of(assessed.files, region.file), region.file)
            return sorted(station.x for station in table.stations)
    low, high = assessed.hull.envelope.bounds[:, 0]
    return [float(x) for x in np.linspace(low, high, STATIONS)]


def station_lines(scene: Scene, view: View, axis: int) -> str:
    """Return a light line at each station, over the hull's breadth (axis 1) or height (axis 2)."""
    found = []
    across = np.zeros((2, 3))
    across[:, axis] = scene.assessed.hull.envelope.bounds[:, axis]
    for x in stations(scene):
        across[:, 0] = x
        ends = [tuple(map(float, p)) for p in view.on(across)]
        found.append(scene.ink.line(ends, "fine", "station"))
    return tag("g", *found, class_="stations")


def tank_ink(scene: Scene, view: View) -> str:
    """Return the water in the tanks, hatched, each with its level surface."""
    ink = scene.ink
    found = []
    for tank in scene.water:
        if not len(tank.wet):
            continue
        wet = wrapped(view.on(tank.wet))
        title = tag("title", clean(f"{tank.name}: {100 * tank.share:.0f} % full"))
        drawn = [title, ink.hatched([wet], "water")]
        if tank.is_level:
            top = float(wet[:, 1].min())
            at = wet[np.abs(wet[:, 1] - top) < 0.01, 0]
            drawn.append(ink.line([(float(at.min()), top), (float(at.max()), top)], "plain", class_="level"))
        found.append(tag("g", *drawn, class_="tank-water"))
    return tag("g", *found, class_="tank-waters")


def surface(scene: Scene, view: View, left: float, right: float) -> str:
    """Return the water's surface across the sheet, with its mark at both ends."""
    ink = scene.ink
    y = view.y - MM * scene.state.rest.d
    line = ink.line([(left, y), (right, y)], "plain", class_="water-surface")
    marks = [water_mark(ink, (x, y)) for x in (left + ink.mm(6.0), right - ink.mm(6.0))]
    return tag("g", line, *marks, class_="water")


def waterline(scene: Scene, view: View) -> str:
    """Return the waterline meant, over the length of the boat and a little beyond."""
    if scene.meant is None:
        return ""
    n, d = scene.meant
    low, high = scene.assessed.hull.envelope.bounds[:, 0]
    beyond = scene.ink.mm(5.0) / MM
    ends = [[x, 0.0, (d - n[0] * x) / n[2]] for x in (low - beyond, high + beyond)]
    points = [tuple(map(float, p)) for p in view.on(np.array(ends))]
    return scene.ink.line(points, "plain", "waterline", class_="waterline-meant")


def ladders(scene: Scene, view: View) -> str:
    """Return a ladder of heights above the keel line at each mark, round the water."""
    ink = scene.ink
    found = []
    for _, x in places(scene.assessed):
        middle = scene.state.draught(x)
        if scene.meant is not None:
            middle = scene.assessed.boat.waterline.height_at(x) if scene.assessed.boat.waterline else middle
        for k in range(round(middle * 100) - 3, round(middle * 100) + 4):
            half = 0.5 * ink.mm(2.6 if k % 5 == 0 else 1.4) / MM
            ends = view.on(np.array([[x - half, 0.0, k / 100], [x + half, 0.0, k / 100]]))
            found.append(ink.line([tuple(map(float, p)) for p in ends], "fine"))
    return tag("g", *found, class_="draught-marks")


def side_view(scene: Scene, view: View, left: float, right: float) -> str:
    """Return the side view, the water level from ``left`` to ``right`` of the sheet [mm]."""
    middle = np.array([0.0, 1.0, 0.0])
    wet = [thing_ink(scene, thing, view) for thing in scene.things]
    return tag(
        "g",
        station_lines(scene, view, 2),
        above_waterline(scene, view),
        tank_ink(scene, view),
        vessels(scene, view),
        *wet,
        skins(scene, view, middle, BESIDE),
        ladders(scene, view),
        surface(scene, view, left, right),
        waterline(scene, view),
        class_="side-view",
    )
