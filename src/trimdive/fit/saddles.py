"""Where saddles may stand under a cylinder, and how large each is cut.

Two to a cylinder, at the quarter points of its length, or as near to them as nothing else stands:
upright plates from the inside of the skin up to the height of the axis, cut out round for the
cylinder. What passes through the hull is not looked at. Common practice, no source.
"""

from collections.abc import Sequence

import numpy as np

from trimdive.boatfile import Boat, Cylinder
from trimdive.geometry.clashes.scene import Scene
from trimdive.geometry.clashes.shapes import Span
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.section import segments
from trimdive.records import record

THICK = 0.006  # of a saddle's plate [m]
STEP = 0.001  # between places that are tried [m]
OFF = 1e-5  # the middle line is looked along this far to port, off corners that lie in it [m]
Spans = tuple[Span, Span, Span]
ALONG = np.array([1.0, 0.0, 0.0])


@record
class Saddle:
    """One saddle under a cylinder."""

    name: str  # of the cylinder
    path: str  # of it in the boat file
    x: float  # of its middle, forward of the stern [m]
    off: float  # so far forward of the quarter point [m]
    breadth: float  # of the hull inside, at the height of the axis [m]
    height: float  # from the inside of the skin on the middle line up to the axis [m]
    cut: float  # diameter of the round cut-out [m]
    in_way: tuple[str, ...]  # what stands there all the same: nowhere in its half stands less


def saddles(boat: Boat, scene: Scene, gap: float) -> tuple[Saddle, ...]:
    """Return the saddles of every cylinder on the middle line, from aft.

    Args:
        boat: A resolved boat.
        scene: What takes up room, and the skins.
        gap: Left around a cylinder [m].
    """
    skins = [body for _, _, body in scene.skins]
    stands = _stands(boat, scene)
    found: list[Saddle] = []
    for k, vessel in enumerate(boat.cylinders, 1):
        if vessel.slope or vessel.pair or vessel.y or vessel.inside:
            continue
        for way in (-1.0, 1.0):
            one = _under(vessel, f"cylinder[{k}]", way, skins, stands, gap)
            if one is not None:
                found.append(one)
    return tuple(found)


def _stands(boat: Boat, scene: Scene) -> list[tuple[str, Spans]]:
    """Return name and bounds of all that a saddle must be clear of [m]."""
    found = [
        (one.name, one.shape.spans)
        for one in scene.aboard.solids
        if one.claims and not one.home and not one.through and one.kind != "cylinder"
    ]
    found += [(one.name, space.spans) for one, space in scene.aboard.moving if not one.home]
    for space in boat.keep_clear:
        ends = ((space.x_aft, space.x_fore), (space.y_starboard, space.y_port))
        found.append((space.name, (*ends, (space.z_bottom, space.z_top))))
    return found


def _under(
    vessel: Cylinder, path: str, way: float, skins: Sequence[Mesh],
    stands: Sequence[tuple[str, Spans]], gap: float,
) -> Saddle | None:  # fmt: skip
    """Return the saddle under the after (-1) or the fore half (1) of a cylinder; or None."""
    quarter = vessel.x + way * vessel.length / 4
    most = vessel.length / 4 - THICK
    steps = np.arange(0.0, most, STEP)
    shifts = np.stack([steps, -steps], axis=1).ravel()[1:].tolist()
    low = _inside(skins, quarter, vessel.z)
    if low is None:
        return None
    near = [one for one in stands if one[1][2][0] < vessel.z and one[1][2][1] > vessel.z - low[1]]
    off = min(shifts, key=lambda far: (len(_in_way(near, quarter + far)), abs(far)))
    x = quarter + off
    size = _inside(skins, x, vessel.z)
    if size is None:
        return None
    return Saddle(
        name=vessel.name, path=path, x=x, off=off, breadth=size[0], height=size[1],
        cut=vessel.outside + 2 * gap, in_way=_in_way(near, x),
    )  # fmt: skip


def _in_way(stands: Sequence[tuple[str, Spans]], x: float) -> tuple[str, ...]:
    """Return the names of what a saddle would meet at a place."""
    half = THICK / 2
    names = [name for name, spans in stands if spans[0][0] < x + half and spans[0][1] > x - half]
    return tuple(dict.fromkeys(names))


def _inside(skins: Sequence[Mesh], x: float, z: float) -> tuple[float, float] | None:
    """Return breadth of the hull inside at a height, and how far down it goes there [m]; or None.

    Args:
        skins: Walls of the regions.
        x: Place along her [m].
        z: The height [m].
    """
    cut = np.concatenate(
        [np.zeros((0, 2, 2)), *(segments(one.corners, ALONG, x)[:, :, 1:] for one in skins)]
    )
    out = _crossed(cut, 1, z)
    down = _crossed(cut, 0, OFF)
    half = out[out > 0.0]
    below = down[down < z]
    if not (half.size and below.size):
        return None
    return 2 * float(half.min()), z - float(below.max())


def _crossed(cut: Floats, axis: int, at: float) -> Floats:
    """Return where lines cross a level of one axis, along the other, shape (k,) [m].

    Args:
        cut: Pieces of line, shape (n, 2, 2) [m].
        axis: Of the level, 0 or 1.
        at: The level [m].
    """
    a, b = cut[:, 0], cut[:, 1]
    meets = (a[:, axis] - at) * (b[:, axis] - at) < 0.0
    a, b = a[meets], b[meets]
    share = (at - a[:, axis]) / (b[:, axis] - a[:, axis])
    return a[:, 1 - axis] + share * (b[:, 1 - axis] - a[:, 1 - axis])
