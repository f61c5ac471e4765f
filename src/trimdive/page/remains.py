"""Findings as the page shows them at once; what remains of each when mended follows a moment later.

Until that is worked out anew, findings stand as they did before the change: each under what took
it with it then. The page says so.
"""

from dataclasses import replace
from typing import TYPE_CHECKING

from trimdive.assessment import Assessment
from trimdive.findings import Finding
from trimdive.page.units import shown_in

if TYPE_CHECKING:
    from trimdive.page.desk import Desk


def is_whole(her: Assessment) -> bool:
    """Return whether it is worked out what remains when each finding alone is mended."""
    return her.is_known("findings") or not any(one.edits for one in her.first_findings)


def at_once(desk: "Desk") -> tuple[Finding, ...]:
    """Return what is not in order, worst first, as far as it is worked out."""
    if is_whole(desk.her):
        return desk.her.findings
    earlier = (step.shown for step in reversed(desk.steps[: desk.at]) if step.shown)
    before = next((shown_in(one, desk.units).her for one in earlier), None)
    found = before.findings if before and is_whole(before) else ()
    return as_before(desk.her.first_findings, found)


def as_before(found: tuple[Finding, ...], before: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return findings ordered, and each under what took it with it, as they were before a change.

    Args:
        found: As they are, worst first.
        before: As they were, with what remained of each.
    """
    was = {one.about: (place, one) for place, one in enumerate(before)}
    rows = [
        replace(one, left=old.left, hidden=old.hidden, follows=old.follows)
        for one in found
        for old in [was[one.about][1] if one.about in was else one]
    ]
    last = len(before)
    return tuple(sorted(rows, key=lambda one: was[one.about][0] if one.about in was else last))
