"""The wall of a skin all over it, from spots at which it was measured.

Where every spot is told along the boat only, the wall goes along her by the shape-preserving cubic
of Fritsch and Carlson (1980), and is even beyond the first and the last. Where a spot is told round
the girth too, it goes by natural neighbours (Sibson 1981) over the skin unrolled into a square:
along the boat, and from the keel round to the middle of the deck, since a wall changes as much from
keel to deck as from end to end. Each place takes from the spots about it by how much of their
ground it would take over. Keel, deck and ends mirror the spots: both sides of the boat are alike,
and nothing is run on beyond the last spot. Either is exact at the spots, smooth between them, and
never outside the least and the largest that was measured.
"""

from collections.abc import Sequence

import numpy as np
from scipy.interpolate import PchipInterpolator
from scipy.spatial import Voronoi

from trimdive.boatfile.regions import WallSpot
from trimdive.errors import GeometryError
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.meshes.solid import mesh_of, solid_of
from trimdive.geometry.solids.section import segments
from trimdive.records import record

FINE = 48  # edges along a surface, at the least [-]
PLACES = 48  # along a surface at which its sections are looked at [-]
FLAT = 0.999  # of the greatest half-breadth: so broad is the side [-]
OFF = 0.1  # of the height of a section: so far above or below it a spot counts as on it [-]
BEYOND = 0.01  # of the length: so far beyond an end a spot counts as on it [-]
SAME = 1e-7  # spots nearer each other than this, of the skin's length, are one [-]
FINEST = 12  # decimals of a metre by which places are told apart [-]
FAR = 50.0  # so many lengths off stand the points that close the outermost ground [-]
TURNS = {"keel": 0.0, "side": np.pi / 2, "deck": np.pi}  # round the girth [rad]
AHEAD = np.array([1.0, 0.0, 0.0])


@record
class Belts:
    """Where keel, greatest breadth and deck of a surface run."""

    x: Floats  # places along, rising, shape (n,) [m]
    low: Floats  # keel, shape (n,) [m]
    widest: Floats  # height of the greatest breadth, shape (n,) [m]
    high: Floats  # top, shape (n,) [m]
    half: Floats  # greatest half-breadth, shape (n,) [m]
    middle: float  # of the breadth, to port [m]

    def turn(self, points: Floats) -> Floats:
        """Return how far round the girth points lie, shape (n,) [rad]: keel 0, side π/2, deck π.

        Args:
            points: On the surface, shape (n, 3) [m].
        """
        x, y, z = points.T
        low, widest, high, half = (
            np.interp(x, self.x, line) for line in (self.low, self.widest, self.high, self.half)
        )
        below = np.where(z < widest, widest - low, high - widest)
        up = (z - widest) / np.maximum(below, 1e-9)
        return np.pi / 2 + np.arctan2(up, np.abs(y - self.middle) / np.maximum(half, 1e-9))


@record
class Wall:
    """The wall of a skin all over it: even, along her only, or all round her too."""

    x: Floats  # of each spot, shape (k,) [m]
    turn: Floats  # of each, round the girth; nan for all round, shape (k,) [rad]
    thickness: Floats  # at each, shape (k,) [m]
    ends: tuple[float, float]  # of the skin along her [m]

    def at(self, x: Floats, turn: Floats | float = np.pi / 2) -> Floats:
        """Return the wall at places, shape (n,) [m].

        Args:
            x: Along the boat, shape (n,) [m].
            turn: Round the girth, shape (n,) [rad]; left out, at the side.
        """
        if len(self.x) == 1:
            return np.full(len(x), self.thickness[0])
        known = ~np.isnan(self.turn)
        if not known.any():
            return _along(self.x, self.thickness, x)
        low = min(self.ends[0], float(self.x.min()))
        high = max(self.ends[1], float(self.x.max()))
        scale = (high - low) / np.pi
        spots = [np.column_stack([self.x[known], self.turn[known] * scale])]
        values = [self.thickness[known]]
        for turned in TURNS.values():
            spots.append(np.column_stack([self.x[~known], np.full((~known).sum(), turned * scale)]))
            values.append(self.thickness[~known])
        corners = np.array([[low, 0.0], [high, high - low]])
        places = np.column_stack([x, np.broadcast_to(turn, x.shape) * scale])
        return _by_neighbours(np.concatenate(spots), np.concatenate(values), corners, places)


def even(thickness: float) -> Wall:
    """Return a wall of one thickness [m]."""
    return Wall(
        x=np.zeros(1), turn=np.full(1, np.nan), thickness=np.full(1, thickness),
        ends=(0.0, 0.0),
    )  # fmt: skip


def measured(mesh: Mesh, spots: Sequence[WallSpot], name: str) -> Wall:
    """Return the wall of a surface from the spots at which it was measured.

    Args:
        mesh: The outer surface, whole and closed.
        spots: At least one.
        name: Whose they are, for messages.

    Raises:
        GeometryError: A spot lies off the surface.
    """
    turned = [_turn(mesh, spot, number, name) for number, spot in enumerate(spots, 1)]
    low, high = mesh.bounds[:, 0].tolist()
    return Wall(
        x=np.array([spot.x for spot in spots]),
        turn=np.array(turned),
        thickness=np.array([spot.thickness for spot in spots]),
        ends=(low, high),
    )


@with_mesh(2)
def thickness_over(mesh: Mesh, spots: tuple[WallSpot, ...], name: str) -> Floats:
    """Return the wall at each corner of a closed surface from spots, shape (n,) [m].

    Args:
        mesh: The surface.
        spots: At least one.
        name: Whose they are, for messages.

    Raises:
        GeometryError: A spot lies off the surface.
    """
    return measured(mesh, spots, name).at(mesh.vertices[:, 0], belts(mesh).turn(mesh.vertices))


@with_mesh(1)
def refined(mesh: Mesh) -> Mesh:
    """Return a surface with corners near enough to each other for a wall that varies.

    Raises:
        GeometryError: It does not close.
    """
    corners = mesh.corners
    longest = float(np.linalg.norm(corners - np.roll(corners, 1, axis=1), axis=2).max())
    step = float(np.ptp(mesh.bounds, axis=0).max()) / FINE
    if longest <= 2 * step:
        return mesh
    return mesh_of(solid_of(mesh, "skin").refine_to_length(step))


@with_mesh(1)
def belts(mesh: Mesh) -> Belts:
    """Return where keel, greatest breadth and deck of a closed surface run."""
    (first, *_), (last, *_) = mesh.bounds
    middle = float(mesh.bounds[:, 1].mean())
    corners = mesh.corners
    aft, fore = corners[..., 0].min(axis=1), corners[..., 0].max(axis=1)
    rows: list[tuple[float, ...]] = []
    for x in first + (last - first) * (np.arange(PLACES) + 0.5) / PLACES:
        found = segments(corners[(aft <= x) & (fore >= x)], AHEAD, x).reshape(-1, 3)
        if not len(found):
            continue
        off = np.abs(found[:, 1] - middle)
        sides = found[off >= FLAT * off.max(), 2]
        widest = (sides.min() + sides.max()) / 2
        rows.append((x, found[:, 2].min(), widest, found[:, 2].max(), off.max()))
    x, low, widest, high, half = np.array(rows).T
    return Belts(x=x, low=low, widest=widest, high=high, half=half, middle=middle)


def _turn(mesh: Mesh, spot: WallSpot, number: int, name: str) -> float:
    """Return how far round the girth a spot lies [rad]; nan where it stands for all round.

    Raises:
        GeometryError: It lies off the surface.
    """
    aft, fore = mesh.bounds[:, 0].tolist()
    if max(aft - spot.x, spot.x - fore) > BEYOND * (fore - aft):
        what = f"the spot at x {spot.x * 1e3:.5g} mm lies beyond the end of the surface, which "
        what += f"goes from {aft * 1e3:.5g} to {fore * 1e3:.5g} mm"
        raise GeometryError(what, f"{name}, walls {number}", "Measure its place again.")
    if spot.z is None:
        return TURNS[spot.at] if spot.at else float("nan")
    belt = belts(mesh)
    low, high = (float(np.interp(spot.x, belt.x, line)) for line in (belt.low, belt.high))
    slack = OFF * (high - low)
    if not low - slack <= spot.z <= high + slack:
        what = f"the spot at height {spot.z * 1e3:.4g} mm lies off the surface, which goes "
        what += f"from {low * 1e3:.4g} to {high * 1e3:.4g} mm there"
        mend = "Measure its height above the keel line again."
        raise GeometryError(what, f"{name}, walls {number}", mend)
    z = min(max(spot.z, low), high)
    return float(belt.turn(np.array([[spot.x, belt.middle + _half(mesh, spot.x, z), z]]))[0])


def _half(mesh: Mesh, x: float, z: float) -> float:
    """Return how far from its middle a surface goes at a height [m]."""
    low, high = mesh.bounds[:, 0]
    inside = min(max(x, low + 1e-6 * (high - low)), high - 1e-6 * (high - low))
    lines = segments(mesh.corners, AHEAD, inside)[..., 1:]
    ends = np.sort(lines[..., 1], axis=1)
    over = lines[(ends[:, 0] <= z) & (ends[:, 1] >= z)]
    if not len(over):
        return 0.0
    (a, b), (za, zb) = np.moveaxis(over, 0, -1)[:, 0], np.moveaxis(over, 0, -1)[:, 1]
    run = np.where(zb == za, 1.0, zb - za)
    y = np.where(zb == za, b, a + (b - a) * (z - za) / run)
    return float(np.abs(y - mesh.bounds[:, 1].mean()).max())


def _along(spots: Floats, values: Floats, x: Floats) -> Floats:
    """Return values along a line between spots of which several may lie at one place."""
    at, which = np.unique(spots, return_inverse=True)
    mean = np.bincount(which, values) / np.bincount(which)
    if len(at) == 1:
        return np.full(len(x), mean[0])
    return np.clip(
        PchipInterpolator(at, mean)(np.clip(x, at[0], at[-1])), values.min(), values.max()
    )


def _by_neighbours(spots: Floats, values: Floats, corners: Floats, places: Floats) -> Floats:
    """Return values at places by natural neighbours, shape (n,).

    Args:
        spots: Shape (k, 2) [m].
        values: At them, shape (k,) [any].
        corners: Of the rectangle in which all lies, at whose sides spots are mirrored (2, 2) [m].
        places: Shape (n, 2) [m].

    Source:
        Sibson 1981, A brief description of natural neighbour interpolation.
    """
    size = float(np.ptp(corners, axis=0).max())
    places, where = np.unique(places.round(FINEST), axis=0, return_inverse=True)  # both sides once
    sites, held = _mirrored(spots, values, corners, size)
    total, weight = np.zeros(len(places)), np.zeros(len(places))
    square = (places**2).sum(axis=1)
    for site, value, ground in _grounds(sites, held, corners, size):
        nearer = ((ground - site) ** 2 - ground**2).sum(axis=1) + 2 * places @ ground.T
        nearer -= square[:, None]
        some = np.flatnonzero(nearer.max(axis=1) > 0)
        taken = _taken(site, ground, places[some], nearer[some])
        total[some] += value * taken
        weight[some] += taken
    near = np.linalg.norm(places[:, None] - spots, axis=2)
    nearest = near.argmin(axis=1)
    is_spot = (near.min(axis=1) <= SAME * size) | (weight <= 0)
    exact = _at_spots(spots, values, size)
    found = np.where(is_spot, exact[nearest], total / np.maximum(weight, 1e-300))
    return np.clip(found, values.min(), values.max())[where.ravel()]


def _at_spots(spots: Floats, values: Floats, size: float) -> Floats:
    """Return the mean of what was measured at each spot, shape (k,)."""
    is_same = np.linalg.norm(spots[:, None] - spots, axis=2) <= SAME * size
    return (is_same @ values) / is_same.sum(axis=1)


def _mirrored(spots: Floats, values: Floats, corners: Floats, size: float) -> tuple[Floats, Floats]:
    """Return spots with what each side of a rectangle mirrors of them, each place once."""
    for axis in (0, 1):
        ways: list[Floats] = [spots]
        for edge in corners[:, axis]:
            image = spots.copy()
            image[:, axis] = 2 * edge - image[:, axis]
            ways.append(image)
        spots, values = np.concatenate(ways), np.tile(values, 3)
    keys = np.rint(spots / (SAME * size)).astype(np.int64)
    _, first, which = np.unique(keys, axis=0, return_index=True, return_inverse=True)
    mean = np.bincount(which.ravel(), values) / np.bincount(which.ravel())
    return spots[first], mean


def _grounds(
    sites: Floats, values: Floats, corners: Floats, size: float
) -> list[tuple[Floats, float, Floats]]:
    """Return each spot with its value and the corners of its ground, as far as it matters.

    A place takes ground from a spot only where it lies in a circle about a corner of that ground
    through the spot; grounds of which no circle meets the rectangle are left out.
    """
    around = np.linspace(0.0, 2 * np.pi, 8, endpoint=False) + 0.1
    far = corners.mean(axis=0) + FAR * size * np.column_stack([np.cos(around), np.sin(around)])
    cells = Voronoi(np.concatenate([sites, far]))
    found: list[tuple[Floats, float, Floats]] = []
    for number, (site, value) in enumerate(zip(sites, values.tolist(), strict=True)):
        ground = cells.vertices[cells.regions[cells.point_region[number]]]
        off = np.maximum(np.maximum(corners[0] - ground, ground - corners[1]), 0.0)
        reach = np.linalg.norm(ground - site, axis=1)
        if (np.linalg.norm(off, axis=1) < reach * (1 + 1e-9)).any():
            turned = np.argsort(np.arctan2(*(ground - site).T[::-1]))
            found.append((site, value, ground[turned]))
    return found


def _taken(site: Floats, ground: Floats, places: Floats, nearer: Floats) -> Floats:
    """Return how much of a spot's ground each place would take over, shape (n,) [m²].

    The corners of what is taken are looked at from the middle between spot and place, on the line
    that bounds it, so that this line adds nothing to the sum round it.

    Args:
        site: The spot, shape (2,) [m].
        ground: Corners of its ground, anticlockwise, shape (m, 2) [m].
        places: Shape (n, 2) [m].
        nearer: How much nearer each corner is to a place than to the spot, squared, (n, m) [m²].
    """
    middle = (site + places) / 2
    before = np.roll(nearer, -1, axis=1)
    a = ground - middle[:, None]
    b = np.roll(ground, -1, axis=0) - middle[:, None]
    share = nearer / np.where(nearer == before, 1.0, nearer - before)
    crossing = a + np.clip(share, 0.0, 1.0)[..., None] * (b - a)
    start = np.where((nearer >= 0)[..., None], a, crossing)
    stop = np.where((before >= 0)[..., None], b, crossing)
    twice = start[..., 0] * stop[..., 1] - start[..., 1] * stop[..., 0]
    is_kept = (nearer >= 0) | (before >= 0)
    return np.maximum(np.where(is_kept, twice, 0.0).sum(axis=1) / 2, 0.0)
