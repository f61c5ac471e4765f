"""The three marks as the page shows them: beside the names of the places, and on the shelf."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.assessment.marks import Mark, afloat, marks
from trimdive.page.remains import is_first
from trimdive.text.board_short import getting_out
from trimdive.text.marks import mark_words

if TYPE_CHECKING:
    from trimdive.assessment import Assessment

AT = {"afloat": "right", "bench": "bench", "pond": "pond"}  # the place of each mark
ORDER, WATCH, LATER, NONE = "✓", "✓ watch", "…", "–"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A mark as it is shown."""

    text: str  # "✓", "✓ watch", "6", "3?"; "…" until it is known
    says: str  # "afloat: 6 to put right"
    kind: str  # "wanting", "missing", "well", "watched" or "later"


def marked(her: "Assessment", urgent: int | None = None) -> dict[str, Shown]:
    """Return the marks by the key of the place at which each is shown.

    Args:
        her: The boat, in the units of her file.
        urgent: How much is to be put right afloat as far as it is known; None: what is not known
            yet is calculated.
    """
    is_up_known = her.is_known("heels_coming_up")
    if urgent is None or (her.is_known("bench_findings") and is_first(her) and is_up_known):
        return {AT[one.where]: shown(one) for one in marks(her)}
    later = Shown(text=LATER, says="being calculated", kind="later")
    is_known = bool(urgent) or is_up_known  # else she may be in order, but to be watched
    first = shown(afloat(urgent, is_watched=her.heels_coming_up)) if is_known else later
    return {AT["afloat"]: first, AT["bench"]: later, AT["pond"]: later}


def on_board(stays: int | None) -> dict[str, Shown]:
    """Return the mark of the Drawing board: what does not come out, where that is known.

    Args:
        stays: How many large things do not come out; None: nobody looked.
    """
    if not stays:
        return {}
    return {"board": Shown(text=str(stays), says=getting_out(stays), kind="wanting")}


def shown(one: Mark) -> Shown:
    """Return a mark as it is shown."""
    says = f"{one.where}: {mark_words(one)}"
    if one.in_order and one.is_watched:
        return Shown(text=WATCH, says=says, kind="watched")
    if one.in_order:
        return Shown(text=ORDER, says=says, kind="well")
    if one.where == "pond":
        return Shown(text=NONE if one.urgent else f"{one.missing}?", says=says, kind="missing")
    if one.urgent:
        return Shown(text=str(one.urgent), says=says, kind="wanting")
    return Shown(text=f"{one.missing}?", says=says, kind="missing")
