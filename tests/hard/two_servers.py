"""Two programs with one shelf: of many saves none is lost, or not without a word.

Each adds one to the state that it last saw; so the state at the end is the number of saves
answered as saved. One that is not saved must be told on the page, and the other's state read.
``python -m tests.hard.two_servers 3000``
"""

import os
import sys
import tempfile
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from unittest.mock import patch

from tests.hard.boats import NUMBER, change, state_of, table_of, text_of, workshop_of
from tests.hard.kills import forked, lines_of

from trimdive.page.app import note_disk
from trimdive.page.shelf import Shelf
from trimdive.page.shown import Shown


@dataclass
class Figures:
    """What came out of a run."""

    saved: int = 0
    refused: int = 0
    last: int = 0  # state on disk at the end
    wrong: list[str] = field(default_factory=list)


def _works(shelf: Shelf, file: Path, count: int, say: Callable[[str], None]) -> None:
    """Change the boat so many times; whenever another was there before, read it and go on."""
    desk = workshop_of(shelf, file).desk
    for _ in range(count):
        found = NUMBER.search(desk.written()[0])
        assert found
        change(desk, int(found[1]) + 1, str(os.getpid()))
        if desk.is_saved:
            say("saved")
            continue
        note_disk(desk)
        is_entered = bool(desk.trouble) and desk.note is not None and "on disk" in desk.note.text
        say("refused" if is_entered else f"lost {desk.trouble} {desk.note}".replace("\n", " "))
        desk.load_again()


def run(count: int) -> Figures:
    """Let two programs save so many times together."""
    found, nothing = Figures(), patch.multiple(Shown, at_once=lambda _: None, ready=lambda _: None)
    with tempfile.TemporaryDirectory() as home, nothing:
        shelf = Shelf(Path(home) / "shelf")
        file = shelf.put("b0", text_of(0), {"lines.csv": table_of(0)})
        both = [forked(partial(_works, shelf, file, count // 2)) for _ in range(2)]
        for child, reads in both:
            said = lines_of(reads)
            found.saved += said.count("saved")
            found.refused += said.count("refused")
            found.wrong += [one for one in said if one not in ("saved", "refused")]
            _, status = os.waitpid(child, 0)
            if status:
                found.wrong.append("one of the two failed")
        found.last = state_of(file.parent)
    if found.last != found.saved:
        found.wrong.append(f"{found.saved} answered as saved, and {found.last} are on disk")
    if found.saved + found.refused < count // 2 * 2:
        found.wrong.append("some were not answered")
    return found


def main() -> int:
    """Run as a script: how many."""
    found = run(int(sys.argv[1]) if len(sys.argv) > 1 else 3000)
    print(f"{found.saved} saved, {found.refused} refused in words, {found.last} on disk at the end")
    for wrong in found.wrong:
        print(f"WRONG {wrong}")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
