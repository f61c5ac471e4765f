"""A file that was dropped or chosen is read beside the page; it can be stopped.

It is read in a process of its own and without the lock, since nobody knows what is in it, and it
tells what of that is done. What comes of it is taken in hand when it is there, whatever was done on
the page meanwhile.
"""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from trimdive.errors import TrimdiveError, fence
from trimdive.page.apart import Apart, StoppedError, apart
from trimdive.page.form import Typed
from trimdive.page.step import Note

if TYPE_CHECKING:
    from trimdive.page.desk import Desk
    from trimdive.page.places.place import Take

KEPT = "reading"
LONGEST = 120.0  # that a file may take [s]
PROMPT = 3.0  # so long its answer is waited for; then the page tells that it is read [s]
UNDONE = "Nothing was changed; choose another file."
MEGA = 1e6  # [bytes]


@dataclass(frozen=True, slots=True)
class Done:
    """What of a reading is done."""

    what: str  # such as "unpacked"
    share: float = 1.0  # of it [-]

    @property
    def text(self) -> str:
        """Return it in words.

        >>> Done("measured").text, Done("unpacked", 0.4).text
        ('measured', '40 % unpacked')
        """
        return self.what if self.share >= 1.0 else f"{100 * self.share:.0f} % {self.what}"


@dataclass(slots=True, kw_only=True)
class Reading:
    """One file that is read."""

    name: str
    size: int  # [bytes]
    place: str  # to which it was brought
    apart: Apart
    done: tuple[Done, ...] = ()  # as far as was told
    began: float = field(default_factory=time.monotonic)  # [s]
    over: threading.Event = field(default_factory=threading.Event)

    @property
    def text(self) -> str:
        """Return how large it is, how long it is read already, and what of that is done."""
        took = f"{self.size / MEGA:.1f} MB, {time.monotonic() - self.began:.0f} s"
        return ", ".join([took, *(one.text for one in self.done)])

    @property
    def share(self) -> float | None:
        """Return how much is done of what is being done; None where that is not known."""
        last = self.done[-1].share if self.done else 1.0
        return last if last < 1.0 else None

    def take(self, step: object) -> None:
        """Take in what is done; more of the same takes the place of less."""
        if isinstance(step, Done):
            self.done = (*(one for one in self.done if one.what != step.what), step)


def begin(desk: "Desk", typed: Typed, take: "Take", name: str, data: bytes) -> Reading:
    """Begin to read a file, in the place of one that is still read.

    Args:
        desk: The boat; whoever calls holds its lock.
        typed: What stands in the form, with the place to which it was brought.
        take: What reads it, and what takes it in hand.
        name: Of the file.
        data: What it holds.
    """
    stop(desk)
    work = apart(name or "the file", LONGEST, take.reads, name, data, *take.given(desk, typed))
    found = Reading(name=name or "the file", size=len(data), place=typed["place"], apart=work)
    desk.kept[KEPT] = found
    taken: Callable[[object], None] = lambda one: take.takes(desk, name, data, one)  # noqa: E731
    threading.Thread(target=_read, args=(desk, found, taken), daemon=True).start()
    return found


def _read(desk: "Desk", found: Reading, take: Callable[[object], None]) -> None:
    """Wait for what comes of a file, and take it in hand."""
    try:
        done = found.apart.done(found.take)
        with desk.working(), fence("it cannot be read", found.name, UNDONE):
            if desk.kept.get(KEPT) is found and not desk.is_ended:  # another boat may be shown
                take(done)
    except StoppedError:
        pass  # as was told when it was stopped
    except TrimdiveError as error:
        desk.note = Note(kind="refused", text=str(error))
    finally:
        found.over.set()


def running(desk: "Desk") -> Reading | None:
    """Return what is read now."""
    found = desk.kept.get(KEPT)
    return found if isinstance(found, Reading) and not found.over.is_set() else None


def stop(desk: "Desk") -> None:
    """Stop what is read now."""
    if found := running(desk):
        desk.kept.pop(KEPT)
        found.apart.stop()
        desk.note = Note(kind="done", text=f"{found.name}: reading stopped; nothing was changed.")
