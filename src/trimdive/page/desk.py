"""The boat on the page: what was done to her since she was opened, undone, done again, saved.

All work on her goes through one lock. Between two requests what may be pressed next is worked out
ahead, one thing at a time, so that its answer is there when it is pressed.
"""

import threading
from collections.abc import Callable, Generator, Iterator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field, replace
from pathlib import Path as File
from typing import TYPE_CHECKING

from trimdive.assess import Assessment
from trimdive.boatfile import Boat, load, parse, save_new
from trimdive.boatfile.boat import Units
from trimdive.boatfile.edits import replaced
from trimdive.boatfile.loading import stamp_of
from trimdive.bodies.beside import read_beside
from trimdive.bodies.surfaces import files_of
from trimdive.errors import TrimdiveError, fence
from trimdive.findings import Edit, Finding
from trimdive.page.keeping import (
    Files,
    contents_beside,
    free_copy,
    keep_earlier,
    lies_on_disk,
    write_all,
)
from trimdive.page.memory import EVERY, give_back
from trimdive.page.shelf import keep_inside
from trimdive.page.shown import Shown, name_of
from trimdive.page.step import Note, Slider, Step, Wrong
from trimdive.page.units import AS_FILED, shown_in
from trimdive.putright.writing import beside, rewritten

if TYPE_CHECKING:
    from trimdive.page.workshop import Workshop

NEAR = 1  # steps before and after the one shown that stay worked out [-]
CHANGED = "Another program changed her file since it was read."


@dataclass(slots=True)
class Desk:
    """One boat file, opened."""

    path: File  # the boat file
    steps: list[Step]
    on_disk: Files  # what lies beside it now, as far as is known
    stamp: str  # of the boat file on disk, as far as is known
    at: int = 0  # which step is shown
    saved: int = 0  # which step is on disk
    revision: int = 1  # grows with every change of what is shown
    slider: Slider = field(default_factory=Slider)
    mended: dict[str, Step] = field(default_factory=dict)  # worked out ahead, by finding
    note: Note | None = None
    wrong: Wrong | None = None
    is_keeping: bool = False  # every change is saved by itself
    trouble: str = ""  # why the last change could not be saved by itself
    tried: "tuple[str, Files] | None" = None  # to be written, and not known to be on disk
    is_kept: bool = False  # the file as it was opened is kept among the earlier ones
    lock: threading.Lock = field(default_factory=threading.Lock)
    wanted: threading.Event = field(default_factory=threading.Event)
    waiting: int = 0  # requests that wait for the lock
    is_ahead: bool = False  # all that may be pressed next is worked out
    is_ended: bool = False
    units: str = AS_FILED  # in which she is shown; never in the file
    kept: dict[str, object] = field(default_factory=dict)  # what places keep between two requests
    workshop: "Workshop | None" = None  # in which she lies, with the others on the shelf

    @property
    def root(self) -> str:
        """Return what every address of the page begins with."""
        return self.workshop.root if self.workshop else ""

    @property
    def own(self) -> Shown:
        """Return the boat that is shown, in the units of her file."""
        return self.at_step(self.at)

    def at_step(self, number: int) -> Shown:
        """Return the boat after one of the changes, worked out again where that was put away."""
        return self._worked_out(self.steps[number])

    def _worked_out(self, step: Step) -> Shown:
        if step.shown is None:
            boat = parse(step.text, self.path.name)
            step.shown = Shown(her=Assessment(boat=boat, files=dict(step.files)))
        return step.shown

    @property
    def shown(self) -> Shown:
        """Return the boat that is shown, in the units chosen."""
        return shown_in(self.own, self.units)

    @property
    def file_units(self) -> Units:
        """Return her file's own units: of every number that is typed without one."""
        return self.own.her.boat.units

    @property
    def her(self) -> Assessment:
        """Return the boat that is shown."""
        return self.shown.her

    @contextmanager
    def working(self) -> Generator[None]:
        """Hold the lock; what is worked out ahead makes way, and what was changed is saved."""
        self.waiting += 1
        try:
            with self.lock:
                try:
                    yield
                finally:
                    self.keep()
        finally:
            self.waiting -= 1
            self.wanted.set()

    @contextmanager
    def first(self) -> Generator[None]:
        """Let what is worked out ahead make way, for work that needs no lock."""
        self.waiting += 1
        try:
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
        number = self.shown.her.findings.index(found)
        step = self._mended(self.own.her.findings[number])
        self._worked_out(step).at_once()
        self._take(replace(step, says=found.mend))

    def _mended(self, found: Finding) -> Step:
        """Return her with one thing put right, as she is in the file then.

        Raises:
            TrimdiveError: She cannot be written so.
        """
        name = name_of(found)
        if name not in self.mended:
            now, files = self.written()
            text = rewritten(now, found.edits, files)
            after = self._beside(parse(text, self.path.name), files | beside(found.edits))
            self.mended[name] = Step(says=found.mend, shown=None, text=text, files=after)
        return self.mended[name]

    def make(self, says: str, edits: Sequence[Edit]) -> None:
        """Make changes of pieces, such as one that was dragged.

        Args:
            says: What was done, for "Undo".
            edits: Changes; numbers in paths count from 1, as the file is before any of them.

        Raises:
            TrimdiveError: They cannot be made; nothing is changed.
        """
        text, files = self.written()
        self.edit(says, rewritten(text, edits, files), beside(edits))

    def put(self, field: str, typed: str, says: str = "") -> None:
        """Put what was typed into one field; nothing typed takes the field out.

        Args:
            field: Such as "part[3].mass".
            typed: Such as "700 g".
            says: What was done, for "Undo".

        Raises:
            TrimdiveError: It cannot be read, or does not go with the rest; nothing is changed.
        """
        text, _ = self.written()
        new = replaced(text, field, typed)
        if new != text:
            self.edit(says or f"{field} {typed or 'left out'}", new)

    def edit(self, says: str, text: str, files: Files | None = None) -> None:
        """Show her as another text of the boat file tells.

        Args:
            says: What was done, for "Undo".
            text: The whole boat file.
            files: Files beside it that are new or changed.

        Raises:
            TrimdiveError: The text holds a mistake; nothing is changed.
        """
        _, now = self.written()
        boat = parse(text, self.path.name)
        after = self._beside(boat, now | (files or {}))
        shown = Shown(her=Assessment(boat=boat, files=after))
        shown.at_once()
        self._take(Step(says=says, shown=shown, text=text, files=after))

    def _beside(self, boat: Boat, files: Files) -> Files:
        """Return the files that a boat names: as they are here, else as they lie on disk.

        Raises:
            TrimdiveError: One is not there, or cannot be read.
        """
        found: Files = {}
        for name in files_of(boat):
            if name in files:
                found[name] = files[name]
                continue
            found[name] = self.on_disk[name] = contents_beside(self.path, name)
        return found

    def _take(self, step: Step) -> None:
        """Put a step after the one that is shown, and show it."""
        del self.steps[self.at + 1 :]
        if self.saved > self.at:
            self.saved = -1
        self.steps.append(step)
        self._show(len(self.steps) - 1, "Done", step.says)

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
        for number, other in enumerate(self.steps):
            if abs(number - step) > NEAR:
                other.shown = None
        self.mended = {}
        self.revision += 1
        self.note = Note(kind="told", text=f"{how}: {says}")

    @property
    def is_saved(self) -> bool:
        """Return whether the file holds what is shown."""
        return self.at == self.saved

    def written(self) -> tuple[str, Files]:
        """Return the text of the boat file as shown, and every file beside it by name."""
        return self.steps[self.at].written()

    def save(self) -> None:
        """Write what is shown into the file; refused where it was changed on disk meanwhile.

        Raises:
            BoatFileError: It cannot be written; what is on disk is then as it was.
        """
        if self.is_changed_on_disk():
            text = "The file was changed on disk meanwhile; nothing was written."
            self.note = Note(kind="changed on disk", text=text)
            return
        self._write()
        self.note = Note(kind="told", text=f"Saved in {self.path.name}.")

    def _write(self) -> None:
        """Write what is shown into the file.

        Raises:
            BoatFileError: It cannot be written; what is on disk is then as it was.
        """
        text, files = self.written()
        if self.workshop and self.workshop.shelf and self.workshop.shelf.name_of(self.path):
            keep_inside(self.path.parent)
        if not self.is_kept:
            keep_earlier(self.path)
            self.is_kept = True
        self.tried = text, files
        self.stamp = write_all(self.path, self.stamp, text, files, self.on_disk)
        self._lies_there(text, files)

    def _lies_there(self, text: str, files: Files) -> None:
        """Take in that this is on disk."""
        self.stamp, self.tried, self.trouble = stamp_of(text.encode()), None, ""
        self.on_disk |= files
        self.saved = self.at if self.written() == (text, files) else -1

    def keep(self) -> None:
        """Save by itself what is shown and is not saved; where that fails, remember why."""
        if not self.is_keeping or (self.is_saved and not self.tried):
            self.trouble = ""
            return
        if self.is_changed_on_disk():
            self.trouble = CHANGED
        elif not self.is_saved:  # it may have been found to be just now
            try:
                with fence("not saved", self.path.name, "Save a copy elsewhere."):
                    self._write()
            except TrimdiveError as error:
                self.trouble = str(error)

    def is_changed_on_disk(self) -> bool:
        """Return whether the boat file, or one beside it, is no longer as it was last seen.

        What could not be put into place when it was saved, and is there now, counts as saved.
        """
        if self.tried and lies_on_disk(self.path, *self.tried):
            self._lies_there(*self.tried)
        return not lies_on_disk(self.path, self.stamp, self.on_disk)

    def load_again(self) -> None:
        """Show what is on disk, and forget what was done.

        Raises:
            TrimdiveError: The file holds a mistake; what is shown stays.
        """
        fresh = opened(self.path)
        fresh.shown.ready()
        self.steps = fresh.steps
        self.on_disk, self.stamp, self.tried = fresh.on_disk, fresh.stamp, None
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
        copy = save_new(free_copy(self.path), text).path
        self.note = Note(kind="told", text=f"Saved beside it as {copy.name}.")

    def foresee(self) -> None:
        """Work out ahead, until ended, what may be pressed next; requests go first."""
        lightened = self.revision
        while not self.is_ended:
            self.wanted.wait()
            self.wanted.clear()
            self.is_ahead = False
            if self.revision - lightened >= EVERY:
                lightened = self.revision
                give_back()
            with suppress(Exception):  # it is told when it is pressed; the work goes on
                shown = self.shown
                self.is_ahead = all(self._ahead(shown, work) for work in self._wanted_next(shown))

    def _wanted_next(self, shown: Shown) -> Iterator[Callable[[], object]]:
        """Yield each piece of work for what is shown and for what may be pressed next."""
        yield from shown.pieces()
        yield lambda: shown.her.bench_findings
        for found in self.own.her.findings:
            if not found.edits:
                continue
            with suppress(TrimdiveError):
                with self.lock:
                    after = self._worked_out(self._mended(found))
                yield from after.pieces()

    def _ahead(self, shown: Shown, work: Callable[[], object]) -> bool:
        """Do one piece of work ahead; return whether the next is still wanted."""
        if self.is_ended or self.waiting or not (shown is self.own or shown is self.shown):
            return False
        with self.lock, suppress(Exception):  # it is told when it is asked for
            work()
        return True

    def end(self) -> None:
        """End the work ahead."""
        self.is_ended = True
        self.wanted.set()


def opened(path: File, known: Assessment | None = None) -> Desk:
    """Return a boat file, opened.

    Args:
        path: The file.
        known: The same boat as she is calculated already, where she is.

    Raises:
        TrimdiveError: It, or a file beside it, holds a mistake.
    """
    loaded = load(path)
    files = read_beside(loaded)
    her = Assessment(boat=loaded.boat, files=files)
    if known is not None and (known.boat, known.files) == (her.boat, her.files):
        her = known
    first = Step(says="", shown=Shown(her=her), text=loaded.text, files=files)
    return Desk(path=loaded.path, steps=[first], on_disk=dict(files), stamp=loaded.stamp)
