"""Figures that are typed in several windows at once: calculated and saved together.

Those that wait for the boat together are taken in one after another, in their order; she is
calculated and written once for all of them, and each is a step of its own to undo. What does not
go with the rest is refused alone.

A window may show her as she was before figures were typed in others. Its own counts all the same,
as long as the others went into other fields of her pieces; what it answers shows them all.
"""

import dataclasses
import time
from collections.abc import Callable, Sequence
from concurrent.futures import Future
from dataclasses import dataclass
from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError, fence
from trimdive.page.step import Note, Step, Wrong, refused_in

if TYPE_CHECKING:
    from starlette.responses import Response

    from trimdive.page.desk import Desk

MOMENT = 0.1  # so long others are waited for that typed a moment ago [s]
PAUSE = 0.002  # between two looks whether they have [s]
TYPED = ("field", "typed", "says", "revision")  # what a form tells of a figure
LONGEST = 12  # digits of a revision [-]
MEANWHILE = "She was changed in another window; this is how she is now. Nothing else was done."
BESIDE = "What was entered in another window meanwhile is kept too."
UNDONE = "Nothing was changed; try another figure."


@dataclass(slots=True, kw_only=True)
class Put:
    """One figure that was typed, and what came of it."""

    field: str  # such as "part[3].mass"
    typed: str  # such as "700 g"
    says: str  # what was done, for "Undo"; "" for the field and what was typed
    revision: str  # of her as the window showed her
    respond: "Callable[[Put], Response]"  # answers, when it is taken in or refused
    alone: bool = False  # what goes with a cylinder or tank stays where it is
    once: str = ""  # names what was sent, so that it counts once however often it comes
    note: Note | None = None
    wrong: Wrong | None = None
    answer: "Future[Response]" = dataclasses.field(default_factory=Future)


def taken_in(desk: "Desk", put: Put) -> None:
    """Take in a figure with all that wait, save, and answer each; nothing where that was done.

    Args:
        desk: The boat; whoever calls holds its lock.
        put: The figure; it stands among those that wait, or is answered.
    """
    if put.answer.done():
        return
    puts, before = _gathered(desk), desk.revision
    try:
        _take(desk, [one for one in puts if not desk.heard.is_known(one.once, before)])
        for one in puts:
            desk.heard.done(one.once, before, desk.revision)
        desk.keep()  # an edit answered is an edit saved
        for one in puts:
            _answer(one)
    except BaseException as error:
        for one in puts:
            if not one.answer.done():
                one.answer.set_exception(error)
        raise
    desk.hands = len(puts) + len(desk.puts)


def _gathered(desk: "Desk") -> list[Put]:
    """Return the figures that wait; where several hands type at once, wait a moment for them all.

    One who types alone is never waited for.
    """
    until = time.monotonic() + MOMENT
    while len(desk.puts) < desk.hands and time.monotonic() < until:
        time.sleep(PAUSE)
    return [desk.puts.popleft() for _ in range(len(desk.puts))]


def _answer(put: Put) -> None:
    try:
        put.answer.set_result(put.respond(put))
    except Exception as error:  # its own window is told
        put.answer.set_exception(error)


def _take(desk: "Desk", puts: Sequence[Put]) -> None:
    """Take figures in, together where she can be calculated so, else one by one."""
    steps: list[Step] = []
    for one in puts:
        _step(desk, one, steps)
    if not steps:
        return
    pending = desk.note  # of something else, and not yet shown
    try:
        with fence("with that she cannot be calculated", steps[-1].field, UNDONE):
            desk.take(steps)
        desk.note = pending  # each window has its own
    except TrimdiveError as error:
        if len(puts) == 1:
            _refuse(puts[0], error)
            return
        for one in puts:
            one.note = one.wrong = None
            _take(desk, [one])


def _step(desk: "Desk", put: Put, steps: list[Step]) -> None:
    """Put a step for a figure after those that are there; none where it is refused or is so."""
    since = _since(desk, put.revision)
    others = None if since is None else [*since, *(step.field for step in steps)]
    if others is None or any(meets(other, put.field) for other in others):
        put.note = Note(kind="refused", text=MEANWHILE)
        return
    try:
        with fence("with that she cannot be calculated", put.field, UNDONE):
            was = steps[-1] if steps else desk.steps[desk.at]
            step = desk.put_into(was, put.field, put.typed, put.says, alone=put.alone)
    except TrimdiveError as error:
        _refuse(put, error)
        return
    if step is not None:
        steps.append(step)
        text = f"Done: {step.says}"
        put.note = Note(kind="done", text=f"{text}. {BESIDE}" if others else text)


def _refuse(put: Put, error: TrimdiveError) -> None:
    put.note, put.wrong = None, refused_in(put.field, put.typed, error)


def _since(desk: "Desk", revision: str) -> list[str] | None:
    """Return the fields that were typed into since a revision; None where it cannot be told."""
    if not revision.isdecimal() or len(revision) > LONGEST:
        return None
    found: list[str] = []
    for number in range(desk.revision, int(revision), -1):
        if number not in desk.fields:
            return None
        found.append(desk.fields[number])
    return found if int(revision) <= desk.revision else None


def meets(other: str, own: str) -> bool:
    """Return whether what was typed into another field may change what is meant by the own one.

    Only fields of pieces leave each other alone; units and scales do not.

    >>> meets("part[1].mass", "part[2].mass"), meets("part[1].mass", "part[1].mass")
    (False, True)
    >>> meets("units.mass", "part[1].mass"), meets("", "part[1].mass")
    (True, True)
    """
    return "[" not in other or "[" not in own or _holds(other, own) or _holds(own, other)


def _holds(holder: str, field: str) -> bool:
    return field == holder or field.startswith((f"{holder}.", f"{holder}["))
