"""Checks of what must be lifted."""

from collections.abc import Iterator

from trimdive.findings.facts import Facts
from trimdive.findings.finding import Finding, Limit, check, finding, limit_of


@check("lift-two")
def two_to_lift(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that two people should not lift without help."""
    if facts.floater.mass <= limit.value:
        return
    yield finding(
        subject="boat",
        weight="look at",
        rank=5,
        what=(
            f"she weighs {facts.mass(facts.floater.mass)} before any water; two people should not "
            f"lift more than {facts.mass(limit.value)}"
        ),
        limit=limit,
        mend=(
            "Plan a trolley and a ramp or more hands, or take batteries out for the carry; "
            "your local rules have the last word."
        ),
    )


@check("lift-one")
def one_to_lift(facts: Facts, limit: Limit) -> Iterator[Finding]:
    """Yield a boat that one person should not lift alone, though two may."""
    two = limit_of("lift-two", facts.boat).value
    if limit.value < facts.floater.mass <= two:
        yield finding(
            limit=limit,
            subject="boat",
            weight="look at",
            rank=4,
            what=(
                f"she weighs {facts.mass(facts.floater.mass)}; one person alone should not lift "
                f"more than {facts.mass(limit.value)}"
            ),
            mend="Lift her with two, close to the body, from a firm bank; local rules go first.",
        )
