"""A finding in words: what is not in order, and what mends it."""

from dataclasses import replace
from typing import TYPE_CHECKING, cast

from trimdive.text.said import is_said, said
from trimdive.text.say import Say

if TYPE_CHECKING:
    from trimdive.boatfile import Boat
    from trimdive.fact import Fact
    from trimdive.findings import Finding, Limit

METRIC = ("g", "kg")  # in which limits of masses stand in the table


def what(boat: "Boat", found: "Finding") -> str:
    """Return what is not in order, with figures in the boat's units."""
    return said(Say(boat), found.what)


def mend(boat: "Boat", found: "Finding") -> str:
    """Return what mends it, with figures in the boat's units."""
    return said(Say(boat), found.mend)


def mends(boat: "Boat", found: "Finding") -> tuple[str, ...]:
    """Return what mends it: the first way, then other ways and what else is to be known of it."""
    say = Say(boat)
    return tuple(said(say, one) for one in _each(found.mend))


def _each(mend: "Fact") -> "tuple[Fact, ...]":
    """Return the facts of which a mend is made, one after another."""
    if mend.kind != "together":
        return (mend,)
    inner = cast("tuple[Fact, ...]", mend.values["facts"])
    return tuple(part for one in inner for part in _each(one))


def entered(boat: "Boat", found: "Finding", way: int = 0) -> str:
    """Return what a press of its button enters: the mend itself, unless the builder does that.

    Args:
        boat: For the units.
        found: What is not in order.
        way: Which of its ways; 0 for the first.
    """
    says = found.ways[way - 1][0] if way else _each(found.mend)[0]
    kind = f"{says.kind}-by-button"
    return said(Say(boat), replace(says, kind=kind) if is_said(kind) else says)


def in_file(path: str) -> str:
    """Return where in the boat file something is entered.

    >>> in_file("part[3].inside"), in_file("failsafe")
    ('part[3].inside in the boat file', 'failsafe in the boat file')
    """
    return f"{path} in the boat file"


def mend_kind(found: "Finding") -> str:
    """Return the kind of what mends it; of several told one after another the first."""
    mend = found.mend
    while mend.kind == "together":
        mend = cast("tuple[Fact, ...]", mend.values["facts"])[0]
    return mend.kind


def listed_in_words(boat: "Boat", facts: "tuple[Fact, ...]") -> list[str]:
    """Return several facts in words, such as what a mend leaves."""
    return [said(Say(boat), one) for one in facts]


def limit_text(boat: "Boat", limit: "Limit") -> str:
    """Return a limit: the boat file's own as it stands there, else in the boat's units."""
    units = boat.units
    if limit.is_own:
        return limit.text
    if limit.quantity == "angle":
        return limit.text.replace(" °", "°")
    if limit.quantity == "length" and units.shown("length") != "mm":
        return units.write(limit.value, "length")
    if limit.quantity == "mass" and (shown := units.shown("mass")) not in METRIC:
        return units.write_fine(limit.value, "mass") if limit.value else f"0 {shown}"
    return limit.text
