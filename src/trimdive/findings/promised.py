"""Checks of what was promised, and of the whole boat on the scale."""

from collections.abc import Iterator
from math import hypot

import numpy as np

from trimdive.boatfile import usual_spread
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, check, finding
from trimdive.water import waters


@check("brief-lift")
def lift(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat heavier than she may be to lift."""
    brief = her.boat.brief
    if brief is None or brief.lift_limit is None:
        return
    mass = her.masses.mass
    over = mass - brief.lift_limit
    if over <= limit.value:
        return
    yield finding(
        limit=limit,
        subject="brief",
        rank=28,
        beyond=over / mass,
        stands=over,
        what=fact("heavy-to-lift", mass=mass, promised=brief.lift_limit),
        mend=fact("take-out-to-carry", mass=over),
    )


@check("brief-length")
def length(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat longer than the car or the box."""
    brief = her.boat.brief
    if brief is None or brief.car_length is None:
        return
    long = float(np.ptp(her.hull.envelope.bounds[:, 0]))
    if long - brief.car_length > limit.value:
        yield finding(
            limit=limit,
            subject="brief",
            rank=27,
            stands=long - brief.car_length,
            what=fact("too-long-to-carry", length=long, room=brief.car_length),
            mend=fact("part-the-hull"),
        )


@check("brief-depth")
def depth(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a pond too shallow for her to go under."""
    brief = her.boat.brief
    if brief is None or brief.pond_depth is None:
        return
    bounds = np.stack([body.mesh.bounds for body in her.bodies])
    high = float(bounds[:, 1, 2].max() - bounds[:, 0, 2].min())
    if high + limit.value > brief.pond_depth:
        yield finding(
            limit=limit,
            subject="brief",
            rank=26,
            stands=brief.pond_depth - high,
            what=fact("pond-too-shallow", height=high, depth=brief.pond_depth),
            mend=fact("needs-depth", depth=high + limit.value),
        )


@check("brief-waters")
def other_waters(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield waters in which her tanks alone cannot bring her from the surface to neutral."""
    brief = her.boat.brief
    known = waters()
    for name in brief.waters if brief else ():
        if name not in known:
            yield finding(
                limit=limit,
                subject=name,
                rank=9,
                stands=None,
                what=fact("no-such-water", name=name),
                mend=fact("write-one-of", names=tuple(known)),
            )
            continue
        more = (known[name].density - her.floater.density) * her.floater.volume
        spare = her.need.fitted * known[name].density - her.floater.density * her.need.volume
        if not more > spare + limit.value:
            continue
        yield finding(
            limit=limit,
            subject=name,
            weight="look at",
            rank=8,
            stands=more - spare,
            what=fact("heavier-in-water", water=name, more=more, spare=max(spare, 0.0)),
            mend=fact("keep-loose-lead", mass=more),
        )


@check("weigh-in")
def on_the_scale(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a last weigh-in that the ledger of today does not explain."""
    if not her.boat.weigh_ins:
        return
    last = max(her.boat.weigh_ins, key=lambda one: one.date)
    today = her.masses.today
    scale = usual_spread("weighed", last.mass).of(last.mass)
    off = last.mass - today.dry
    band = hypot(today.spread, scale)
    if abs(off) <= max(band, limit.value * last.mass):
        return
    yield finding(
        limit=limit,
        subject=f"weigh-in of {last.date:%Y-%m-%d}",
        rank=17,
        beyond=abs(off) / last.mass,
        stands=off / last.mass,
        what=fact("off-the-ledger", date=last.date, mass=last.mass, off=off, band=band),
        mend=fact("look-through-ledger"),
    )
