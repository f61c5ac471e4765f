"""Key figures of the demo boats: what they are, and what a sum made before this program says."""

import pytest


def held(ours: float, *, printed: float, rel: float = 0.10, abs: float | None = None) -> object:  # noqa: A002
    """Return what a figure must equal: what it is now, to 1 %.

    Args:
        ours: What it is; of our own making, so that it only shows a change.
        printed: What the sum from outside says.
        rel: How far the two may be apart, as a share of what is told [-].
        abs: The same as a difference, in place of the share.
    """
    apart = pytest.approx(printed, abs=abs) if abs is not None else pytest.approx(printed, rel=rel)
    assert ours == apart, "what it is lies too far from what was worked out from outside"
    return pytest.approx(ours, rel=0.01)
