"""Findings as the page shows them at once; what takes longer follows a moment later.

That is whether one figure slipped, and what remains of each finding when it alone is mended. Until
both are worked out anew, findings stand as they did before the change: each under what took it
with it then, a slipped figure too. The page says so.
"""

from collections.abc import Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from trimdive.assessment import Assessment
from trimdive.findings import Finding
from trimdive.page.units import shown_in

if TYPE_CHECKING:
    from trimdive.page.desk import Desk


SLIP = "slip"  # key of a finding that one figure slipped


def is_whole(her: Assessment) -> bool:
    """Return whether it is worked out what remains when each finding alone is mended."""
    if her.is_known("findings"):
        return True
    return is_first(her) and not any(one.edits for one in her.first_findings)


def is_first(her: Assessment) -> bool:
    """Return whether a slipped figure was looked for; where all is in order there is none."""
    return her.is_known("first_findings") or her.in_order


def at_once(desk: "Desk") -> tuple[Finding, ...]:
    """Return what is not in order, worst first, as far as it is worked out."""
    if is_whole(desk.her):
        return desk.her.findings
    earlier = (step.shown for step in reversed(desk.steps[: desk.at]) if step.shown)
    before = next((shown_in(one, desk.units).her for one in earlier), None)
    found = before.findings if before and is_whole(before) else ()
    if is_first(desk.her):
        return as_before(desk.her.first_findings, found)
    slips = [one for one in found if one.key == SLIP]
    return as_before((*slips, *desk.her.checked), found)


def urgent(found: Iterable[Finding]) -> int:
    """Return how many of these must be put right, what goes with others counted too."""
    return sum(one.weight == "put right" for one in found)


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
