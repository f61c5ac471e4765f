"""Ends the program by force at every step of its writing and at random moments; nothing is lost.

A program that is ended by signal 9 runs no line more (POSIX, kill). After each: boat and table are
of one state, what was answered is there, what is kept is whole, and the next start works.
``python -m tests.hard.kills 2000``
"""

import os
import random
import signal
import sys
import time
import warnings
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from unittest.mock import patch

from tests.hard.boats import change, state_of, table_of, text_of, whole, workshop_of

from trimdive.boatfile.together import PART, READY, held
from trimdive.page.keeping import EARLIER
from trimdive.page.serving import workshop_at
from trimdive.page.shelf import Shelf
from trimdive.page.shown import Shown
from trimdive.page.variants import FOLDER, shelf_of
from trimdive.page.workshop import Workshop

STEPS = ("open", "os.mkdir", "os.rename", "os.remove", "os.rmdir", "os.chmod", "os.truncate")
AFRESH = 60  # kills on one shelf before a new one is begun [-]
LATEST = 0.12  # a moment after which the program is ended [s]


@dataclass
class Known:
    """What was asked of the shelf, and what of that was answered."""

    states: dict[str, set[int]] = field(default_factory=dict)  # that a boat may be in, by folder
    variants: dict[str, set[int]] = field(default_factory=dict)
    last: set[str] = field(default_factory=set)  # boats that may be remembered as the last one
    number: int = 0  # of the newest state

    def take(self, line: str) -> None:
        """Take in what the program said before it did something, and after."""
        if line == "ready":
            return
        is_done, what, folder, number = line.split()
        kept = {"edit": self.states, "open": self.states, "variant": self.variants}[what]
        self.number = max(self.number, int(number))
        if is_done == "done":
            kept[folder] = {int(number)}
            if what == "open":
                self.last = {folder}
        elif what == "edit":
            kept[folder].add(int(number))
        else:
            kept.setdefault(folder, {-1}).add(int(number))  # -1: not there
            if what == "open":
                self.last.add(folder)


@dataclass
class Figures:
    """What came out of a run."""

    kills: Counter[str] = field(default_factory=Counter)
    answered: int = 0
    rolled: int = 0  # times that a save was put into place by the next start
    wrong: list[str] = field(default_factory=list)


def edit(workshop: Workshop, number: int, say: Callable[[str], None]) -> None:
    """Change the boat that is shown."""
    folder = workshop.desk.path.parent.name
    say(f"begun edit {folder} {number}")
    change(workshop.desk, number)
    say(f"done edit {folder} {number}")


def variant(workshop: Workshop, number: int, say: Callable[[str], None]) -> None:
    """Keep a variant of the boat that is shown."""
    name = f"v{number}"
    say(f"begun variant {workshop.desk.path.parent.name}/{name} {number}")
    shelf_of(workshop.desk.path).put(name, text_of(number), {"lines.csv": table_of(number)})
    say(f"done variant {workshop.desk.path.parent.name}/{name} {number}")


def another(workshop: Workshop, number: int, say: Callable[[str], None]) -> None:
    """Put another boat on the shelf, and show her."""
    assert workshop.shelf
    say(f"begun open b{number} {number}")
    file = workshop.shelf.put(f"b{number}", text_of(number), {"lines.csv": table_of(number)})
    workshop.open(file)
    say(f"done open b{number} {number}")


def first_edit(workshop: Workshop, number: int, say: Callable[[str], None]) -> None:
    """Change a boat for the first time since she was opened: she is kept as she was, too."""
    edit(workshop, number, say)


ACTS = (first_edit, edit, variant, another)
Act = Callable[[Workshop, int, Callable[[str], None]], None]


def _ending_at(step: int) -> None:
    """End this program at one of the coming steps that change the disk."""
    left = step

    def hook(event: str, args: tuple[object, ...]) -> None:
        nonlocal left
        if event not in STEPS or (event == "open" and not _makes(*args)):
            return
        if left == 0:
            os.kill(os.getpid(), signal.SIGKILL)
        left -= 1

    sys.addaudithook(hook)


def _makes(_: object, mode: object, flags: object) -> bool:
    """Return whether what is opened may be made or written by that."""
    if isinstance(mode, str):
        return "r" not in mode
    return isinstance(flags, int) and bool(flags & (os.O_CREAT | os.O_WRONLY | os.O_RDWR))


def forked(work: Callable[[Callable[[str], None]], None]) -> tuple[int, int]:
    """Do a work in a copy of this program; return its number, and where it says what it does."""
    reads, writes = os.pipe()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        child = os.fork()
    if child:
        os.close(writes)
        return child, reads
    status = 1
    try:
        os.close(reads)
        work(lambda line: os.write(writes, f"{line}\n".encode()) and None)
        status = 0
    except BaseException as error:
        os.write(2, f"in the program: {error!r}\n".encode())
    finally:
        os._exit(status)


def lines_of(reads: int) -> list[str]:
    """Return what the program has said, whole lines alone."""
    with os.fdopen(reads, encoding="utf-8") as stream:
        return [line.rstrip() for line in stream if line.endswith("\n")]


def _at_step(act: Act, step: int, shelf: Shelf, start: int, say: Callable[[str], None]) -> None:
    """Do one thing, and end at a step of it."""
    workshop = workshop_at(shelf.folder, None)
    if act is not first_edit:
        edit(workshop, start, say)
    _ending_at(step)
    act(workshop, start + 1, say)


def _for_long(shelf: Shelf, seed: int, start: int, say: Callable[[str], None]) -> None:
    """Do one thing after another until ended."""
    chance = random.Random(seed)
    workshop, number = workshop_at(shelf.folder, None), start
    say("ready")
    while True:
        chance.choices(ACTS[1:], (8, 1, 1))[0](workshop, number, say)
        number += 1


def checked(shelf: Shelf, known: Known, found: Figures) -> None:
    """Look at everything on the shelf as the next start does.

    Raises:
        AssertionError: Something is lost, torn or out of step.
    """
    found.rolled += any((shelf.folder / name / READY).is_dir() for name in known.states)
    desk = workshop_at(shelf.folder, None).desk
    assert desk.path.parent.name in known.last, "the last boat is forgotten"
    for name, allowed in known.states.items():
        _one(shelf.folder / name, allowed)
        allowed -= {one for one in allowed if not (shelf.folder / name).is_dir() and one >= 0}
        own = shelf_of(shelf.folder / name / "boat.toml")
        for folder, may in known.variants.items():
            if folder.startswith(f"{name}/"):
                _one(own.folder / folder.partition("/")[2], may)
        for kept in (shelf.folder / name).glob(f"{EARLIER}/[!.]*"):
            assert whole(kept), f"{kept.name} among the earlier ones is not whole"
        for kept in (shelf.folder / name).glob("*.previous.*"):
            assert whole(kept), f"{kept.name} is not whole"
    for folder in [shelf.folder, *shelf.folder.glob("*"), *shelf.folder.glob(f"*/{FOLDER}")]:
        if folder.is_dir():
            with held(folder):
                pass
            assert not [*folder.glob(f"{PART}*"), *folder.glob(READY)], f"litter in {folder.name}"
    assert set(shelf.names()) <= set(known.states), "a boat that nobody put there"


def _one(folder: Path, allowed: set[int]) -> None:
    """Look at a boat; her state is one of those, -1 for not being there."""
    number = state_of(folder) if folder.is_dir() else -1
    assert number in allowed, f"{folder.name} is in state {number}, answered {sorted(allowed)}"
    allowed.intersection_update({number})


class Run:
    """One run: which act, which step of it, and the shelf that it is done on."""

    def __init__(self, home: Path, seed: int, every: int) -> None:
        """Begin with the first step of the first act."""
        self.home, self.chance, self.found = home, random.Random(seed), Figures()
        self.act, self.step, self.shelves, self.every = 0, 0, 0, every
        self.shelf, self.known = self._begun()

    def _begun(self) -> tuple[Shelf, Known]:
        self.shelves += 1
        shelf = Shelf(self.home / str(self.shelves))
        file = shelf.put("b0", text_of(0), {"lines.csv": table_of(0)})
        workshop_of(shelf, file).remember()
        return shelf, Known(states={"b0": {0}}, last={"b0"})

    def kill(self, number: int) -> None:
        """End the program once, and look at what is left."""
        if number % AFRESH == 0:
            self.shelf, self.known = self._begun()
        said, how = self._at_step() if self.act < len(ACTS) else self._at_random()
        for line in said:
            self.known.take(line)
        self.found.answered += sum(line.startswith("done") for line in said)
        try:
            checked(self.shelf, self.known, self.found)
        except Exception as error:
            says = f"kill {number}, {how}: {type(error).__name__}: {error}"
            self.found.wrong.append(says)
            self.shelf, self.known = self._begun()

    def _at_step(self) -> tuple[list[str], str]:
        act, step, new = ACTS[self.act], self.step, self.known.number + 1
        how = f"at a step of {act.__name__}"
        child, reads = forked(partial(_at_step, act, step, self.shelf, new))
        said = lines_of(reads)
        _, status = os.waitpid(child, 0)
        self.step += self.every
        if os.WIFSIGNALED(status):
            self.found.kills[how] += 1
            return said, how
        if os.WEXITSTATUS(status):
            self.found.wrong.append(f"{how} {step}: the program failed")
        self.act, self.step = self.act + 1, 0  # there is no such step: on to the next act
        return said, how

    def _at_random(self) -> tuple[list[str], str]:
        seed, new = self.chance.randrange(2**30), self.known.number + 1
        child, reads = forked(partial(_for_long, self.shelf, seed, new))
        os.read(reads, len("ready\n"))
        time.sleep(self.chance.uniform(0, LATEST))
        os.kill(child, signal.SIGKILL)
        said = lines_of(reads)
        os.waitpid(child, 0)
        self.found.kills["at a random moment"] += 1
        return said, "at a random moment"


def run(
    count: int, seed: int, tell: Callable[[str], None] = lambda _: None, every: int = 1
) -> Figures:
    """End the program so many times: first at steps of every act, then at random moments.

    Args:
        count: Times.
        seed: Of what is random.
        tell: Is told how far it is.
        every: At every so manieth step.
    """
    nothing = patch.multiple(Shown, at_once=lambda _: None, ready=lambda _: None)
    with TemporaryDirectory() as home, nothing:  # what is calculated of her is no matter of files
        now = Run(Path(home), seed, every)
        number = 0
        while sum(now.found.kills.values()) < count:
            now.kill(number)
            number += 1
            if number % 200 == 0:
                tell(f"{number} kills, {len(now.found.wrong)} wrong")
    return now.found


def main() -> int:
    """Run as a script: how many, and which seed."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    found = run(count, seed, lambda line: print(line, flush=True))
    for how, kills in found.kills.items():
        print(f"{kills:6} kills {how}")
    print(f"{found.answered:6} changes answered, {found.rolled} put into place by the next start")
    for wrong in found.wrong[:20]:
        print(f"WRONG {wrong}")
    print(f"{sum(found.kills.values())} kills, {len(found.wrong)} wrong, seed {seed}")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
