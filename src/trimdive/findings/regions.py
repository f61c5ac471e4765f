"""Checks of regions: towers told with a bottom or shut, and meshes of no likely size."""

from collections.abc import Iterator

import numpy as np

from trimdive.boatfile import MeshRegion, PrismRegion
from trimdive.boatfile.regions import Skin
from trimdive.fact import fact, together
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.geometry.lines.mesh import Floats, Mesh, volume
from trimdive.geometry.solids.hull import density_of
from trimdive.units import read

UNITS = ("mm", "cm", "m", "in")  # in which a mesh may have been drawn


def _floods(her: Assessed) -> bool:
    """Return whether the hull itself floods: its longest region is not sealed."""
    longest = max(
        range(len(her.boat.regions)),
        key=lambda k: float(np.ptp(her.hull.skins[k].outer.bounds[:, 0])),
        default=None,
    )
    return longest is not None and not her.boat.regions[longest].sealed


def _is_above(her: Assessed, mesh: Mesh) -> bool:
    """Return whether the middle of a region lies above the waterline."""
    n, d = her.waterline
    return float(n @ mesh.bounds.mean(axis=0)) > d


def _set(number: int, **fields: object) -> tuple[Edit, ...]:
    return (Edit(action="set", path=f"region[{number + 1}]", fields=tuple(fields.items())),)


@check("tower-shut", limit="void-above")
def shut(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield regions told as sealed that stand above the waterline of a hull that floods."""
    if not _floods(her):
        return
    for number, region in enumerate(her.boat.regions):
        skin = her.hull.skins[number]
        is_entered = isinstance(region, MeshRegion) and region.mass is not None  # by closed-print
        if not region.sealed or is_entered or not _is_above(her, skin.outer):
            continue
        density = density_of(region.material, region.density)
        solid = region.mass / density if region.mass is not None and density else 0.0
        air = skin.volume - solid
        if air <= limit.value:
            continue
        stands = {"open_below": True} if isinstance(region, PrismRegion) else {}
        edits = _set(number, sealed=False, hung=None, **stands) if _is_skin(region) else ()
        yield finding(
            key="tower-shut",
            limit=limit,
            subject=region.name,
            rank=58,
            beyond=air / max(her.need.volume, 1e-9),
            stands=air,
            what=fact("region-sealed", name=region.name, air=air),
            mend=together(
                fact("unseal", name=region.name, stands=bool(stands)), fact("drill-if-sealed")
            ),
            edits=edits,
        )


def _is_skin(region: Skin) -> bool:
    """Return whether enough is told of a region to take it as a skin."""
    has_density = density_of(region.material, region.density) is not None
    return has_density and (region.mass is not None or bool(region.thickness))


@check("tower-floor", limit="void-above")
def floor(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield towers told with a bottom where they stand on the hull: unless drilled, air stays."""
    skins = her.hull.skins
    for number, region in enumerate(her.boat.regions):
        if not isinstance(region, PrismRegion) or region.open_below or region.sealed:
            continue
        outer = skins[number].outer
        stands = any(_under(skins[k].outer, outer, region.z_bottom) for k in range(number))
        room = volume(outer)
        if not stands or room <= limit.value or not _is_above(her, outer):
            continue
        yield finding(
            key="tower-floor",
            limit=limit,
            subject=region.name,
            rank=8,
            weight="look at",
            beyond=room / max(her.need.volume, 1e-9),
            stands=room,
            what=fact("tower-has-bottom", name=region.name, air=room),
            mend=together(fact("enter-open-below", name=region.name), fact("drill-bottom")),
            edits=_set(number, open_below=True),
        )


def _under(hull: Mesh, tower: Mesh, bottom: float) -> bool:
    """Return whether a region lies under a tower, which reaches down to it."""
    low, high = hull.bounds
    at = tower.bounds.mean(axis=0)
    return bool(np.all((low[:2] <= at[:2]) & (at[:2] <= high[:2]))) and bottom <= high[2]


def _drawn(her: Assessed) -> Iterator[tuple[int, MeshRegion, Floats]]:
    """Yield the regions drawn as meshes, with their numbers from 0 and their sizes [m]."""
    for number, region in enumerate(her.boat.regions):
        if isinstance(region, MeshRegion):
            yield number, region, np.ptp(her.hull.skins[number].outer.bounds, axis=0)


def her_length(her: Assessed) -> float:
    """Return her length [m]: as told, else as the full-size boat's by the scale, else as drawn."""
    boat = her.boat
    full = boat.full_size.length if boat.full_size else None
    if boat.length or (full and boat.scale):
        return boat.length or (full or 0.0) / (boat.scale or 1.0)
    return float(np.ptp(her.hull.envelope.bounds[:, 0]))


@check("mesh-small")
def small(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield regions drawn as meshes that are a speck beside her: another unit, mostly."""
    long = her_length(her)
    for number, region, size in _drawn(her):
        if float(size.max()) < limit.value * long:
            yield _of_no_size(her, limit, number, region, size)


@check("mesh-large")
def large(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield regions drawn as meshes that are longer than she is: another unit, mostly."""
    long = her_length(her)
    for number, region, size in _drawn(her):
        if float(size.max()) > (1.0 + limit.value) * long:
            yield _of_no_size(her, limit, number, region, size)


def _of_no_size(
    her: Assessed, limit: Limit, number: int, region: MeshRegion, size: Floats
) -> Finding:
    """Return the finding of a mesh that is far too small or too large."""
    long, most = her_length(her), float(size.max())
    unit = unit_instead(most / long, region.file_unit) if not region.pieces else None
    return finding(
        limit=limit,
        subject=region.name,
        rank=111,
        beyond=max(most / long, long / max(most, 1e-9)),
        stands=most / long if limit.sense == "at least" else most / long - 1,
        what=fact(
            "mesh-no-size",
            name=region.name,
            file=region.file,
            unit=region.file_unit,
            most=most,
            boat=long,
        ),
        mend=fact("write-file-unit", unit=unit) if unit else fact("look-at-mesh-unit"),
        edits=_set(number, file_unit=unit) if unit else (),
    )


def unit_instead(share: float, unit: str | None) -> str | None:
    """Return the unit in which a mesh is nearest in size to her, where only one fits.

    Args:
        share: Its longest side for her length, as it is read [-].
        unit: In which it is read.

    >>> unit_instead(0.001, "mm"), unit_instead(300.0, "m"), unit_instead(1.4, "mm")
    ('m', 'mm', None)
    """
    if unit is None:
        return None
    now = read(f"1 {unit}", "length", None)
    shares = {one: share * read(f"1 {one}", "length", None) / now for one in UNITS if one != unit}
    fit = [one for one, there in shares.items() if 0.04 <= there <= 1.02]
    return fit[0] if len(fit) == 1 else None
