"""A long afternoon at the page: thousands of requests, and the memory that the program holds then.

The program is a process of its own. Most requests are of a small boat, the rest of the boat
that lies on a new shelf; places are looked at, figures typed and taken back, the slider drawn,
things tried elsewhere, lists and boats brought. ``python -m tests.hard.soak 5000``
"""

import random
import re
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from html import unescape
from http.client import HTTPConnection
from pathlib import Path
from urllib.parse import quote, urlencode, urlsplit

from tests.cli.boats import SMALL
from tests.hard.served import Server, served

from trimdive.page.shelf import FIRST, Shelf

MOST = 2**30  # memory that the program may hold [bytes]
PLACES = ("shelf", "right", "board", "scales", "tub", "bench", "pond")
FIELDS = re.compile(r'data-field="([^"]+)"')
REVISION = re.compile(r'name="revision" value="(\d+)"')
LIST = b"Part,Mass [g]\nnew rod,10\nmast,12\n"
TYPED = ("1 g", "411 g", "298 mm", "26 mm", "3 mm", "15", "abc", "", "9 3/4 in", "0.3 kg", "-1 g")
WHYS = ("light-or-heavy", "bg", "trim", "litres-needed", "dry-mass")


@dataclass
class Figures:
    """What came out of a run."""

    asked: Counter[str] = field(default_factory=Counter)
    answers: Counter[int] = field(default_factory=Counter)
    memory: list[tuple[int, float]] = field(default_factory=list)  # after so many [bytes]
    slowest: tuple[float, str] = (0.0, "")  # [s]
    wrong: list[str] = field(default_factory=list)


class Afternoon:
    """Somebody at the page."""

    def __init__(self, server: Server, seed: int) -> None:
        """Begin with the boat that is shown."""
        self.server, self.chance, self.found = server, random.Random(seed), Figures()
        self.parts = urlsplit(server.address)
        self.line = HTTPConnection(self.parts.netloc, timeout=600)
        self.page = ""

    def ask(self, method: str, path: str, body: bytes = b"", **more: str) -> str:
        """Ask, and return the answer; the last page is kept."""
        head = {
            "origin": f"http://{self.parts.netloc}",
            "sec-fetch-site": "same-origin",
            "hx-request": "true",
            "content-type": "application/x-www-form-urlencoded",
            **more,
        }
        began = time.monotonic()
        self.line.request(method, self.parts.path + path, body or None, head)
        answer = self.line.getresponse()
        text = answer.read().decode("utf-8", "replace")
        took = time.monotonic() - began
        self.found.slowest = max(self.found.slowest, (took, f"{method} {path[:80]}"))
        self.found.answers[answer.status] += 1
        if answer.status >= 500:
            self.found.wrong.append(f"{answer.status} to {method} {path} {body[:200]!r}")
        if to := answer.headers.get("hx-redirect"):
            return self.ask("GET", to.removeprefix(self.parts.path.rstrip("/")).lstrip("/"))
        if REVISION.search(text):
            self.page = text
        return text

    def form(self, path: str, **typed: str) -> str:
        """Send a form with the state that was shown last."""
        found = REVISION.search(self.page)
        typed = {"revision": found[1] if found else "1", "place": "scales", **typed}
        return self.ask("POST", path, urlencode(typed).encode())

    def one(self) -> None:
        """Do one thing."""
        kind = self.chance.choices(*zip(*KINDS.items(), strict=True))[0]
        self.found.asked[kind] += 1
        getattr(self, kind)()

    def look(self) -> None:
        """Look at a place."""
        self.ask("GET", self.chance.choice(PLACES))

    def slide(self) -> None:
        """Draw the slider."""
        self.ask("GET", f"state?filling={self.chance.random():.3f}&touched=1")

    def type(self) -> None:
        """Type into a field that stands on the page."""
        fields = FIELDS.findall(self.page) or ["part[1].mass"]
        name = unescape(self.chance.choice(fields))
        self.form("edit", field=name, typed=self.chance.choice(TYPED))

    def weigh(self) -> None:
        """Type a mass that is good."""
        mass = f"{self.chance.randrange(390, 410)} g"
        self.form("edit", field="part[1].mass", typed=mass)

    def back(self) -> None:
        """Take something back, or do it again."""
        self.form("act", act=self.chance.choice(("undo", "undo", "redo", "save")))

    def move(self) -> None:
        """Try a thing elsewhere."""
        x = self.chance.randrange(0, 600)
        self.ask("GET", f"try?path={quote('part[1]')}&x={x}&z=30&touched=1&filling=0.5")

    def why(self) -> None:
        """Ask why."""
        self.ask("GET", f"why?key={self.chance.choice(WHYS)}")

    def other(self) -> None:
        """Ask for what a script of the page asks."""
        self.ask("GET", self.chance.choice(OTHER))

    def bring(self) -> None:
        """Bring a list or a boat."""
        found = REVISION.search(self.page)
        asked = urlencode({"revision": found[1] if found else "1"})
        if self.chance.random() < 0.8:
            self.ask("POST", f"scales/list?{asked}&place=scales", LIST, **{"x-name": "a.csv"})
            self.form("act", act="scales forget")
        else:
            self.ask(
                "POST", f"shelf/in?{asked}&place=shelf", SMALL.encode(), **{"x-name": "a.toml"}
            )

    def open(self) -> None:
        """Open a boat of the shelf: now and then the large one."""
        name = FIRST if self.chance.random() < 0.2 else "sprat"
        self.form("act", act=f"shelf open {name}", place="shelf")


KINDS = {
    "look": 20, "slide": 25, "type": 15, "weigh": 12, "back": 8, "move": 6, "why": 5, "other": 8,
    "bring": 0.3, "open": 0.2,
}  # fmt: skip
OTHER = (
    "now", "plan", "cut?x=300", "tanks?full=0.5,0.2", "hold?path=part%5B1%5D", "board/drawing",
    "scales/export?as=csv&comma=1", "scales/export?as=xlsx", "pond/phone", "tub/answer?at=litres",
    "shelf/boat?which=sprat", "shelf/growing?new-way=figures&figures-length=1.4+m",
)  # fmt: skip


def run(count: int, seed: int, tell: Callable[[str], None] = lambda _: None) -> Figures:
    """Ask so often; the memory is looked at on the way."""
    with tempfile.TemporaryDirectory() as home:
        shelf = Shelf(Path(home) / "shelf")
        shelf.put_demo()
        shelf.remember_last(shelf.put("Sprat", SMALL, {}))
        with served(shelf.folder) as server:
            day = Afternoon(server, seed)
            day.ask("GET", "right")
            for number in range(count + 1):
                if number % max(count // 20, 1) == 0:
                    held = float(server.memory())
                    day.found.memory.append((number, held))
                    tell(f"{number} requests, {held / 2**20:.0f} MB")
                if number < count:
                    day.one()
                if server.process.poll() is not None:
                    day.found.wrong.append("the program has ended")
                    break
            day.line.close()
        most = max(held for _, held in day.found.memory)
        if most > MOST:
            day.found.wrong.append(f"it holds {most / 2**20:.0f} MB")
    return day.found


def main() -> int:
    """Run as a script: how many, and which seed."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 5000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    began = time.monotonic()
    found = run(count, seed, lambda line: print(line, flush=True))
    print(", ".join(f"{kind} {n}" for kind, n in found.asked.most_common()))
    print("answers: " + ", ".join(f"{code} {n} times" for code, n in sorted(found.answers.items())))
    print(f"slowest {found.slowest[0]:.1f} s ({found.slowest[1]})")
    for wrong in found.wrong[:20]:
        print(f"WRONG {wrong}")
    took = time.monotonic() - began
    print(f"{count} requests in {took:.0f} s, {len(found.wrong)} wrong, seed {seed}")
    return 1 if found.wrong else 0


if __name__ == "__main__":
    raise SystemExit(main())
