"""The least gap of everything in the hull: to the skin, and to what stands nearest to it."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from trimdive.geometry.clashes.found import share_room
from trimdive.geometry.clashes.shapes import Shape, Triple
from trimdive.geometry.clashes.solids import Solid
from trimdive.geometry.lines.mesh import Mesh
from trimdive.geometry.solids.nearest import gap
from trimdive.records import record

MOVING = "moving"  # the kind of what moves, on its way
ALOFT = 0.1  # farther than this no gap is told [m]


@record
class Beside:
    """How near one thing is to another, or to a skin."""

    name: str
    path: str  # in the boat file
    kind: str  # cylinder, tank, part, lead or foam; or moving
    other: str  # the nearest thing, or region
    other_path: str
    to: str  # "skin" or "thing"
    width: float  # of the gap; 0 where they touch or share room [m]
    place: Triple  # where on the thing [m]


def gaps(
    solids: Sequence[Solid],
    skins: Sequence[tuple[str, str, Mesh]],
    moving: Sequence[tuple[Solid, Shape]] = (),
) -> tuple[Beside, ...]:
    """Return of each thing the least gap to a skin and to another thing, narrowest first.

    Both of a pair count as one, and two things that are nearest to each other are told once. What
    lies in a cylinder is held against what lies there with it.

    Args:
        solids: Everything that takes up room.
        skins: Name, path and walls of each region.
        moving: What moves, and the space that it sweeps: told apart from where it lies.
    """
    found: dict[tuple[str, str], Beside] = {}
    held = [solid for solid in solids if solid.claims]
    for solid in held:
        for one in (_to_skin(solid, skins), _to_thing(solid, held)):
            if one is None:
                continue
            best = found.get((one.path, one.to))
            if best is None or one.width < best.width:
                found[one.path, one.to] = one
    for solid, space in moving:
        one = _to_thing(replace(solid, shape=space), held)
        if one is not None:
            key = one.path, MOVING
            if key not in found or one.width < found[key].width:
                found[key] = replace(one, kind=MOVING)
    in_order = sorted(found.values(), key=lambda one: (one.width, one.path, one.to))
    told: dict[frozenset[str | bool], Beside] = {}
    for one in in_order:
        told.setdefault(frozenset((one.path, one.other_path, one.kind == MOVING)), one)
    return tuple(told.values())


def _to_skin(solid: Solid, skins: Sequence[tuple[str, str, Mesh]]) -> Beside | None:
    """Return the least gap of a thing in the hull to a region's skin."""
    if solid.home or solid.through:
        return None
    others = ((name, path, mesh) for name, path, mesh in skins)
    return _nearest(solid, others, "skin")


def _to_thing(solid: Solid, held: Sequence[Solid]) -> Beside | None:
    """Return the least gap of a thing to another that it may not share room with."""
    others = (
        (other.name, other.path, other.shape)
        for other in held
        if other is not solid and other.path != solid.path and share_room(solid, other)
    )
    return _nearest(solid, others, "thing")


def _nearest(
    solid: Solid, others: Iterator[tuple[str, str, Mesh | Shape]], to: str
) -> Beside | None:
    """Return the least gap of a thing to one of others, those whose boxes are nearest first."""
    best: Beside | None = None
    in_order = sorted(
        ((_apart(solid.shape, other), name, path, other) for name, path, other in others),
        key=lambda one: one[:3],
    )
    for apart, name, path, other in in_order:
        least = ALOFT if best is None else best.width
        if apart > least:
            break
        surface = other if isinstance(other, Mesh) else other.surface
        found = gap(solid.shape.surface, surface, least)
        if found is not None and (best is None or found.width < best.width):
            x, y, z = found.here.tolist()
            best = Beside(
                name=solid.name, path=solid.path, kind=solid.kind, other=name, other_path=path,
                to=to, width=found.width, place=(x, y, z),
            )  # fmt: skip
    return best


def _apart(shape: Shape, other: Mesh | Shape) -> float:
    """Return how far the boxes round two shapes are from each other [m]."""
    low, high = np.array(shape.spans).T
    bounds = other.bounds if isinstance(other, Mesh) else np.array(other.spans).T
    off = np.maximum(np.maximum(low - bounds[1], bounds[0] - high), 0.0)
    return float(np.linalg.norm(off))
