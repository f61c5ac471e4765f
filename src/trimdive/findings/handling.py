"""Checks of what must be lifted."""

from collections.abc import Iterator

from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, check, finding, limit_of


def _drained(her: Assessed) -> float:
    """Return what is lifted when she is drained, her tanks blown [kg]."""
    return her.surfaced.displacement_mass


@check("lift-two")
def two_to_lift(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that two people should not lift without help."""
    mass = _drained(her)
    if mass <= limit.value:
        return
    yield finding(
        subject="boat",
        weight="look at",
        rank=5,
        stands=mass,
        what=fact("heavy-for-two", mass=mass, limit=limit.value),
        limit=limit,
        mend=fact("plan-a-trolley"),
    )


@check("lift-one")
def one_to_lift(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that one person should not lift alone, though two may."""
    two, mass = limit_of("lift-two", her.boat).value, _drained(her)
    if limit.value < mass <= two:
        yield finding(
            limit=limit,
            subject="boat",
            weight="look at",
            rank=4,
            stands=mass,
            what=fact("heavy-for-one", mass=mass, limit=limit.value),
            mend=fact("lift-with-two"),
        )
