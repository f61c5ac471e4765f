"""A first boat file from length, kind of hull and material: guesses that float and dive at once."""

from trimdive.starter.build import Starter, starter
from trimdive.starter.taped import wish_by_tape
from trimdive.starter.wish import Section, Wish

__all__ = ["Section", "Starter", "Wish", "starter", "wish_by_tape"]
