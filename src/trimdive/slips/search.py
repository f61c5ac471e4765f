"""Looks for the one figure that, written otherwise, brings a boat nearest to balance.

Every plain slip of every figure is tried in the sums, in closed form; what is likeliest is left to
the full solver.

Source: Archimedes and the levers; how odd a figure is by itself, common practice, no source.
"""

from dataclasses import dataclass, replace
from math import inf, isfinite, log

import numpy as np

from trimdive.boatfile import Boat, Cylinder, Part, Tank
from trimdive.boatfile.pieces import Coat, Waterline
from trimdive.boatfile.regions import PrismRegion, Skin
from trimdive.bodies.build import Body, numbered
from trimdive.bodies.hull import Skin as Built
from trimdive.bodies.hull import density_of
from trimdive.bodies.moments import above, centroid
from trimdive.bodies.profile import profile
from trimdive.findings.balance import Balance, balance_of, surprise
from trimdive.findings.facts import Facts
from trimdive.findings.sums import (
    ABOVE,
    AX,
    COUNT,
    VOLUME,
    Height,
    part_sums,
    thing_sums,
    vessel_sums,
)
from trimdive.lines.mesh import Floats, volume
from trimdive.slips.candidates import Candidate, Piece, candidates, things
from trimdive.slips.clears import cleared, sharing
from trimdive.slips.oddities import HEAVY, Around, fits, part_oddity, tank_oddity, vessel_oddity
from trimdive.weights.ledger import cylinder_mass

SKIN = (0.0025, 0.6)  # usual thickness of a skin [m], and its band as a logarithm
# A thing that might as well not be there explains nothing by being smaller: what is won by that
# counts only as far as she needs the thing as it would be.
TWICE, SLIGHT = 3.0, 0.5
COATED = (0.0002, 0.8)  # usual thickness of paint and filler [m], and its band as a logarithm
CENTRE_BAND = 0.05  # of her length: how far a region may weigh off the middle of its skin [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """A figure that may have slipped, and how much likelier she is with it put right."""

    slip: Candidate
    gain: float  # logarithm of how much likelier [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Trial:
    """What the search works with."""

    facts: Facts
    boat: Boat
    balance: Balance
    around: Around
    line: Height
    bodies: dict[str, tuple[Body, ...]]


def suspects(facts: Facts, most: int, only: frozenset[str] | None = None) -> tuple[Suspect, ...]:
    """Return the figures that may have slipped, likeliest first.

    Args:
        facts: Of the boat.
        most: How many at the most.
        only: Paths of what is looked at; None: everything aboard. Where these are told, what was
            weighed under water is believed: that it pulls up has been explained otherwise.
    """
    trial, around = (one := _trial(facts)), one.around
    now = trial.balance.misfit(trial.balance.sums, trial.balance.rooms)
    clashing = sharing(facts)
    found: list[Suspect] = []
    for path, piece in things(facts.boat):
        if only is not None and path not in only:
            continue
        before = _of(trial, path, piece)
        for slip in candidates(facts.boat, path, piece):
            if only is not None and slip.field == "hung" and fits(piece, around.drawn.get(path)):
                continue
            changed = piece.model_copy(update=dict(slip.changes))
            after = _of(trial, path, changed)
            if after is None or before is None:
                continue
            if isinstance(piece, Skin) and slip.field in ("above", "below"):
                before = _banded(trial, path, piece)
                after = _banded(trial, path, changed)  # pyright: ignore[reportArgumentType]
            sums = trial.balance.sums + after[0] - before[0]
            rooms = _rooms(trial.balance.rooms, path, after[2])
            left = trial.balance.misfit(sums, rooms)
            won = now - left
            if isinstance(piece, Part):
                none = _without(trial, path, piece, slip.field)
                without = trial.balance.misfit(trial.balance.sums - before[0] + none, rooms)
                won = min(won, TWICE * max(without - left, 0.0) + SLIGHT)
            elif isinstance(piece, Tank) and len(rooms) > 1:
                none = _rooms(trial.balance.rooms, path, (0.0, 0.0))
                without = trial.balance.misfit(trial.balance.sums, none)
                won = min(won, TWICE * max(without - left, 0.0) + SLIGHT)
            gain = won + before[1] - after[1] - slip.rare + cleared(facts, slip, clashing)
            if isfinite(gain) and gain > 0:
                found.append(Suspect(slip=slip, gain=gain))
    found.sort(key=lambda one: -one.gain)
    return tuple(found[:most])


def unlikely(facts: Facts, path: str, was: Piece) -> float:
    """Return how unlikely a boat is with a thing written otherwise [-].

    Her sums, and how much odder the thing is by itself than it was.

    Args:
        facts: Of the boat, the thing written otherwise.
        path: Of the thing.
        was: As it was written.
    """
    trial = _trial(facts)
    now, before = _of(trial, path, dict(things(facts.boat))[path]), _of(trial, path, was)
    odd = now[1] - before[1] if now and before else 0.0
    return trial.balance.misfit(trial.balance.sums, trial.balance.rooms) + odd


def _without(trial: _Trial, path: str, part: Part, field: str) -> Floats:
    """Return the sums with a part not there, or for its place to the side, on the middle line."""
    if field != "y" or part.pair:
        return np.zeros(COUNT)
    return part_sums(part.model_copy(update={"y": 0.0}), trial.around.drawn.get(path), trial.line)


def _rooms(
    rooms: tuple[tuple[float, float], ...], path: str, changed: tuple[float, float] | None
) -> tuple[tuple[float, float], ...]:
    if changed is None:
        return rooms
    k = int(path.partition("[")[2].removesuffix("]")) - 1
    return (*rooms[:k], changed, *rooms[k + 1 :])


def _trial(facts: Facts) -> _Trial:
    boat = facts.boat
    found: dict[str, tuple[Body, ...]] = {}
    for body in facts.bodies:
        found[body.path] = (*found.get(body.path, ()), body)
    n, d = facts.waterline
    drawn = {
        path: found[path][0].volume / found[path][0].share
        for path, part in numbered(boat)
        if part.shape == "mesh" and path in found
    }
    return _Trial(
        facts=facts,
        boat=boat,
        balance=balance_of(facts),
        around=Around(
            hull=profile(facts.hull.envelope) if boat.regions else None,
            vessels={vessel.name: vessel for vessel in boat.cylinders},
            drawn=drawn,
            most=HEAVY * facts.floater.density * abs(volume(facts.hull.envelope))
            if boat.regions
            else inf,
        ),
        line=lambda x: float((d - n[0] * x) / n[2]),
        bodies=found,
    )


Told = tuple[Floats, float, tuple[float, float] | None]


def _of(trial: _Trial, path: str, piece: Piece) -> Told | None:
    """Return what a thing adds to the sums, how odd it is, and of a tank its room and place."""
    around = trial.around
    match piece:
        case Part():
            sums = part_sums(piece, around.drawn.get(path), trial.line)
            return sums, part_oddity(piece, path, around), None
        case Cylinder():
            mass = cylinder_mass(piece)
            sums = vessel_sums(piece, mass, trial.line)
            others = replace(around, vessels={**around.vessels, piece.name: piece})
            odd = vessel_oddity(piece, mass, around) + _contents(trial, piece.name, others)
            return sums, odd, None
        case Tank():
            return _tank(trial, piece)
        case Coat():
            return _coat(trial, path, piece)
        case Waterline():
            return _waterline(trial, piece)
        case Skin():
            return _region(trial, path, piece)


def _waterline(trial: _Trial, line: Waterline) -> Told:
    """Return what lies above a waterline, and how odd it is."""
    n = np.array([-line.slope, 0.0, 1.0])
    n /= np.linalg.norm(n)
    d = float(n[2]) * line.height_at(0.0)
    sums = np.zeros(COUNT)
    hull = trial.around.hull
    if hull is None:
        return sums, 0.0, None
    low, high = float(hull.low.min()), float(hull.high.max())
    height = line.height_at(trial.balance.middle)
    out = max(low - height, height - high, 0.0)
    odd = surprise(out / 0.003)
    told = trial.boat.full_size.draught if trial.boat.full_size else None
    if told and trial.boat.scale and height > 0:
        odd += surprise(log(height * trial.boat.scale / told) / 0.05)
    if not out:
        for body in trial.facts.bodies:
            upper = above(body, n, d)
            sums[ABOVE] += upper.volume
            sums[AX] += float(upper.moment[0])
    else:
        sums[ABOVE] = trial.balance.sums[VOLUME] if height < low else 0.0
        sums[AX] = sums[ABOVE] * trial.balance.middle
    return sums, odd, None


def _banded(trial: _Trial, path: str, region: Skin) -> Told:
    """Return what a region adds that is a band of the hull, with its skin even over its height."""
    number = int(path.partition("[")[2].removesuffix("]")) - 1
    skin, hull = trial.facts.hull.skins[number], trial.around.hull
    body = trial.bodies[path][0]
    low, high = skin.outer.bounds[:, 2]
    if hull is not None:
        same = [
            s
            for s, r in zip(trial.facts.hull.skins, trial.boat.regions, strict=True)
            if getattr(r, "file", "") == getattr(region, "file", None)
        ]
        low = min(float(s.outer.bounds[0, 2]) for s in same or [skin])
        high = max(float(s.outer.bounds[1, 2]) for s in same or [skin])
    a, b = region.above, region.below
    odd = sum(
        surprise(max(low - z, z - high, 0.0) / 0.003) + surprise(_parting(trial, region, z) / 0.003)
        for z in (a, b)
        if z is not None
    )
    low, high = max(low, a if a is not None else low), min(high, b if b is not None else high)
    tall = max(high - low, 1e-4)
    density = density_of(region.material, region.density) or 1.0
    volume = region.mass / density if region.mass is not None else skin.volume
    mass = region.mass if region.mass is not None else density * volume
    x, y, _ = centroid(body.mesh)
    sums = thing_sums(mass, volume, (float(x), float(y), low + tall / 2), tall, trial.line)
    area = skin.area * tall / max(float(np.ptp(skin.outer.bounds[:, 2])), 1e-4)
    if region.mass is not None and area > 0:
        odd += surprise(log(max(volume / area, 1e-9) / SKIN[0]) / SKIN[1])
    return sums, odd, None


def _parting(trial: _Trial, region: Skin, z: float) -> float:
    """Return how far the edge of a region lies from that of any other [m]."""
    others = [
        edge
        for other in trial.boat.regions
        if other.name != region.name
        for edge in (other.above, other.below)
        if edge is not None
    ]
    return min((abs(z - edge) for edge in others), default=0.0)


def _contents(trial: _Trial, name: str, around: Around) -> float:
    """Return how odd all is that lies in a cylinder."""
    parts = [(p, one) for p, one in numbered(trial.boat) if one.inside == name]
    tanks = [tank for tank in trial.boat.tanks if tank.inside == name]
    odd = sum(part_oddity(part, path, around) for path, part in parts)
    return odd + sum(tank_oddity(tank, around) for tank in tanks)


def _tank(trial: _Trial, tank: Tank) -> Told | None:
    if tank.shape == "mesh":
        return None
    if tank.kind == "piston":
        way = 1.0 if tank.runs == "forward" else -1.0
        middle = tank.water_end + way * tank.stroke / 2
        tank = tank.model_copy(update={"length": tank.stroke, "x": middle})
        place = tank.water_end + way * tank.neutral * tank.stroke / 2
    else:
        place = tank.x
    area = np.pi / 4 * tank.bore**2 if tank.shape == "round" else tank.breadth * tank.height
    room = area * tank.length * (1 - tank.lost) * (1 - (tank.blown or 0.0))
    room -= tank.dead_water + tank.dead_air
    zero = np.zeros(COUNT)
    return zero, tank_oddity(tank, trial.around), (max(room, 1e-9), place)


def _coat(trial: _Trial, path: str, coat: Coat) -> Told | None:
    told = trial.bodies.get(path)
    density = density_of(coat.material, coat.density)
    if not told or not density or coat.mass is None:
        return None
    on = coat.on or tuple(skin.name for skin in trial.facts.hull.skins)
    area = coat.sides * sum(s.area for s in trial.facts.hull.skins if s.name in on)
    share = coat.mass / density / sum(body.volume for body in told)
    sums = np.zeros(COUNT)
    for body in told:
        x, y, z = centroid(body.mesh)
        volume = body.volume * share
        one = thing_sums(density * volume, volume, (x, y, z), 0.0, trial.line)
        upper = above(body, *trial.facts.waterline)
        one[ABOVE], one[AX] = upper.volume * share, float(upper.moment[0]) * share
        sums += one
    odd = surprise(log(density / 1400.0) / 0.4)
    if area > 0 and coat.mass > 0:
        odd += surprise(log(coat.mass / density / area / COATED[0]) / COATED[1])
    return sums, odd, None


def _region(trial: _Trial, path: str, region: Skin) -> Told | None:
    """Return what a region adds: its skin as it is, more or less of it, or upright sides anew."""
    body = trial.bodies[path][0]
    number = int(path.partition("[")[2].removesuffix("]")) - 1
    skin, was = trial.facts.hull.skins[number], trial.boat.regions[number]
    density = density_of(region.material, region.density) or 0.0
    volume = _skin_volume(trial, region, skin)
    mass = region.mass if region.mass is not None else density * volume
    middle = centroid(body.mesh)
    upper = above(body, *trial.facts.waterline)
    share, x_above = upper.share, float(upper.moment[0]) / (upper.volume or 1.0)
    area = skin.area
    odd = 0.0
    if isinstance(region, PrismRegion):
        if (told := _prism(trial, region)) is None:
            return None
        middle, share, x_above, area, odd = told
    if any(
        getattr(region, f, None) != getattr(was, f, None) for f in ("forward_of", "aft_of", "inset")
    ):
        return None
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
    return sums, odd + _skin_oddity(trial, region, skin, middle, area), None


def _skin_oddity(trial: _Trial, region: Skin, skin: Built, middle: Floats, area: float) -> float:
    """Return how odd the mass, wall and place of a region are.

    Args:
        trial: What it is held against.
        region: As it would be.
        skin: As it is built.
        middle: Of its skin, shape (3,) [m].
        area: Of its skin [m²].
    """
    density = density_of(region.material, region.density) or 0.0
    volume, odd = _skin_volume(trial, region, skin), 0.0
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


def _skin_volume(trial: _Trial, region: Skin, skin: Built) -> float:
    """Return what a region displaces with its mass, density or thickness changed [m³]."""
    density = density_of(region.material, region.density)
    if region.mass is not None and density and region.hung is None and not region.sealed:
        return region.mass / density
    was = next(one for one in trial.boat.regions if one.name == region.name)
    if region.thickness and was.thickness:
        return skin.volume * region.thickness / was.thickness
    return skin.volume


def _prism(trial: _Trial, region: PrismRegion) -> tuple[Floats, float, float, float, float] | None:
    """Return middle, share above the waterline and its place, area and oddity of a tower."""
    long, broad = region.x_fore - region.x_aft, region.breadth
    middle = (region.x_aft + region.x_fore) / 2
    if long <= 0 or region.z_top <= region.z_bottom:
        return np.array([middle, region.y, region.z_top]), 1.0, middle, 1e-9, surprise(100.0)
    others = [
        skin.outer.bounds
        for skin, other in zip(trial.facts.hull.skins, trial.boat.regions, strict=True)
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
    odd += surprise(max(broad / float(roof[1] - floor[1]) - 0.8, 0.0) / 0.1)
    odd += surprise(max(high / depth - 1.3, 0.0) / 0.2)
    odd += surprise(log(long / (0.15 * ship)) / 0.8) + surprise(log(broad / long / 0.3) / 0.7)
    odd += surprise(log(max(high, 1e-4) / (0.7 * depth)) / 0.7)
    return np.array([middle, region.y, z]), share, middle, area, odd
