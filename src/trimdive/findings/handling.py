"""Checks of what must be lifted."""

from collections.abc import Iterator

from trimdive.fact import fact
from trimdive.findings.facts import Facts
from trimdive.findings.finding import Finding, Limit, check, finding, limit_of


def _drained(facts: Facts) -> float:
    """Return what is lifted when she is drained, her tanks blown [kg]."""
    return facts.surfaced.displacement_mass


@check("lift-two")
def two_to_lift(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that two people should not lift without help."""
    mass = _drained(facts)
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
def one_to_lift(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that one person should not lift alone, though two may."""
    two, mass = limit_of("lift-two", facts.boat).value, _drained(facts)
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
