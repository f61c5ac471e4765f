"""Mends that move the same pieces opposite ways: neither may be pressed as if it stood alone."""

from collections.abc import Sequence

from trimdive.boatfile import Boat
from trimdive.boatfile.ref import ref
from trimdive.findings.edits import LISTS
from trimdive.findings.finding import Edit, Finding
from trimdive.findings.order import takes

ALONG = ("x", "y", "z", "water_end")  # fields that are places
TRIFLE = 1e-3  # a move no farther pulls nothing [m]


def moves(boat: Boat, edits: Sequence[Edit]) -> dict[tuple[str, str], float]:
    """Return how far changes move pieces, by path and field [m].

    Args:
        boat: The boat as she is.
        edits: Changes; those of other fields, and pieces added or removed, move nothing.
    """
    found: dict[tuple[str, str], float] = {}
    for edit in (one for one in edits if one.action == "set"):
        at = ref(edit.path)
        if at.table not in LISTS:
            continue
        piece = getattr(boat, LISTS[at.table])[at.order]
        for field, value in edit.fields:
            was = getattr(piece, field, None)
            if field in ALONG and isinstance(was, float) and isinstance(value, float):
                found[edit.path, field] = value - was
    return found


def opposed(boat: Boat, k: int, found: Sequence[Finding]) -> list[int]:
    """Return which other findings' changes move a piece of the k-th's the other way.

    What the one takes along with it, or that takes it, is none: it goes with that.
    """
    one, own = found[k], moves(boat, found[k].edits)
    against: list[int] = []
    for i, other in enumerate(found):
        if one is other or takes(one, other) or takes(other, one):
            continue
        theirs = moves(boat, other.edits)
        if any(
            own[key] * theirs[key] < 0 and min(abs(own[key]), abs(theirs[key])) > TRIFLE
            for key in own.keys() & theirs.keys()
        ):
            against.append(i)
    return against
