"""Slips of one figure, looked for by trying what else it may have been meant to be."""

from trimdive.slips.choose import attempted, slipped
from trimdive.slips.refused import explained, explained_in

__all__ = ["attempted", "explained", "explained_in", "slipped"]
