"""How things fit: gaps, the largest cylinder, saddles, room left, and whether things come out."""

from trimdive.boatfile import Boat
from trimdive.fit.gaps import Beside, gaps
from trimdive.fit.inside import Largest, Room, largest
from trimdive.fit.out import Out, outs
from trimdive.fit.saddles import Saddle, saddles
from trimdive.fit.sections import Sections, sections
from trimdive.geometry.clashes.scene import Scene
from trimdive.geometry.lines.mesh import volume
from trimdive.geometry.solids.hull import Hull
from trimdive.geometry.solids.walls import walls
from trimdive.records import record

SHARES = (0.1, 0.2, 0.3, 0.4, 0.5, 0.6)  # of the hull's length, for which the largest is told [-]


@record
class Fit:
    """How things fit into a hull."""

    gaps: tuple[Beside, ...]  # of each thing, narrowest first
    room: Room
    largest: tuple[Largest, ...]  # cylinders, by their lengths
    sections: Sections  # along the hull
    left: float  # volume inside the skin that nothing takes up [m³]
    saddles: tuple[Saddle, ...]  # two under each cylinder on the middle line
    outs: tuple[Out, ...]  # of each large thing; none where no hatch is entered


def fitted(
    boat: Boat,
    hull: Hull,
    scene: Scene,
    where: Room,
    gap: float,
) -> Fit:
    """Return how things fit.

    Args:
        boat: A resolved boat.
        hull: Her hull.
        scene: What takes up room, and the skins.
        where: How wide a cylinder may be.
        gap: Left around a cylinder in the skin [m].
    """
    skins = [(name, path, walls(mesh)) for name, path, mesh in scene.skins]
    stands = [mesh for _, _, mesh in skins]
    low, high = hull.envelope.bounds[:, 0]
    sizes = (largest(where, share * float(high - low), gap) for share in SHARES)
    within = [one for one in scene.aboard.solids if one.claims and not one.home]
    taken = sum(one.shape.volume for one in within)
    inside = volume(hull.envelope) - sum(volume(mesh) for mesh in stands)
    return Fit(
        gaps=gaps(scene.aboard.solids, skins, scene.aboard.moving),
        room=where,
        largest=tuple(one for one in sizes if one is not None),
        sections=sections(stands, hull.envelope, within, boat.waterline),
        left=max(inside - taken, 0.0),
        saddles=saddles(boat, scene, gap),
        outs=outs(boat, hull, scene.aboard),
    )
