"""Works out ahead, between two requests, what may be pressed next, to answer it at once.

It makes way for the builder: it begins when nobody has asked anything for a moment, does one thing
at a time, and begins no other while somebody waits. As long as figures come in one after another
nothing is worked out ahead that the next one would make worthless.
"""

from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError
from trimdive.page.memory import EVERY, give_back

if TYPE_CHECKING:
    from trimdive.page.desk import Desk
    from trimdive.page.shown import Shown

RUSHED = 4  # so many times as many changes between two times that memory is given back [-]
QUIET = 0.15  # so long nobody has asked anything, before it begins [s]


def foresee(desk: "Desk") -> None:
    """Work out ahead, until ended, what may be pressed next; requests go first."""
    lightened = desk.revision
    while not desk.is_ended:
        desk.wanted.wait()
        desk.is_ahead = False
        while (desk.wanted.wait(QUIET) or desk.waiting) and not desk.is_ended:
            desk.wanted.clear()
            lightened = _lightened(desk, lightened, RUSHED * EVERY)
        lightened = _lightened(desk, lightened, EVERY)
        with suppress(Exception):  # it is told when it is pressed; the work goes on
            shown = desk.shown
            desk.is_ahead = all(_done(desk, shown, work) for work in _wanted_next(desk, shown))


def _lightened(desk: "Desk", since: int, every: int) -> int:
    """Give memory back after so many changes; return the revision at which it was last."""
    if desk.revision - since < every:
        return since
    give_back()
    return desk.revision


def _wanted_next(desk: "Desk", shown: "Shown") -> Iterator[Callable[[], object]]:
    """Yield each piece of work for what is shown and for what may be pressed next."""
    yield from shown.pieces()
    yield lambda: shown.her.bench_findings
    for found in desk.own.her.findings:
        if not found.edits:
            continue
        with suppress(TrimdiveError):
            with desk.lock:
                after = desk.worked_out(desk.mended_by(found))
            yield from after.pieces()


def _done(desk: "Desk", shown: "Shown", work: Callable[[], object]) -> bool:
    """Do one piece of work ahead; return whether the next is still wanted."""
    if desk.is_ended or desk.waiting or not (shown is desk.own or shown is desk.shown):
        return False
    with desk.lock, suppress(Exception):  # it is told when it is asked for
        work()
    return True
