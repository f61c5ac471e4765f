"""The three marks in words: afloat, on the bench, for the pond."""

from typing import TYPE_CHECKING

from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from collections.abc import Sequence

    from trimdive.assessment.marks import Mark

WATCH = "but watch the way up"
NO_CARD = "no card yet"


def mark_words(mark: "Mark") -> str:
    """Return how she stands in one place: "in order", "2 to put right, 3 not entered"."""
    if mark.in_order:
        return f"in order, {WATCH}" if mark.is_watched else "in order"
    if mark.where == "pond" and mark.urgent:
        return NO_CARD
    counts = ((mark.urgent, "to put right"), (mark.missing, "not entered"))
    return ", ".join(f"{count} {says}" for count, says in counts if count)


def marks_line(found: "Sequence[Mark]") -> str:
    """Return all three in one sentence: "Afloat: in order; bench: 2 to put right; pond: …"."""
    return f"{capital('; '.join(f'{one.where}: {mark_words(one)}' for one in found))}."
