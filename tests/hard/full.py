"""A disk that is full or fails at any step, a folder that may only be read, files taken away.

Nothing is changed by half, what is not saved is said, and once there is room it is saved by itself.
What the calls may answer is POSIX's (open, write, fsync, mkdir, rename: ENOSPC, EDQUOT, EIO,
EROFS). ``python -m tests.hard.full``
"""

import errno
import os
import shutil
import subprocess
import tempfile
from collections import Counter
from collections.abc import Callable, Generator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from unittest.mock import patch

from tests.hard.boats import change, state_of, table_of, text_of, whole, workshop_of
from tests.hard.kills import forked, lines_of

from trimdive.boatfile.together import PART, READY, held
from trimdive.errors import TrimdiveError
from trimdive.page.app import note_disk
from trimdive.page.desk import Desk
from trimdive.page.keeping import EARLIER
from trimdive.page.serving import workshop_at
from trimdive.page.shelf import Shelf
from trimdive.page.shown import Shown
from trimdive.page.variants import shelf_of
from trimdive.page.workshop import Workshop

MAKES = ("open", "mkdir", "fsync", "write")  # what asks for room
ALL = (*MAKES, "rename", "replace", "unlink", "rmdir", "chmod")
WAYS = (
    ("disk full", errno.ENOSPC, MAKES),
    ("quota", errno.EDQUOT, MAKES),
    ("disk fails", errno.EIO, ALL),
    ("disk read-only from then on", errno.EROFS, ALL),
)
PAGE = 4096  # room is given away in such pieces [bytes]
ROOM = 400 * 1024  # of the small disk [bytes]


@dataclass
class Figures:
    """What came out of a run."""

    tried: Counter[str] = field(default_factory=Counter)
    refused: int = 0  # told as not saved
    wrong: list[str] = field(default_factory=list)


@contextmanager
def failing(step: int, code: int, names: tuple[str, ...]) -> Generator[list[int]]:
    """Let all calls of some names fail from a step on; yields how many steps there were."""
    taken = [0]

    def failing_as(call: Callable[..., object], name: str) -> Callable[..., object]:
        def calling(*args: object, **named: object) -> object:
            is_look = name == "open" and not int(args[1]) & os.O_CREAT  # type: ignore[call-overload]
            if is_look:
                return call(*args, **named)
            taken[0] += 1
            if taken[0] > step:
                raise OSError(code, os.strerror(code))
            return call(*args, **named)

        return calling

    def torn(stream: object, data: bytes) -> int:
        taken[0] += 1
        if taken[0] > step:
            stream.write(data[: len(data) // 2])  # type: ignore[attr-defined]
            raise OSError(code, os.strerror(code))
        return int(stream.write(data))  # type: ignore[attr-defined]

    opened = os.fdopen

    class Torn:
        """A file that takes half of what is written, where the disk fails."""

        def __init__(self, *args: object) -> None:
            self.stream = opened(*args)  # type: ignore[call-overload]

        def __enter__(self) -> "Torn":
            return self

        def __exit__(self, *_: object) -> None:
            self.stream.close()

        def __getattr__(self, name: str) -> object:
            return getattr(self.stream, name)

        def write(self, data: bytes) -> int:
            return torn(self.stream, data)

    patches = [
        patch.object(os, name, failing_as(getattr(os, name), name))
        for name in names
        if name != "write"
    ]
    patches.append(patch.object(os, "fdopen", Torn))
    for one in patches:
        one.start()
    try:
        yield taken
    finally:
        for one in patches:
            one.stop()


def edit(workshop: Workshop, number: int) -> None:
    """Change boat and table."""
    change(workshop.desk, number)


def variant(workshop: Workshop, number: int) -> None:
    """Keep a variant."""
    shelf_of(workshop.desk.path).put("v", text_of(number), {"lines.csv": table_of(number)})


def another(workshop: Workshop, number: int) -> None:
    """Put another boat on the shelf, and show her."""
    assert workshop.shelf
    workshop.open(workshop.shelf.put("b1", text_of(number), {"lines.csv": table_of(number)}))


def copy(workshop: Workshop, _: int) -> None:
    """Keep her as a copy beside her file."""
    workshop.desk.save_copy()


ACTS: tuple[Callable[[Workshop, int], None], ...] = (edit, variant, another, copy)


def _looked(found: Figures, says: str, shelf: Shelf, desk: Desk, was: set[int]) -> int:
    """Look at the boat after a step that failed; return her state."""
    try:
        state = state_of(shelf.folder / "b0")
    except (AssertionError, TrimdiveError) as error:
        found.wrong.append(f"{says}: {error}")
        return -1
    if state not in was:
        found.wrong.append(f"{says}: state {state}, not one of {sorted(was)}")
    if not desk.is_saved:
        found.refused += 1
        if not desk.trouble:
            found.wrong.append(f"{says}: not saved, and nothing said")
    for kept in (shelf.folder / "b0" / EARLIER).glob("[!.]*"):
        if not whole(kept):
            found.wrong.append(f"{says}: {kept.name} is not whole")
    for name in shelf.names():
        with suppress(AssertionError, TrimdiveError):
            state_of(shelf.folder / name)
            continue
        found.wrong.append(f"{says}: {name} is on the shelf by half")
    return state


def _litter(folder: Path) -> list[Path]:
    """Return what is left of writing after the next one has held each folder."""
    for one in [folder, *(each for each in folder.rglob("*") if each.is_dir())]:
        with suppress(FileNotFoundError), held(one):
            pass
    return [*folder.rglob(f"{PART}*"), *folder.rglob(READY)]


def at_every_step(found: Figures, home: Path, every: int) -> None:
    """Let the disk fail at every step, or every so manieth, of everything that writes."""
    for (name, code, calls), act in ((way, act) for way in WAYS for act in ACTS):
        for step in range(0, 200, every):
            says = f"{name}, {act.__name__}, step {step}"
            shelf = Shelf(home / f"{name} {act.__name__} {step}")
            file = shelf.put("b0", text_of(0), {"lines.csv": table_of(0)})
            workshop = workshop_of(shelf, file)
            desk = workshop.desk
            with failing(step, code, calls) as taken:
                with suppress(TrimdiveError):
                    act(workshop, 1)
                desk.keep()
                is_over = taken[0] <= step
            found.tried[name] += 1
            _looked(found, says, shelf, desk, {0, 1} if act is edit else {0})
            if act is not copy:
                desk.keep()
                if not desk.is_saved or desk.trouble:
                    found.wrong.append(f"{says}: not saved when there is room: {desk.trouble}")
                change(desk, 3)
                _looked(found, says, shelf, desk, {3})
                again = workshop_at(shelf.folder, file)
                change(again.desk, 4)
                if left := _litter(shelf.folder):
                    found.wrong.append(f"{says}: left {left}")
            shutil.rmtree(shelf.folder)
            if is_over:
                break


def on_a_small_disk(found: Figures, home: Path) -> bool:
    """Fill a small disk of its own to the last pages; return whether there can be one here."""
    disk = home / "disk"
    disk.mkdir()
    size = f"size={ROOM}"
    mount = ["mount", "-t", "tmpfs", "-o", size, "tmpfs", str(disk)]
    try:
        subprocess.run(mount, check=True, capture_output=True)
    except (OSError, subprocess.CalledProcessError):
        return False
    try:
        shelf = Shelf(disk / "shelf")
        file = shelf.put("b0", text_of(0), {"lines.csv": table_of(0)})
        filler = disk / "filler"
        for number, pages in enumerate([*range(25), *range(25)], 1):
            workshop, last = workshop_of(shelf, file), number - 1
            free = os.statvfs(disk).f_bavail * os.statvfs(disk).f_frsize
            filler.write_bytes(b"\0" * max(free - pages * PAGE, 0))
            change(workshop.desk, number)
            found.tried["a small disk that is full"] += 1
            says = f"a disk with {pages} pages left"
            _looked(found, says, shelf, workshop.desk, {last, number})
            filler.unlink()
            workshop.desk.keep()
            if _looked(found, says, shelf, workshop.desk, {number}) != number:
                found.wrong.append(f"{says}: not saved when there is room")
    finally:
        subprocess.run(["umount", str(disk)], check=False, capture_output=True)
    return True


def read_only(shelf: Shelf, say: Callable[[str], None]) -> None:
    """Start on a shelf that may only be read, as nobody's friend, and change the boat."""
    if os.getuid() == 0:
        os.setgid(65534)
        os.setuid(65534)
    workshop = workshop_at(shelf.folder, None)
    change(workshop.desk, 1)
    note_disk(workshop.desk)
    say("told" if workshop.desk.trouble and not workshop.desk.is_saved else "silent")
    for act in (variant, another, copy):
        try:
            act(workshop, 2)
            say("done" if act is not copy else "told")
        except TrimdiveError as error:
            say("told" if "not saved" in str(error) else f"odd {error}")


def in_a_folder_to_be_read(found: Figures, home: Path) -> None:
    """Take away the right to write into shelf and boat."""
    home.chmod(0o755)
    shelf = Shelf(home / "readonly")
    file = shelf.put("b0", text_of(0), {"lines.csv": table_of(0)})
    shelf.remember_last(file)
    for one in (shelf.folder, *shelf.folder.rglob("*")):
        one.chmod(0o555 if one.is_dir() else 0o444)
    child, reads = forked(lambda say: read_only(shelf, say))
    said = lines_of(reads)
    _, status = os.waitpid(child, 0)
    found.tried["read-only folder"] += len(said)
    if status or said != ["told"] * 4 or state_of(file.parent):
        found.wrong.append(f"read-only folder: {said}, status {status}")
    for one in (shelf.folder, *shelf.folder.rglob("*")):
        one.chmod(0o755)


def _away(path: Path) -> None:
    shutil.rmtree(path) if path.is_dir() else path.unlink()


def taken_away(found: Figures, home: Path) -> None:
    """Take the boat file, the table, the folder or the shelf away, or put something else there."""
    for number, what in enumerate(("b0/boat.toml", "b0/lines.csv", "b0", "")):
        for is_folder_now in (False, True):
            shelf = Shelf(home / f"away {number} {is_folder_now}")
            file = shelf.put("b0", text_of(0), {"lines.csv": table_of(0)})
            workshop = workshop_of(shelf, file)
            gone = shelf.folder / what
            _away(gone)
            if is_folder_now:
                gone.mkdir(parents=True)
            says = f"{what or 'the shelf'} {'made a folder' if is_folder_now else 'taken away'}"
            change(workshop.desk, 1)
            note_disk(workshop.desk)
            found.tried["taken away meanwhile"] += 1
            desk = workshop.desk
            if desk.is_saved or not desk.trouble or desk.note is None or not desk.note.text:
                found.wrong.append(f"{says}: nothing said")
            for act in (Desk.load_again, Desk.save_copy, Desk.save):
                with suppress(TrimdiveError):
                    act(desk)
            if "1" not in desk.written()[0].splitlines()[0] and what != "b0/lines.csv":
                found.wrong.append(f"{says}: what was typed is gone")


def run(every: int = 1) -> Figures:
    """Try all of it, or every so manieth step alone."""
    found, nothing = Figures(), patch.multiple(Shown, at_once=lambda _: None, ready=lambda _: None)
    with tempfile.TemporaryDirectory() as home, nothing:
        at_every_step(found, Path(home), every)
        taken_away(found, Path(home))
        in_a_folder_to_be_read(found, Path(home))
        if every == 1 and not on_a_small_disk(found, Path(home)):
            print("no small disk of its own can be had here: tried by failing calls alone")
    return found


def main() -> int:
    """Run as a script."""
    found = run()
    for kind, count in found.tried.items():
        print(f"{count:6} {kind}")
    print(f"{found.refused:6} told as not saved")
    for wrong in found.wrong[:40]:
        print(f"WRONG {wrong}")
    print(f"{sum(found.tried.values())} tried, {len(found.wrong)} wrong")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
