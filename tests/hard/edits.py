"""Edits as fast as they come, from several windows at once: each answered is saved, none is lost.

The program is a process of its own. Every hand types one figure after another, most into fields of
its own, some into one that all share; where another was first it looks at what it was answered,
and types again. ``python -m tests.hard.edits 1000 20 bittern``
"""

import re
import sys
import tempfile
import threading
import time
import tomllib
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tests.cli.boats import BOATS, SMALL
from tests.hard.served import REVISION, Line, Server, served

from trimdive.boatfile import load
from trimdive.boatfile.places import path_of
from trimdive.geometry.solids.beside import read_beside
from trimdive.page.shelf import Shelf

HANDS = 20
FOLLOWING = 'class="following"'
MEANWHILE = "changed in another window"
NOTE = re.compile(r'id="note"[^>]*>\s*(?:<p title="([^"]*)")?')
SAID = re.compile(r'class="wrong"[^>]*>([^<]*)')
MINUTE = 60  # [s]
SHARED = 25  # one in so many is typed into the field that all share [-]
TRIES = 200  # of one figure, before it counts as kept from being typed [-]
BACK = 20  # taken back at the end, and done again [-]
FIGURES = ("mass", "x", "z", "volume", "length", "breadth", "height", "y")
PLACES = ("scales", "right", "board", "scales", "tub")
Figure = tuple[str, float, str]  # field, number and unit


@dataclass
class Figures:
    """What came out of a run."""

    done: int = 0
    late: int = 0  # another hand was first, as was said
    took: float = 0.0  # [s]
    worked: float = 0.0  # time of the processor that the program took [s]
    longest: float = 0.0  # that one answer took [s]
    memory: int = 0  # most that the program held [bytes]
    last: dict[str, tuple[int, str]] = field(default_factory=dict)  # answered, by field
    wrong: list[str] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def count(self, name: str, typed: str, status: int, page: str) -> bool:
        """Take in an answer; return whether another hand was first."""
        note, revision = NOTE.search(page), REVISION.search(page)
        says = (note and note[1]) or ""
        with self.lock:
            if MEANWHILE in says:
                self.late += 1
                return True
            if status == 200 and revision and "Not saved yet" not in page and "Done:" in says:
                self.done += 1
                answer = int(revision[1]), typed
                self.last[name] = max(answer, self.last.get(name, answer))
            else:
                self.wrong.append(f"{status} to {name} {typed}: {says} {SAID.findall(page)}")
        return False


@dataclass
class Hand:
    """Somebody who types."""

    number: int
    figures: Sequence[Figure]
    shared: Figure
    found: Figures
    following: threading.Thread | None = None

    def types(self, server: Server, count: int) -> None:
        """Type one figure after another until so many are taken in."""
        place = PLACES[self.number % len(PLACES)]
        with server.line() as line:
            page = line.get(place)
            for k in range(count):
                is_shared = k % SHARED == SHARED - 1
                name, value, unit = (
                    self.shared if is_shared else self.figures[k % len(self.figures)]
                )
                anew = value * (1.0 + 1e-5 * (k + 1) + 1e-7 * self.number)
                page = self._type(line, page, place, name, f"{anew:.8g}{unit}")
                self._follow(server, page)
        if self.following:
            self.following.join()

    def _follow(self, server: Server, page: str) -> None:
        """Ask for what follows a moment after the rest, as the page does, and go on."""
        at = REVISION.search(page)
        is_busy = self.following is not None and self.following.is_alive()
        if at and FOLLOWING in page and not is_busy:
            asked = f"right/remains?revision={at[1]}"
            self.following = threading.Thread(target=server.get, args=(asked,))
            self.following.start()

    def _type(self, line: Line, page: str, place: str, name: str, typed: str) -> str:
        """Type until it is taken in, and return the page then."""
        for _ in range(TRIES):
            at = REVISION.search(page)
            form = {"field": name, "typed": typed, "revision": at[1] if at else "", "place": place}
            began = time.monotonic()
            status, page = line.post("edit", form)
            self.found.longest = max(self.found.longest, time.monotonic() - began)
            if not self.found.count(name, typed, status, page):
                return page
        self.found.wrong.append(f"{name} was kept from being typed")
        return page


def figures_of(text: str) -> list[Figure]:
    """Return the figures of her pieces that may be typed anew."""
    found: list[Figure] = []
    contents = tomllib.loads(text)
    for kind in ("part", "lead", "foam", "tank", "cylinder"):
        for number, piece in enumerate(contents.get(kind, []), 1):
            for key in FIGURES:
                answer = re.fullmatch(r"(\d+(?:\.\d+)?)( ?[^\d\s]\S*)?", str(piece.get(key, "")))
                if answer and float(answer[1]):
                    found.append((f"{kind}[{number}].{key}", float(answer[1]), answer[2] or ""))
    return found


def _begun(shelf: Shelf, boat: str) -> Path:
    """Put the boat on a shelf, to be shown first."""
    if not boat:
        file = shelf.put("Sprat", SMALL, {})
    else:
        loaded = load(BOATS / boat / "boat.toml")
        file = shelf.put(boat, loaded.text, read_beside(loaded))
    shelf.remember_last(file)
    return file


def run(count: int, hands: int = HANDS, boat: str = "") -> Figures:
    """Let several hands type so many edits together.

    Args:
        count: Edits.
        hands: How many, each in a window of its own.
        boat: A demo boat; "" for a small one.
    """
    found = Figures()
    with tempfile.TemporaryDirectory() as home:
        shelf = Shelf(Path(home))
        file = _begun(shelf, boat)
        *own, shared = figures_of(file.read_text("utf-8"))
        all_hands = [Hand(k, own[k % len(own) :: hands], shared, found) for k in range(hands)]
        with served(shelf.folder) as server:
            let_type(server, all_hands, count // hands)
            _checked(server, file, found)
    return found


def let_type(server: Server, hands: list[Hand], count: int) -> None:
    """Let all hands type at once, and take the time."""
    found, worked, began = hands[0].found, server.worked(), time.monotonic()
    threads = [threading.Thread(target=one.types, args=(server, count)) for one in hands]
    for one in threads:
        one.start()
    for one in threads:
        while one.is_alive():
            one.join(0.2)
            found.memory = max(found.memory, server.memory())
    found.took, found.worked = time.monotonic() - began, server.worked() - worked


def _checked(server: Server, file: Path, found: Figures) -> None:
    """See that what was answered lies on disk, and that it is taken back one by one."""
    text, contents = file.read_text("utf-8"), load(file).text
    if text != contents:
        found.wrong.append("the file is not whole")
    for name, (_, typed) in found.last.items():
        if (there := _at(tomllib.loads(text), name)) != typed:
            found.wrong.append(f"{name} {typed} was answered, and {there} is on disk")
    if (steps := int(server.revision()) - 1) != found.done:
        found.wrong.append(f"{found.done} answered as done, {steps} to be undone")
    for pressed, after in (("undo", None), ("redo", text)):
        _pressed(server, pressed, min(found.done, BACK), found)
        if (file.read_text("utf-8") == text) != (after == text):
            found.wrong.append(f"after {pressed} what is on disk is not as it was")


def _pressed(server: Server, button: str, times: int, found: Figures) -> None:
    said: set[str] = set()
    for _ in range(times):
        typed = {"act": button, "revision": server.revision(), "place": "right"}
        note = NOTE.search(server.post("act", typed)[1])
        said.add((note and note[1]) or "")
    if len(said) != times or any(";" in one for one in said):
        found.wrong.append(f"{button} {times} times, and told {sorted(said)[:3]}")


def _at(contents: Any, name: str) -> Any:
    for step in path_of(name):
        contents = contents[step]
    return contents


def main() -> int:
    """Run as a script: how many, by how many hands, and of which demo boat."""
    asked = [*sys.argv[1:], *("1000", str(HANDS), "")[len(sys.argv) - 1 :]]
    found = run(int(asked[0]), int(asked[1]), asked[2])
    rate, each = found.done / found.took * MINUTE, found.worked / max(found.done, 1)
    print(
        f"{found.done} edits in {found.took:.0f} s, {rate:.0f} a minute; {found.late} told to look"
    )
    print(
        f"each took {1000 * each:.0f} ms of the processor, the slowest answer {found.longest:.1f} s"
    )
    print(f"most memory {found.memory / 2**20:.0f} MB")
    for wrong in found.wrong[:20]:
        print(f"WRONG {wrong}")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
