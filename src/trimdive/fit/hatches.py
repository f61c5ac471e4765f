"""What stands when hatches are open: walls, the openings, and what comes off with them."""

from collections.abc import Sequence

import numpy as np

from trimdive.boatfile import Boat, Hatch
from trimdive.geometry.clashes.shapes import Shape
from trimdive.geometry.clashes.solids import Aboard
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.walls import walls
from trimdive.records import record

BEYOND = 10.0  # so far a way out goes on beyond the hull [m]
GOES_OFF = ("part", "lead", "foam")  # kinds of things that come off with what they stand on


@record
class Opened:
    """The boat with hatches open."""

    walls: tuple[Mesh, ...]  # of what stands
    shafts: tuple[Shape, ...]  # boxes in which no wall counts: each opening, and on outwards
    off: frozenset[str]  # paths of what comes off with the hatches


def opened(boat: Boat, hull: Hull, aboard: Aboard, hatches: Sequence[Hatch]) -> Opened:
    """Return what stands when some hatches are open.

    Args:
        boat: A resolved boat.
        hull: Her hull.
        aboard: Everything that takes up room.
        hatches: What is open.
    """
    gone = {name for hatch in hatches for name in hatch.off}
    standing = [
        walls(skin.body)
        for region, skin in zip(boat.regions, hull.skins, strict=True)
        if not region.sealed and skin.name not in gone
    ]
    shafts = tuple(shaft(hatch, hull) for hatch in hatches)
    off = {
        solid.path
        for solid in aboard.solids
        if solid.kind in GOES_OFF and not solid.home and _is_in(solid.shape.place, shafts)
    }
    return Opened(walls=tuple(standing), shafts=shafts, off=frozenset(off))


def in_order(hatches: Sequence[Hatch]) -> tuple[Hatch, ...]:
    """Return hatches in an order in which they can be opened: those that wait for others later."""
    left, found = list(hatches), list[Hatch]()
    while left:
        opened_now = {one.name for one in found}
        here = next((one for one in left if opened_now.issuperset(one.after)), left[0])
        left.remove(here)
        found.append(here)
    return tuple(found)


def shaft(hatch: Hatch, hull: Hull) -> Shape:
    """Return the box of a hatch and of all that lies before it on the way out.

    Args:
        hatch: With its places from the stern.
        hull: The hull in which it is cut.
    """
    bodies = [skin.body for skin in hull.skins if skin.name in hatch.off] or [hull.envelope]
    bounds = np.stack([body.bounds for body in bodies])
    low, high = bounds[:, 0].min(axis=0), bounds[:, 1].max(axis=0)
    lip = hatch.lip or 0.0
    low[0] = (low[0] if hatch.x_aft is None else hatch.x_aft) + lip
    high[0] = (high[0] if hatch.x_fore is None else hatch.x_fore) - lip
    if hatch.breadth is not None:
        low[1], high[1] = hatch.y - hatch.breadth / 2 + lip, hatch.y + hatch.breadth / 2 - lip
    if hatch.z_bottom is not None:
        low[2] = hatch.z_bottom
    return _outwards(low, high, hatch.way)


def _outwards(low: Floats, high: Floats, way: str) -> Shape:
    """Return a box carried on outwards; fore and aft it is as wide as everything."""
    if way == "up":
        high[2] += BEYOND
    else:
        low[1:], high[1:] = -BEYOND, BEYOND
        if way == "forward":
            high[0] += BEYOND
        else:
            low[0] -= BEYOND
    middle, size = (low + high) / 2, np.maximum(high - low, 0.0)
    return Shape("box", tuple(middle.tolist()), tuple(size.tolist()))


def _is_in(place: Sequence[float], shafts: Sequence[Shape]) -> bool:
    """Return whether a place lies in one of some boxes."""
    return any(
        all(low <= at <= high for at, (low, high) in zip(place, box.spans, strict=True))
        for box in shafts
    )
