"""The boat as the page shows her: the side view in her own axes, to be moved as she lies.

Lines are as thick on the screen however far the picture is drawn; marks (class ``mark``) keep
their size on the screen too, and are put in their places by the page's own script.
"""

from dataclasses import dataclass

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile import Tank
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import tank_room
from trimdive.pictures.drawings.flat import outline, wrapped
from trimdive.pictures.drawings.ink import DASHES, Ink, Weight
from trimdive.pictures.drawings.marks import buoyancy, diamond, gravity
from trimdive.pictures.drawings.on_skin import skin_marks
from trimdive.pictures.drawings.side import (
    BESIDE,
    Scene,
    above_waterline,
    silhouette,
    skins,
    station_lines,
    thing_ink,
    vessels,
    waterline,
)
from trimdive.pictures.drawings.svg import clean, number, tag
from trimdive.pictures.drawings.things import shell, things
from trimdive.pictures.drawings.view import MM, View

PIXELS: dict[Weight, float] = {"fine": 0.8, "plain": 1.4, "bold": 2.4}  # of lines on the screen
FINE: dict[str, str | float] = {  # what all lines of a group have that is inked
    "fill": "none",
    "stroke": "currentColor",
    "stroke_width": PIXELS["fine"],
    "vector_effect": "non-scaling-stroke",
}
INKED = {key: value for key, value in FINE.items() if key != "vector_effect"}  # by the style sheet
UNFILLED = ' fill="none" fill-rule="evenodd"'
DASH = 4.0  # pixels of the screen in a millimetre of paper, for dashes [-]
HANDY = 640.0  # breadth of screen that hatches are drawn for [mm of paper]
ON_LINE = 1e-3  # nearer to the plumb line than this is on it [m]
SIDE = View(right=np.array([1.0, 0.0, 0.0]), up=np.array([0.0, 0.0, 1.0]), x=0.0, y=0.0)
ASTERN = View(right=np.array([0.0, -1.0, 0.0]), up=np.array([0.0, 0.0, 1.0]), x=0.0, y=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreenInk(Ink):
    """Ink whose lines are as thick on the screen at every size of the picture.

    In a group that is ``inked`` only what is unlike a fine line is written at each.
    """

    is_bare: bool = False

    def pen(self, weight: Weight, dash: str = "", light: bool = False) -> dict[str, str | float]:
        """Return the attributes of a line."""
        own: dict[str, str | float] = {
            "stroke_width": "" if self.is_bare and weight == "fine" else PIXELS[weight],
            "stroke_dasharray": " ".join(number(DASH * part) for part in DASHES[dash]),
            "stroke_opacity": "0.55" if light else "",
        }
        return own if self.is_bare else {**own, **FINE, "stroke_width": own["stroke_width"]}

    def shape(
        self,
        loops: list[Floats],
        weight: Weight,
        *,
        fill: str = "none",
        dash: str = "",
        **more: str,
    ) -> str:
        """Return closed lines with a fill between them; nothing where there are none."""
        drawn = Ink.shape(self, loops, weight, fill=fill, dash=dash, **more)
        return drawn.replace(UNFILLED, "") if self.is_bare else drawn


def scene_of(her: Assessment) -> Scene:
    """Return what all views of her are drawn from."""
    low, high = shell(her).bounds[:, 0]
    ink = ScreenInk(scale=float(high - low) * MM / HANDY * 2, is_bare=True)
    return Scene(assessed=her, state=her.surfaced, ink=ink, things=things(her), water=())


def boat_picture(her: Assessment) -> str:
    """Return what moves with the boat, in her own axes, the stern at 0 [mm]."""
    scene = scene_of(her)
    return scene.ink.hatches() + tag(
        "g",
        station_lines(scene, SIDE, 2),
        above_waterline(scene, SIDE),
        tag("g", class_="tank-waters"),
        vessels(scene, SIDE),
        *(thing_ink(scene, thing, SIDE) for thing in scene.things),
        silhouette(scene, SIDE),
        skins(scene, SIDE, np.array([0.0, 1.0, 0.0]), BESIDE),
        skin_marks(her, scene.ink, SIDE),
        waterline(scene, SIDE),
        _plumb(her),
        class_="boat inked",
        **INKED,
    )


def water_hatch(her: Assessment) -> str:
    """Return the name of the hatch of tank water in the picture."""
    return scene_of(her).ink.name("water")


def _plumb(her: Assessment) -> str:
    """Return the plumb line from what is above the waterline, and the distance to tank water."""
    if her.boat.waterline is None or her.need.volume <= 0:
        return ""
    ink, low = ScreenInk(scale=1.0, is_bare=True), MM * float(shell(her).bounds[0, 2])
    places = [her.need.place] + ([her.need.water_place] if her.boat.tanks else [])
    lines = [
        ink.line(
            [(MM * float(p[0]), -MM * float(p[2])), (MM * float(p[0]), -low)], "plain", class_=name
        )
        for p, name in zip(places, ("plumb-line", "tank-line"), strict=False)
    ]
    return tag("g", *lines, class_="plumb")


def marks(her: Assessment) -> str:
    """Return the marks of the key picture and of G and B, each drawn about its own middle."""
    ink, middle = ScreenInk(scale=3.2), (0.0, 0.0)
    found = [
        _mark(gravity(ink, middle), "g", "G, centre of gravity: the middle of all weights"),
        _mark(buoyancy(ink, middle), "b", "B, centre of buoyancy: the middle of all lift"),
    ]
    if her.boat.waterline is not None and her.need.volume > 0:
        above = diamond(ink, middle, full=False)
        found.append(
            _mark(above, "above", "Centre of the volume above the waterline", her.need.place)
        )
        if her.boat.tanks:
            full = diamond(ink, middle, full=True)
            found.append(_mark(full, "tank", "Centre of the tank water", her.need.water_place))
            found.append(_distance(her))
    return "".join(found)


def _distance(her: Assessment) -> str:
    """Return how far the tank water lies off the plumb line, in words for a place at the keel.

    Only where that is a fault: a boat that hangs level has it where it belongs.
    """
    offset, low = her.need.offset, MM * float(shell(her).bounds[0, 2])
    if abs(offset) < ON_LINE or not any(one.key == "tank-offset" for one in her.checked):
        return ""
    far = her.boat.units.write(abs(offset), "length")
    says = f"tank water {far} too far {'forward' if offset > 0 else 'aft'}"
    between = MM * float(her.need.place[0] + her.need.water_place[0]) / 2
    return tag("g", class_="distance", data_x=between, data_z=low, data_says=says)


def _mark(drawn: str, name: str, says: str, at: Floats | None = None) -> str:
    place = {} if at is None else {"data_x": MM * float(at[0]), "data_z": MM * float(at[2])}
    return tag("g", tag("title", clean(says)), drawn, class_=f"mark {name}", **place)


def end_picture(her: Assessment) -> str:
    """Return her outline as it is seen from astern, in her own axes [mm]."""
    ink = ScreenInk(scale=1.0, is_bare=True)
    seen = [
        ASTERN.lifted(outline(skin.outer, ASTERN.right, ASTERN.up).loop)
        for skin in her.hull.skins
        if skin.outer.vertices.size
    ]
    return tag("g", *(ink.shape([loop], "plain") for loop in seen), class_="end inked", **INKED)


def bounds(her: Assessment) -> dict[str, dict[str, float]]:
    """Return the lowest and highest x, y and z that she reaches, masts and all [mm]."""
    meshes = [shell(her), *(mesh for thing in things(her) for mesh in thing.meshes)]
    points = np.vstack([mesh.vertices for mesh in meshes])
    corners = {"low": points.min(axis=0), "high": points.max(axis=0)}
    return {
        name: dict(zip("xyz", (MM * corner).round(1).tolist(), strict=True))
        for name, corner in corners.items()
    }


def tanks(her: Assessment) -> list[dict[str, object]]:
    """Return the room of each tank as it is seen from the side, and how water lies in it [mm]."""
    return [_tank(her, tank) for tank in her.boat.tanks]


def _tank(her: Assessment, tank: Tank) -> dict[str, object]:
    room = tank_room(tank, her.boat, her.files)
    loop = wrapped(SIDE.on(room.vertices)) * np.array([1.0, -1.0])
    x, z = loop.round(1).T.tolist()
    tank_view: dict[str, object] = {"name": tank.name, "kind": tank.kind, "loop": {"x": x, "z": z}}
    if tank.kind == "piston":
        tank_view["end"] = MM * tank.water_end
        tank_view["run"] = MM * tank.stroke * (1.0 if tank.runs == "forward" else -1.0)
    return tank_view
