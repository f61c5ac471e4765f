"""Edits as fast as they come, from several hands at once: each answered is saved, none is lost.

The page answers in this program, to two who type at once and read again when another was first.
``python -m tests.hard.edits 1000``
"""

import re
import resource
import sys
import tempfile
import threading
import time
from dataclasses import dataclass, field
from pathlib import Path

from starlette.testclient import TestClient
from tests.cli.boats import SMALL

from trimdive.boatfile import load
from trimdive.page.app import app
from trimdive.page.guard import Keys
from trimdive.page.serving import workshop_at
from trimdive.page.shelf import Shelf

HOST = "127.0.0.1:8123"
OWN = {"origin": f"http://{HOST}", "sec-fetch-site": "same-origin", "hx-request": "true"}
HANDS = 2
REVISION = re.compile(r'name="revision" value="(\d+)"')
MEANWHILE = "changed in another window"
MINUTE = 60  # [s]


@dataclass
class Figures:
    """What came out of a run."""

    done: int = 0
    late: int = 0  # another hand was first, as was said
    took: float = 0.0  # [s]
    wrong: list[str] = field(default_factory=list)
    lock: threading.Lock = field(default_factory=threading.Lock)

    def count(self, answer: str) -> None:
        """Take in an answer."""
        with self.lock:
            if MEANWHILE in answer:
                self.late += 1
            else:
                self.done += 1
            if "Not saved yet" in answer:
                self.wrong.append("an edit that was answered is not saved")


def _types(client: TestClient, hand: int, count: int, found: Figures) -> None:
    """Type one mass after another until so many are taken."""
    page, taken = client.get("/right").text, 0
    while taken < count:
        at = REVISION.search(page)
        typed = {
            "field": f"part[{1 + hand % 2}].mass", "typed": f"{5 + hand}.{taken:03} g",
            "revision": at[1] if at else "", "place": "right",
        }  # fmt: skip
        answer = client.post("/edit", data=typed, headers=OWN)
        if answer.status_code != 200:
            found.wrong.append(f"{answer.status_code}: {answer.text[:200]}")
            return
        page = answer.text
        taken += MEANWHILE not in page
        found.count(page)


def run(count: int) -> Figures:
    """Let several hands type so many edits together."""
    found, began = Figures(), time.monotonic()
    with tempfile.TemporaryDirectory() as home:
        shelf = Shelf(Path(home))
        workshop = workshop_at(shelf.folder, shelf.put("Sprat", SMALL, {}))
        keys = Keys()
        page = app(workshop, HOST, keys)
        ahead = threading.Thread(target=workshop.foresee, daemon=True)
        ahead.start()
        try:
            hands = [
                threading.Thread(
                    target=_types,
                    args=(TestClient(page, f"http://{HOST}{keys.root}"), k, count // HANDS, found),
                )
                for k in range(HANDS)
            ]
            for one in hands:
                one.start()
            for one in hands:
                one.join()
        finally:
            workshop.end()
            ahead.join()
        found.took, desk = time.monotonic() - began, workshop.desk
        if desk.at != found.done:
            found.wrong.append(f"{found.done} answered as done, {desk.at} to be undone")
        if not desk.is_saved or load(desk.path).text != desk.written()[0]:
            found.wrong.append("what is shown is not what is on disk")
        for _ in range(min(found.done, 20)):
            desk.undo()
        desk.keep()
        if load(desk.path).text != desk.written()[0]:
            found.wrong.append("what was taken back is not what is on disk")
    return found


def main() -> int:
    """Run as a script: how many."""
    found = run(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
    used = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    rate = found.done / found.took * MINUTE
    print(
        f"{found.done} edits in {found.took:.0f} s, {rate:.0f} a minute, {found.late} told to look"
    )
    print(f"most memory {used:.0f} MB")
    for wrong in found.wrong[:20]:
        print(f"WRONG {wrong}")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
