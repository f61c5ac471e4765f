"""What a region adds to a boat's sums, written otherwise, and how odd it is then."""

from math import log

import numpy as np

from trimdive.boatfile.ref import ref
from trimdive.boatfile.regions import PrismRegion, Skin
from trimdive.findings.balance import surprise
from trimdive.findings.slips.candidates import OUTLINE
from trimdive.findings.slips.trial import Sums, Trial
from trimdive.findings.sums import thing_sums
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.lines.mesh import volume as solid_volume
from trimdive.geometry.solids.hull import Skin as Built
from trimdive.geometry.solids.hull import density_of, measured_volume
from trimdive.geometry.solids.moments import above, centroid
from trimdive.geometry.solids.surfaces import same_surface

SKIN = (0.0025, 0.6)  # usual thickness of a skin [m], and its band as a logarithm
SHAPING = ("forward_of", "aft_of", "inset", *OUTLINE)  # what changes the shape of a region
EDGE = 0.03  # of the height of a surface: nearer its keel or top an edge parts off nothing [-]
SUNK = 0.3  # of the hull's depth: so far down into it a tower may begin [-]
CENTRE_BAND = 0.05  # of her length: how far a region may weigh off the middle of its skin [-]


def banded(trial: Trial, path: str, region: Skin) -> Sums:
    """Return what a region adds that is a band of the hull, with its skin even over its height."""
    number = ref(path).order
    skin, body = trial.assessed.hull.skins[number], trial.bodies[path][0]
    shared = [
        one
        for one, other in zip(trial.assessed.hull.skins, trial.boat.regions, strict=True)
        if same_surface(other, trial.boat.regions[number])
    ]
    low = min(float(one.outer.bounds[0, 2]) for one in shared or [skin])
    high = max(float(one.outer.bounds[1, 2]) for one in shared or [skin])
    a, b = region.above, region.below
    odd = sum(
        surprise(max(low - z, z - high, 0.0) / 0.003)
        + surprise(_parting(trial, region, z) / 0.003)
        + surprise(max(1.0 - min(z - low, high - z) / (EDGE * (high - low)), 0.0) * 5.0)
        for z in (a, b)
        if z is not None
    )
    low, high = max(low, a if a is not None else low), min(high, b if b is not None else high)
    tall = max(high - low, 1e-4)
    density = density_of(region.material, region.density) or 1.0
    parted = sum(float(np.ptp(one.outer.bounds[:, 2])) for one in shared or [skin])
    area = sum(one.area for one in shared or [skin]) * tall / max(parted, 1e-4)
    volume = region.mass / density if region.mass is not None else skin.thickness * area
    mass = region.mass if region.mass is not None else density * volume
    x, y, _ = centroid(body.mesh)
    sums = thing_sums(mass, volume, (float(x), float(y), low + tall / 2), tall, trial.line)
    if region.mass is not None and area > 0:
        odd += surprise(log(max(volume / area, 1e-9) / SKIN[0]) / SKIN[1])
    return sums, odd, {}


def _parting(trial: Trial, region: Skin, z: float) -> float:
    """Return how far the edge of a region lies from that of any other [m]."""
    others = [
        edge
        for other in trial.boat.regions
        if other.name != region.name
        for edge in (other.above, other.below)
        if edge is not None
    ]
    return min((abs(z - edge) for edge in others), default=0.0)


def region_sums(trial: Trial, path: str, region: Skin) -> Sums | None:
    """Return what a region adds: its skin as it is, more or less of it, or upright sides anew."""
    body = trial.bodies[path][0]
    number = ref(path).order
    skin, was = trial.assessed.hull.skins[number], trial.boat.regions[number]
    density = density_of(region.material, region.density) or 0.0
    middle = centroid(body.mesh)
    upper = above(body, *trial.assessed.waterline)
    share, x_above = upper.share, float(upper.moment[0]) / (upper.volume or 1.0)
    area = skin.area
    odd = 0.0
    if isinstance(region, PrismRegion):
        if (given := _prism(trial, region)) is None:
            return None
        middle, share, x_above, area, odd = given
    if any(getattr(region, f, None) != getattr(was, f, None) for f in SHAPING):
        return None
    volume = _skin_volume(trial, region, skin, area)
    mass = region.mass if region.mass is not None else density * volume
    place = middle if region.x is None else np.array([region.x, middle[1], middle[2]])
    sums = np.array(
        [
            mass,
            *(mass * place),
            volume,
            *(volume * middle),
            volume * share,
            volume * share * x_above,
        ]
    )
    return sums, odd + _skin_oddity(trial, region, skin, middle, (volume, area)), {}


def _skin_oddity(
    trial: Trial, region: Skin, skin: Built, middle: Floats, made_of: tuple[float, float]
) -> float:
    """Return how odd the mass, wall and place of a region are.

    Args:
        trial: What it is held against.
        region: As it would be.
        skin: As it is built.
        middle: Of its skin, shape (3,) [m].
        made_of: Volume [m³] and area of its skin [m²].
    """
    density = density_of(region.material, region.density) or 0.0
    (volume, area), odd = made_of, 0.0
    if region.x is not None:
        odd += surprise((region.x - middle[0]) / (CENTRE_BAND * trial.balance.length))
    if getattr(region, "closed_walls", False):
        drawn = abs(skin.shape_volume)
        odd += surprise(log(max(volume, 1e-12) / drawn) / 0.12) if drawn else 0.0
    elif not region.sealed and area > 0:
        thick = volume / area
        odd += surprise(log(thick / SKIN[0]) / SKIN[1])
        if region.thickness:
            odd += surprise(log(thick / region.thickness) / 0.15)
    known = density_of(region.material, None)
    if known and density:
        odd += surprise(log(density / known) / 0.12)
    return odd


def _skin_volume(trial: Trial, region: Skin, skin: Built, area: float) -> float:
    """Return what a region displaces with its mass, density or thickness changed [m³].

    Args:
        trial: What it is held against.
        region: As it would be.
        skin: As it is built.
        area: Of its skin [m²].
    """
    measured = measured_volume(region)  # pyright: ignore[reportArgumentType]
    if measured is not None:
        return max(measured, 1e-9)
    was = next(one for one in trial.boat.regions if one.name == region.name)
    if region.thickness and region.thickness != was.thickness:
        return min(area * region.thickness, abs(solid_volume(skin.outer)))
    return skin.volume


def _prism(trial: Trial, region: PrismRegion) -> tuple[Floats, float, float, float, float] | None:
    """Return middle, share above the waterline and its place, area and oddity of a tower."""
    long, broad = region.x_fore - region.x_aft, region.breadth
    middle = (region.x_aft + region.x_fore) / 2
    if long <= 0 or region.z_top <= region.z_bottom:
        return np.array([middle, region.y, region.z_top]), 1.0, middle, 1e-9, surprise(100.0)
    others = [
        skin.outer.bounds
        for skin, other in zip(trial.assessed.hull.skins, trial.boat.regions, strict=True)
        if other.name != region.name and not isinstance(other, PrismRegion)
    ]
    if not others:
        return None
    floor = np.min([bounds[0] for bounds in others], axis=0)
    roof = np.max([bounds[1] for bounds in others], axis=0)
    top = float(roof[2])
    low = max(region.z_bottom, min(top, region.z_top - 1e-4))
    high = region.z_top - low
    sides, flat = 2 * (long + broad) * 0.8 * high, long * broad * 0.8
    area = sides + flat
    z = (sides * (low + high / 2) + flat * region.z_top) / area
    share = min(max((region.z_top - trial.line(middle)) / high, 0.0), 1.0)
    depth, ship = max(top - float(floor[2]), 1e-3), float(roof[0] - floor[0])
    out = max(float(floor[0]) - region.x_aft, region.x_fore - float(roof[0]), 0.0)
    odd = surprise(out / 0.003) + surprise(max(region.z_bottom - top, 0.0) / 0.003)
    odd += surprise(max((top - region.z_bottom) / (SUNK * depth) - 1.0, 0.0))
    odd += surprise(max(broad / float(roof[1] - floor[1]) - 0.8, 0.0) / 0.1)
    odd += surprise(max(high / depth - 1.3, 0.0) / 0.2)
    odd += surprise(log(long / (0.15 * ship)) / 0.8) + surprise(log(broad / long / 0.3) / 0.7)
    odd += surprise(log(max(high, 1e-4) / (0.7 * depth)) / 0.7)
    return np.array([middle, region.y, z]), share, middle, area, odd
