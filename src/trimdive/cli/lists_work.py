"""What ``weights-in`` and ``weights-out`` do with files."""

import os
import tempfile
from dataclasses import dataclass
from pathlib import Path

from trimdive.boatfile import Loaded, load, previous_of, save
from trimdive.cli.opening import boat_file, opened
from trimdive.text.list_words import remarks, rows_text, unanswered
from trimdive.text.said import said
from trimdive.text.say import Say
from trimdive.weightlists import (
    Answers,
    ListError,
    ListPreview,
    Plan,
    plan_of,
    read_list,
    taken_over,
)
from trimdive.weightlists import written as list_bytes
from trimdive.weightlists.parts import aboard
from trimdive.weightlists.places import Placed, placed


@dataclass(frozen=True, slots=True, kw_only=True)
class ListRead:
    """A list as understood, and what it would do to a boat file."""

    preview: ListPreview
    plan: Plan
    loaded: Loaded
    placed: Placed  # the boat file with the places of the list, where they are wanted
    with_places: bool

    @property
    def in_order(self) -> bool:
        """Return whether it can be taken over as it stands and adds up."""
        adds_up = all(one.agrees for one in self.preview.sums)
        return adds_up and not self.plan.preview.asks and not self.preview.not_understood


def list_read(file: Path, boat: Path, said: Answers, *, with_places: bool = False) -> ListRead:
    """Return a list as understood, beside the boat file into which it shall go.

    Args:
        file: The list.
        boat: The boat file, or its folder.
        said: What the builder says beyond what stands in it.
        with_places: Whether pieces aboard go where the list has them.

    Raises:
        TrimdiveError: One of them cannot be read.
    """
    loaded = load(boat_file(boat))
    masses = {piece.name.casefold(): piece.mass for piece in aboard(loaded.boat)}
    preview = read_list(file, said, {name: mass for name, mass in masses.items() if mass})
    plan = plan_of(preview, loaded.boat)
    there = Placed(text=loaded.text, moves=())
    if with_places:
        there = placed(loaded.text, plan, loaded.boat)
    return ListRead(
        preview=preview, plan=plan, loaded=loaded, placed=there, with_places=with_places
    )


def list_applied(read: ListRead, *, leave_out: bool) -> str:
    """Take a list over into the boat file, and return a sentence that says so.

    Raises:
        TrimdiveError: Something is missing, or the boat file would hold a mistake.
    """
    left = read.preview.not_understood
    if left and not leave_out:
        rows = f"row {left[0].number} is" if len(left) == 1 else f"{len(left)} rows are"
        why = f"rows {rows_text(row.number for row in left)}"
        if len(left) == 1 and left[0].why:
            why = said(Say(read.loaded.boat), left[0].why)
        what = f"{rows} not understood ({why})"
        mend = "Correct them in the list, or add --leave-out to skip them."
        raise ListError(what, read.preview.name, mend)
    loaded, plan = read.loaded, read.plan
    moves = read.placed.moves
    if not plan.new and not plan.changes and not moves:
        return f"{loaded.path}: nothing to change, it has all of this."
    if plan.preview.asks:
        raise unanswered(Say(loaded.boat), plan.preview)
    save(loaded, taken_over(read.placed.text, plan, loaded.boat, remarks(plan)))
    previous = previous_of(loaded.path).name
    return (
        f"Written: {len(plan.new)} new, {len(plan.changes)} weighed again"
        f"{f', {len(moves)} moved' if read.with_places else ''}, in {loaded.path}. "
        f"The previous version is {previous}."
    )


def list_written(boat: Path, file: Path, *, decimal_comma: bool, replace: bool) -> str:
    """Write everything a boat weighs as a list, and return a sentence that says so.

    Raises:
        TrimdiveError: The boat cannot be read, or the file is there or cannot be written.
    """
    suffix = file.suffix.lower()
    if suffix not in (".csv", ".xlsx"):
        raise ListError("it is neither .csv nor .xlsx", str(file), "Write FILE.csv or FILE.xlsx.")
    if file.exists() and not replace:
        what = "there is such a file already"
        raise ListError(what, str(file), "Choose another name, or add --replace.")
    her = opened(boat)
    data = list_bytes(her.masses, her.boat.units, suffix, decimal_comma=decimal_comma)
    try:
        _put(file, data)
    except OSError as error:
        reason = (error.strerror or "it cannot be written").lower()
        raise ListError(reason, str(file), "Choose another file.") from None
    mass = her.boat.units.write(her.masses.dry, "mass")
    return f"{file}: {len(her.masses.entries)} masses, {mass} in all, dry."


def _put(file: Path, data: bytes) -> None:
    """Put bytes into a file in one step."""
    handle, name = tempfile.mkstemp(dir=file.parent, prefix=f".{file.stem}-", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
        mask = os.umask(0)
        os.umask(mask)
        part.chmod(0o666 & ~mask)
        part.replace(file)
    finally:
        part.unlink(missing_ok=True)
