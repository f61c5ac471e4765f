"""Checks of depth: whether her blown tanks bring her up from where she may get to."""

from collections.abc import Iterator
from dataclasses import replace

from trimdive.ballast.depth import compressibility
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, check, finding
from trimdive.plant.failsafe import deep_words


@check("return-depth")
def comes_back(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that shrinks so much that blown tanks no longer lift her from deep water."""
    boat, brief = her.floater, her.boat.brief
    planned = brief.pond_depth if brief else None
    deep = limit.value if planned is None or "return-depth" in her.boat.limits else planned
    blown = boat.mass + boat.density * float(her.surfaced.rest.waters.sum())
    lift = boat.density * boat.volume - blown
    if lift <= 0:
        return  # she sinks as she is, and that is said
    soft = compressibility(her)
    heavier = soft.heavier(deep)
    if heavier <= lift:
        return
    yours = soft.no_return(lift) or 0.0
    worst = max(soft.softs, key=lambda one: one.lost(1e5))
    if deep != limit.value:
        limit = replace(
            limit,
            value=deep,
            text=deep_words(her.boat, deep),
            source="the boat file",
            is_practice=False,
        )
    yield finding(
        limit=limit,
        subject="boat",
        rank=30,
        stands=yours,
        beyond=heavier / lift,
        what=fact("no-return", from_depth=yours, depth=deep, heavier=heavier, lift=lift),
        mend=fact("stiffer-material", name=worst.name),
    )
