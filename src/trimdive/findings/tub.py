"""Checks of what was read in the tub: whether the list counts with it."""

from collections.abc import Iterator

from trimdive.fact import fact
from trimdive.findings.assessed import Assessed
from trimdive.findings.finding import Finding, Limit, check, finding


@check("tub-behind")
def behind(her: Assessed, limit: Limit) -> Iterator[Finding]:
    """Yield readings that the correction of the list does not count yet."""
    boat = her.boat
    count = max((piece.readings for piece in boat.from_tub if not piece.past), default=0)
    left = len(boat.readings_now) - count
    if left <= limit.value:
        return
    yield finding(
        limit=limit,
        subject="boat",
        weight="look at",
        rank=4,
        beyond=left,
        stands=float(left),
        what=fact("readings-not-counted", left=left, was_corrected=count > 0),
        mend=fact("take-over-tub"),
    )
