"""The words of the talk at the tub, and figures in the units that the builder types."""

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.text.wethands_causes import ail_of
from trimdive.text.wethands_questions import asking, choices
from trimdive.units import write

if TYPE_CHECKING:
    from collections.abc import Iterable

    from trimdive.estimates.wethands import Cause, Figure, Known, Question, Step

SHOWN = 4  # causes told at each step
INCHES = re.compile(r"\b(?:in|inch|inches|ft|foot|feet)\b|[\"'″′]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """The units in which her figures are told."""

    length: str
    mass: str
    volume: str

    def write(self, value: float, kind: str) -> str:
        """Return a value as text.

        Args:
            value: In SI [any].
            kind: length, mass, volume, angle or percent.
        """
        units = {"length": self.length, "mass": self.mass, "volume": self.volume}
        return write(value, kind, units.get(kind) or {"angle": "°", "percent": "%"}[kind])

    def side(self, value: float) -> str:
        """Return a side to cut, without its unit; whole millimetres.

        Args:
            value: The side [m].
        """
        return write(value, "length", self.length, 0 if self.length == "mm" else 2).split()[0]

    def figure(self, one: "Figure", kind: str) -> str:
        """Return a figure with its ±."""
        return f"{self.write(one.value, kind)} ± {self.write(one.spread, kind)}"

    def place(self, x: float, length: float, towards: str = "") -> str:
        """Return a place as measured from an end, the nearer one where none is named.

        Args:
            x: From the stern [m].
            length: Over all [m].
            towards: bow or stern.
        """
        end = towards or ("bow" if x > length / 2 else "stern")
        from_end = length - x if end == "bow" else x
        return f"{self.write(from_end, 'length')} from the {end}"


def shown_in(length: str) -> Shown:
    """Return the units for a boat whose length was typed so.

    >>> shown_in("55 in").mass, shown_in("1.4 m").volume
    ('oz', 'ml')
    """
    if INCHES.search(length):
        return Shown(length="in", mass="oz", volume="in³")
    return Shown(length="mm", mass="g", volume="ml")


def per_cent(share: float) -> str:
    """Return a share in whole per cent; never quite 0 or 100.

    Args:
        share: As a share [-].
    """
    return f"{min(max(round(share * 100), 1), 99)} %"


def named(causes: "Iterable[Cause]", known: "Known") -> str:
    """Return the names of causes, one after another."""
    return ", ".join(ail_of(cause, known).name for cause in causes)


def likely(causes: "Iterable[Cause]", known: "Known") -> tuple[tuple[str, str], ...]:
    """Return the names of causes, each with how likely it is."""
    return tuple((ail_of(cause, known).name, per_cent(cause.weight)) for cause in causes)


def so_far(now: "Step") -> str:
    """Return the causes still open on one line, or the cause that is sure enough."""
    if now.is_parted:
        ((name, share),) = likely([now.open.likeliest], now.known)
        return f"\nMost likely: {name} ({share})."
    if not now.known.replies:
        return ""
    some = now.open.still_open[:SHOWN]
    text = ", ".join(" ".join(one) for one in likely(some, now.known))
    more = len(now.open.still_open) - len(some)
    return f"\nStill open: {text}{f', {more} more' if more > 0 else ''}."


def question_text(question: "Question", known: "Known") -> str:
    """Return a question in big words, with its numbered answers."""
    words = asking(question, known)
    lines = ["", words.do.upper().replace(" MM", " mm"), words.ask]
    lines += [f"  {k}  {one}" for k, one in enumerate(choices(question), 1)]
    if words.how:
        lines.append(f"  ({'such as ' if not question.options else ''}{words.how})")
    lines.append("  Enter: not known.  back, why, stop")
    return "\n".join(lines)


def why(now: "Step") -> str:
    """Return why the next question is asked."""
    if now.is_parted:
        return "  The piece to cut depends on it; without an answer a guess with a wide ± is used."
    open_still = named(now.open.still_open[:SHOWN], now.known)
    return f"  This test best separates what is still open: {open_still}."
