"""The boat on the page: what was done to her since she was opened, undone, done again, saved.

All work on her goes through one lock. Between two requests what may be pressed next is worked out
ahead, one thing at a time, so that its answer is there when it is pressed.
"""

import threading
from collections.abc import Callable, Generator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from trimdive.assess import Assessment, read_beside
from trimdive.boatfile import Loaded, load, save, save_beside, save_new
from trimdive.boatfile.loading import contents_of, stamp_of
from trimdive.errors import BoatFileError, TrimdiveError
from trimdive.findings import Edit
from trimdive.page.shown import Shown
from trimdive.putright.writing import beside, rewritten

COPIES = 99  # names tried for a copy beside the file
Kind = Literal["told", "refused", "changed on disk"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """The boat after one change."""

    says: str  # what was done; "" for the boat as it was opened
    edits: tuple[Edit, ...]
    shown: Shown


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """What the page says after something was pressed."""

    kind: Kind
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Slider:
    """Where the slider stands."""

    filling: float | None = None  # share of the water that comes in [-]; None: not yet touched
    up: bool = False  # on the way up


@dataclass(slots=True)
class Desk:
    """One boat file, opened."""

    origin: Loaded  # as it was opened
    files: dict[str, bytes]  # what lay beside it then
    steps: list[Step]
    on_disk: dict[str, bytes]  # what lies beside it now, as far as is known
    stamp: str  # of the boat file on disk, as far as is known
    at: int = 0  # which step is shown
    saved: int = 0  # which step is on disk
    revision: int = 1  # grows with every change of what is shown
    slider: Slider = Slider()
    note: Note | None = None
    lock: threading.Lock = field(default_factory=threading.Lock)
    wanted: threading.Event = field(default_factory=threading.Event)
    waiting: int = 0  # requests that wait for the lock
    is_ahead: bool = False  # all that may be pressed next is worked out
    is_ended: bool = False

    @property
    def shown(self) -> Shown:
        """Return the boat that is shown."""
        return self.steps[self.at].shown

    @property
    def her(self) -> Assessment:
        """Return the boat that is shown."""
        return self.shown.her

    @contextmanager
    def working(self) -> Generator[None]:
        """Hold the lock; what is worked out ahead makes way."""
        self.waiting += 1
        try:
            with self.lock:
                yield
        finally:
            self.waiting -= 1
            self.wanted.set()

    def do(self, name: str) -> None:
        """Make the change that a finding offers.

        Raises:
            TrimdiveError: She cannot be worked out then; nothing is changed.
        """
        found = self.shown.named(name)
        if found is None or not found.edits:
            self.note = Note(kind="refused", text="That has been put right meanwhile.")
            return
        after = self.shown.after(found)
        after.ready()
        del self.steps[self.at + 1 :]
        if self.saved > self.at:
            self.saved = -1
        self.steps.append(Step(says=found.mend, edits=found.edits, shown=after))
        self._show(len(self.steps) - 1, "Done", found.mend)

    def undo(self) -> None:
        """Take the last change back."""
        if self.at > 0:
            self._show(self.at - 1, "Undone", self.steps[self.at].says)

    def redo(self) -> None:
        """Make the change again that was taken back last."""
        if self.at + 1 < len(self.steps):
            self._show(self.at + 1, "Done again", self.steps[self.at + 1].says)

    def _show(self, step: int, how: str, says: str) -> None:
        self.at = step
        self.revision += 1
        self.note = Note(kind="told", text=f"{how}: {says}")

    @property
    def is_saved(self) -> bool:
        """Return whether the file holds what is shown."""
        return self.at == self.saved

    def written(self) -> tuple[str, dict[str, bytes]]:
        """Return the text of the boat file as shown, and every file beside it by name."""
        text, files = self.origin.text, dict(self.files)
        for step in self.steps[1 : self.at + 1]:
            text = rewritten(text, step.edits, files)
            files |= beside(step.edits)
        return text, files

    def save(self) -> None:
        """Write what is shown into the file; refused where it was changed on disk meanwhile.

        Raises:
            BoatFileError: It cannot be written; what is on disk is then as it was.
        """
        if self.is_changed_on_disk():
            text = "The file was changed on disk meanwhile; nothing was written."
            self.note = Note(kind="changed on disk", text=text)
            return
        text, files = self.written()
        was = Loaded(
            boat=self.origin.boat, path=self.origin.path, text=self.origin.text, stamp=self.stamp
        )
        now = save(was, text)
        self.stamp = now.stamp
        for name, data in files.items():
            if self.on_disk.get(name) != data:
                save_beside(now, name, data)
                self.on_disk[name] = data
        self.saved = self.at
        self._reread(now)
        self.note = Note(kind="told", text=f"Saved in {now.path.name}.")

    def _reread(self, now: Loaded) -> None:
        """Show her as she is in the file: written no finer than can be cut or laid."""
        step = self.steps[self.at]
        if step.edits:
            shown = Shown(her=Assessment(boat=now.boat, files=dict(self.on_disk)))
            self.steps[self.at] = Step(says=step.says, edits=step.edits, shown=shown)
            self.revision += 1

    def is_changed_on_disk(self) -> bool:
        """Return whether the boat file, or one beside it, is no longer as it was last seen."""
        try:
            if stamp_of(contents_of(self.origin.path)) != self.stamp:
                return True
            return any(
                self.origin.beside(name).read_bytes() != data for name, data in self.on_disk.items()
            )
        except (BoatFileError, OSError):
            return True

    def load_again(self) -> None:
        """Show what is on disk, and forget what was done.

        Raises:
            TrimdiveError: The file holds a mistake; what is shown stays.
        """
        fresh = opened(self.origin.path)
        fresh.shown.ready()
        self.origin, self.files, self.steps = fresh.origin, fresh.files, fresh.steps
        self.on_disk, self.stamp = fresh.on_disk, fresh.stamp
        self.at = self.saved = 0
        self.revision += 1
        self.note = Note(kind="told", text="This is the file as it is on disk.")

    def save_copy(self) -> None:
        """Write what is shown into a new file beside the boat file, and leave that as it is.

        Raises:
            BoatFileError: It cannot be written.
        """
        text, files = self.written()
        if any(self.on_disk.get(name) != data for name, data in files.items()):
            text = "This changes files beside the boat file too: copy the folder, then save there."
            self.note = Note(kind="refused", text=text)
            return
        path = self.origin.path
        for number in range(1, COPIES + 1):
            copy = path.with_name(f"{path.stem}.mine-{number}{path.suffix}")
            if not copy.exists():
                save_new(copy, text)
                self.note = Note(kind="told", text=f"Saved beside it as {copy.name}.")
                return
        raise BoatFileError("there are too many copies", str(path), "Take some away.")

    def foresee(self) -> None:
        """Work out ahead, until ended, what may be pressed next; it makes way for requests."""
        while not self.is_ended:
            self.wanted.wait()
            self.wanted.clear()
            shown, self.is_ahead = self.shown, False
            with suppress(TrimdiveError):  # it is told when it is pressed
                self.is_ahead = all(self._ahead(shown, work) for work in shown.ahead())

    def _ahead(self, shown: Shown, work: Callable[[], object]) -> bool:
        """Do one piece of work ahead; return whether the next is still wanted."""
        if self.is_ended or self.waiting or self.shown is not shown:
            return False
        with self.lock, suppress(TrimdiveError):
            work()
        return True

    def end(self) -> None:
        """End the work ahead."""
        self.is_ended = True
        self.wanted.set()


def opened(path: Path) -> Desk:
    """Return a boat file, opened.

    Raises:
        TrimdiveError: It, or a file beside it, holds a mistake.
    """
    loaded = load(path)
    files = read_beside(loaded)
    her = Assessment(boat=loaded.boat, files=files)
    first = Step(says="", edits=(), shown=Shown(her=her))
    return Desk(origin=loaded, files=files, steps=[first], on_disk=dict(files), stamp=loaded.stamp)
