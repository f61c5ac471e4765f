"""How far a cylinder may move along her: within the skin less the gap, clear of what stays."""

import numpy as np

from trimdive.assessment import Assessment
from trimdive.boatfile.ref import ref
from trimdive.edits.carried import carried_by, piece_at
from trimdive.findings import Edit, limit_of
from trimdive.fit.inside import ranges, runs
from trimdive.geometry.clashes.found import share_room, touches
from trimdive.geometry.clashes.scene import with_shape
from trimdive.geometry.clashes.shapes import Shape, meets
from trimdive.geometry.clashes.solids import Solid

FINE = 5e-5  # as exactly as round things and the room for them are known [m]
STEP = 0.002  # between places at which it is held against what stays [m]


def ways_of(her: Assessment, k: int) -> tuple[tuple[float, float], ...]:
    """Return how far a cylinder may move along her at its height, each without a break [m].

    Args:
        her: The boat.
        k: The cylinder, from 0.
    """
    vessel = her.boat.cylinders[k]
    own = her.scene.by_path[f"cylinder[{k + 1}]"][0]
    least = limit_of("gap-cylinder", her.boat).value + FINE
    within = ranges(her.fit_room, vessel.length, vessel.outside, least, vessel.z)
    stands = _stands(her, own)
    found: list[tuple[float, float]] = []
    for aft, fore in within:
        x = np.linspace(aft, fore, max(int(np.ceil((fore - aft) / STEP)), 1) + 1)
        clear = np.array([_is_clear(own, float(at) - vessel.x, stands) for at in x])
        found += runs(x, clear)
    return tuple((aft - vessel.x, fore - vessel.x) for aft, fore in found)


def _stands(her: Assessment, own: Solid) -> list[Solid]:
    """Return what a cylinder must be clear of: what stays, and spaces to be kept clear."""
    found = [
        solid
        for solid in her.scene.aboard.solids
        if solid.claims and not solid.home and solid.kind != "cylinder"
    ]
    found += [
        with_shape(solid, space) for solid, space in her.scene.aboard.moving if not solid.home
    ]
    for space in her.boat.keep_clear:
        low = (space.x_aft, space.y_starboard, space.z_bottom)
        high = (space.x_fore, space.y_port, space.z_top)
        place = tuple((a + b) / 2 for a, b in zip(low, high, strict=True))
        size = tuple(b - a for a, b in zip(low, high, strict=True))
        found.append(with_shape(own, Shape("box", place, size)))  # pyright: ignore[reportArgumentType] - three each
    return found


def _is_clear(own: Solid, shift: float, stands: list[Solid]) -> bool:
    moved = with_shape(own, own.shape.shifted(shift, 0.0, 0.0))
    return not any(
        meets(moved.shape, other.shape)
        and (other.path == own.path or share_room(moved, other))
        and not touches(moved.shape, other.shape)
        for other in stands
    )


def lifted(her: Assessment, k: int) -> tuple[Edit, ...]:
    """Return the change to the height nearest to its own at which a cylinder goes in; none: as is.

    Args:
        her: The boat.
        k: The cylinder, from 0.
    """
    vessel, room = her.boat.cylinders[k], her.fit_room
    least = limit_of("gap-cylinder", her.boat).value + FINE
    for z in (vessel.z, *sorted(room.z.tolist(), key=lambda z: abs(z - vessel.z))):
        if ranges(room, vessel.length, vessel.outside, least, z):
            return () if z == vessel.z else _raised(her, k, z - vessel.z)
    return ()


def _raised(her: Assessment, k: int, up: float) -> tuple[Edit, ...]:
    """Return the change that raises a cylinder with all in it."""
    return tuple(
        Edit(action="set", path=path, fields=(("z", piece_at(her.boat, ref(path)).z + up),))
        for path in carried_by(her.boat, f"cylinder[{k + 1}]")
    )
