"""Slips of one figure, looked for by trying what else it may have been meant to be."""

from trimdive.slips.choose import attempted, chosen, slipped

__all__ = ["attempted", "chosen", "slipped"]
