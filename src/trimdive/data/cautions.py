"""Cautions where work can hurt someone: which belong to a command, a place or a card."""

import re
from collections.abc import Collection
from dataclasses import dataclass

from trimdive.data import row, table
from trimdive.errors import DataError

IF = " if "


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution."""

    key: str
    short: str  # one line, whole by itself
    text: str  # more of it; "" where there is none


def spots() -> frozenset[str]:
    """Return every place where cautions are shown."""
    return frozenset(
        spot.partition(IF)[0] for entry in table("cautions") for spot in entry["where"].split("; ")
    )


def cautions(spot: str, kinds: Collection[str] = ()) -> tuple[Caution, ...]:
    """Return the cautions of a place, in the order of the table.

    Args:
        spot: A command, a place of the page or a card, as the table calls it.
        kinds: Kinds of ballast plant that she has.

    Raises:
        DataError: The table knows no such place.
    """
    if spot not in spots():
        known = f"Known: {', '.join(sorted(spots()))}."
        raise DataError(f"no cautions belong to '{spot}'", "cautions.csv", known)
    wanted = {spot, *(f"{spot}{IF}{kind}" for kind in kinds)}
    return tuple(
        Caution(key=entry["key"], short=_filled(entry["short"]), text=_filled(entry["text"]))
        for entry in table("cautions")
        if wanted & set(entry["where"].split("; "))
    )


def _filled(text: str) -> str:
    """Return a text with the figures of limits that it names."""

    def figure(found: re.Match[str]) -> str:
        limit = row("limits", found[1])
        return f"{limit['value']} {limit['unit']}"

    return re.sub(r"\{([a-z-]+)\}", figure, text)
