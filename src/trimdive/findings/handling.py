"""Checks of what must be lifted."""

from collections.abc import Iterator

from trimdive.findings.facts import Facts
from trimdive.findings.finding import Finding, Limit, check, finding, limit_of
from trimdive.rest.named import lifted


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
        what=(
            f"drained, tanks blown, she weighs {lifted(facts.boat, mass)}; two people should not "
            f"lift more than {lifted(facts.boat, limit.value)}"
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
    two, mass = limit_of("lift-two", facts.boat).value, _drained(facts)
    if limit.value < mass <= two:
        yield finding(
            limit=limit,
            subject="boat",
            weight="look at",
            rank=4,
            stands=mass,
            what=(
                f"drained, tanks blown, she weighs {lifted(facts.boat, mass)}; one person alone "
                f"should not lift more than {lifted(facts.boat, limit.value)}"
            ),
            mend="Lift her with two, close to the body, from a firm bank; local rules go first.",
        )
