"""What everything weighs, where, and how sure that is."""

from trimdive.weights.ledger import Entry, Ledger, ledger

__all__ = ["Entry", "Ledger", "ledger"]
