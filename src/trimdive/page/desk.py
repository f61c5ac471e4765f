"""The boat on the page: what was done to her since she was opened, undone, done again, saved.

All work on her goes through one lock; figures typed meanwhile wait together, see ``puts``.
"""

import threading
from collections import deque
from collections.abc import Generator, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field, replace
from pathlib import Path as File
from typing import TYPE_CHECKING

from trimdive.assessment import Assessment
from trimdive.boatfile import load, parse, save_new
from trimdive.boatfile.boat import Units
from trimdive.boatfile.loading import stamp_of
from trimdive.edits.rehoused import put_in
from trimdive.edits.writing import beside, rewritten
from trimdive.errors import TrimdiveError, fence
from trimdive.findings import Edit, Finding
from trimdive.geometry.solids.beside import read_beside
from trimdive.page.done import done, held_words
from trimdive.page.keeping import (
    Files,
    files_of_hers,
    free_copy,
    keep_earlier,
    lies_on_disk,
    write_all,
)
from trimdive.page.shelf import keep_inside
from trimdive.page.shown import Shown, name_of, way_of
from trimdive.page.step import Heard, Note, Slider, Step, Wrong
from trimdive.page.taken import taken
from trimdive.page.units import AS_FILED, shown_in
from trimdive.text.found import entered

if TYPE_CHECKING:
    from trimdive.page.puts import Put
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
    fields: dict[int, str] = field(default_factory=dict)  # typed into, by the revision it made
    puts: "deque[Put]" = field(default_factory=deque)  # typed, and not yet taken in
    heard: Heard = field(default_factory=Heard)
    hands: int = 1  # that type now, as far as is known [-]
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
        """Return the boat after one of the changes."""
        return self.worked_out(self.steps[number])

    def worked_out(self, step: Step) -> Shown:
        """Return the boat of a step, worked out again where that was put away."""
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
        name, way = way_of(name)
        found = self.shown.named(name)
        if found is None or not found.edits or way > len(found.ways):
            self.note = Note(kind="refused", text="That has already been put right.")
            return
        step, says = self.mended_by(found, way), entered(self.shown.her.boat, found, way)
        self.take([replace(step, says=says, shown=self.worked_out(step))])

    def mended_by(self, found: Finding, way: int = 0) -> Step:
        """Return her with one thing put right, as she is in the file then.

        Args:
            found: What is not in order.
            way: Which of the ways that the program can go; 0 for the first.

        Raises:
            TrimdiveError: She cannot be written so.
        """
        name = name_of(found, way)
        if name not in self.mended:
            edits = found.ways[way - 1][1] if way else found.edits
            now, files = self.written()
            text = rewritten(now, edits, files)
            boat = parse(text, self.path.name)
            after = files_of_hers(self.path, boat, files | beside(edits), self.on_disk)
            says = entered(boat, found, way)
            self.mended[name] = Step(says=says, shown=None, text=text, files=after)
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

    def put_into(
        self, was: Step, field: str, typed: str, says: str = "", *, alone: bool = False
    ) -> Step | None:
        """Return a step with one field as it was typed, not yet calculated; None for no change.

        What goes with the piece goes along, unless it is to be changed alone.

        Raises:
            TrimdiveError: It cannot be read, or does not go with the rest of the file.
        """
        new = put_in(was.text, field, typed, alone=alone)
        if new == was.text:
            return None
        text = says or done(was.text, field, typed, new)
        try:
            after = self.after(was, text, new)
        except TrimdiveError:
            # What is wrong with the figure by itself is told first, not with what it takes along.
            by_itself = put_in(was.text, field, typed, alone=True)
            if by_itself != new:
                self.after(was, text, by_itself)
            raise
        return replace(after, field=field)

    def edit(self, says: str, text: str, files: Files | None = None) -> None:
        """Show her as another text of the boat file tells.

        Args:
            says: What was done, for "Undo".
            text: The whole boat file.
            files: Files beside it that are new or changed.

        Raises:
            TrimdiveError: The text holds a mistake; nothing is changed.
        """
        self.take([self.after(self.steps[self.at], says, text, files)])

    def after(self, was: Step, says: str, text: str, files: Files | None = None) -> Step:
        """Return the step after one, by its text; not yet calculated.

        Raises:
            TrimdiveError: The text holds a mistake.
        """
        boat = taken(text, self.path.name, named := was.files | (files or {}))
        her = Assessment(boat=boat, files=files_of_hers(self.path, boat, named, self.on_disk))
        says += held_words(was.shown.her.boat, boat) if was.shown else ""
        return Step(says=says, shown=Shown(her=her), text=text, files=dict(her.files))

    def take(self, steps: Sequence[Step]) -> None:
        """Put steps after the one that is shown, and show the last; undone, each goes back alone.

        Raises:
            TrimdiveError: She cannot be calculated then; nothing is changed.
        """
        self.worked_out(steps[-1]).at_once()
        del self.steps[self.at + 1 :]
        if self.saved > self.at:
            self.saved = -1
        self.steps += steps
        for step in steps:
            step.shown = step.shown if step is steps[-1] else None
            self.revision += 1
            self.fields[self.revision] = step.field
        self._show(len(self.steps) - 1, "Done", [steps[-1]])

    def undo(self) -> None:
        """Take the last change back."""
        self._go(range(self.at - 1, -1, -1), "Undone")

    def redo(self) -> None:
        """Make the change again that was taken back last."""
        self._go(range(self.at + 1, len(self.steps)), "Done again")

    def _go(self, steps: range, how: str) -> None:
        """Show the first of some steps with which she can be calculated.

        Of figures that were taken in together the one may be of no use without the other.
        """
        for number in steps:
            with suppress(Exception):
                self.at_step(number).at_once()
                low, high = sorted((number, self.at))
                self.revision += 1
                self._show(number, how, self.steps[low + 1 : high + 1])
                return

    def _show(self, number: int, how: str, changed: Sequence[Step]) -> None:
        """Show a step; what is calculated of others stays beside it and for the last shown."""
        near = {self.at, *range(number - NEAR, number + NEAR + 1)}
        self.at = number
        for other, step in enumerate(self.steps):
            if other not in near:
                step.shown = None
        self.mended = {}
        says = "; ".join(step.says for step in changed)
        self.note = Note(kind="done", text=f"{how}: {says}")

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
        self.note = Note(kind="done", text=f"Saved in {self.path.name}.")

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
        self.steps, self.at, self.saved = fresh.steps, 0, 0
        self.on_disk, self.stamp, self.tried = fresh.on_disk, fresh.stamp, None
        self.revision += 1
        self.note = Note(kind="done", text="This is the file as it is on disk.")

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
        self.note = Note(kind="done", text=f"Saved beside it as {copy.name}.")

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
