"""Cautions of a command, as the last lines of its answer."""

from collections.abc import Collection, Iterator

from trimdive.data.cautions import cautions
from trimdive.text.layout import Block, heading, labelled, line

LAST_WORD = "Local rules and qualified people have the last word."


def care_words(spot: str, kinds: Collection[str] = ()) -> list[str]:
    """Return the cautions of a command for a program, with who has the last word.

    Args:
        spot: As the table of cautions calls it.
        kinds: Kinds of ballast plant that she has.
    """
    return [*(one.short for one in cautions(spot, kinds)), LAST_WORD]


def care(spot: str, kinds: Collection[str] = ()) -> Iterator[Block]:
    """Yield the cautions of a command, a line each, and who has the last word.

    Args:
        spot: As the table of cautions calls it.
        kinds: Kinds of ballast plant that she has.
    """
    yield heading("Take care")
    yield labelled(("-", one.short) for one in cautions(spot, kinds))
    yield line(LAST_WORD)
