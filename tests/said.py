"""Findings and facts in words, for tests that look at what is said of a boat."""

from typing import Protocol

from trimdive.boatfile.boat import Units
from trimdive.fact import Fact
from trimdive.text.said import said
from trimdive.text.say import Say, say_in

METRIC = say_in(Units())


class Known(Protocol):
    """What tells something and what to do: a finding, a doubt, a trouble."""

    @property
    def what(self) -> Fact:
        """Return what is so."""
        ...

    @property
    def mend(self) -> Fact:
        """Return what to do."""
        ...


def what_of(one: Known, say: Say = METRIC) -> str:
    """Return what is so, in words."""
    return said(say, one.what)


def mend_of(one: Known, say: Say = METRIC) -> str:
    """Return what to do, in words."""
    return said(say, one.mend)


def words_of(fact: Fact, say: Say = METRIC) -> str:
    """Return a fact in words."""
    return said(say, fact)
