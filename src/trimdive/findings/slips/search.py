"""Looks for the one figure that, written otherwise, brings a boat nearest to balance.

Every plain slip of every figure is tried in the sums, in closed form; what is likeliest is left to
the full solver.

Source: Archimedes and the levers; how odd a figure is by itself, common practice, no source.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import isfinite, log

import numpy as np

from trimdive.boatfile import Cylinder, Part, Tank, followed
from trimdive.boatfile.pieces import Coat, Waterline
from trimdive.boatfile.ref import ref
from trimdive.boatfile.regions import Skin
from trimdive.findings.assessed import Assessed
from trimdive.findings.balance import surprise
from trimdive.findings.slips.candidates import Candidate, Piece, candidates, things
from trimdive.findings.slips.clears import cleared, sharing
from trimdive.findings.slips.guessed import rests_on_guesses
from trimdive.findings.slips.oddities import (
    HEAVY,
    Around,
    fits,
    part_oddity,
    tank_oddity,
    vessel_oddity,
)
from trimdive.findings.slips.skins import banded, region_sums
from trimdive.findings.slips.trial import Rooms, Sums, Trial, trial_of
from trimdive.findings.sums import (
    ABOVE,
    AX,
    COUNT,
    VOLUME,
    part_sums,
    thing_sums,
    vessel_sums,
)
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import numbered
from trimdive.geometry.solids.hull import density_of
from trimdive.geometry.solids.moments import above, centroid
from trimdive.hydrostatics.weights.ledger import cylinder_mass

# A thing that might as well not be there explains nothing by being smaller: what is won by that
# counts only as far as she needs the thing as it would be.
TWICE, SLIGHT = 3.0, 0.5
COATED = (0.0002, 0.8)  # usual thickness of paint and filler [m], and its band as a logarithm


@dataclass(frozen=True, slots=True, kw_only=True)
class Suspect:
    """A figure that may have slipped, and how much likelier she is with it put right."""

    slip: Candidate
    gain: float  # logarithm of how much likelier [-]


def suspects(her: Assessed, most: int, only: frozenset[str] | None = None) -> tuple[Suspect, ...]:
    """Return the figures that may have slipped, likeliest first.

    Args:
        her: Of the boat.
        most: How many at the most.
        only: Paths of what is looked at; None: everything aboard. Where these are told, what was
            weighed under water is believed: that it pulls up has been explained otherwise.
    """
    trial, around = (one := trial_of(her)), one.around
    now = trial.balance.misfit(trial.balance.sums, trial.balance.rooms)
    clashing, is_guessed = sharing(her), rests_on_guesses(her)
    found: list[Suspect] = []
    for path, piece in things(her.boat):
        if only is not None and path not in only:
            continue
        before = _of(trial, path, piece)
        for slip in candidates(her.boat, path, piece):
            if slip.is_nothing:
                continue
            if only is not None and slip.field == "hung" and fits(piece, around.drawn.get(path)):
                continue
            changed = piece.model_copy(update=dict(slip.changes))
            was, after = before, _of(trial, path, changed)
            if after is None or was is None:
                continue
            if isinstance(piece, Skin) and slip.field in ("above", "below"):
                was = banded(trial, path, piece)
                after = banded(trial, path, changed)  # pyright: ignore[reportArgumentType]
            sums = trial.balance.sums + after[0] - was[0]
            rooms = _rooms(trial.balance.rooms, after[2])
            left = trial.balance.misfit(sums, rooms)
            won = now - left
            if isinstance(piece, Part) or (slip.field == "mass" and isinstance(piece, Tank)):
                none = _without(trial, path, piece, slip.field)
                without = trial.balance.misfit(trial.balance.sums - was[0] + none, rooms)
                won = min(won, TWICE * max(without - left, 0.0) + SLIGHT)
            elif isinstance(piece, Tank) and len(rooms) > 1:
                none = _rooms(trial.balance.rooms, dict.fromkeys(after[2], (0.0, 0.0)))
                without = trial.balance.misfit(trial.balance.sums, none)
                won = min(won, TWICE * max(without - left, 0.0) + SLIGHT)
            won += cleared(her, slip, clashing)
            won = _won_of_guesses(won, slip, around) if is_guessed else won
            gain = won + was[1] - after[1] - slip.rare
            if isfinite(gain) and gain > 0:
                found.append(Suspect(slip=slip, gain=gain))
    found.sort(key=lambda one: -one.gain)
    return tuple(found[:most])


def _won_of_guesses(won: float, slip: Candidate, around: Around) -> float:
    """Return what counts of what the sums win by a slip put right, where they rest on guesses [-].

    Nothing, but of a thing that is written heavier than all the water that the hull takes.
    """
    is_too_heavy = slip.kind == "mass" and slip.was > around.most / HEAVY
    return won if is_too_heavy else min(won, 0.0)


def unlikely(her: Assessed, path: str, was: Piece) -> float:
    """Return how unlikely a boat is with a thing written otherwise [-].

    Her sums, and how much odder the thing is by itself than it was.

    Args:
        her: Of the boat, the thing written otherwise.
        path: Of the thing.
        was: As it was written.
    """
    trial = trial_of(her)
    now, before = _of(trial, path, dict(things(her.boat))[path]), _of(trial, path, was)
    odd = now[1] - before[1] if now and before else 0.0
    return trial.balance.misfit(trial.balance.sums, trial.balance.rooms) + odd


def _without(trial: Trial, path: str, part: Part | Tank, field: str) -> Floats:
    """Return the sums with a part not there, or for its place to the side, on the middle line."""
    if field != "y" or isinstance(part, Tank) or part.pair:
        return np.zeros(COUNT)
    return part_sums(part.model_copy(update={"y": 0.0}), trial.around.drawn.get(path), trial.line)


def _rooms(
    rooms: tuple[tuple[float, float], ...], changed: Rooms
) -> tuple[tuple[float, float], ...]:
    return tuple(changed.get(k, room) for k, room in enumerate(rooms))


def _of(trial: Trial, path: str, piece: Piece) -> Sums | None:
    """Return what a thing adds to the sums, how odd it is, and the tanks that change with it."""
    around = trial.around
    match piece:
        case Part():
            sums = part_sums(piece, around.drawn.get(path), trial.line)
            return sums, part_oddity(piece, path, around), {}
        case Cylinder():
            mass = cylinder_mass(piece)
            sums = vessel_sums(piece, mass, trial.line)
            others = replace(around, vessels={**around.vessels, piece.name: piece})
            tanks = _following(trial, piece)
            odd = vessel_oddity(piece, mass, around) + _contents(trial, piece.name, others, tanks)
            return sums, odd, {k: room for k, one in tanks.items() if (room := _room(one))}
        case Tank():
            k = ref(path).order
            room = _room(piece)
            sums = _tank_sums(trial, piece)
            return (sums, tank_oddity(piece, around), {k: room}) if room else None
        case Coat():
            return _coat(trial, path, piece)
        case Waterline():
            return _waterline(trial, piece)
        case Skin():
            return region_sums(trial, path, piece)


def _waterline(trial: Trial, line: Waterline) -> Sums:
    """Return what lies above a waterline, and how odd it is."""
    n = np.array([-line.slope, 0.0, 1.0])
    n /= np.linalg.norm(n)
    d = float(n[2]) * line.height_at(0.0)
    sums = np.zeros(COUNT)
    hull = trial.around.hull
    if hull is None:
        return sums, 0.0, {}
    low, high = float(hull.low.min()), float(hull.high.max())
    height = line.height_at(trial.balance.middle)
    out = max(low - height, height - high, 0.0)
    odd = surprise(out / 0.003)
    given = trial.boat.full_size.draught if trial.boat.full_size else None
    if given and trial.boat.scale and height > 0:
        odd += surprise(log(height * trial.boat.scale / given) / 0.05)
    if not out:
        for body in trial.assessed.bodies:
            upper = above(body, n, d)
            sums[ABOVE] += upper.volume
            sums[AX] += float(upper.moment[0])
    else:
        sums[ABOVE] = trial.balance.sums[VOLUME] if height < low else 0.0
        sums[AX] = sums[ABOVE] * trial.balance.middle
    return sums, odd, {}


def _following(trial: Trial, now: Cylinder) -> dict[int, Tank]:
    """Return the tanks that follow a cylinder written otherwise, by their number."""
    was = trial.around.vessels[now.name]
    if now.bore <= 0:
        return {}
    found = {
        k: followed(tank, was, now)
        for k, tank in enumerate(trial.boat.tanks)
        if tank.inside == now.name
    }
    return {k: tank for k, tank in found.items() if tank != trial.boat.tanks[k]}


def _contents(trial: Trial, name: str, around: Around, tanks: Mapping[int, Tank]) -> float:
    """Return how odd all is that lies in a cylinder, some of its tanks changed."""
    parts = [(p, one) for p, one in numbered(trial.boat) if one.inside == name]
    inside = [tanks.get(k, one) for k, one in enumerate(trial.boat.tanks) if one.inside == name]
    odd = sum(part_oddity(part, path, around) for path, part in parts)
    return odd + sum(tank_oddity(tank, around) for tank in inside)


def _tank_sums(trial: Trial, tank: Tank) -> Floats:
    """Return what a tank without its water adds to the sums."""
    x = tank.x
    if tank.kind == "piston":
        x = tank.water_end + (1.0 if tank.runs == "forward" else -1.0) * tank.stroke / 2
    return thing_sums(tank.mass or 0.0, 0.0, (x, tank.y, tank.z), 0.0, trial.line)


def _room(tank: Tank) -> tuple[float, float] | None:
    """Return the room in a tank beyond what stays in it blown [m³], and its place [m]."""
    if tank.shape == "mesh":
        return None
    length, place = tank.length, tank.x
    if tank.kind == "piston":
        way = 1.0 if tank.runs == "forward" else -1.0
        length, place = tank.stroke, tank.water_end + way * tank.neutral * tank.stroke / 2
    area = np.pi / 4 * tank.bore**2 if tank.shape == "round" else tank.breadth * tank.height
    room = area * length * (1 - tank.lost) * (1 - (tank.blown or 0.0))
    return max(room - tank.dead_water - tank.dead_air, 1e-9), place


def _coat(trial: Trial, path: str, coat: Coat) -> Sums | None:
    bodies = trial.bodies.get(path)
    density = density_of(coat.material, coat.density)
    if not bodies or not density or coat.mass is None:
        return None
    on = coat.on or tuple(skin.name for skin in trial.assessed.hull.skins)
    area = coat.sides * sum(s.area for s in trial.assessed.hull.skins if s.name in on)
    share = coat.mass / density / sum(body.volume for body in bodies)
    sums = np.zeros(COUNT)
    for body in bodies:
        x, y, z = centroid(body.mesh)
        volume = body.volume * share
        one = thing_sums(density * volume, volume, (x, y, z), 0.0, trial.line)
        upper = above(body, *trial.assessed.waterline)
        one[ABOVE], one[AX] = upper.volume * share, float(upper.moment[0]) * share
        sums += one
    odd = surprise(log(density / 1400.0) / 0.4)
    if area > 0 and coat.mass > 0:
        odd += surprise(log(coat.mass / density / area / COATED[0]) / COATED[1])
    return sums, odd, {}
