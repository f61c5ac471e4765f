"""Readings with a tape: the heads of their files, and a first boat beside the tape.

She has the same litres, or what makes the difference is told.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.boatfile.boat import Units
from trimdive.text.said import said
from trimdive.text.say import Say, say_in

if TYPE_CHECKING:
    from trimdive.estimates.starter import Starter, TapeEntry
    from trimdive.estimates.tape import Readings

HEAD = "# Readings with a tape, as entered."
STOPPED = "# Readings with a tape, not complete: go on with  trimdive tape THIS --more"

SAME = 0.01  # of the litres: closer than this is the same [-]
GIRTH = 0.02  # of a girth: one that is met less well than this is named [-]
MARGIN = 0.003  # and at least this much [m]


def say_by(readings: "Readings") -> Say:
    """Return how figures are written in the units of tape readings."""
    return say_in(Units.model_validate(readings.units))


def taped_lines(made: "Starter") -> Iterator[tuple[str, str]]:
    """Yield how the litres of a first boat compare with those of the tape, as label and sentence.

    Args:
        made: The first boat; nothing is said of one that was not taped.
    """
    if not made.taped:
        return
    says = made.boat.units.write
    whole, off = by_tape(made), off_tape(made)
    if abs(off) <= SAME * whole:
        yield (
            "litres",
            (
                f"the same as by tape: {says(whole, 'volume')} by tape, "
                f"{says(whole + off, 'volume')} in the boat file."
            ),
        )
    else:
        way = "more" if off > 0 else "less"
        yield (
            "litres",
            (
                f"{says(whole, 'volume')} by tape, {says(whole + off, 'volume')} in the boat file, "
                f"{says(abs(off), 'volume')} {way}. What makes the difference:"
            ),
        )
        for one in sorted(made.taped, key=lambda one: -abs(one.off)):
            if abs(one.off) > SAME / 4 * whole:
                yield entry_name(made, one), _entry(made, one)
    yield from _girths(made)


def entry_name(made: "Starter", one: "TapeEntry") -> str:
    """Return what a thing above the waterline is called."""
    return one.name if isinstance(one.name, str) else said(Say(made.boat), one.name)


def _entry(made: "Starter", one: "TapeEntry") -> str:
    says = made.boat.units.write
    aboard = says(one.aboard, "volume")
    if one.by_tape == 0.0:
        return f"not on the tape; guessed, {aboard} above the waterline"
    tape, spread = says(one.by_tape, "volume"), says(one.spread, "volume")
    return f"{tape} ± {spread} by tape, {aboard} in the boat file"


def _girths(made: "Starter") -> Iterator[tuple[str, str]]:
    """Yield the girths that the boat's form does not meet."""
    says = made.boat.units.write
    for one in made.girths:
        if abs(one.aboard - one.by_tape) > max(MARGIN, GIRTH * one.by_tape):
            where = f"girth at {says(one.x, 'length')}"
            tape, aboard = says(one.by_tape, "length"), says(one.aboard, "length")
            mend = "plain proportions do not match it; enter the profile there by hand"
            yield where, f"{tape} by tape, {aboard} in the boat file: {mend}"


def by_tape(made: "Starter") -> float:
    """Return the litres of ballast water by tape [m³]."""
    return sum(one.by_tape for one in made.taped)


def off_tape(made: "Starter") -> float:
    """Return how much more stands above the waterline in the boat file than by tape [m³]."""
    return sum(one.off for one in made.taped)
