"""The hull: every region's skin as a closed body, and the outside shape of them all.

A region that stands on an earlier one, as a tower does, begins at that one's surface; holes
through the hull are taken out of both. A skin that was weighed gets the thickness at
which its volume times its density is its mass.

A hull that is changed shares most with the hull before, and what a change does not touch is found
again: each region's outer surface, its body, and the outside of them all are kept with the surface
that they are made of, by all that makes them.

Where the wall was measured at several spots the inner face lies as deep as they say, whatever
was weighed; the mass goes on saying how much the skin displaces.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from trimdive.boatfile import Boat, MeshRegion, Opening, PrismRegion, Region
from trimdive.boatfile.piece import HUNG_DENSITY
from trimdive.boatfile.regions import WallSpot
from trimdive.data import row
from trimdive.errors import GeometryError
from trimdive.geometry.lines.kept import while_used, with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh, join, volume
from trimdive.geometry.solids.inside import is_inside
from trimdive.geometry.solids.meshed import outside
from trimdive.geometry.solids.shapes import box, moved, turned_out
from trimdive.geometry.solids.skin import inner_face
from trimdive.geometry.solids.solids import Plane, carved, union
from trimdive.geometry.solids.surfaces import Files, same_surface, surface
from trimdive.geometry.solids.wall import Wall, even, measured, refined, thickness_over
from trimdive.records import record, short

BEYOND = 0.05  # how far a hole reaches past the hull, and an open end past the skin [m]
OUTERS, BODIES = 12, 6  # that are kept of one surface: trees and solids of a body are large [-]
FITS, NEAR = 4, 0.01  # most rounds of fitting a thickness, and how near is near enough [-]


@record
class Skin:
    """A region as a closed body."""

    name: str
    outer: Mesh  # its outer surface, as far as the region goes, closed
    body: Mesh  # what displaces
    thickness: float  # of the skin, on the mean; 0 for a vessel or a printed wall [m]
    wall: Wall  # how thick it is where
    shape_volume: float  # of the body [m³]
    volume: float  # that it displaces: as weighed or hung, else the body's [m³]
    area: float  # of the skin, its volume over its thickness [m²]

    @property
    def outline(self) -> Floats:
        """Return the outmost corners of the outer surface, shape (n, 3) [m]."""
        return outmost(self.outer)


@record
class _Made:
    """What the body of a region is made by, besides its surface and what is taken from it."""

    name: str
    planes: tuple[Plane, ...]  # that part it from the rest of its surface
    inset: float  # of the skin's outer face [m]
    thickness: float  # as told; 0 where it is not, or is fitted [m]
    spots: tuple[WallSpot, ...]  # between which its wall varies
    wanted: float  # volume of the skin or vessel; 0 where it was not weighed [m³]
    open_below: bool
    open_above: bool


@dataclass(frozen=True, slots=True, weakref_slot=True, kw_only=True)
class Hull:
    """All regions, and their outside shape with the flood water in it."""

    skins: tuple[Skin, ...]
    envelope: Mesh

    __repr__ = short


def density_of(material: str | None, density: float | None) -> float | None:
    """Return the density of a material [kg/m³], where it is known.

    Raises:
        DataError: The table has no such material.
    """
    if density is not None:
        return density
    return float(row("materials", material)["density"]) if material else None


def measured_volume(region: Region) -> float | None:
    """Return the volume of a region's skin as hung, or from mass and density [m³]."""
    if region.mass is None:
        return None
    if region.hung is not None:
        return (region.mass - region.hung) / HUNG_DENSITY
    density = density_of(region.material, region.density)
    return None if density is None or region.sealed else region.mass / density


@lru_cache(maxsize=16)
def _hole(opening: Opening, keel: float, top: float) -> Mesh:
    """Return the space of an opening as a box, reaching well past keel and top of the hull [m]."""
    low = keel - BEYOND if opening.z_bottom is None else opening.z_bottom
    high = top + BEYOND if opening.z_top is None else opening.z_top
    shape = box(opening.x_fore - opening.x_aft, opening.breadth, high - low)
    return moved(shape, (opening.x_aft + opening.x_fore) / 2, opening.y, (low + high) / 2)


def _planes(region: Region) -> tuple[Plane, ...]:
    """Return the planes that part a region from the rest of its surface."""
    limits = (
        (region.below, (0.0, 0.0, 1.0)),
        (region.above, (0.0, 0.0, -1.0)),
        (region.aft_of, (1.0, 0.0, 0.0)),
        (region.forward_of, (-1.0, 0.0, 0.0)),
    )
    return tuple((n, limit * sum(n)) for limit, n in limits if limit is not None)


def _made(region: Region) -> _Made:
    """Return what the body of a region is made by; a thickness that is fitted has no say."""
    wanted = measured_volume(region) or 0.0
    return _Made(
        name=region.name,
        planes=_planes(region),
        inset=region.inset,
        thickness=0.0 if wanted or region.spots else region.thickness or 0.0,
        spots=region.spots,
        wanted=wanted,
        open_below=region.open_below,
        open_above=region.open_above,
    )


def _opened(mesh: Mesh, inner: Mesh, made: _Made) -> tuple[Mesh, list[Plane]]:
    """Return the inner face carried through the ends that are open, and where it stops."""
    low, high = mesh.bounds[:, 2]
    vertices, planes = inner.vertices.copy(), list(made.planes)
    if made.open_below:
        vertices[mesh.vertices[:, 2] <= low + 1e-9, 2] = low - BEYOND
        planes.append(((0.0, 0.0, -1.0), -float(low)))
    if made.open_above:
        vertices[mesh.vertices[:, 2] >= high - 1e-9, 2] = high + BEYOND
        planes.append(((0.0, 0.0, 1.0), float(high)))
    return Mesh(vertices=vertices, triangles=inner.triangles), planes


def _skin_area(mesh: Mesh, made: _Made, taken: Sequence[Mesh]) -> float:
    """Return about how much of a surface is a region's skin [m²], triangle by triangle."""
    corners = mesh.corners
    middle = corners.mean(axis=1)
    kept = np.ones(len(middle), dtype=bool)
    for n, d in made.planes:
        kept &= middle @ np.array(n) <= d
    low, high = mesh.bounds[:, 2]
    if made.open_below:
        kept &= middle[:, 2] > low + 1e-9
    if made.open_above:
        kept &= middle[:, 2] < high - 1e-9
    for other in taken:
        kept[kept] &= ~is_inside(other, middle[kept])
    a, b, c = np.moveaxis(corners[kept], 1, 0)
    return float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2)


def _thickness(made: _Made, whole: Mesh, taken: Sequence[Mesh]) -> float:
    """Return the thickness of a skin [m]: that at which it has the wanted volume, else as told.

    The volume is thickness times the mean of the areas of both faces.
    """
    if not made.wanted:
        return made.thickness
    outer = _skin_area(whole, made, taken)
    thickness = made.wanted / max(outer, 1e-9)
    inner = _skin_area(inner_face(whole, made.inset + thickness), made, taken)
    return made.wanted / max((outer + inner) / 2, 1e-9)


@with_mesh(BODIES)
def _fitted(whole: Mesh, made: _Made, taken: tuple[Mesh, ...]) -> tuple[Mesh, float, float]:
    """Return a region's skin, how thick it is [m] and its volume [m³], fitted where weighed."""
    wanted, thickness = made.wanted, _thickness(made, whole, taken)
    if not thickness > 0:
        raise GeometryError("its skin has no thickness", made.name, "Give thickness or mass.")
    start = _outer(whole, made.planes, taken, made.name)
    if made.inset:
        start = carved(inner_face(whole, made.inset), made.planes, taken, made.name)
    body, filled = start, 0.0
    for _ in range(FITS):
        inner, planes = _opened(whole, inner_face(whole, made.inset + thickness), made)
        body = join([start, turned_out(carved(inner, planes, taken, made.name))])
        filled = volume(body)
        if not wanted or not filled > 0 or abs(filled / wanted - 1) < NEAR:
            break
        thickness *= wanted / filled
    if not filled > 0:
        what = f"a skin {thickness * 1e3:.3g} mm thick leaves nothing inside"
        raise GeometryError(what, made.name, "Look at its thickness, mass and density.")
    return body, thickness, filled


@with_mesh(BODIES)
def _varied(whole: Mesh, made: _Made, taken: tuple[Mesh, ...]) -> tuple[Mesh, float, float]:
    """Return a region's skin whose wall varies, its mean thickness [m] and its volume [m³]."""
    fine = refined(whole)
    depth = made.inset + thickness_over(fine, made.spots, made.name)
    face, start = inner_face(fine, depth), _outer(whole, made.planes, taken, made.name)
    if made.inset:
        start = carved(inner_face(whole, made.inset), made.planes, taken, made.name)
    inner, planes = _opened(fine, face, made)
    body = join([start, turned_out(carved(inner, planes, taken, made.name))])
    filled = volume(body)
    if not filled > 0:
        what = "a skin as thick as measured leaves nothing inside"
        raise GeometryError(what, made.name, "Look at the walls measured at spots.")
    area = (_skin_area(whole, made, taken) + _skin_area(face, made, taken)) / 2
    return body, filled / max(area, 1e-9), filled


@with_mesh(1)
def outmost(mesh: Mesh) -> Floats:
    """Return the corners of a mesh that stand out farthest one way or another, shape (n, 3) [m].

    Looked at from 800 sides, which tells what goes under last to a tenth of a millimetre.
    """
    k = np.arange(800) + 0.5
    polar, turn = np.arccos(1 - k / 400), np.pi * (1 + 5**0.5) * k
    ways = [np.sin(polar) * np.cos(turn), np.sin(polar) * np.sin(turn), np.cos(polar)]
    farthest = {int((mesh.vertices @ way).argmax()) for way in np.stack(ways, axis=1)}
    return mesh.vertices[sorted(farthest)]


def _area(mesh: Mesh) -> float:
    """Return the area of a mesh [m²]."""
    a, b, c = np.moveaxis(mesh.corners, 1, 0)
    return float(np.linalg.norm(np.cross(b - a, c - a), axis=1).sum() / 2)


def _outer(whole: Mesh, planes: tuple[Plane, ...], taken: tuple[Mesh, ...], name: str) -> Mesh:
    """Return the outer surface of a region, closed."""
    return _cut(whole, planes, taken, name) if planes or taken else whole


@with_mesh(OUTERS)
def _cut(whole: Mesh, planes: tuple[Plane, ...], taken: tuple[Mesh, ...], name: str) -> Mesh:
    return carved(whole, planes, taken, name)


def _skin(region: Region, whole: Mesh, taken: tuple[Mesh, ...]) -> Skin:
    """Return one region as a closed body."""
    made = _made(region)
    outer = _outer(whole, made.planes, taken, made.name)
    if not len(outer.triangles):
        what = "nothing of it is left between its limits and outside the regions before it"
        mend = "Look at above, below, forward_of, aft_of and its place."
        raise GeometryError(what, region.name, mend)
    if region.sealed or _is_wall(region):
        body, thickness, filled = outer, 0.0, volume(outer)
    else:
        make = _varied if made.spots else _fitted
        body, thickness, filled = make(whole, made, taken)
    return Skin(
        name=region.name,
        outer=outer,
        body=body,
        thickness=thickness,
        wall=measured(whole, made.spots, made.name) if made.spots else even(thickness),
        shape_volume=filled,
        volume=made.wanted or filled,
        area=filled / thickness if thickness else _area(outer),
    )


def hull(boat: Boat, files: Files) -> Hull:
    """Return every region as a body, and the outside shape.

    Raises:
        GeometryError: A table or mesh makes no closed surface, or a skin has no thickness.
    """
    if not boat.regions:
        return Hull(skins=(), envelope=box(1e-6, 1e-6, 1e-6))
    names = {getattr(region, "file", "") for region in boat.regions}
    names |= {piece.file for region in boat.regions for piece in getattr(region, "pieces", ())}
    beside = tuple((name, data) for name, data in files.items() if name in names)
    return _hull(boat.regions, boat.openings, beside)


@lru_cache(maxsize=3)  # the hull before a change, and after it
@while_used
def _hull(
    regions: tuple[Region, ...],
    openings: tuple[Opening, ...],
    beside: tuple[tuple[str, bytes], ...],
) -> Hull:
    """Return the hull, kept by all that makes it."""
    files = dict(beside)
    wholes: list[Mesh] = []
    for i, region in enumerate(regions):
        same = next((j for j in range(i) if same_surface(regions[j], region)), None)
        wholes.append(surface(region, files) if same is None else wholes[same])
    bounds = np.stack([mesh.bounds for mesh in wholes])
    bounds = np.stack([bounds[:, 0].min(axis=0), bounds[:, 1].max(axis=0)])
    keel, top = bounds[:, 2].tolist()
    holes = tuple(
        _hole(opening, keel, top)  # pyright: ignore[reportArgumentType] - frozen: hashable
        for opening in openings
    )
    skins: list[Skin] = []
    for i, (region, whole) in enumerate(zip(regions, wholes, strict=True)):
        earlier = [j for j in range(i) if not same_surface(regions[j], region)]
        taken = list(dict.fromkeys(wholes[j] for j in earlier if _stands_on(region)))
        if any(_is_wall(regions[j]) for j in earlier[: len(taken)]):
            taken = [_outside(taken[0], tuple(taken[1:]), region.name)]
        skins.append(_skin(region, whole, (*taken, *holes)))
    first, *others = (skin.outer for skin in skins)
    is_hollow = any(_is_wall(region) for region in regions)
    return Hull(skins=tuple(skins), envelope=_envelope(first, tuple(others), holes, is_hollow))


@with_mesh(2)
def _outside(first: Mesh, others: tuple[Mesh, ...], name: str) -> Mesh:
    return outside([first, *others], name)


@with_mesh(4)
def _envelope(
    first: Mesh, others: tuple[Mesh, ...], holes: tuple[Mesh, ...], is_hollow: bool
) -> Mesh:
    """Return the outside shape of the first outer surface and the others."""
    outers = [first, *others]
    whole = outside(outers, "hull") if is_hollow else union(outers, "hull")
    return carved(whole, [], holes, "hull")


def _is_wall(region: Region) -> bool:
    """Return whether a region is drawn as walls, with the room inside them left empty."""
    return isinstance(region, MeshRegion) and region.closed_walls


def _stands_on(region: Region) -> bool:
    """Return whether a region begins where it leaves an earlier one: towers and houses do."""
    is_fitted = isinstance(region, MeshRegion) and "fit" in region.repairs
    return is_fitted or isinstance(region, PrismRegion)
