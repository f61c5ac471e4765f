"""What is not in order, worst first; one function a check, one row of the table a limit.

The modules of checks enter themselves when this package is imported.
"""

from trimdive.findings import afloat, ballast, figures, handling, places, stability
from trimdive.findings.edits import apply
from trimdive.findings.facts import Facts, Moment
from trimdive.findings.finding import CHECKS, Edit, Finding, Limit, limit_of

__all__ = [
    "CHECKS",
    "Edit",
    "Facts",
    "Finding",
    "Limit",
    "Moment",
    "afloat",
    "apply",
    "ballast",
    "figures",
    "findings",
    "handling",
    "limit_of",
    "places",
    "stability",
]


def findings(facts: Facts) -> tuple[Finding, ...]:
    """Return everything that is not in order, worst first.

    What remains when one alone is mended is not yet filled in; ``assess`` does that.
    """
    found = [
        finding
        for function, limit in CHECKS.values()
        for finding in function(facts, limit_of(limit, facts.boat))
    ]
    return tuple(sorted(found, key=lambda finding: -finding.rank))
