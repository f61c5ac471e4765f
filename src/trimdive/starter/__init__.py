"""A first boat file from length, kind of hull and material: guesses that float and dive at once."""

from trimdive.starter.build import Starter, starter
from trimdive.starter.taped import Entry, GirthKept, wish_by_tape
from trimdive.starter.wish import Section, Wish

__all__ = ["Entry", "GirthKept", "Section", "Starter", "Wish", "starter", "wish_by_tape"]
