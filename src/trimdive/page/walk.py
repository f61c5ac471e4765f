"""The walk: the first two minutes with the boat that was bought nearly finished.

Each step ends when her numbers have changed, whatever was pressed or dragged to change them, and
never because a button says "next". It stands in one line above her and covers nothing.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import degrees
from typing import TYPE_CHECKING

from trimdive.page.shown import name_of

if TYPE_CHECKING:
    from trimdive.findings import Finding
    from trimdive.page.desk import Desk
    from trimdive.page.workshop import Workshop

BOAT = "Bittern as bought"  # whom it is about
UP, DOWN = 0.25, 0.95  # fillings that she passes when she is slid up, and down again [-]
LEVEL = 1.5  # less tip than this, dived, is right [°]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the walk."""

    key: str
    says: str  # how she is, in a sentence
    do: str  # what to do, in a few words
    how: str  # by hand and by key
    finding: str  # the check whose "do it" does the same; "" for none
    button: str  # what its button says
    ends: "Callable[[Desk], bool]"  # whether her numbers have changed


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What the page shows of the walk."""

    number: int  # of the step, from one
    of: int
    step: Step | None  # None: all is done
    how: str
    doing: str  # name of the finding that the button mends; "" for no button
    is_first: bool


def _has(desk: "Desk", *keys: str) -> bool:
    return any(found.key in keys for found in desk.her.first_findings)


def _is_slid(desk: "Desk", key: str) -> bool:
    return desk.workshop is not None and key in desk.workshop.slides


def _goes_under(desk: "Desk") -> bool:
    return desk.her.full.rest.under


def _is_aft(desk: "Desk") -> bool:
    return _goes_under(desk) and not _has(desk, "tank-offset")


def _is_level(desk: "Desk") -> bool:
    return _is_aft(desk) and abs(degrees(desk.her.dived.trim_angle)) < LEVEL


def _is_stiff(desk: "Desk") -> bool:
    return _is_level(desk) and not _has(desk, "gm-least", "bg-least")


STEPS = (
    Step(
        key="slide",
        says="This boat was bought nearly finished.",
        do="Slide her down.",
        how="Drag the round handle under her: left, she comes up; right, she goes down.",
        finding="",
        button="",
        ends=lambda desk: _is_slid(desk, "slide") or _goes_under(desk),
    ),
    Step(
        key="house",
        says="Her tanks are full, her tower is out: the winch house is shut and full of air.",
        do="Open the winch house.",
        how="",
        finding="void-above",
        button="Open it",
        ends=_goes_under,
    ),
    Step(
        key="tank",
        says="Now she goes under, and stands on her nose.",
        do="Bring the forward tank aft.",
        how="Drag it in the drawing, or press.",
        finding="tank-offset",
        button="Move it aft",
        ends=_is_aft,
    ),
    Step(
        key="lead",
        says="The tank is right, and she is not level yet.",
        do="Put the lead right.",
        how="",
        finding="trim-dived",
        button="Shift the lead",
        ends=_is_level,
    ),
    Step(
        key="batteries",
        says="Level. On the tinted part of the line she will not stand upright.",
        do="Put the batteries down.",
        how="",
        finding="gm-least",
        button="Put them down",
        ends=_is_stiff,
    ),
    Step(
        key="again",
        says="Level and upright at every moment.",
        do="Slide her from top to bottom.",
        how="Drag the handle to the left end, and back.",
        finding="",
        button="",
        ends=lambda desk: _is_stiff(desk) and _is_slid(desk, "again"),
    ),
)


def is_on(desk: "Desk") -> bool:
    """Return whether the walk is about the boat that is shown, and was not left."""
    return taken_up(desk) and desk.workshop is not None and not desk.workshop.has_left


def taken_up(desk: "Desk") -> bool:
    """Return whether the walk is about the boat that is shown."""
    has_shelf = desk.workshop is not None and desk.workshop.shelf is not None
    return has_shelf and desk.her.boat.name == BOAT


def step_of(desk: "Desk") -> int:
    """Return the number of the first step that has not ended, from nought."""
    return next((k for k, step in enumerate(STEPS) if not step.ends(desk)), len(STEPS))


def strip_of(desk: "Desk") -> Strip | None:
    """Return what the page shows of the walk; None where it is not on."""
    if not is_on(desk) or desk.workshop is None:
        return None
    number = step_of(desk)
    if number == len(STEPS):
        return Strip(
            number=number, of=number, step=None, how="", doing="", is_first=False
        )  # fmt: skip
    step = STEPS[number]
    is_up = step.finding == "" and desk.workshop.slid_up
    found = _finding(desk, step.finding)
    return Strip(
        number=number + 1,
        of=len(STEPS),
        step=step,
        how="She is up. Now back to the right: down she goes." if is_up else step.how,
        doing=name_of(found) if found else "",
        is_first=number == 0,
    )


def _finding(desk: "Desk", key: str) -> "Finding | None":
    return next((one for one in desk.her.findings if one.key == key and one.edits), None)


def walked(desk: "Desk", filling: str) -> None:
    """Take in how far she was slid: up first, then down again.

    Args:
        desk: The boat that is shown.
        filling: Share of the water that comes in, as text; what is no number counts for nothing.
    """
    number = step_of(desk)
    if desk.workshop is None or number == len(STEPS):
        return
    try:
        share = float(filling)
    except ValueError:
        return
    _slide(desk.workshop, STEPS[number], share)


def _slide(workshop: "Workshop", step: Step, share: float) -> None:
    if share <= UP:
        workshop.slid_up = True
    elif share >= DOWN and workshop.slid_up and not step.finding:
        workshop.slid_up = False
        workshop.slides = (*workshop.slides, step.key)
