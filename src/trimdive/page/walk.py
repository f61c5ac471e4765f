"""The walk: the first two minutes with the boat that was bought nearly finished.

Each step ends when her numbers have changed, whatever was pressed or dragged to change them, and
never because a button says "next". What it says of her is made of her figures, each with its
moment. It stands in one line above her and covers nothing.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import degrees
from typing import TYPE_CHECKING

from trimdive.findings import limit_of
from trimdive.page.asked import slider_of
from trimdive.page.shown import name_of
from trimdive.page.views import standing
from trimdive.text import words
from trimdive.text.dive_text import worst
from trimdive.text.found import mend, what
from trimdive.text.held import WAY_UP, way_up
from trimdive.text.sentence import sentence

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.findings import Finding
    from trimdive.page.desk import Desk
    from trimdive.page.step import Slider
    from trimdive.page.workshop import Workshop

BOAT = "Bittern as bought"  # whom it is about
UP, DOWN = 0.25, 0.95  # fillings that she passes when she is slid up, and down again [-]
NOSE = 20.0  # with more trim bow down than this she stands on her nose [°]
SLIDE = "Drag her tanks empty, then full again."
UP_WAS = "That was surfacing; now back to the right end."


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the walk."""

    key: str
    says: "Callable[[Assessment], str]"  # how she is, in sentences made of her figures
    do: "Callable[[Assessment], str]"  # what to do, in a few words; "" where that does not help
    how: str  # by hand and by key
    findings: tuple[str, ...]  # the checks whose "do it" does the same; none: she is slid
    button: str  # what its button says
    ends: "Callable[[Desk], bool]"  # whether her numbers have changed


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """What the page shows of the walk."""

    number: int  # of the step, from one; past the last, all is done
    of: int
    says: str
    do: str
    how: str
    button: str
    mend: str  # what the button does
    doing: str  # name of the finding that the button mends; "" for no button


def _has(her: "Assessment", *keys: str) -> bool:
    return bool(_what(her, *keys))


def _what(her: "Assessment", *keys: str) -> str:
    """Return what the first of some checks found, as a sentence; "" where they found nothing."""
    found = {one.key: one for one in reversed(her.first_findings)}
    return next((sentence(what(her.boat, found[key])) for key in keys if key in found), "")


def _is_slid(desk: "Desk", key: str) -> bool:
    return desk.workshop is not None and key in desk.workshop.slides


def _goes_under(her: "Assessment") -> bool:
    return her.full.rest.under


def _is_aft(her: "Assessment") -> bool:
    return _goes_under(her) and not _has(her, "tank-offset")


def _is_level(her: "Assessment") -> bool:
    return _is_aft(her) and abs(her.dived.trim_angle) <= limit_of("trim-dived", her.boat).value


def _is_stiff(her: "Assessment") -> bool:
    return _is_level(her) and not _has(her, "gm-least", "bg-least")


def _low(her: "Assessment") -> str:
    """Return how she lies low, with that moment, as a sentence."""
    return sentence(f"{words.lowest_words(her)}: {words.lies(her, her.lowest)}")


def _house(her: "Assessment") -> str:
    heavy = words.weight(her.boat, her.full.rest.excess)
    text = f"With tanks full she is {heavy} and will not dive."
    return " ".join([text, _what(her, "void-above")]).strip()


def _tank(her: "Assessment") -> str:
    nose = ", and stands on her nose" if degrees(her.dived.trim_angle) > NOSE else ""
    return f"Now she goes under{nose}. {_low(her)} {_what(her, 'tank-offset')}"


def _shift(her: "Assessment") -> str:
    return f"Shift lead {'aft' if her.dived.trim_angle > 0 else 'forward'}."


def _going_down(her: "Assessment") -> str:
    """Return the worst moments of the way down, in a sentence."""
    worst_of = dict(worst(her, her.down))
    heel, trim = worst_of["largest heel"], worst_of["largest trim"]
    stays = "she stays upright" if heel == "upright" else f"her largest heel is {heel}"
    tips = "she stays level" if trim == "level" else f"her largest trim {trim}"
    return f"Going down {stays}, her least GM is {worst_of['least GM']}; until she is under {tips}."


STEPS = (
    Step(
        key="slide",
        says=lambda her: f"This boat was bought nearly finished. {_low(her)}",
        do=lambda _: SLIDE,
        how="Use the round handle under her: left empties the tanks, right fills them.",
        findings=(),
        button="",
        ends=lambda desk: _is_slid(desk, "slide") or _goes_under(desk.her),
    ),
    Step(
        key="house",
        says=_house,
        do=lambda her: "Open the winch house." if _has(her, "void-above") else "",
        how="",
        findings=("void-above",),
        button="Open it",
        ends=lambda desk: _goes_under(desk.her),
    ),
    Step(
        key="tank",
        says=_tank,
        do=lambda her: "Bring the forward tank aft." if her.need.offset > 0 else "",
        how="Drag it in the drawing, or press the button.",
        findings=("tank-offset",),
        button="Move it aft",
        ends=lambda desk: _is_aft(desk.her),
    ),
    Step(
        key="lead",
        says=_low,
        do=_shift,
        how="",
        findings=("trim-dived",),
        button="Shift the lead",
        ends=lambda desk: _is_level(desk.her),
    ),
    Step(
        key="batteries",
        says=lambda her: f"{_low(her)} {_what(her, 'gm-least', 'bg-least')}",
        do=lambda _: "Lower the batteries.",
        how="",
        findings=("gm-least", "bg-least"),
        button="Lower them",
        ends=lambda desk: _is_stiff(desk.her),
    ),
    Step(
        key="again",
        says=lambda her: f"{_low(her)} {_going_down(her)}",
        do=lambda her: "" if her.urgent else SLIDE,
        how="Drag the handle to the left end, and back to the right.",
        findings=(),
        button="",
        ends=lambda desk: _is_stiff(desk.her) and not desk.her.urgent and _is_slid(desk, "again"),
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


def strip_of(desk: "Desk", slider: "Slider | None" = None) -> Strip | None:
    """Return what the page shows of the walk; None where it is not on.

    Args:
        desk: The boat that is shown.
        slider: Where the slider stands; left out, where it is known to stand.
    """
    if not is_on(desk) or desk.workshop is None:
        return None
    number = step_of(desk)
    at = _at_slider(desk.her, slider or desk.slider)
    if number == len(STEPS):
        return _ended(desk.her, at)
    step = STEPS[number]
    do, how, button = step.do(desk.her), step.how, step.button
    found = _finding(desk, step.findings) if do else None
    if not do:
        found, do = _left(desk)
        how, button = "", "Do it"
    elif not step.findings and desk.workshop.slid_up:
        how = UP_WAS
    return Strip(
        number=number + 1,
        of=len(STEPS),
        says=" ".join([step.says(desk.her), at]).strip(),
        do=do,
        how=how,
        button=button,
        mend=mend(desk.her.boat, found) if found else "",
        doing=name_of(found) if found else "",
    )


def _at_slider(her: "Assessment", slider: "Slider") -> str:
    """Return how she lies at the slider, as a sentence; "" where that is told already."""
    state = standing(her, slider)[1]
    full, lies = words.filling(her, state), words.lies(her, state)
    if (full, lies) == (words.filling(her, her.lowest), words.lies(her, her.lowest)):
        return ""
    return f"On the slider, tanks {full} full: {lies}."


def _ended(her: "Assessment", at: str) -> Strip:
    """Return what is said at the end: how she dives, and what to mind."""
    text = " ".join(["Nothing left to put right in the water.", _low(her), _going_down(her), at])
    mind = " ".join(way_up(her))
    how = f"{WAY_UP}: {mind}" if mind else ""
    return Strip(
        number=len(STEPS) + 1, of=len(STEPS), says=text.strip(), do="Now yours.", how=how,
        button="", mend="", doing="",
    )  # fmt: skip


def _left(desk: "Desk") -> "tuple[Finding | None, str]":
    """Return what is left to put right, and that in words; the first that can be done if any."""
    left = [one for one in desk.her.findings if one.weight == "put right"]
    found = next((one for one in left if one.edits), None)
    if not left:
        return None, "See what the list says."
    return found, f"Left to put right: {sentence(what(desk.her.boat, found or left[0]))}"


def _finding(desk: "Desk", keys: tuple[str, ...]) -> "Finding | None":
    return next((one for key in keys for one in desk.her.findings
                 if one.key == key and one.edits), None)  # fmt: skip


def walked(desk: "Desk", filling: str) -> None:
    """Take in how far she was slid: up first, then down again.

    Args:
        desk: The boat that is shown.
        filling: Share of the water that comes in, as text; what is no number counts for nothing.
    """
    number = step_of(desk)
    if desk.workshop is None or number == len(STEPS):
        return
    share = slider_of({"filling": filling}).filling
    if share is not None:
        _slide(desk.workshop, STEPS[number], share)


def _slide(workshop: "Workshop", step: Step, share: float) -> None:
    if share <= UP:
        workshop.slid_up = True
    elif share >= DOWN and workshop.slid_up and not step.findings:
        workshop.slid_up = False
        workshop.slides = (*workshop.slides, step.key)
