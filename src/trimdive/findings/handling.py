"""Checks of what must be lifted."""

from collections.abc import Iterator

from trimdive.findings.facts import Facts
from trimdive.findings.finding import Finding, Limit, check, finding


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
