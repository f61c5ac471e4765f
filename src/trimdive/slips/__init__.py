"""Slips of one figure, looked for by trying what else it may have been meant to be."""

from trimdive.slips.choose import attempted, chosen, slipped
from trimdive.slips.refused import explained

__all__ = ["attempted", "chosen", "explained", "slipped"]
