"""A boat seen small from the side: hull, what stands out of the water, cylinders, tanks."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from trimdive.assessment import Assessment
from trimdive.fit.hatches import shaft
from trimdive.fit.out import EDGES
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import tank_room
from trimdive.page.scene import SIDE
from trimdive.pictures.drawings.flat import kept, loops, outline, wrapped
from trimdive.pictures.drawings.svg import clean, number, tag, way, ways
from trimdive.pictures.drawings.things import vessel_meshes
from trimdive.pictures.drawings.view import MM, View

if TYPE_CHECKING:
    from trimdive.fit.out import Cut, Out
    from trimdive.geometry.solids.hull import Skin

ROOM = 0.015  # of her length, kept clear all round [-]
GAP = 0.045  # of her length, between two views [-]
LETTERS = 0.022  # of the picture's breadth: height of its lettering [-]
COARSE = 0.002  # of her length: what is smaller does not show [-]
TOP = View(right=np.array([1.0, 0.0, 0.0]), up=np.array([0.0, 1.0, 0.0]), x=0.0, y=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A reading shown at its place along the boat."""

    x: float  # forward of the stern [m]
    label: str


def small_picture(her: Assessment, says: str) -> str:
    """Return the boat from the side as SVG; its style sheet inks it.

    Args:
        her: The boat.
        says: What it shows, for who does not see it.
    """
    seen = _side(her)
    return _picture(her, says, [seen], _drawn_side(her, seen))


def growing_picture(her: Assessment, says: str, over: list[Mark], under: list[Mark]) -> str:
    """Return side view, plan and sections of a boat that is being told, with what was read.

    Args:
        her: The boat as far as she is told, the rest by plain proportions.
        says: What it shows, for who does not see it.
        over: Readings taken over the deck, marked in the side view.
        under: Readings taken across, marked in the plan; a section of each is drawn below it.
    """
    side, plan = _side(her), _seen(her, TOP)
    points, flat = np.vstack(side), np.vstack(plan)
    gap = GAP * MM * her.floater.length
    drop = np.array([0.0, float(points[:, 1].max() - flat[:, 1].min()) + gap])
    plan = [loop + drop for loop in plan]
    low = float(np.vstack(plan)[:, 1].max())
    found = [_section(her, mark, low + gap) for mark in under]
    rims = [loop for cut in found for loop in cut]
    drawn = [
        _drawn_side(her, side),
        _path_of(plan, "hull"),
        *(_tick(mark, points, gap, "over") for mark in over),
        *(_tick(mark, np.vstack(plan), gap, "under") for mark in under),
        _path_of(rims, "hull") if rims else "",
    ]
    return _picture(her, says, [side, plan, rims], "".join(drawn), gap)


def way_picture(her: Assessment, one: "Out") -> str:
    """Return the boat from the side with a thing that can be taken out step by step.

    The thing is a group of its own, with the poses of its way and the place about which it turns;
    the page's script moves it; what does not come out goes the way it would with its opening cut
    longer. "" where there is no way.

    Args:
        her: The boat.
        one: The thing and its way out.
    """
    goes = one.way or (one.cut and one.cut.way)
    if goes is None:
        return ""
    thing = next(solid for solid in her.scene.aboard.solids if solid.path == one.path)
    shape = wrapped(SIDE.on(thing.shape.surface.vertices))
    middle = SIDE.on(np.array([thing.shape.place]))[0]
    off = {name for hatch in her.boat.hatches for name in hatch.off}
    stays = [
        loop for skin, loop in zip(_with_size(her), _side(her), strict=True) if skin.name not in off
    ]
    poses = goes.poses[:, [0, 2, 3]] * np.array([MM, MM, 180.0 / np.pi])
    others = [loop for loop in _rooms(her) if not np.array_equal(loop, shape)]
    mover = tag(
        "g",
        _path(shape, "mover"),
        class_="moves",
        data_about=" ".join(number(float(at)) for at in middle),
        data_poses=";".join(" ".join(number(float(at)) for at in pose) for pose in poses),
    )
    ends = [shape + np.array([x, -z]) for x, z, _ in poses]
    drawn = "".join(
        (
            *(_path(loop, "room") for loop in others),
            _path_of(_side(her), "gone"),
            _path_of(stays, "hull"),
            *(_path(loop, "opening") for loop in _openings(her, None)),
            *(_path(loop, "needed") for loop in (_openings(her, one.cut) if one.cut else ())),
            _path(shape, "was"),
            mover,
        )
    )
    says = f"{one.name} on its way out of {her.boat.name}, from the side"
    return _picture(her, says, [_side(her), ends], drawn)


def _openings(her: Assessment, cut: "Cut | None") -> list[Floats]:
    """Return the openings of hatches cut out of the skin, from the side [mm].

    Args:
        her: The boat.
        cut: The one that is to be longer, as it must be; None: all, as they are.
    """
    found: list[Floats] = []
    for k, hatch in enumerate(her.boat.hatches, 1):
        if hatch.off or hatch.way != "up" or (cut is not None and cut.path != f"hatch[{k}]"):
            continue
        longer = dict(zip(EDGES, cut.edges, strict=True)) if cut else {}
        update = {key: at for key, at in longer.items() if at is not None}
        if cut is not None and not update:
            continue
        (aft, fore), _, (low, _) = shaft(hatch.model_copy(update=update), her.hull).spans
        tops = [
            float(skin.body.bounds[1, 2])
            for skin in her.hull.skins
            if skin.body.bounds[0, 0] <= aft and skin.body.bounds[1, 0] >= fore
        ]  # not of a tower, which stands on it
        top = max((at for at in tops if at > low), default=float(her.hull.envelope.bounds[1, 2]))
        corners = [[aft, 0, low], [fore, 0, low], [fore, 0, top], [aft, 0, top]]
        found.append(SIDE.on(np.array(corners, float)))
    return found


def _picture(
    her: Assessment, says: str, views: list[list[Floats]], drawn: str, room: float = 0.0
) -> str:
    points = np.vstack([loop for view in views for loop in view])
    low, high = points.min(axis=0), points.max(axis=0)
    edge = ROOM * float(high[0] - low[0])
    left, top = float(low[0]) - edge, float(low[1]) - edge - room
    wide, tall = float(high[0] - low[0]) + 2 * edge, float(high[1] - low[1]) + 2 * edge + room
    box = " ".join(number(one) for one in (left, top, wide, tall))
    return tag(
        "svg", drawn, class_="small-boat", role="img", aria_label=says, viewBox=box,
        font_size=LETTERS * wide,
    )  # fmt: skip


def _side(her: Assessment) -> list[Floats]:
    return _seen(her, SIDE)


def _seen(her: Assessment, view: View) -> list[Floats]:
    """Return the outline of each skin in a view [mm]."""
    return [
        _fewer(view.lifted(outline(skin.outer, view.right, view.up).loop), her)
        for skin in _with_size(her)
    ]


def _with_size(her: Assessment) -> "list[Skin]":
    return [skin for skin in her.hull.skins if skin.outer.vertices.size]


def _drawn_side(her: Assessment, seen: list[Floats]) -> str:
    left, right = (float(np.vstack(seen)[:, 0].min()), float(np.vstack(seen)[:, 0].max()))
    beyond = ROOM * (right - left)
    return "".join(
        (
            _out_of_water(her, seen),
            *(_path(loop, "room") for loop in _rooms(her)),
            _path_of(seen, "hull"),
            _waterline(her, left - beyond, right + beyond),
        )
    )


def _section(her: Assessment, mark: Mark, top: float) -> list[Floats]:
    """Return the hull cut at a place, drawn below the plan there [mm]."""
    found = loops(her.hull.envelope, np.array([1.0, 0.0, 0.0]), mark.x)
    seen = [np.column_stack([loop[:, 1], -loop[:, 2]]) * MM for loop in found if len(loop) > 2]
    if not seen:
        return []
    high = float(np.vstack(seen)[:, 1].min())
    return [loop + np.array([MM * mark.x, top - high]) for loop in seen]


def _tick(mark: Mark, points: Floats, gap: float, name: str) -> str:
    """Return a line across a view at a place, with the reading's number over it."""
    x, low, high = MM * mark.x, float(points[:, 1].min()), float(points[:, 1].max())
    ends = np.array([[x, low - 0.25 * gap], [x, high]])
    line = tag(
        "path", d=way(ends, closed=False), class_=f"tick {name}",
        vector_effect="non-scaling-stroke",
    )  # fmt: skip
    return line + tag("text", clean(mark.label), x=x, y=low - 0.4 * gap, text_anchor="middle")


def _fewer(loop: Floats, her: Assessment) -> Floats:
    """Return a line without points nearer to one another than shows, shape (m, 2) [mm]."""
    least, found = COARSE * MM * her.floater.length, [loop[0]]
    for point in loop[1:]:
        if np.hypot(*(point - found[-1])) >= least:
            found.append(point)
    return np.array(found)


def _path(loop: Floats, name: str) -> str:
    return tag("path", d=way(loop), class_=name, vector_effect="non-scaling-stroke")


def _path_of(found: list[Floats], name: str) -> str:
    return tag("path", d=ways(found), class_=name, vector_effect="non-scaling-stroke")


def _rooms(her: Assessment) -> list[Floats]:
    """Return the outlines of cylinders and tanks [mm]."""
    boat = her.boat
    tubes = [mesh for one in boat.cylinders for mesh in vessel_meshes(one, bore=False)]
    tanks = [tank_room(tank, boat, her.files) for tank in boat.tanks]
    return [wrapped(SIDE.on(mesh.vertices)) for mesh in (*tubes, *tanks)]


def _out_of_water(her: Assessment, seen: list[Floats]) -> str:
    """Return what of the hull stands above the waterline meant."""
    if her.boat.waterline is None:
        return ""
    n, d = her.waterline
    edge = SIDE.on(np.array([n * d, n * d + np.array([n[2], 0.0, -n[0]])]))
    along = edge[1] - edge[0]
    up = np.array([along[1], -along[0]]) / float(np.hypot(*along))
    upper = [kept(loop, up, float(up @ edge[0])) for loop in seen]
    return _path_of([loop for loop in upper if len(loop) > 2], "out")


def _waterline(her: Assessment, left: float, right: float) -> str:
    if her.boat.waterline is None:
        return ""
    ends = [(x, -MM * her.boat.waterline.height_at(x / MM)) for x in (left, right)]
    return tag(
        "path",
        d=way(np.array(ends), closed=False),
        class_="waterline",
        vector_effect="non-scaling-stroke",
    )
