"""Coming up with a tower still full of water: how stiff she is while it has not drained.

The tower's whole outside shape displaces then, and the water in it is a slack tank that is all but
full: never lost buoyancy and added water both. Where she will not stand upright she leans.
"""

import numpy as np

from trimdive.ballast.dive.changed import held_water, outside_of
from trimdive.ballast.dive.path import Path
from trimdive.ballast.dive.table import Moment
from trimdive.ballast.dive.whatif import Made
from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.solids.hull import Skin
from trimdive.geometry.solids.moments import centroid
from trimdive.geometry.solids.tree import forest, plant
from trimdive.hydrostatics.equilibrium import Floater, Rest, Tanks, floater, rest, state

STEPS = 40  # moments on the way up [-]
LARGE_HEEL = 0.05  # leaning more than this she does not stand upright [rad]
FULL = 0.99  # of the room, so that its water has a surface, as it has as soon as it drains [-]


def with_room(tanks: Tanks, room: Mesh, centre: Floats) -> Tanks:
    """Return the tanks and one more, open, of the shape of a room.

    Args:
        tanks: Her tanks.
        room: The room.
        centre: From which the tanks are measured, shape (3,) [m].
    """
    tree = plant(room, 1.0, centre)
    return Tanks(
        tree=forest([tanks.tree, tree]) if len(tanks.volumes) else tree,
        volumes=np.append(tanks.volumes, volume(room)),
        centroids=np.vstack([tanks.centroids, centroid(room) - centre]),
        shares=np.append(tanks.shares, 1.0),
        pistons=np.append(tanks.pistons, 0.0),
        ends=np.append(tanks.ends, 0.0),
        strokes=np.append(tanks.strokes, 0.0),
    )


def inside_of(skin: Skin) -> Mesh:
    """Return the room within a skin, whose body is its outer face and the inner one turned out."""
    corners, faces = len(skin.outer.vertices), len(skin.outer.triangles)
    inner = skin.body.triangles[faces:] - corners
    return Mesh(vertices=skin.body.vertices[corners:], triangles=inner[:, ::-1])


def _ready(her: Made, region: str) -> tuple[Floater, float]:
    """Return her with a region full of water as a slack tank, and how much it holds [m³]."""
    bodies, _, number, _ = held_water(
        her.boat, her.hull, her.bodies, her.masses, region, her.floater.density
    )
    ready = floater(her.boat, her.files, bodies, her.masses, her.floater.density)
    skin = her.hull.skins[number - 1]
    whole = outside_of(her.boat.regions[number - 1], skin)
    room = inside_of(skin) if whole is skin.outer else whole
    return ready._replace(tanks=with_room(ready.tanks, room, ready.tree.centre)), volume(room)


def coming_up_full(her: Made, path: Path, region: str) -> tuple[Moment, ...]:
    """Return the way up with a region full of water, from full tanks to blown ones.

    Args:
        her: The boat.
        path: The planned way of filling, passed backwards.
        region: Its name.

    Raises:
        AskError: There is no such region, or it holds no water.
    """
    ready, room = _ready(her, region)
    at: Rest | None = None
    found: list[Moment] = []
    for share in np.linspace(1.0, 0.0, STEPS + 1):
        waters = np.append(path.at(float(share)), FULL * room)
        at = rest(ready, waters, start=at)
        found.append(Moment(filling=float(share), state=state(ready, at)))
    return tuple(found)
