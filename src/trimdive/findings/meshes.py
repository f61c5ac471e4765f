"""Checks of meshes: what is wrong with them, in which unit they were drawn, what counts twice."""

from collections.abc import Iterator

import numpy as np

from trimdive.boatfile import MeshRegion, PrismRegion
from trimdive.errors import GeometryError
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.geometry.lines.kept import with_mesh
from trimdive.geometry.lines.mesh import Floats, Mesh
from trimdive.geometry.meshes import Trouble, common_volume, likely_unit, unit_for
from trimdive.geometry.solids.hull import Skin, density_of
from trimdive.geometry.solids.meshed import advice, drawn_pieces, shared_by_pieces
from trimdive.geometry.solids.surfaces import same_surface
from trimdive.units import read


def _regions(her: Assessed) -> Iterator[tuple[int, MeshRegion]]:
    """Yield the regions drawn as meshes, each with its number, counted from nought."""
    for number, region in enumerate(her.boat.regions):
        if isinstance(region, MeshRegion):
            yield number, region


def _repairing(number: int, region: MeshRegion, repair: str) -> tuple[Edit, ...]:
    """Return the change that lets a repair be done."""
    fields = (("repairs", (*region.repairs, repair)),)
    return (Edit(action="set", path=f"region[{number + 1}]", fields=fields),)


@check("mesh-trouble")
def mesh_troubles(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield what is wrong with the meshes themselves, each trouble with its repair."""
    for number, region in _regions(her):
        pieces = drawn_pieces(region, her.files)
        for name, mesh in pieces:
            for trouble in advice(mesh, name, region.repairs):
                if trouble.repair in region.repairs:  # it is done later, on all of the region
                    continue
                yield _trouble(limit, number, region, name, trouble)
        if len(pieces) > 1 and "union" not in region.repairs:
            yield from _pieces_overlap(her, limit, number, region)


def _trouble(limit: Limit, number: int, region: MeshRegion, name: str, trouble: Trouble) -> Finding:
    """Return the finding of one trouble of a mesh."""
    return finding(
        limit=limit,
        subject=f"{region.name}: {trouble.key}",
        rank=60 if trouble.repair else 9,
        weight="put right" if trouble.repair else "look at",
        stands=None,
        what=fact(
            "mesh-troubled",
            name=region.name,
            piece=name,
            trouble=trouble.what,
            is_inside_out=trouble.key == "inside-out",
        ),
        mend=fact("repair-mesh", mend=trouble.mend, repair=trouble.repair),
        edits=_repairing(number, region, trouble.repair) if trouble.repair else (),
    )


def _pieces_overlap(
    her: Assessed, limit: Limit, number: int, region: MeshRegion
) -> Iterator[Finding]:
    """Yield what the meshes of one region have in common with each other."""
    common = shared_by_pieces(region, her.files)
    if common > limit.value:
        yield finding(
            limit=limit,
            subject=f"{region.name}: pieces",
            rank=59,
            stands=common,
            what=fact("meshes-overlap", name=region.name, common=common),
            mend=fact("unite-meshes"),
            edits=_repairing(number, region, "union"),
        )


@check("mesh-overlap", limit="mesh-trouble")
def overlaps(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield meshes that reach into other regions, so that some volume counts twice."""
    regions, skins = her.boat.regions, her.hull.skins
    for number, region in _regions(her):
        for other, beside in enumerate(regions):
            is_later = other > number and not isinstance(beside, MeshRegion | PrismRegion)
            if not (other < number or is_later) or same_surface(region, beside):
                continue
            common = _common(skins[number].outer, skins[other].outer, region.name)
            if common <= limit.value:
                continue
            yield finding(
                key="mesh-overlap",
                limit=limit,
                subject=f"{region.name}: overlap",
                rank=59,
                stands=common,
                what=fact("mesh-overlaps", name=region.name, other=beside.name, common=common),
                mend=fact("fit-mesh", name=region.name, after=beside.name if is_later else None),
                edits=() if is_later else _repairing(number, region, "fit"),
            )


@with_mesh(4)
def _common(one: Mesh, other: Mesh, name: str) -> float:
    """Return the volume that two surfaces have in common [m³]; 0 where that cannot be told."""
    try:
        return common_volume(one, other, name)
    except GeometryError:
        return 0.0


@check("mesh-unit")
def units(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield meshes that are as large as they should be only in another unit."""
    for number, region in _regions(her):
        if region.pieces or region.file_unit is None:
            continue
        skin = her.hull.skins[number]
        is_wall = region.closed_walls or region.sealed
        if is_wall:
            unit = _unit_by_mass(skin, region.file_unit, limit.value)
            off = _off_by_mass(skin)
        else:
            unit = _unit_by_length(her, skin, region.file_unit, limit.value)
            off = _off_by_length(her, skin)
        if unit is None or _length_of(unit) == _length_of(region.file_unit):
            continue
        yield finding(
            limit=limit,
            subject=f"{region.name}: unit",
            rank=61,
            stands=off,
            what=fact(
                "mesh-in-unit",
                name=region.name,
                file=region.file,
                long=float(np.ptp(skin.outer.bounds[:, 0])),
                unit=region.file_unit,
                instead=unit,
                by_mass=is_wall,
            ),
            mend=fact("write-file-unit", unit=unit),
            edits=(
                Edit(action="set", path=f"region[{number + 1}]", fields=(("file_unit", unit),)),
            ),
        )


@check("mesh-origin")
def origins(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a hull drawn as a mesh about another origin than that from which places are counted."""
    drawn = [(number, region) for number, region in _regions(her) if not region.pieces]
    if not drawn or her.boat.entered_from == "bow":
        return
    bounds = {number: her.hull.skins[number].outer.bounds for number, _ in drawn}
    low, high = np.asarray(her.hull.envelope.bounds, dtype=np.float64)
    number, region = max(drawn, key=lambda one: float(np.ptp(bounds[one[0]][:, 0])))
    own, length = bounds[number][0], float(high[0] - low[0])
    if float(np.ptp(bounds[number][:, 0])) < 0.5 * length:
        return  # the hull itself is no mesh
    aft = float(low[0]) if region.x_aft is None else 0.0
    deep = float(own[2]) if region.z_bottom is None else 0.0
    if max(abs(aft), abs(deep)) <= limit.value * length:
        return
    offs = [off if abs(off) > limit.value * length else None for off in (aft, deep)]
    fields = {at: _moved(bounds[at][0], one, aft, deep) for at, one in drawn}
    with_file = any(piece.x < 0.0 for piece in (*her.boat.pieces, *her.boat.tanks))
    yield finding(
        limit=limit,
        subject=f"{region.name}: origin",
        rank=62,
        stands=max(aft, deep, key=abs) / length,
        what=fact(
            "mesh-off-zero", name=region.name, file=region.file, forward=offs[0], above=offs[1]
        ),
        mend=fact("put-mesh-at-zero", with_parts=with_file),
        form=f"region[{number + 1}].x_aft",
        edits=()
        if with_file
        else tuple(
            Edit(action="set", path=f"region[{at + 1}]", fields=new) for at, new in fields.items()
        ),
    )


def _moved(
    own: Floats, region: MeshRegion, aft: float, deep: float
) -> tuple[tuple[str, float], ...]:
    """Return where a mesh of the drawing goes when the hull is moved to the zero of places."""
    x, z = float(own[0]) - aft, float(own[2]) - deep
    found = {"x_aft": x if region.x_aft is None else None}
    found["z_bottom"] = z if region.z_bottom is None else None
    return tuple((name, round(value, 7)) for name, value in found.items() if value is not None)


def _length_of(unit: str) -> float:
    return read(f"1 {unit}", "length", None)


def _unit_by_mass(skin: Skin, unit: str, within: float) -> str | None:
    """Return the unit in which a wall's volume fits its mass, where it does not as it is read."""
    wanted, drawn = skin.volume, abs(skin.shape_volume)
    if not drawn or abs(_off_by_mass(skin)) <= within:
        return None
    return unit_for(drawn / _length_of(unit) ** 3, wanted, within)


def _off_by_mass(skin: Skin) -> float:
    """Return how far a wall as drawn is off what its mass makes, of the larger of the two [-]."""
    wanted, drawn = skin.volume, abs(skin.shape_volume)
    return (drawn - wanted) / max(wanted, drawn)


def _off_by_length(her: Assessed, skin: Skin) -> float:
    """Return how much longer than the boat a hull is drawn, as a share of her length [-]."""
    long = float(np.ptp(skin.outer.bounds[:, 0]))
    return long / her.boat.length - 1 if her.boat.length else 0.0


def _unit_by_length(her: Assessed, skin: Skin, unit: str, within: float) -> str | None:
    """Return the unit in which a hull's outside is as long as the boat, where it is not so."""
    given = her.boat.length
    if given is None or _off_by_length(her, skin) <= within:
        return None
    likely = likely_unit(np.ptp(skin.outer.bounds, axis=0) / _length_of(unit), given)
    return likely.answer if likely.is_certain else None


@check("closed-print", limit="void-above")
def closed_prints(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield printed pieces that are shut, with air in them above the waterline."""
    n, d = her.waterline
    for number, region in _regions(her):
        density = density_of(region.material, region.density)
        if region.mass is None or density is None:
            continue
        solid = region.mass / density
        skin = her.hull.skins[number]
        void = skin.volume - solid
        middle = skin.outer.bounds.mean(axis=0)
        if void <= limit.value or float(n @ middle) <= d:
            continue
        yield finding(
            key="closed-print",
            limit=limit,
            subject=region.name,
            rank=58,
            beyond=void / max(her.need.volume, 1e-9),
            stands=void,
            what=fact(
                "print-shut",
                name=region.name,
                pull=abs(region.mass - her.floater.density * skin.volume),
                air=void,
            ),
            mend=fact("drill-print", name=region.name),
            edits=(
                Edit(
                    action="set",
                    path=f"region[{number + 1}]",
                    fields=(("hung", None), ("sealed", False)),
                ),
            ),
        )
