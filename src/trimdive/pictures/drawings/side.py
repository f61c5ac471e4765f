"""The side view: the skin cut along the middle, what stands in her, the water, the key picture."""

from dataclasses import dataclass

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile import LinesRegion, MeshRegion, Region, RoundRegion
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.hull import Skin
from trimdive.geometry.solids.section import segments
from trimdive.geometry.solids.surfaces import table_of, text_of
from trimdive.hydrostatics.equilibrium import State
from trimdive.pictures.drawings.flat import kept, kept_loops, outline, wrapped
from trimdive.pictures.drawings.ink import Ink
from trimdive.pictures.drawings.marks import box, water_mark
from trimdive.pictures.drawings.on_skin import skin_marks
from trimdive.pictures.drawings.svg import clean, tag
from trimdive.pictures.drawings.things import Look, TankWater, Thing, shell, vessel_meshes
from trimdive.pictures.drawings.view import MM, View
from trimdive.pictures.drawings.words import places

BESIDE = 1e-5  # the middle is cut this far to port, beside the corners that lie in it [m]
CLEAR = 5.0  # room shown between water and boat when she is wholly under [mm of paper]
THICK = 3.0  # a wall thicker than this would hide what is in it [mm of paper]
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


def thing_ink(scene: Scene, thing: Thing, view: View, shade: str = "") -> str:
    """Return one thing in outline, hatched by its kind, dashed where its mass is guessed.

    Args:
        scene: All that is drawn from.
        thing: What to draw.
        view: As it is seen.
        shade: How strong the hatch is, from 0 to 1; left out, full.
    """
    ink = scene.ink
    dash = "guess" if thing.is_guess else ""
    drawn = thing.loops(view)
    title = tag("title", clean(thing.title))
    named = f"thing {thing.look}{'' if drawn else ' spot'}{' guess' if thing.is_guess else ''}"
    if not drawn:
        spot = spot_ink(ink, thing.look, view.at(thing.place), dash)
        return tag("g", title, spot, class_=named, data_path=thing.path)
    hatch = ""
    if thing.look in ("lead", "foam"):
        hatch = ink.hatched(drawn, thing.look, opacity=shade, fill_rule="nonzero")
    if thing.look == "sparse":
        edge = corners(ink, drawn, dash)
    elif thing.look in ("cylinder", "tank"):
        edge = ink.shape(drawn, "plain", dash=dash)
    else:
        edge = ink.shape(drawn, "fine", dash=dash)
    return tag("g", title, hatch, edge, class_=named, data_path=thing.path)


def spot_ink(ink: Ink, look: Look, at: tuple[float, float], dash: str) -> str:
    """Return the mark of what has no shape: a cross, or a square of its hatch; ringed if dashed."""
    (x, y), t = at, ink.mm(0.9)
    ring = tag("circle", cx=x, cy=y, r=2.4 * t, **ink.pen("fine", dash)) if dash else ""
    if look in ("lead", "foam"):
        square = [box(x - 1.3 * t, y - 1.3 * t, 2.6 * t, 2.6 * t)]
        return ink.hatched(square, look) + ink.shape(square, "fine") + ring
    cross = [ink.line([(x - t, y - s * t), (x + t, y + s * t)], "plain") for s in (1, -1)]
    return "".join(cross) + ring


def corners(ink: Ink, drawn: list[Floats], dash: str) -> str:
    """Return only the corners of outlines: something is spread out between them."""
    found = []
    for loop in drawn:
        for i, at in enumerate(loop):
            arms = [loop[i - 1] - at, loop[(i + 1) % len(loop)] - at]
            sizes = [float(np.hypot(*arm)) for arm in arms]
            tips = [
                at + arm * min(ink.mm(3.0) / max(size, 1e-9), 0.5)
                for arm, size in zip(arms, sizes, strict=True)
            ]
            found.append(ink.line(np.array([tips[0], at, tips[1]]), "fine", dash))
    return "".join(found)


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
    """Return the skins where a plane n·r = d cuts them."""
    found = [
        skin_ink(scene.ink, skin, region, [view.on(loop) for loop in kept_loops(skin.body, n, d)])
        for skin, region in zip(scene.assessed.hull.skins, scene.assessed.boat.regions, strict=True)
    ]
    return tag("g", *found, class_="skins")


def is_shut(ink: Ink, skin: Skin, region: Region) -> bool:
    """Return whether a region keeps water out of all of it, and is drawn so.

    Either it is sealed, or it is a lump and not a wall: too thick on paper to be inked solid.
    """
    wall = skin.thickness or 2 * skin.shape_volume / max(skin.area, 1e-12)
    return region.sealed or wall * MM > ink.mm(THICK)


def skin_ink(ink: Ink, skin: Skin, region: Region, cut: list[Floats]) -> str:
    """Return a skin where it is cut: solid; what is shut as an outline, so that parts show."""
    title = tag("title", clean(skin.name))
    if is_shut(ink, skin, region):
        drawn = shut_ink(ink, cut)
        return tag("g", title, drawn, class_="skin shut")
    is_wall = skin.thickness > 0 or (isinstance(region, MeshRegion) and region.closed_walls)
    drawn = ink.shape(cut, "fine", fill="currentColor") if is_wall else ink.shape(cut, "bold")
    return tag("g", title, drawn, class_="skin")


def shut_ink(ink: Ink, loops: list[Floats]) -> str:
    """Return what is shut: its outline, and a tint that hides nothing."""
    return ink.shape(loops, "bold", fill="currentColor", fill_opacity="0.15")


def silhouette(scene: Scene, view: View) -> str:
    """Return the outline of each skin as it is seen from outside."""
    seen = [
        view.lifted(outline(skin.outer, view.right, view.up).loop)
        for skin in scene.assessed.hull.skins
        if skin.outer.vertices.size
    ]
    return tag("g", *(scene.ink.shape([loop], "fine") for loop in seen), class_="silhouette")


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
        if thing.look not in ("tank", "sparse"):
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
    low, high = shell(assessed).bounds[:, 0]
    return [float(x) for x in np.linspace(low, high, STATIONS)]


def station_lines(scene: Scene, view: View, axis: int) -> str:
    """Return a light line at each station, over the hull's breadth (axis 1) or height (axis 2)."""
    found = []
    for x, low, high in _station_ends(shell(scene.assessed), tuple(stations(scene)), axis):
        across = np.zeros((2, 3))
        across[:, 0] = x
        across[:, axis] = low, high
        found.append(scene.ink.line(view.on(across), "fine", "station", class_="station"))
    return tag("g", *found, class_="stations")


@with_mesh(4)
def _station_ends(
    hull: Mesh, places: tuple[float, ...], axis: int
) -> list[tuple[float, float, float]]:
    """Return the hull's least and greatest breadth or height at each station that cuts it [m]."""
    found: list[tuple[float, float, float]] = []
    for x in places:
        rim = segments(hull.corners, np.array([1.0, 0.0, 0.0]), x).reshape(-1, 3)
        if len(rim):
            found.append((x, float(rim[:, axis].min()), float(rim[:, axis].max())))
    return found


def tank_ink(scene: Scene, view: View, *, level: bool) -> str:
    """Return the water in the tanks, hatched; in a view where the water is level, its surface."""
    ink = scene.ink
    found = []
    for tank in scene.water:
        if not len(tank.wet):
            continue
        wet = wrapped(view.on(tank.wet))
        title = tag("title", clean(f"{tank.name}: {100 * tank.share:.0f} % full"))
        drawn = [title, ink.hatched([wet], "water")]
        if level and tank.is_level:
            top = float(wet[:, 1].min())
            at = wet[np.abs(wet[:, 1] - top) < 0.01, 0]
            drawn.append(
                ink.line([(float(at.min()), top), (float(at.max()), top)], "plain", class_="level")
            )
        found.append(tag("g", *drawn, class_="tank-water"))
    return tag("g", *found, class_="tank-waters")


def water_height(scene: Scene) -> float:
    """Return the height of the water's surface in the side view; well above her when under [m]."""
    clear = scene.ink.mm(CLEAR) / MM if scene.state.rest.under else 0.0
    return scene.state.rest.d + clear


def surface(scene: Scene, view: View, left: float, right: float) -> str:
    """Return the water's surface across the sheet, with its mark at both ends."""
    ink = scene.ink
    y = view.y - MM * water_height(scene)
    line = ink.line([(left, y), (right, y)], "plain", class_="water-surface")
    marks = [water_mark(ink, (x, y)) for x in (left + ink.mm(6.0), right - ink.mm(6.0))]
    return tag("g", line, *marks, class_="water")


def waterline(scene: Scene, view: View) -> str:
    """Return the waterline meant, over the length of the boat and a little beyond."""
    if scene.meant is None:
        return ""
    n, d = scene.meant
    low, high = shell(scene.assessed).bounds[:, 0]
    beyond = scene.ink.mm(5.0) / MM
    ends = [[x, 0.0, (d - n[0] * x) / n[2]] for x in (low - beyond, high + beyond)]
    return scene.ink.line(view.on(np.array(ends)), "plain", "waterline", class_="waterline-meant")


def ladders(scene: Scene, view: View) -> str:
    """Return a ladder of heights above the keel line at each mark, a tick to the centimetre."""
    ink, line = scene.ink, scene.assessed.boat.waterline
    if line is None and scene.state.rest.under:
        return ""
    found = []
    for _, x in places(scene.assessed):
        near = scene.state.draught(x) if line is None else line.height_at(x)
        for k in range(round(near * 100) - 3, round(near * 100) + 4):
            half = ink.mm(1.3 if k % 5 == 0 else 0.7) / MM
            ends = view.on(np.array([[x - half, 0.0, k / 100], [x + half, 0.0, k / 100]]))
            found.append(ink.line(ends, "fine"))
    return tag("g", *found, class_="draught-marks")


def side_view(scene: Scene, view: View, left: float, right: float) -> str:
    """Return the side view, the water level from ``left`` to ``right`` of the sheet [mm]."""
    middle = np.array([0.0, 1.0, 0.0])
    wet = [thing_ink(scene, thing, view) for thing in scene.things]
    return tag(
        "g",
        station_lines(scene, view, 2),
        above_waterline(scene, view),
        tank_ink(scene, view, level=True),
        vessels(scene, view),
        *wet,
        silhouette(scene, view),
        skins(scene, view, middle, BESIDE),
        skin_marks(scene.assessed, scene.ink, view),
        ladders(scene, view),
        surface(scene, view, left, right),
        waterline(scene, view),
        class_="side-view",
    )
