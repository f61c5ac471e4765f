"""What everything weighs, where, and how sure that is."""

from trimdive.hydrostatics.weights.ledger import Entry, Ledger, ledger

__all__ = ["Entry", "Ledger", "ledger"]
