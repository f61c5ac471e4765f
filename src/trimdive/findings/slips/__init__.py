"""Slips of one figure, looked for by trying what else it may have been meant to be."""

from trimdive.findings.slips.choose import attempted, slipped
from trimdive.findings.slips.refused import explained, explained_in

__all__ = ["attempted", "explained", "explained_in", "slipped"]
