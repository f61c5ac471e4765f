"""Lead and foam so that she floats level at her waterline and dives level: two linear conditions.

Weight equals buoyancy to the waterline, and both act at one x. Lead lies along the keel, more of it
at one end where the moment asks for it; foam lies in pairs under the waterline.
"""

from dataclasses import dataclass, replace
from math import sqrt

import numpy as np

from trimdive.data import row
from trimdive.errors import StarterError
from trimdive.estimates.starter.room import (
    GAP,
    LEAD_BROAD,
    LEAD_LONG,
    SLANTED,
    Slot,
    lead_places,
)
from trimdive.estimates.starter.shape import lines_of
from trimdive.estimates.starter.things import middles
from trimdive.estimates.starter.wish import Plan
from trimdive.geometry.lines.mesh import Floats

LEAST = 0.25  # of the mean filling of the places for foam, that each holds at least [-]
BROADER = (1.0, 1.15, 1.3, 1.5)  # so many times as broad a bar may be to be flatter [-]
ENDS = (0.12, 0.88)  # no lead lies farther out, of the length [-]
OPEN = 0.5  # beyond the cylinders lead reaches no higher, of the waterline's height [-]
HIGHEST, THINNEST = 0.020, 0.002  # of a bar [m]
ROUNDING = 1e-6  # [m], and share of a bar [-]
SPARSE = 0.3  # filled less than this, every other place is enough [-]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sums:
    """A boat without lead and foam: masses, and what lies below the waterline."""

    mass: float  # [kg]
    moment: float  # of the mass about the stern [kg m]
    below: float  # volume below the waterline [m³]
    below_moment: float  # [m⁴]
    density: float  # of the water [kg/m³]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A bar of lead on the keel."""

    mass: float  # [kg]
    x: float  # [m]
    z: float  # [m]
    length: float  # [m]
    breadth: float  # [m]
    height: float  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """A pair of foam blocks; the volume is of both."""

    volume: float  # [m³]
    x: float  # [m]
    y: float  # [m]
    z: float  # [m]
    length: float  # [m]
    breadth: float  # of one [m]
    height: float  # [m]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ballast:
    """Lead and foam aboard."""

    bars: tuple[Bar, ...]
    blocks: tuple[Block, ...]
    full: float  # share of the room for foam that is taken [-]


NONE = Ballast(bars=(), blocks=(), full=0.0)


def density(name: str) -> float:
    """Return the density of a material [kg/m³]."""
    return float(row("materials", name)["density"])


def wet_ballast(plan: Plan, sums: Sums, slots: list[Slot], lead: float) -> Ballast:
    """Return lead and foam for a wet hull.

    Args:
        plan: Her proportions.
        sums: What she is without them.
        slots: Room for foam.
        lead: How much lead [kg].

    Raises:
        StarterError: There is not room enough for the foam, or she is too light without any.
    """
    lift = sums.density - density("XPS foam")  # of a cubic metre of foam under water [kg/m³]
    pull = 1 - sums.density / density("lead")  # of a kilogram of lead under water [-]
    volume = (sums.mass - sums.density * sums.below + pull * lead) / lift
    if volume < SPARSE * sum(slot.volume for slot in slots):
        slots = slots[::2]
    room = np.array([slot.volume for slot in slots])
    at = np.array([slot.x for slot in slots])
    if len(slots) < 2 or volume > float(room.sum()):
        what = (
            f"the hull has no room for {max(volume, 0.0) * 1e3:.1f} L of foam beside the cylinder"
        )
        raise StarterError(what, "breadth", "Give a larger breadth, or a thinner wall.")
    middle = float(lead_places(plan).mean())
    moment = sums.moment - sums.density * sums.below_moment  # to be made up, bow heavy
    wanted = (moment + pull * lead * middle) / (lift * max(volume, 1e-9))
    shares = _tilted(room, at, max(volume, 0.0), wanted)
    foam = shares * room
    x_lead = (lift * float(foam @ at) - moment) / (pull * lead)
    return Ballast(
        bars=_under(plan, lead, x_lead),
        blocks=tuple(_block(slot, share) for slot, share in zip(slots, shares, strict=True)),
        full=volume / float(room.sum()),
    )


def _tilted(room: Floats, at: Floats, volume: float, wanted: float) -> Floats:
    """Return how full each place for foam is, rising or falling along her, middle near ``wanted``.

    Args:
        room: Of each place, shape (n,) [m³].
        at: Its middle, shape (n,) [m].
        volume: Of foam in all [m³].
        wanted: Where its middle should lie [m].
    """
    mean = volume / float(room.sum())
    about = float(room @ at / room.sum())
    arm = at - about
    slope = (wanted - about) * volume / float(room @ arm**2)
    steepest = min(mean - LEAST * mean, 1.0 - mean) / float(np.abs(arm).max())
    return mean + np.clip(slope, -steepest, steepest) * arm


def _bars(plan: Plan, lead: float, x: float) -> tuple[Bar, ...]:
    """Return bars of lead whose common middle lies at ``x``.

    Raises:
        StarterError: No bars on the keel do that.
    """
    at = lead_places(plan)
    arm = at - at.mean()
    weights = 1 + (x - at.mean()) * len(at) / float(arm @ arm) * arm
    if weights.min() < 0:  # only the places on the heavy side, spread evenly about x
        reach = min(x - plan.wish.length * 0.12, plan.wish.length * 0.88 - x)
        if reach <= 0:
            what = "what is heavy lies too far out for lead on the keel to balance it"
            raise StarterError(what, "the starter", "Give other proportions.")
        half = min(reach, float(np.ptp(at)) / 2)
        at = np.linspace(x - half, x + half, len(at))
        weights = np.ones(len(at))
    masses = lead * weights / weights.sum()
    return tuple(
        _bar(plan, float(mass), float(place)) for mass, place in zip(masses, at, strict=True)
    )


def _under(plan: Plan, lead: float, x: float) -> tuple[Bar, ...]:
    """Return bars of lead under the cylinders of a wet hull, their common middle at ``x``.

    Where plain bars would reach into a cylinder, as where the keel rises under its ends, as much
    lies at each place end to end along the keel as has room there, the lowest first.

    Raises:
        StarterError: No bars on the keel do that.
    """
    plain = _bars(plan, lead, x)
    if all(_top(bar) <= _roof(plan, bar.x) + ROUNDING for bar in plain):
        return plain
    return _end_to_end(plan, lead, x) or plain


def _top(bar: Bar) -> float:
    return bar.z + bar.height / 2


def _end_to_end(plan: Plan, lead: float, x: float) -> tuple[Bar, ...]:
    """Return the lowest bars end to end with room under what is above; none where none do.

    Source: linear programming; HiGHS.
    """
    from scipy.optimize import linprog

    long = LEAD_LONG * plan.wish.length
    count = int((ENDS[1] - ENDS[0]) * plan.wish.length / (long + GAP))
    places = (ENDS[0] * plan.wish.length + (k + 0.5) * (long + GAP) for k in range(count))
    largest = [bar for at in places if (bar := _largest(plan, at))]
    if not largest:
        return ()
    at, heights = (np.array([getattr(bar, axis) for bar in largest]) for axis in "xz")
    found = linprog(
        heights, A_eq=np.stack([np.ones(len(at)), at - x]), b_eq=[lead, 0.0],
        bounds=[(0.0, bar.mass) for bar in largest],
    )  # fmt: skip
    if found.x is None:
        return ()
    shares = [float(mass) / bar.mass for mass, bar in zip(found.x, largest, strict=True)]
    return tuple(
        _cut(bar, share) for share, bar in zip(shares, largest, strict=True) if share > ROUNDING
    )


def _cut(bar: Bar, share: float) -> Bar:
    """Return a bar with a share of its mass, lower on the same floor."""
    high = share * bar.height
    low = bar.z - (bar.height - high) / 2
    return _no_foil(replace(bar, mass=share * bar.mass, z=low, height=high))


def _no_foil(bar: Bar) -> Bar:
    """Return a bar that would be too thin to cut as a smaller one of as much mass."""
    if bar.height >= THINNEST:
        return bar
    side = sqrt(bar.height / THINNEST)  # of length and breadth [-]
    return replace(
        bar, z=bar.z + (THINNEST - bar.height) / 2, height=THINNEST, length=side * bar.length,
        breadth=side * bar.breadth,
    )  # fmt: skip


def _largest(plan: Plan, x: float) -> Bar | None:
    """Return the heaviest bar with room at a place; None where there is none worth casting."""
    long, best = LEAD_LONG * plan.wish.length, None
    for broader in BROADER:
        share = LEAD_BROAD[plan.wish.kind] * broader
        low = _floor(plan, x, share) + SLANTED * plan.wall + GAP / 2
        high = min(_roof(plan, x) - low, HIGHEST)
        broad = share * plan.breadth
        mass = high * broad * long * density("lead")
        if high > THINNEST and (best is None or mass > best.mass):
            best = Bar(mass=mass, x=x, z=low + high / 2, length=long, breadth=broad, height=high)
    return best


def _roof(plan: Plan, x: float) -> float:
    """Return how high lead may reach at a place: under a cylinder, or beyond its ends [m]."""
    half = (plan.span + LEAD_LONG * plan.wish.length) / 2 + GAP
    is_under = any(abs(x - middle) < half for middle in middles(plan))
    return ceiling(plan) if is_under else OPEN * plan.waterline


def _bar(plan: Plan, mass: float, x: float) -> Bar:
    """Return a bar of lead on the keel, as much broader as it must be to stay under what is above.

    Args:
        plan: Her proportions.
        mass: Of the bar [kg].
        x: Its place [m].
    """
    long = LEAD_LONG * plan.wish.length
    made: list[Bar] = []
    for broader in BROADER if plan.wish.kind == "wet" else BROADER[:1]:
        share = LEAD_BROAD[plan.wish.kind] * broader
        high = mass / density("lead") / (long * share * plan.breadth)
        low = _floor(plan, x, share) + SLANTED * plan.wall + GAP / 2
        bar = Bar(
            mass=mass, x=x, z=low + high / 2, length=long, breadth=share * plan.breadth,
            height=high,
        )  # fmt: skip
        if low + high <= ceiling(plan):
            return _no_foil(bar)
        made.append(bar)
    return min(made, key=lambda one: one.z + one.height / 2)


def ceiling(plan: Plan) -> float:
    """Return how high lead on the keel may reach under the cylinders [m]."""
    return plan.axis - plan.outside / 2 - GAP / 2


def _floor(plan: Plan, x: float, broad: float) -> float:
    """Return about how high the hull's bottom stands at the edge of a bar of lead [m].

    Args:
        plan: Her proportions.
        x: Its place [m].
        broad: Its breadth, as a share of the hull's [-].
    """
    profile, across = lines_of(plan)
    places, keels, _ = zip(*profile, strict=True)
    spots, breadths, widest, _ = zip(*across, strict=True)
    half_long = LEAD_LONG / 2
    found: list[float] = []
    for share in (x / plan.wish.length - half_long, x / plan.wish.length + half_long):
        keel = float(np.interp(share, places, keels))
        half = float(np.interp(share, spots, breadths))
        up = float(np.interp(share, spots, widest)) - keel
        edge = min(broad / half, 0.95)
        found.append(plan.waterline * (keel + up * (1 - float(np.sqrt(1 - edge**2)))))
    return max(found)


def _block(slot: Slot, share: float) -> Block:
    """Return a pair of blocks against the hull that fill a share of a place."""
    breadth = share * (slot.outer - slot.inner)
    return Block(
        volume=share * slot.volume,
        x=slot.x,
        y=slot.outer - breadth / 2,
        z=(slot.low + slot.high) / 2,
        length=slot.length,
        breadth=breadth,
        height=slot.high - slot.low,
    )


def dry_ballast(plan: Plan, sums: Sums) -> Ballast:
    """Return the lead inside a dry hull.

    Raises:
        StarterError: She is too heavy without any.
    """
    lead = sums.density * sums.below - sums.mass
    if lead <= 0:
        what = f"without lead she is already {-lead:.2f} kg too heavy for her waterline"
        raise StarterError(what, "breadth", "Give a larger breadth, or a higher waterline.")
    x = (sums.density * sums.below_moment - sums.moment) / lead
    return Ballast(bars=_bars(plan, lead, x), blocks=(), full=0.0)
