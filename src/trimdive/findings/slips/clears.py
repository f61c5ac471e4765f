"""Whether a slipped place is why a thing shares room: written otherwise, it shares none."""

from trimdive.findings.assessed import Assessed
from trimdive.findings.slips.candidates import Candidate, things
from trimdive.geometry.clashes.scene import placed_at

CLEARS = 1.5  # how much likelier such a slip is, as a logarithm [-]
AXES = ("x", "y", "z")


def sharing(her: Assessed) -> frozenset[str]:
    """Return the paths of what shares room, or lies out of its cylinder."""
    return frozenset(path for clash in her.scene.clashes() for path in clash.about)


def cleared(her: Assessed, slip: Candidate, clashing: frozenset[str]) -> float:
    """Return how much likelier a slip is for room that is shared as written, and not otherwise [-].

    Args:
        her: Of the boat.
        slip: The figure, and what it may have been meant to be.
        clashing: What shares room as she is written.
    """
    if slip.path not in clashing or not all(field in AXES for field, _ in slip.changes):
        return 0.0
    piece, would = dict(things(her.boat))[slip.path], dict(slip.changes)
    if slip.path not in her.scene.by_path:
        return 0.0
    x, y, z = (would.get(axis, getattr(piece, axis)) - getattr(piece, axis) for axis in AXES)
    there = placed_at(her.scene.by_path[slip.path], (x, y, z))
    return CLEARS if her.scene.is_clear(there) else 0.0
