"""Checks of the moments between: jumps on the way, tanks that stick, depth."""

from collections.abc import Iterator

from trimdive.ballast.dive.whatif import stuck_full
from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, check, finding


@check("dive-turn")
def flops(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield the largest turn within one even step of the dive, where that is a flop."""
    pairs = zip(her.dive, her.dive[1:], strict=False)
    turns = [
        (abs(after.state.trim_angle - before.state.trim_angle), before, after)
        for before, after in pairs
        if before.state.rest.under == after.state.rest.under
    ]
    worst = max(turns, key=lambda turn: turn[0], default=None)
    if worst is None or worst[0] <= limit.value:
        return
    turn, before, after = worst
    yield finding(
        limit=limit,
        subject="boat",
        weight="look at",
        rank=7,
        beyond=turn,
        stands=turn,
        what=fact(
            "dive-turns",
            filled=(her.filled(before), her.filled(after)),
            turn=after.state.trim_angle - before.state.trim_angle,
        ),
        mend=fact("shorter-tanks"),
    )


@check("stuck-tank")
def sticks(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield tanks that, stuck full with all others blown, leave nothing above water."""
    if len(her.boat.tanks) < 2:
        return
    for tank in her.boat.tanks:
        case = stuck_full(her, tank.name)
        if case.state.reserve > limit.value:
            continue
        yield finding(
            limit=limit,
            subject=tank.name,
            weight="look at",
            rank=8,
            stands=case.state.reserve,
            what=fact("stuck-full", tank=tank.name, out=max(case.state.reserve, 0.0)),
            mend=fact("part-in-two"),
        )
