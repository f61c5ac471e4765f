"""The walk: the first two minutes with the boat that was bought nearly finished.

Each step ends when her numbers have changed, whatever was pressed or dragged to change them, and
never because a button says "next". What it says of her is made of her figures, each with its
moment. It stands in one line above her and covers nothing.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import degrees
from typing import TYPE_CHECKING

from trimdive.assessment.marks import marks
from trimdive.findings import limit_of
from trimdive.page.asked import slider_of
from trimdive.page.large import BLOWN, moment_words
from trimdive.page.shown import name_of
from trimdive.page.views import lowest_filling, standing
from trimdive.pictures.drawings.words import is_full
from trimdive.text import words
from trimdive.text.found import mends, what
from trimdive.text.marks import marks_line
from trimdive.text.sentence import capital, sentence

if TYPE_CHECKING:
    from trimdive.assessment import Assessment
    from trimdive.findings import Finding
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.page.desk import Desk
    from trimdive.page.step import Slider

BOAT = "Bittern as bought"  # whom it is about
UP, DOWN = 0.25, 0.95  # fillings that she passes when she is slid up, and down again [-]
AT_MARK = 0.02  # nearer than this to the neutral mark the handle stands at it, by hand or key [-]
NOSE = 20.0  # with more trim bow down than this she stands on her nose [°]
FILL = "Drag the handle to the right: fill her tanks."
AGAIN = "Drag her tanks empty, then to the neutral mark."
UP_WAS = "That was surfacing; now to the neutral mark."


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """What a step asks for, as long as one of its checks finds something that can be done."""

    findings: tuple[str, ...]  # the checks whose "do it" does the same
    do: "Callable[[Assessment, Finding], str]"  # what to do, in a few words
    how: str  # by hand
    button: "Callable[[Finding], str]"  # what its button says


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of the walk."""

    key: str
    says: "Callable[[Assessment, State], str]"  # how she is at the slider, by the figures shown
    asks: tuple[Ask, ...]  # the first that finds something; none: she is slid
    slide: str  # what to do by the slider; "" where it is not slid
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
    level = limit_of("trim-dived", her.boat).value
    is_level = abs(her.dived.trim_angle) <= level
    return _goes_under(her) and not _has(her, "tank-offset") and is_level


def _is_stiff(her: "Assessment") -> bool:
    return _is_aft(her) and not _has(her, "gm-least", "bg-least")


def _now(her: "Assessment", state: "State") -> str:
    """Return how she lies at the slider, by the figures that are shown, as a sentence."""
    heavy = words.weight(her.boat, state.rest.excess)
    at, lies = moment_words(her, state), words.lies(her, state)
    if at == BLOWN:
        return f"Surfaced, tanks blown: {lies}."
    return f"{capital(at)}: {lies if heavy == 'neutral' else f'{heavy}, {lies}'}."


def _first(her: "Assessment", state: "State") -> str:
    return f"This boat was bought nearly finished. {_now(her, state)}"


def _house(her: "Assessment", state: "State") -> str:
    """Return why she does not go under, where the figures shown say that."""
    stays = " She will not dive." if is_full(her, state) else ""
    return f"{_now(her, state)}{stays} {_what(her, 'void-above')}".strip()


def _tank(her: "Assessment", state: "State") -> str:
    nose = ", and stands on her nose" if degrees(state.trim_angle) > NOSE else ""
    under = f"Now she goes under{nose}. " if state.rest.under and nose else ""
    return f"{under}{_now(her, state)} {_what(her, 'tank-offset')}".strip()


def _batteries(her: "Assessment", state: "State") -> str:
    return f"{_now(her, state)} {_what(her, 'gm-least', 'bg-least')}".strip()


def _moves_lead(found: "Finding") -> bool:
    return any(edit.path.startswith("lead[") for edit in found.edits)


def _bring(her: "Assessment", found: "Finding") -> str:
    way = "aft" if her.need.offset > 0 else "forward"
    lead = ", and shift the lead to balance it" if _moves_lead(found) else ""
    return f"Move the forward tank {way}{lead}."


def _shift(her: "Assessment", _: "Finding") -> str:
    return f"Shift lead {'aft' if her.dived.trim_angle > 0 else 'forward'}."


HOUSE = Ask(
    findings=("void-above",),
    do=lambda _, __: "Open the winch house.",
    how="",
    button=lambda _: "Open it",
)
TANK = Ask(
    findings=("tank-offset",),
    do=_bring,
    how="Press the button, or drag the tank in the drawing.",
    button=lambda found: "Move tank and lead" if _moves_lead(found) else "Move the tank",
)
LEAD = Ask(findings=("trim-dived",), do=_shift, how="", button=lambda _: "Shift the lead")
BATTERIES = Ask(
    findings=("gm-least", "bg-least"),
    do=lambda _, __: "Lower the batteries.",
    how="",
    button=lambda _: "Lower them",
)
STEPS = (
    Step(
        key="fill",
        says=_first,
        asks=(),
        slide=FILL,
        ends=lambda desk: _is_slid(desk, "fill") or _goes_under(desk.her),
    ),
    Step(
        key="house",
        says=_house,
        asks=(HOUSE,),
        slide="",
        ends=lambda desk: _goes_under(desk.her),
    ),
    Step(
        key="tank",
        says=_tank,
        asks=(TANK, LEAD),
        slide="",
        ends=lambda desk: _is_aft(desk.her),
    ),
    Step(
        key="batteries",
        says=_batteries,
        asks=(BATTERIES,),
        slide="",
        ends=lambda desk: _is_stiff(desk.her),
    ),
    Step(
        key="again",
        says=_now,
        asks=(),
        slide=AGAIN,
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


def opening(desk: "Desk") -> "Slider":
    """Return where the slider stands: where it was put, and surfaced as the walk begins."""
    is_new = desk.slider.filling is None and is_on(desk) and step_of(desk) == 0
    return replace(desk.slider, filling=0.0) if is_new else desk.slider


def strip_of(desk: "Desk", slider: "Slider | None" = None) -> Strip | None:
    """Return what the page shows of the walk; None where it is not on.

    Args:
        desk: The boat that is shown.
        slider: Where the slider stands; left out, where it is known to stand.
    """
    if not is_on(desk) or desk.workshop is None:
        return None
    number = step_of(desk)
    state = standing(desk.her, slider or opening(desk))[1]
    if number == len(STEPS):
        return _ended(desk.her, state)
    says, of = STEPS[number].says(desk.her, state), len(STEPS)
    do, how, button, found = _asked(desk, STEPS[number])
    return Strip(
        number=number + 1,
        of=of,
        says=says,
        do=do,
        how=how,
        button=button,
        mend=mends(desk.her.boat, found)[0] if found else "",
        doing=name_of(found) if found else "",
    )


def _asked(desk: "Desk", step: Step) -> "tuple[str, str, str, Finding | None]":
    """Return what to do, how, the button's word, and the finding that it mends."""
    her, workshop = desk.her, desk.workshop
    if step.slide and not (step is STEPS[-1] and her.urgent):
        return step.slide, UP_WAS if workshop and workshop.slid_up else HOW[step.key], "", None
    for ask in step.asks:
        if found := _finding(desk, ask.findings):
            return ask.do(her, found), ask.how, ask.button(found), found
    found, do = _left(desk)
    return do, "", "Do it", found


HOW = {
    "fill": "By keys: End fills them, Home empties them.",
    "again": "By keys: Home, then Page Up to the mark.",
}


def _ended(her: "Assessment", state: "State") -> Strip:
    """Return what is said at the end: how she dives, what is left, and what to watch.

    What there is to watch stands once, under "To put right".
    """
    text = f"{_now(her, state)} {marks_line(marks(her))}"
    return Strip(
        number=len(STEPS) + 1, of=len(STEPS), says=text.strip(), do="Now yours.", how="",
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
        _slide(desk, STEPS[number], share)


def _slide(desk: "Desk", step: Step, share: float) -> None:
    workshop = desk.workshop
    if workshop is None or not step.slide:
        return
    if step is STEPS[0]:
        is_done = share >= DOWN
    else:
        is_done = workshop.slid_up and abs(share - lowest_filling(desk.her)) <= AT_MARK
        workshop.slid_up = workshop.slid_up or share <= UP
    if is_done:
        workshop.slid_up = False
        workshop.slides = (*workshop.slides, step.key)
