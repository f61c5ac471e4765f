"""Ballast need: the water that must come aboard equals the volume above the waterline.

Surfaced at the waterline meant and neutral when dived, weight and buoyancy balance both times,
so that their differences balance too:

    sum over tanks of rho V (f - r) = rho V_above,

with equal moments fore and aft and athwartships. What counts is the volume of what lies above
the waterline, not its mass; the trade's rule of thumb counts the mass.

Source: Archimedes, twice. The rule of thumb: common practice, no source.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from trimdive.data import constant
from trimdive.geometry.lines.mesh import Floats
from trimdive.geometry.solids.build import Body
from trimdive.geometry.solids.moments import above
from trimdive.hydrostatics.equilibrium.problem import Floater
from trimdive.hydrostatics.equilibrium.solve import levels_at
from trimdive.hydrostatics.equilibrium.tankwater import tank_water
from trimdive.hydrostatics.weights import Ledger
from trimdive.records import record

UP = np.array([0.0, 0.0, 1.0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one thing adds to the need."""

    name: str
    path: str
    volume: float  # displaced above the waterline [m³]
    mass: float  # of it above the waterline, as the rule of thumb counts [kg]
    x: float  # centre of that volume [m]


@record
class Need:
    """Ballast water needed, and what the fitted tanks give."""

    volume: float  # displaced volume above the waterline [m³]
    place: Floats  # its centre, shape (3,) [m]
    mass_above: float  # mass above the waterline: the rule of thumb's litres [kg]
    shares: tuple[Share, ...]  # what it is made of, largest first
    fitted: float  # water the tanks can take between blown and full [m³]
    filling: float  # of the tanks, together, at which they have taken the need [-]
    water_place: Floats  # centre of that water, boat level, shape (3,) [m]
    takes: Floats  # that water in each tank, shape (t,) [m³]

    @property
    def rule_litres(self) -> float:
        """Return the litres by the rule of thumb, one a kilogram above the waterline [m³]."""
        return self.mass_above / constant("rule-of-thumb")

    @property
    def margin(self) -> float:
        """Return how much more the tanks hold than she needs, as a share of it [-]."""
        return self.fitted / self.volume - 1 if self.volume > 0 else 0.0

    @property
    def offset(self) -> float:
        """Return how far forward of the volume above the waterline the tank water lies [m]."""
        return float(self.water_place[0] - self.place[0])


def _shares(
    bodies: tuple[Body, ...], masses: Ledger, n: Floats, d: float
) -> tuple[list[Share], Floats]:
    """Return what lies above the plane, thing by thing, and the sum of its moments [m⁴]."""
    mass_of = {entry.path: entry for entry in masses.entries}
    whole: dict[str, float] = {}
    for body in bodies:
        whole[body.path] = whole.get(body.path, 0.0) + body.volume
    found: dict[str, Share] = {}
    moment = np.zeros(3)
    for body in bodies:
        upper = above(body, n, d)
        if abs(upper.volume) <= 1e-12:
            continue
        moment = moment + upper.moment
        entry = mass_of.get(body.path)
        mass = entry.mass * upper.volume / whole[body.path] if entry else 0.0
        before = found.get(body.path)
        volume = upper.volume + (before.volume if before else 0.0)
        along = float(upper.moment[0]) + (before.x * before.volume if before else 0.0)
        found[body.path] = Share(
            name=body.name,
            path=body.path,
            volume=volume,
            mass=mass + (before.mass if before else 0.0),
            x=along / volume,
        )
    return sorted(found.values(), key=lambda share: -share.volume), moment


def water_taken(boat: Floater, low: Floats, high: Floats) -> tuple[float, Floats]:
    """Return the water taken in between two fillings, and its centre with the boat level.

    Args:
        boat: The boat.
        low: Water in each tank before, shape (t,) [m³].
        high: Water in each tank after, shape (t,) [m³].
    """
    before = tank_water(boat, low, UP, levels_at(boat, low, UP))
    after = tank_water(boat, high, UP, levels_at(boat, high, UP))
    taken = after.volume - before.volume
    if taken <= 0:
        return 0.0, np.zeros(3)
    return taken, (after.moment - before.moment) / taken


def on_the_way(wanted: float, way: Callable[[float], Floats]) -> Floats:
    """Return what each tank has taken when together they have taken ``wanted``, shape (t,) [m³].

    Args:
        wanted: Water to take in [m³].
        way: Water in each tank by the share of all that comes in, shape (t,) [m³].
    """
    low, high = way(0.0), way(1.0)
    room = float((high - low).sum())
    return way(min(wanted / room, 1.0)) - low if room > 0 else 0.0 * low


def need(
    boat: Floater,
    bodies: tuple[Body, ...],
    masses: Ledger,
    waterline: tuple[Floats, float],
    way: Callable[[float], Floats],
) -> Need:
    """Return the ballast need for a waterline, and what the tanks give.

    Args:
        boat: The boat.
        bodies: Everything that displaces.
        masses: Everything that weighs.
        waterline: The plane meant: n [-], and d [m].
        way: Water in each tank by the share of all that comes in as planned, shape (t,) [m³].
    """
    low, high = way(0.0), way(1.0)
    shares, moment = _shares(bodies, masses, *waterline)
    volume = sum(share.volume for share in shares)
    place = moment / volume if volume > 0 else np.zeros(3)
    paths = {body.path for body in bodies}
    n, d = waterline
    dry = [e for e in masses.entries if e.path not in paths and not e.inside and n @ e.place > d]
    takes = on_the_way(volume, way)
    room = float(boat.tanks.capacities.sum())
    _, centre = water_taken(boat, low, low + takes)
    return Need(
        volume=volume,
        place=place,
        mass_above=sum(share.mass for share in shares) + sum(entry.mass for entry in dry),
        shares=tuple(shares),
        fitted=float((high - low).sum()),
        filling=float((low + takes).sum()) / room if room > 0 else 0.0,
        water_place=centre,
        takes=takes,
    )
