"""What facts say, in words, where there is no boat."""

from collections.abc import Iterable

from trimdive.boatfile import Units
from trimdive.fact import Fact
from trimdive.text.said import said
from trimdive.text.say import say_in

SAY = say_in(Units())


def in_words(fact: Fact | None) -> str:
    """Return what a fact says, or nothing."""
    return said(SAY, fact) if fact else ""


def all_in_words(facts: Iterable[Fact]) -> list[str]:
    """Return what each of some facts says."""
    return [in_words(one) for one in facts]
