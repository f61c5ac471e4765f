"""Checks of meshes: what is wrong with them, in which unit they were drawn, what counts twice."""

from collections.abc import Iterator
from functools import lru_cache

import numpy as np

from trimdive.boatfile import MeshRegion
from trimdive.bodies.hull import density_of
from trimdive.bodies.meshed import drawn_pieces, looked_at
from trimdive.errors import GeometryError
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Edit, Finding, Limit, check, finding
from trimdive.lines.mesh import Mesh
from trimdive.meshes import common_volume, troubles, unit_for
from trimdive.units import read

NAMES = {"mm": "millimetres", "cm": "centimetres", "in": "inches", "m": "metres", "ft": "feet"}


def _regions(facts: Facts) -> Iterator[tuple[int, MeshRegion]]:
    """Yield the regions drawn as meshes, each with its number, counted from nought."""
    for number, region in enumerate(facts.boat.regions):
        if isinstance(region, MeshRegion):
            yield number, region


def _repairing(number: int, region: MeshRegion, repair: str) -> tuple[Edit, ...]:
    """Return the change that lets a repair be done."""
    fields = (("repairs", (*region.repairs, repair)),)
    return (Edit(action="set", path=f"region[{number + 1}]", fields=fields),)


@check("mesh-trouble")
def mesh_troubles(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield what is wrong with the meshes themselves, each trouble with its repair."""
    for number, region in _regions(facts):
        for name, mesh in drawn_pieces(region, facts.files):
            for trouble in troubles(looked_at(mesh, name, True), facts.boat.units.write):
                if trouble.repair in region.repairs:
                    continue
                counted = " (counted as if turned)" if trouble.key == "inside-out" else ""
                ask = f' ("{trouble.repair}" in its repairs)' if trouble.repair else ""
                yield finding(
                    limit=limit,
                    subject=f"{region.name}: {trouble.key}",
                    rank=60 if trouble.repair else 9,
                    weight="put right" if trouble.repair else "look at",
                    what=f"the mesh of {region.name} ({name}): {trouble.what}{counted}",
                    mend=f"{trouble.mend.rstrip('.')}{ask}.",
                    edits=_repairing(number, region, trouble.repair) if trouble.repair else (),
                )


@check("mesh-overlap", limit="mesh-trouble")
def overlaps(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield meshes that reach into other regions, so that some volume counts twice."""
    regions, skins = facts.boat.regions, facts.hull.skins
    for number, region in _regions(facts):
        for other in range(number):
            if getattr(regions[other], "file", None) == region.file:
                continue
            common = _common(skins[number].outer, skins[other].outer, region.name)
            if common <= limit.value:
                continue
            yield finding(
                limit=limit,
                subject=f"{region.name}: overlap",
                rank=59,
                what=(
                    f"{region.name} reaches into {regions[other].name}: "
                    f"{facts.volume(common)} of it counts twice"
                ),
                mend=f'Cut off what lies inside ("fit" in the repairs of {region.name}).',
                edits=_repairing(number, region, "fit"),
            )


@lru_cache(maxsize=64)
def _common(one: Mesh, other: Mesh, name: str) -> float:
    """Return the volume that two surfaces have in common [m³]; 0 where that cannot be told."""
    try:
        return common_volume(one, other, name)
    except GeometryError:
        return 0.0


@check("mesh-unit")
def units(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield printed walls whose volume fits their mass only in another unit."""
    for number, region in _regions(facts):
        skin = facts.hull.skins[number]
        if region.pieces or region.file_unit is None or not (region.closed_walls or region.sealed):
            continue
        wanted, drawn = skin.volume, abs(skin.shape_volume)
        if not drawn or abs(wanted - drawn) <= limit.value * max(wanted, drawn):
            continue
        one = read(f"1 {region.file_unit}", "length", None)
        unit = unit_for(drawn / one**3, wanted, limit.value)
        if unit is None or read(f"1 {unit}", "length", None) == one:
            continue
        long = float(np.ptp(skin.outer.bounds[:, 0]))
        yield finding(
            limit=limit,
            subject=f"{region.name}: unit",
            rank=61,
            what=(
                f"the mesh of {region.name} ({region.file}) is {facts.length(long)} long when read "
                f"in {NAMES.get(region.file_unit, region.file_unit)}; only in {NAMES[unit]} does "
                "its volume fit its mass"
            ),
            mend=f'Write file_unit = "{unit}".',
            edits=(
                Edit(action="set", path=f"region[{number + 1}]", fields=(("file_unit", unit),)),
            ),
        )


@check("closed-print", limit="void-above")
def closed_prints(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield printed pieces that are shut, with air in them above the waterline."""
    n, d = facts.waterline
    for number, region in _regions(facts):
        density = density_of(region.material, region.density)
        if region.mass is None or density is None:
            continue
        solid = region.mass / density
        skin = facts.hull.skins[number]
        void = skin.volume - solid
        middle = skin.outer.bounds.mean(axis=0)
        if void <= limit.value or float(n @ middle) <= d:
            continue
        pull = facts.mass(abs(region.mass - facts.floater.density * skin.volume))
        yield finding(
            limit=limit,
            subject=region.name,
            rank=58 + void / max(facts.need.volume, 1e-9),
            what=(
                f"{region.name} is shut: under water it pulls up {pull}, which is "
                f"{facts.volume(void)} of air above the waterline that the tanks must pay for"
            ),
            mend="Drill it low and at its highest point, so that water fills it.",
            edits=(
                Edit(
                    action="set",
                    path=f"region[{number + 1}]",
                    fields=(("hung", None), ("sealed", False)),
                ),
            ),
        )
