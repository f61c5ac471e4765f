"""Which of the likeliest slips is asked: the full solver lets each go, and has the last word."""

from collections.abc import Callable, Sequence
from math import log
from typing import Protocol

from trimdive.errors import TrimdiveError
from trimdive.findings import Edit, Facts, Finding, burden, clearing, limit_of
from trimdive.slips.asked import slip_finding
from trimdive.slips.candidates import SIZES, Candidate
from trimdive.slips.search import Suspect, suspects

LEAST = 1.0  # logarithm of how much likelier the sums must find her, to be tried [-]
MOST_WON = 1.0  # that all vanishes counts no more than this, as a logarithm [-]
NEAR = 1.0  # a slip less likely by no more than this is asked beside the likeliest [-]
MOST = 4  # slips that the full solver lets go [-]
LEAST_SIZE = 0.002  # no thing aboard is less long, broad or high, walls aside [m]
SHARED = {"room-tanks", "room-inside", "room-wet"}  # checks of things in one place
TOO_LARGE = {"room-bore", "size-most", "outside-slack", "place-far"}  # of things that do not fit
FAILED = (TrimdiveError, ArithmeticError, ValueError, LookupError)  # of a trial without answer

Try = Callable[[tuple[Edit, ...]], Sequence[Finding]]


class Tried(Protocol):
    """A boat that can be looked at, and changed for a trial."""

    @property
    def facts(self) -> Facts:
        """All that a check may look at."""
        ...

    @property
    def checked(self) -> tuple[Finding, ...]:
        """What the checks find."""
        ...

    def edited(self, edits: tuple[Edit, ...]) -> "Tried":
        """Return her with these changes made."""
        ...


def attempted(her: Tried) -> tuple[Finding, ...] | None:
    """Return what the checks find in a boat changed for a trial; None where that cannot be told."""
    try:
        return her.checked
    except FAILED:
        return None


def slipped(her: Tried) -> tuple[Finding, ...]:
    """Return the finding that one figure slipped, where that explains most of what is found.

    Where a whole table is of another size, no single figure is asked before that is put right.
    """
    if any(one.key == "full-size" and one.edits for one in her.checked):
        return ()
    found = chosen(her.facts, her.checked, lambda edits: her.edited(edits).checked)
    return (found,) if found else ()


def chosen(facts: Facts, before: Sequence[Finding], trial: Try) -> Finding | None:
    """Return the finding that one figure slipped, where that explains most of what is found.

    Args:
        facts: Of the boat.
        before: What is found as she is.
        trial: Returns what is found with changes made.
    """
    least = log(max(limit_of("slip", facts.boat).value, 1.0))
    found: list[tuple[float, Suspect]] = []
    for suspect in likely(facts):
        if _makes_away(suspect.slip, before):
            continue
        try:
            gain = suspect.gain + verdict(before, trial(suspect.slip.edits))
        except FAILED:
            continue
        if gain >= least:
            found.append((gain, suspect))
    if not found:
        return None
    best, one = max(found, key=lambda pair: pair[0])
    others = [
        other.slip
        for gain, other in sorted(found, key=lambda pair: -pair[0])
        if other is not one and gain > best - NEAR and _same(other.slip, one.slip)
    ]
    return slip_finding(facts, one.slip, best, others[:1])


def _makes_away(slip: Candidate, before: Sequence[Finding]) -> bool:
    """Return whether a slip only makes a thing so small that it is in nobody's way.

    Whatever a thing does by being there, it no longer does when it is next to nothing: where it
    shares room or lies in the wet, that is the fault, and its size is not.
    """
    if slip.field not in SIZES or slip.would >= slip.was:
        return False
    if slip.field != "wall" and slip.would < LEAST_SIZE:
        return True
    keys = {one.key for one in before}
    return bool(keys & SHARED) and not keys & TOO_LARGE


def _same(one: Candidate, other: Candidate) -> bool:
    """Return whether two slips are of one figure."""
    figures = (one.path, one.field, len(one.changes)), (other.path, other.field, len(other.changes))
    return figures[0] == figures[1]


def verdict(before: Sequence[Finding], after: Sequence[Finding]) -> float:
    """Return what the full solver says of a slip put right, as a logarithm of how likely it is [-].

    What vanishes speaks for it, but no more than so much, since every small fault is mended by
    something; what is new speaks against it with all its weight.

    Args:
        before: What is found as she is.
        after: What is found with the slip put right.
    """
    here = {one.about for one in before}
    new = [one for one in after if one.about not in here]
    won = log((burden(before) + 1) / (burden(after) + 1))
    return min(won, MOST_WON) - log(1 + burden(new))


def likely(facts: Facts) -> tuple[Suspect, ...]:
    """Return the slips that the sums find likely, with what hides others put right.

    What that was done to is looked at as it stands too, since it may be the slip.

    Args:
        facts: Of the boat.
    """
    found = [*suspects(facts.plain, MOST)]
    if facts.cleared is not None:
        touched = frozenset(
            edit.path
            for one in clearing(facts)
            for edit in one.edits
            if edit.path[:4] in ("part", "lead", "foam")
        )
        found += suspects(facts, MOST, touched)
    found.sort(key=lambda one: -one.gain)
    return tuple(one for one in found if one.gain >= LEAST)[:MOST]
