"""Arranging in a few words, for the page: its fold in a line, how far it is, what each comes to."""

from typing import TYPE_CHECKING

from trimdive.text.arrange_text import is_in_order
from trimdive.text.say import Say, listed

if TYPE_CHECKING:
    from trimdive.arranging.work import Arranged, Arrangement, Stage

SHOWN = (  # figures that stand beside a picture, by their keys, and their heads
    ("lead_kg", "lead"),
    ("foam_m3", "foam"),
    ("litres_m3", "ballast water"),
    ("trim_surfaced_rad", "trim surfaced"),
    ("trim_dived_rad", "trim dived"),
    ("bg_m", "BG dived"),
    ("gm_least_m", "least GM"),
)
CAPS = {"": "anywhere", "aft": "at its after cap", "fore": "at its fore cap"}


def arrange_short(done: "Arranged | None", things: int) -> str:
    """Return the fold in one line.

    Args:
        done: What came of it; None where nothing did yet.
        things: How many lie in cylinders [-].
    """
    if not things:
        return "Nothing lies in a cylinder"
    if done is None:
        return f"{things} thing{'' if things == 1 else 's'} in cylinders; not tried yet"
    count = sum(is_in_order(one) for one in done.found)
    right = sum(one.is_right for one in done.found)
    if count or not right:
        return f"{_arrangements(count)} in order" if count else "No arrangement puts her in order"
    return f"{_arrangements(right)} float and dive right; other things remain"


def _arrangements(count: int) -> str:
    return f"{count} arrangement{'' if count == 1 else 's'}"


def out_short(one: "Arrangement") -> str:
    """Return what comes out, in a word or by the names of what does not."""
    if not one.outs:
        return "–"
    return f"not {listed(one.stuck)}" if one.stuck else "all"


def stage_words(say: Say, stage: "Stage") -> str:
    """Return how far arranging is, in a sentence."""
    if not stage.carried:
        least = (
            "proven by the sums" if stage.proven else f"{say.mass(stage.gap)} may still be saved"
        )
        return f"The best order needs {say.mass(stage.lead)} of lead and foam; {least}."
    fine = "in order" if stage.is_right else "not right"
    return f"Order {stage.carried} carried out, floated and dived: {fine}."


def taken_words(number: int) -> str:
    """Return what was done, for Undo."""
    return f"arrangement {number} taken"
