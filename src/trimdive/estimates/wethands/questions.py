"""The tests and figures that can be asked for, in which order, and when each makes sense.

Source: builders' practice at the tub [practice].
"""

from collections.abc import Callable
from dataclasses import dataclass

from trimdive.estimates.wethands.known import Known


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A test to do, or a figure to read; ``text`` has its words by its key."""

    key: str
    options: tuple[str, ...] = ()  # answers that it knows; none where a figure is asked for
    effort: float = 1.0  # as against a look at her [-]
    fits: Callable[[Known], bool] = lambda known: True


def tips(known: Known) -> bool:
    """Return whether she is said to hang by one end dived."""
    return bool(known.low_end)


def _not_level(known: Known) -> bool:
    return known.option("angle") != "level"


def _has_room(known: Known) -> bool:
    """Return whether the tank is not full already when she hangs."""
    return _not_level(known) and known.option("filling") not in ("never", "quite")


def _may_hold_air(known: Known) -> bool:
    """Return whether rocking may show anything: she tips, heels dived or stays up."""
    said = (known.option("angle"), known.option("heel"), known.option("filling"))
    is_good = said[0] == "level" and said[1] in ("upright", "") and said[2] not in ("never", "")
    return not is_good


YES_OR_NO = ("yes", "no")
MENDED = ("yes", "better", "no")
SIDES = ("upright", "port", "starboard")

CHOICES = (
    Question(key="angle", options=("level", "bow", "stern", "bow bottom", "stern bottom")),
    Question(key="surfaced", options=("level", "bow", "stern")),
    Question(key="filling", options=("never", "quite", "nearly", "early")),
    Question(key="ride", options=("right", "low", "high")),
    Question(key="rock", options=MENDED, effort=1.5, fits=_may_hold_air),
    Question(key="full", options=MENDED, effort=1.5, fits=_has_room),
    Question(key="over", options=YES_OR_NO, effort=1.2, fits=_has_room),
    Question(key="closed", options=YES_OR_NO, effort=1.5, fits=tips),
    Question(key="list", options=SIDES),
    Question(key="heel", options=SIDES),
    Question(key="way", options=YES_OR_NO),
)

FIGURES = tuple(
    Question(key=key)
    for key in (
        "degrees", "depth", "balance", "place", "spare", "shift", "room", "slack", "heels",
        "rides", "breadth",
    )
)  # fmt: skip

BY_KEY = {question.key: question for question in (*CHOICES, *FIGURES)}
